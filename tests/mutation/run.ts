/**
 * Does a test notice? Every mutation is made in a copy of the tree of its own, in a temporary folder; the tests named
 * beside it run there, and the named one must break. One more copy stays as it is, and there all of them must pass.
 * Run with: npx tsx tests/mutation/run.ts (npm run mutate). Ends with 1 when a mutation survives, when its text is not
 * there exactly once, or when the unmutated tests fail.
 */
import { spawn } from "node:child_process";
import { cp, mkdtemp, readFile, realpath, rm, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { MUTATIONS, type Mutation } from "./mutations.ts";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const COPIED = ["src", "tests", "data", "package.json", "tsconfig.json"];
/** Folders of the tests that no mutation needs: browsers, workers and what they write. */
const LEFT_OUT = /[\\/]tests[\\/](?:out|browser|edge|mutation)(?:[\\/]|$)/;
const CLEAN = "clean";
const WORKERS = 2;
/** Names of broken tests shown when the one that was named is not among them. */
const SHOWN = 3;
/** A mutation may make a loop endless; then the run is stopped. Milliseconds. */
const PATIENCE = 300_000;

interface Assertion {
  readonly fullName: string;
  readonly status: string;
}

interface Report {
  readonly testResults: readonly { readonly name: string; readonly assertionResults: readonly Assertion[] }[];
}

interface Outcome {
  readonly mutation: Mutation;
  readonly verdict: "killed" | "SURVIVED" | "TEXT GONE" | "OTHER TEST BROKE";
  /** Names of the tests that broke. */
  readonly broken: readonly string[];
}

function folderOf(index: number): string {
  return `m${String(index + 1).padStart(3, "0")}`;
}

async function copyTree(to: string): Promise<void> {
  for (const name of COPIED) {
    await cp(join(ROOT, name), join(to, name), { recursive: true, filter: (source) => !LEFT_OUT.test(source) });
  }
}

/** Makes the mutation in its copy; false when the text is not there exactly once. */
async function mutate(folder: string, { file, find, replace }: Mutation): Promise<boolean> {
  const path = join(folder, file);
  const text = await readFile(path, "utf8").catch(() => "");
  const parts = text.split(find);
  if (parts.length !== 2) return false;
  await writeFile(path, parts.join(replace));
  return true;
}

function project(work: string, name: string, include: readonly string[]) {
  return {
    root: join(work, name),
    cacheDir: join(work, "cache", name),
    // As in vitest.config.ts: one seed, so that what breaks is broken by the mutation.
    resolve: { alias: { "fast-check": join(ROOT, "tests", "structure", "seeded-fast-check.ts") } },
    test: { name, include, testTimeout: PATIENCE, hookTimeout: PATIENCE },
  };
}

/** One process of the test runner with a project for each copy. */
async function runTests(work: string, projects: readonly object[]): Promise<Report> {
  const report = join(work, "report.json");
  const config = { root: work, cacheDir: join(work, "cache"), test: { pool: "forks", maxWorkers: WORKERS, projects } };
  await writeFile(join(work, "vitest.config.mjs"), `export default ${JSON.stringify(config)};\n`);
  const runner = join(ROOT, "node_modules", "vitest", "vitest.mjs");
  const args = [
    runner,
    "run",
    "--config",
    join(work, "vitest.config.mjs"),
    "--reporter=json",
    `--outputFile=${report}`,
  ];
  const child = spawn(process.execPath, args, { cwd: work, stdio: ["ignore", "ignore", "pipe"] });
  let complaint = "";
  child.stderr.on("data", (chunk: Buffer) => {
    complaint += chunk.toString();
  });
  const timer = setTimeout(() => child.kill("SIGKILL"), PATIENCE);
  await new Promise((done) => child.on("close", done));
  clearTimeout(timer);
  const text = await readFile(report, "utf8").catch(() => null);
  if (text === null) throw new Error(`The test runner gave no report.\n${complaint}`);
  return JSON.parse(text) as Report;
}

/** Names of the broken tests of one copy; a file that does not load counts as one broken test of that name. */
function brokenIn(report: Report, folder: string): string[] {
  return report.testResults
    .filter(({ name }) => name.includes(`/${folder}/`))
    .flatMap(({ name, assertionResults }) =>
      assertionResults.length === 0
        ? [`${name} does not load`]
        : assertionResults.filter(({ status }) => status === "failed").map(({ fullName }) => fullName),
    );
}

function judge(mutation: Mutation, made: boolean, broken: readonly string[]): Outcome {
  if (!made) return { mutation, verdict: "TEXT GONE", broken };
  if (broken.length === 0) return { mutation, verdict: "SURVIVED", broken };
  const named = broken.some((name) => name.includes(mutation.test[1]));
  return { mutation, verdict: named ? "killed" : "OTHER TEST BROKE", broken };
}

function row({ mutation, verdict, broken }: Outcome): string {
  const place = mutation.file.replace("src/", "");
  const by = verdict === "killed" ? `${broken.length}: ${broken[0]}` : broken.slice(0, SHOWN).join(" | ");
  return `${verdict.padEnd(16)} ${place.padEnd(34)} ${mutation.why.padEnd(60)} ${by}`;
}

async function run(work: string): Promise<boolean> {
  const started = performance.now();
  await symlink(join(ROOT, "node_modules"), join(work, "node_modules"), "dir");
  await copyTree(join(work, CLEAN));
  const made: boolean[] = [];
  for (const [index, mutation] of MUTATIONS.entries()) {
    const folder = join(work, folderOf(index));
    await cp(join(work, CLEAN), folder, { recursive: true });
    made.push(await mutate(folder, mutation));
  }
  const files = [...new Set(MUTATIONS.map(({ test }) => test[0]))];
  const mutated = MUTATIONS.map(({ test }, index) => project(work, folderOf(index), [test[0]]));
  const report = await runTests(work, [project(work, CLEAN, files), ...mutated.filter((_, index) => made[index])]);
  const unmutated = brokenIn(report, CLEAN);
  const ran = report.testResults.filter(({ name }) => name.includes(`/${CLEAN}/`)).length;
  const outcomes = MUTATIONS.map((mutation, index) =>
    judge(mutation, made[index] === true, brokenIn(report, folderOf(index))),
  );
  for (const outcome of outcomes) console.log(row(outcome));
  const killed = outcomes.filter(({ verdict }) => verdict === "killed").length;
  for (const name of unmutated) console.log(`FAILS UNMUTATED  ${name}`);
  if (ran !== files.length) console.log(`Of ${files.length} test files ${ran} ran unmutated.`);
  const seconds = Math.round((performance.now() - started) / 1000);
  console.log(
    `${killed} of ${MUTATIONS.length} mutations killed, ${unmutated.length} unmutated tests failing, ${seconds} s.`,
  );
  return killed === MUTATIONS.length && unmutated.length === 0 && ran === files.length;
}

const work = await realpath(await mkdtemp(join(tmpdir(), "padwright-mutation-")));
try {
  process.exitCode = (await run(work)) ? 0 : 1;
} finally {
  await rm(work, { recursive: true, force: true });
}
