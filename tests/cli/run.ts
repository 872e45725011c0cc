/** Builds the command line as the package does and runs it as a process of its own. */
import { execFile, spawn } from "node:child_process";
import { rm } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly error: string;
}

export interface BuiltCommand {
  readonly file: string;
  readonly run: (args: readonly string[], input?: string, env?: Readonly<Record<string, string>>) => Promise<Ran>;
  readonly remove: () => Promise<void>;
}

/** Runs the package's own build into a file of this process, so that tests beside each other do not meet. */
export async function buildCommand(): Promise<BuiltCommand> {
  const file = `dist/tests/padwright-${process.pid}.js`;
  await promisify(execFile)("npm", ["run", "--silent", "build:cli", "--", `--outfile=${file}`], { cwd: ROOT });
  return {
    file,
    run: (args, input = "", env = {}) => runProcess(file, args, input, env),
    remove: () => rm(`${ROOT}/${file}`),
  };
}

function runProcess(
  file: string,
  args: readonly string[],
  input: string,
  env: Readonly<Record<string, string>>,
): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [file, ...args], { cwd: ROOT, env: { ...process.env, ...env } });
    let out = "";
    let error = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      out += text;
    });
    child.stderr.setEncoding("utf8").on("data", (text: string) => {
      error += text;
    });
    child.on("error", reject);
    child.on("close", (code) => resolve({ code, out, error }));
    child.stdin.on("error", () => undefined);
    child.stdin.end(input);
  });
}
