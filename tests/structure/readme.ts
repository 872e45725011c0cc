/**
 * Writes into README.md what its commands print, and the plans that they draw. An example stands between two marks:
 *
 *   <!-- output: padwright fit ... -->   or   <!-- output, 30 rows: padwright fit ... -->
 *   <!-- end of output -->
 *
 * With --check nothing is written, and the process ends with 1 when something is not what it would be.
 */
import { mkdir, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { type BuiltCommand, buildCommand } from "../cli/run.ts";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));
const README = `${ROOT}README.md`;
const EXAMPLE = /<!-- output(?:, (\d+) rows)?: padwright (.+?) -->\n[\s\S]*?<!-- end of output -->/g;
const PLAN_FLAG = "--plan";

export interface Written {
  /** Path from the root of the repository. */
  readonly file: string;
  readonly text: string;
}

/** Every file that the examples write, as it should be: README.md and the plans. Throws when an example fails. */
export async function freshExamples(command: BuiltCommand): Promise<readonly Written[]> {
  const folder = await mkdtemp(join(tmpdir(), "padwright-readme-"));
  const plans: Written[] = [];
  let text = await readFile(README, "utf8");
  for (const [block, rows, words] of text.matchAll(EXAMPLE)) {
    const args = (words ?? "").split(" ");
    const at = args.indexOf(PLAN_FLAG) + 1;
    const plan = at > 0 ? (args[at] ?? null) : null;
    const drawn = join(folder, "plan.svg");
    const ran = await command.run(args.map((word, index) => (at > 0 && index === at ? drawn : word)));
    if (ran.code !== 0) throw new Error(`padwright ${words} ended with ${ran.code}: ${ran.error}`);
    if (plan !== null) plans.push({ file: plan, text: await readFile(drawn, "utf8") });
    text = text.replace(block, () => exampleBlock(block.split("\n")[0] ?? "", words ?? "", shown(ran.out, rows)));
  }
  await rm(folder, { recursive: true });
  return [{ file: "README.md", text }, ...plans];
}

function shown(out: string, rows: string | undefined): string {
  const all = out.trimEnd().split("\n");
  if (rows === undefined || all.length <= Number(rows)) return all.join("\n");
  return [...all.slice(0, Number(rows)), `(${all.length - Number(rows)} more rows)`].join("\n");
}

/** The command is shown as it is typed, broken before its flags so that it stays readable. */
function exampleBlock(mark: string, words: string, out: string): string {
  return [mark, "```console", `$ npx padwright ${words}`, out, "```", "<!-- end of output -->"].join("\n");
}

/** Those that are missing or not what they should be. */
export async function staleOf(fresh: readonly Written[]): Promise<readonly Written[]> {
  const held = await Promise.all(fresh.map(({ file }) => readFile(ROOT + file, "utf8").catch(() => null)));
  return fresh.filter(({ text }, index) => held[index] !== text);
}

async function main(): Promise<void> {
  const command = await buildCommand();
  const stale = await staleOf(await freshExamples(command));
  await command.remove();
  for (const { file, text } of stale) {
    console.error(file);
    if (process.argv.includes("--check")) continue;
    await mkdir(dirname(ROOT + file), { recursive: true });
    await writeFile(ROOT + file, text);
  }
  if (process.argv.includes("--check") && stale.length > 0) {
    console.error("The files named are out of date. Run npm run readme.");
    process.exitCode = 1;
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await main();
