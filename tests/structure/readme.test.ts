import { execFile, spawn } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import packageFile from "../../package.json" with { type: "json" };
import { type BuiltCommand, buildCommand } from "../cli/run.ts";
import { freshExamples, staleOf } from "./readme.ts";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));
const DOCUMENTS = ["README.md", "DEVELOPERS.md"] as const;

/** Milliseconds: the examples search a whole campground. */
const PATIENCE = 600_000;

let command: BuiltCommand;
beforeAll(async () => {
  command = await buildCommand();
});
afterAll(() => command.remove());

describe("the examples of the README", () => {
  it(
    "print and draw what the README shows (npm run readme writes it anew)",
    async () => {
      const fresh = await freshExamples(command);
      expect(fresh.filter(({ file }) => file.endsWith(".svg")).length).toBeGreaterThan(0);
      expect((await staleOf(fresh)).map(({ file }) => file)).toEqual([]);
    },
    PATIENCE,
  );
});

/** Stands in for curl, which not every machine has: address, -H and -d, as far as the README uses them. */
const CURL = `
  const words = process.argv.slice(1);
  const headers = {};
  let [address, body] = [undefined, undefined];
  for (let at = 0; at < words.length; at += 1) {
    if (words[at] === "-H") { const [name, value] = words[++at].split(": "); headers[name] = value; }
    else if (words[at] === "-d") body = words[++at];
    else if (words[at] !== "-s") address = words[at];
  }
  const answer = await fetch(address, { method: body === undefined ? "GET" : "POST", headers, body });
  console.log(JSON.stringify({ status: answer.status, type: answer.headers.get("content-type"), text: await answer.text() }));
`;

/** The server of the built command on a free port. */
async function startServer(file: string): Promise<{ readonly address: string; readonly stop: () => Promise<unknown> }> {
  const child = spawn(process.execPath, [file, "serve", "--port", "0"], { cwd: ROOT });
  const address = await new Promise<string>((resolve, reject) => {
    child.on("exit", () => reject(new Error("The server ended.")));
    child.stderr.setEncoding("utf8").on("data", (text: string) => {
      const found = /answers at (http:\S+);/.exec(text)?.[1];
      if (found !== undefined) resolve(found);
    });
  });
  const ended = new Promise((resolve) => child.on("close", resolve));
  const stop = () => {
    child.kill("SIGTERM");
    return ended;
  };
  return { address, stop };
}

describe("the requests of the README", () => {
  it(
    "are answered by the demo server as the text says",
    async () => {
      const text = readFileSync(`${ROOT}README.md`, "utf8");
      const requests = [...text.matchAll(/^curl (?:.*\\\n)*.*$/gm)].map(([request]) => request);
      expect(requests.length).toBeGreaterThan(4);
      const { address, stop } = await startServer(command.file);
      const answers: { status: number; type: string; text: string }[] = [];
      for (const request of requests) {
        const here = request.replace("http://127.0.0.1:8787", address);
        const script = `curl() { "${process.execPath}" --input-type=module -e "$CURL" -- "$@"; }\n${here}`;
        const { stdout } = await promisify(execFile)("sh", ["-c", script], {
          cwd: ROOT,
          env: { ...process.env, CURL },
        });
        answers.push(JSON.parse(stdout));
      }
      await stop();
      expect(answers.map(({ status }) => status)).toEqual(requests.map(() => 200));
      const [fit, plan, search] = answers;
      expect(JSON.parse(fit?.text ?? "")).toMatchObject({ site: { id: "wren-2" }, units: "us" });
      expect([plan?.type, plan?.text.slice(0, 4)]).toEqual(["image/svg+xml", "<svg"]);
      expect(JSON.parse(search?.text ?? "").features).toHaveLength(5);
    },
    PATIENCE,
  );
});

describe.each(DOCUMENTS)("%s", (name) => {
  const text = readFileSync(ROOT + name, "utf8");

  it("names only scripts that the package has", () => {
    const named = [...text.matchAll(/\bnpm run ([\w:]+)/g)].map(([, script]) => script ?? "");
    expect(named.length).toBeGreaterThan(0);
    expect(named.filter((script) => !Object.hasOwn(packageFile.scripts, script))).toEqual([]);
  });

  it("names only files that are there", () => {
    const named = [...text.matchAll(/`((?:src|data|tests)\/[\w./-]+)`/g), ...text.matchAll(/\]\(([\w./-]+)\)/g)];
    expect(named.length).toBeGreaterThan(0);
    expect(named.map(([, file]) => file ?? "").filter((file) => !existsSync(ROOT + file))).toEqual([]);
  });
});
