/**
 * Runs every test that draws its cases, again and again with new seeds, and says which seed breaks what. Run with
 * `npm run campaign:fuzz -- 5` for five rounds. Ends with 1 when any broke.
 */
import { spawnSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));
const LARGEST_SEED = 2 ** 31;
const rounds = Number(process.argv[2] ?? 1);

const files = readdirSync(join(ROOT, "tests"), { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".test.ts"))
  .map((name) => join("tests", name))
  .filter((name) => readFileSync(join(ROOT, name), "utf8").includes('"fast-check"'));

let broken = 0;
for (let round = 1; round <= rounds; round++) {
  const seed = Math.floor(Math.random() * LARGEST_SEED);
  console.log(`Round ${round} of ${rounds}: ${files.length} files, seed ${seed}.`);
  const env = { ...process.env, FUZZ_SEED: String(seed) };
  const run = spawnSync("npx", ["vitest", "run", "--reporter=dot", ...files], { cwd: ROOT, env, encoding: "utf8" });
  if (run.status === 0) continue;
  broken++;
  console.log(`${run.stdout}\n${run.stderr}\nSeed ${seed} broke.`);
}
console.log(`${rounds - broken} rounds passed, ${broken} broke.`);
process.exitCode = broken > 0 ? 1 : 0;
