/**
 * The worker in workerd: its size, its start, and the processor time of a request, read from the counters that Linux
 * keeps for the runtime's process. Run with: npx tsx tests/bench/edge.ts; with --write the figures go into RESULTS.md.
 */
import { readdirSync, readFileSync } from "node:fs";
import { cpus, loadavg } from "node:os";
import { gzipSync } from "node:zlib";
import type { Miniflare } from "miniflare";
import { EXAMPLE_FIT_REQUEST, EXAMPLE_RIG, EXAMPLE_WIND_REQUEST } from "../../src/http/openapi/examples.ts";
import { buildCatalogue } from "../../src/records/catalogue/build.ts";
import { bundleWorker } from "../edge/bundle-worker.ts";
import { bucketSink, openEdge } from "../edge/runtime.ts";
import { inventedCamps } from "./invented-camps.ts";
import { writeSection } from "./results.ts";

const SITES = 500;
const WARM = 15;
const ROUNDS = 5;
const PER_ROUND = 20;
const KILO = 1000;
/** Ticks of the processor counters in a second. */
const TICKS = 100;
const FEET = 24;

interface Question {
  readonly what: string;
  readonly path: string;
  /** The body of the request of this number: no two alike, so that nothing is answered from memory. */
  readonly body: ((serial: number) => unknown) | null;
  readonly accept?: string;
}

const rigOf = (serial: number) => ({ ...EXAMPLE_RIG, length: `${FEET + serial / KILO} ft` });
const EVERYWHERE = [-130, 20, -60, 55];
const QUESTIONS: readonly Question[] = [
  { what: "GET /healthz", path: "/healthz", body: null },
  { what: "fit of one site", path: "/v1/fit", body: (serial) => ({ ...EXAMPLE_FIT_REQUEST, rig: rigOf(serial) }) },
  {
    what: "fit of one site, as its plan",
    path: "/v1/fit",
    body: (serial) => ({ ...EXAMPLE_FIT_REQUEST, rig: rigOf(serial) }),
    accept: "image/svg+xml",
  },
  { what: "wind rose and hours of one site", path: "/v1/wind", body: () => EXAMPLE_WIND_REQUEST },
  {
    what: `search over ${SITES} sites, page of 1`,
    path: "/v1/search",
    body: (serial) => ({ rig: rigOf(serial), bbox: EVERYWHERE, limit: 1 }),
  },
  {
    what: `search over ${SITES} sites, page of 10`,
    path: "/v1/search",
    body: (serial) => ({ rig: rigOf(serial), bbox: EVERYWHERE, limit: 10 }),
  },
];

const text = await bundleWorker();
const opened = performance.now();
const edge = await openEdge();
const readyAfter = performance.now() - opened;
await fill(edge);
let serial = 0;
const coldAfter = await timed(edge, QUESTIONS[1] as Question);
const pid = runtimeProcess();
const rows: string[] = [];
for (const question of QUESTIONS) rows.push(await row(edge, question));
await edge.dispose();

const report = [
  `${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model ?? "?"}, Node ${process.version}, load ${loadavg()[0]?.toFixed(1)}.`,
  "The real workerd through miniflare on one machine: no figure of a hosted edge. Processor time of the runtime's process,",
  `the calls of miniflare's own entry included; median and worst of ${ROUNDS} rounds of ${PER_ROUND} requests, each with a rig of its own.`,
  `Worker: ${(text.length / KILO).toFixed(0)} kB, ${(gzipSync(text).length / KILO).toFixed(0)} kB compressed, no exact solver in it.`,
  `Runtime ready after ${readyAfter.toFixed(0)} ms; the first fit, catalogue opened and program warmed by it, took ${coldAfter.toFixed(0)} ms.`,
  "`npx tsx tests/bench/edge.ts`",
  "",
  "| request | processor ms, median | worst round | ms from call to answer, median |",
  "| --- | --- | --- | --- |",
  ...rows,
].join("\n");
console.log(report);
if (process.argv.includes("--write")) await writeSection("Edge", report);

async function fill(place: Miniflare): Promise<void> {
  const sink = await bucketSink(place);
  await buildCatalogue(
    (async function* () {
      for (const { id, text: input } of inventedCamps(SITES)) yield { name: id, mark: id, read: async () => input };
    })(),
    sink,
  );
}

/** Milliseconds from the call to the whole answer. */
async function timed(place: Miniflare, { path, body, accept = "application/json" }: Question): Promise<number> {
  serial += 1;
  const init =
    body === null
      ? {}
      : {
          method: "POST",
          body: JSON.stringify(body(serial)),
          headers: { "Content-Type": "application/json", Accept: accept },
        };
  const start = performance.now();
  const reply = await place.dispatchFetch(`http://pad.test${path}`, init);
  const answer = await reply.text();
  if (reply.status !== 200) throw new Error(`${path} answered ${reply.status}: ${answer.slice(0, KILO)}`);
  return performance.now() - start;
}

async function row(place: Miniflare, question: Question): Promise<string> {
  for (let index = 0; index < WARM; index++) await timed(place, question);
  const processor: number[] = [];
  const wall: number[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    const before = ticksOf(pid);
    for (let index = 0; index < PER_ROUND; index++) wall.push(await timed(place, question));
    processor.push(((ticksOf(pid) - before) / TICKS / PER_ROUND) * KILO);
  }
  const sorted = processor.sort((a, b) => a - b);
  return `| ${question.what} | ${middle(sorted).toFixed(1)} | ${sorted.at(-1)?.toFixed(1)} | ${middle(wall.sort((a, b) => a - b)).toFixed(1)} |`;
}

function middle(sorted: readonly number[]): number {
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
}

/** The workerd that this program started. */
function runtimeProcess(): string {
  for (const one of readdirSync("/proc").filter((name) => /^\d+$/.test(name))) {
    try {
      const [, name, rest = ""] = /\((.*)\) (.*)/.exec(readFileSync(`/proc/${one}/stat`, "utf8")) ?? [];
      if (name === "workerd" && rest.split(" ")[1] === String(process.pid)) return one;
    } catch {
      // It ended meanwhile.
    }
  }
  throw new Error("No runtime was started by this process.");
}

/** Ticks in its own program and in the system for it: fields 14 and 15 of proc(5) (from memory). */
function ticksOf(one: string): number {
  const fields = readFileSync(`/proc/${one}/stat`, "utf8")
    .replace(/^.*\) /, "")
    .split(" ");
  return Number(fields[11]) + Number(fields[12]);
}
