/**
 * A national catalogue measured: building it, and queries against it as a trip tool makes them. Run with
 * `npx tsx tests/bench/catalogue.ts 10000 100000 1000000`; with --write the rows go into RESULTS.md. Everything lies in
 * a temporary folder, which is removed afterwards.
 */
import { mkdtemp, rm } from "node:fs/promises";
import { cpus, loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { createApp } from "../../src/http/app.ts";
import { objectFolder } from "../../src/node/object-folder.ts";
import { buildCatalogue, type CatalogueInput } from "../../src/records/catalogue/build.ts";
import type { ObjectSource } from "../../src/records/catalogue/objects.ts";
import { type CatalogueStore, openCatalogue } from "../../src/records/catalogue/open.ts";
import { inventedCamps } from "./invented-camps.ts";
import { seeded } from "./random-stances.ts";
import { writeSection } from "./results.ts";

const QUERIES = 120;
const SEED = 20260728;
const MEGABYTE = 1e6;
const KILOBYTE = 1e3;
const SECOND = 1e3;

const RIG = {
  class: "class-c",
  length: "25 ft",
  height: "11 ft",
  power: { plug: "nema-tt-30", cord: "25 ft" },
  sewerHose: "10 ft",
  awning: { projection: "8 ft" },
};

async function* inputs(sites: number): AsyncGenerator<CatalogueInput> {
  for (const { id, text } of inventedCamps(sites)) yield { name: id, mark: "", read: async () => text };
}

/** Counts what is read from an object source. */
function counted(source: ObjectSource) {
  const seen = { objects: 0, bytes: 0 };
  const get = async (name: string): Promise<Uint8Array | null> => {
    const bytes = await source.get(name);
    seen.objects++;
    seen.bytes += bytes?.length ?? 0;
    return bytes;
  };
  return { source: { get }, seen };
}

const at = (sorted: readonly number[], share: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0;

async function measure(sites: number): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), "padwright-catalogue-"));
  try {
    const sink = objectFolder(folder);
    const start = performance.now();
    const { manifest } = await buildCatalogue(inputs(sites), sink);
    const built = (performance.now() - start) / SECOND;
    const builtMemory = process.memoryUsage().rss / MEGABYTE;
    const { source, seen } = counted(sink);
    const opening = performance.now();
    const catalogue = await openCatalogue(source, { kept: 8 });
    const opened = performance.now() - opening;
    const { times, objects, bytes, answered } = await ask(catalogue, seen);
    return [
      `| ${sites.toLocaleString("en")}`,
      manifest.campgrounds.toLocaleString("en"),
      built.toFixed(0),
      builtMemory.toFixed(0),
      (manifest.bytes / MEGABYTE).toFixed(1),
      (manifest.index.bytes / KILOBYTE).toFixed(0),
      opened.toFixed(0),
      `${at(objects, 0.5)} / ${at(objects, 0.99)}`,
      `${(at(bytes, 0.5) / KILOBYTE).toFixed(0)} / ${(at(bytes, 0.99) / KILOBYTE).toFixed(0)}`,
      `${at(times, 0.5).toFixed(0)} / ${at(times, 0.99).toFixed(0)}`,
      `${answered} |`,
    ].join(" | ");
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Searches round campgrounds of the catalogue, and along short routes, ten sites asked for each. */
async function ask(catalogue: CatalogueStore, seen: { objects: number; bytes: number }) {
  const app = createApp({
    store: catalogue,
    clock: () => performance.now(),
    now: () => Date.now(),
    requestId: () => "bench",
    version: "bench",
  });
  const random = seeded(SEED);
  const [times, objects, bytes]: [number[], number[], number[]] = [[], [], []];
  let answered = 0;
  for (let query = 0; query < QUERIES; query++) {
    const { box } = catalogue.entries[Math.floor(random() * catalogue.entries.length)]!;
    const [west, south] = box!;
    const where =
      query % 3 === 0
        ? {
            along: {
              route: [
                [west - 0.1, south - 0.05],
                [west, south],
                [west + 0.15, south],
              ],
              corridor: "2 mi",
            },
          }
        : query % 3 === 1
          ? { near: { longitude: west, latitude: south }, radius: "3 mi" }
          : { bbox: [west - 0.03, south - 0.02, west + 0.03, south + 0.02] };
    const before = { ...seen };
    const start = performance.now();
    const reply = await app.request("/v1/search", {
      method: "POST",
      headers: { "Content-Type": "application/json" },
      body: JSON.stringify({
        rig: RIG,
        ...where,
        ranking: "nominal",
        limit: 10,
        filters: { verdicts: ["fits", "fits with kit", "tight", "unknown"] },
      }),
    });
    const answer = (await reply.json()) as { numberMatched?: number };
    times.push(performance.now() - start);
    objects.push(seen.objects - before.objects);
    bytes.push(seen.bytes - before.bytes);
    if (reply.status === 200 && (answer.numberMatched ?? 0) > 0) answered++;
  }
  for (const list of [times, objects, bytes]) list.sort((a, b) => a - b);
  return { times, objects, bytes, answered };
}

const sizes = process.argv
  .slice(2)
  .filter((word) => /^\d+$/.test(word))
  .map(Number);
const rows: string[] = [];
for (const size of sizes.length > 0 ? sizes : [10_000]) {
  const row = await measure(size);
  console.log(row);
  rows.push(row);
}
const text = [
  `${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model ?? "?"}, Node ${process.version}, load ${loadavg()[0]?.toFixed(1)}.`,
  `Invented campgrounds (tests/bench/invented-camps.ts), objects in a folder; ${QUERIES} searches by box, circle and route,`,
  "ranked by nominal values with the ten sites of the page fitted; the store keeps 8 campgrounds. Milliseconds and",
  "kilobytes; of pairs the median and the 99th percentile. `answered`: searches with at least one site.",
  "",
  "| sites | campgrounds | build s | build MB | packed MB | index kB | open ms | objects a query | kB a query | ms a query | answered |",
  "| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |",
  ...rows,
].join("\n");
if (process.argv.includes("--write")) await writeSection("Catalogue", text);
