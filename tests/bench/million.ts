/**
 * One rig against a million sites in memory, the whole fleet against them in threads, and the same question asked of a
 * grid with a general geometry library and of PostGIS, side by side in one run. Run with
 * `npx tsx tests/bench/million.ts [sites]`; with --write the figures go into RESULTS.md, without --postgis no database
 * is started.
 */
import { cpus, loadavg } from "node:os";
import { fileURLToPath } from "node:url";
import { Worker } from "node:worker_threads";
import { buildSync } from "esbuild";
import { exactRig, plainMargin, plainProblems } from "../../src/fit/screen/exact.ts";
import { screenRig } from "../../src/fit/screen/rig.ts";
import { CAN, CANNOT, SHORT, screen, screenNominal, UNDECIDED } from "../../src/fit/screen/screen.ts";
import type { ScreenSites } from "../../src/fit/screen/sites.ts";
import { gridMargin } from "./grid-baseline.ts";
import { fleet, MILLION_OPTIONS, plainSites } from "./million-sites.ts";
import { askPostgis } from "./postgis.ts";
import { writeSection } from "./results.ts";

const MILLION = 1_000_000;
const ROUNDS = 3;
const FLEET = 40;
const GRID_SITES = 12;
const NANOSECONDS = 1e3;
const SECOND = 1e6;

const count = Number(process.argv.find((word) => /^\d+$/.test(word)) ?? MILLION);

/** Least processor time of some rounds, microseconds. */
function cost(run: () => void): number {
  let least = Infinity;
  for (let round = 0; round < ROUNDS; round++) {
    const start = process.cpuUsage();
    run();
    const { user, system } = process.cpuUsage(start);
    least = Math.min(least, user + system);
  }
  return least;
}

const perSite = (microseconds: number, sites = count): string =>
  `${((microseconds * NANOSECONDS) / sites).toFixed(0)} ns`;
const seconds = (microseconds: number): string => `${(microseconds / SECOND).toFixed(2)} s`;

/** The columns in memory that threads share. */
function shared(sites: ScreenSites): ScreenSites {
  const entries = Object.entries(sites).map(([name, value]) => {
    if (!(value instanceof Float32Array || value instanceof Uint32Array)) return [name, value];
    const room = new SharedArrayBuffer(value.byteLength);
    const copy = value instanceof Float32Array ? new Float32Array(room) : new Uint32Array(room);
    copy.set(value);
    return [name, copy];
  });
  return Object.fromEntries(entries) as ScreenSites;
}

async function matrix(sites: ScreenSites): Promise<{ readonly seconds: number; readonly served: number }> {
  const threads = Math.min(cpus().length, FLEET);
  const common = shared(sites);
  const entry = fileURLToPath(new URL("million-worker.ts", import.meta.url));
  const bundled = buildSync({ entryPoints: [entry], bundle: true, platform: "node", format: "cjs", write: false });
  const script = bundled.outputFiles[0]?.text ?? "";
  const start = performance.now();
  let done = 0;
  let served = 0;
  await Promise.all(
    Array.from({ length: threads }, (_, thread) => {
      const rigs = Array.from({ length: FLEET }, (__, rig) => rig).filter((rig) => rig % threads === thread);
      const worker = new Worker(script, { eval: true, workerData: { sites: common, rigs, all: FLEET } });
      return new Promise<void>((resolve, reject) => {
        worker.on("message", (message: { readonly served: number }) => {
          done++;
          served += message.served;
          if (process.stderr.isTTY) process.stderr.write(`\r${done} of ${FLEET} rigs`);
        });
        worker.on("error", reject);
        worker.on("exit", () => resolve());
      });
    }),
  );
  if (process.stderr.isTTY) process.stderr.write("\r\u001b[K");
  return { seconds: (performance.now() - start) / 1000, served };
}

const building = performance.now();
const sites = plainSites(count);
const built = (performance.now() - building) / 1000;
const [coach] = fleet(1);
const made = screenRig(coach!, MILLION_OPTIONS, sites.kinds);
const exact = exactRig(coach!, made, []);
const states = new Uint8Array(count);
const sound = cost(() => screen(made, sites, states));
const refused = states.filter((state) => state === CANNOT).length;
const nominal = cost(() => screenNominal(made, sites, states));
const tally = (state: number): string => ((states.filter((one) => one === state).length / count) * 100).toFixed(1);
let served = 0;
const solved = cost(() => {
  served = 0;
  for (let site = 0; site < count; site++) {
    const state = states[site];
    if (state === CAN || (state === UNDECIDED && plainMargin(exact, sites, site) >= 0)) served++;
  }
});
const problems = Array.from({ length: count }, (_, site) => site)
  .filter((site) => states[site] === UNDECIDED)
  .slice(0, GRID_SITES)
  .flatMap((site) => plainProblems(exact, sites, site)?.slice(0, 1) ?? []);
const grid = cost(() => {
  for (const problem of problems) gridMargin(problem);
});
const rows = [
  `| screen, refusals sound whatever stands there | ${perSite(sound)} | ${seconds(sound)} | ${refused} refused |`,
  `| nominal screen (bounds and trials) | ${perSite(nominal)} | ${seconds(nominal)} | can ${tally(CAN)} %, short ${tally(SHORT)} %, cannot ${tally(CANNOT)} %, undecided ${tally(UNDECIDED)} % |`,
  `| exact stage for the undecided | ${perSite(solved)} | ${seconds(solved)} | |`,
  `| the whole question | ${perSite(nominal + solved)} | ${seconds(nominal + solved)} | ${served} sites serve |`,
  `| grid of stances with a general geometry library | ${((grid / problems.length) * NANOSECONDS).toFixed(0)} ns | ${seconds((grid / problems.length) * count)} (from ${problems.length} sites) | |`,
];
if (process.argv.includes("--postgis")) {
  const out = screenRig(coach!, { ...MILLION_OPTIONS, facings: ["out"] }, sites.kinds);
  const straight = cost(() => screen(out, sites, states));
  const passing = states.filter((state) => state !== CANNOT).length;
  const answer = askPostgis(out, sites);
  rows.push(
    `| straight reach only, nose out, here | ${perSite(straight)} | ${seconds(straight)} | ${passing} pass |`,
    `| the same by PostGIS ${answer.version}, ST_Distance, one process | ${perSite(answer.querySeconds * SECOND)} | ${answer.querySeconds.toFixed(2)} s | ${answer.passing} pass; loaded in ${answer.loadSeconds.toFixed(0)} s |`,
  );
}
const { seconds: fleetSeconds, served: pairs } = await matrix(sites);
rows.push(
  `| ${FLEET} rigs, nominal screen, ${cpus().length} threads | ${perSite(fleetSeconds * SECOND, count * FLEET)} a pair | ${fleetSeconds.toFixed(1)} s of wall clock | ${pairs} pairs can |`,
);
const text = [
  `${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model ?? "?"}, Node ${process.version}, load ${loadavg()[0]?.toFixed(1)}.`,
  `${count.toLocaleString("en")} invented plain sites (no obstacle, no error), three required lines, both facings; processor time,`,
  `the least of ${ROUNDS} rounds. Columns built in ${built.toFixed(0)} s, ${(process.memoryUsage().rss / 1e6).toFixed(0)} MB resident.`,
  "",
  "| stage | a site | all | outcome |",
  "| --- | --- | --- | --- |",
  ...rows,
].join("\n");
console.log(text);
if (process.argv.includes("--write")) await writeSection("A million sites", text);
