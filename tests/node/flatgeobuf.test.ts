/** The bulk download, read back by GDAL: nothing lost, an index that is there, and boxes that it answers rightly. */
import { execFile } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { readIndexNodeSize, type WrittenFlatGeobuf, writeFlatGeobuf } from "../../src/node/flatgeobuf.ts";
import { memoryStore } from "../../src/records/store.ts";
import { testApp } from "../http/helpers.ts";
import { SOURCES } from "../http/ogc/records.ts";

interface Feature {
  readonly id: string;
  readonly geometry: unknown;
  readonly properties: Readonly<Record<string, unknown>>;
}

/** An invented field of sites, spread unevenly, in more nodes of an index than one. */
const FIELD = {
  type: "FeatureCollection",
  campground: { id: "field" },
  features: Array.from({ length: 400 }, (_, index) => ({
    type: "Feature",
    id: `f${index}`,
    geometry: {
      type: "Point",
      coordinates: [-100 + ((index * 7919) % 400) / 1000, 35 + ((index * index) % 397) / 900],
    },
    properties: { kind: "site", ...(index % 3 === 0 ? { limits: { length: 8 + index / 64 } } : {}) },
  })),
};
const RECORDS = [...SOURCES, { name: "field", input: FIELD }];

let folder: string;
let file: string;
let written: WrittenFlatGeobuf;
let wanted: Feature[];

const run = promisify(execFile);
async function translated(source: string, ...more: string[]): Promise<Feature[]> {
  const target = join(folder, "read.json");
  await rm(target, { force: true });
  await run("ogr2ogr", ["-f", "GeoJSON", target, source, "-lco", "ID_FIELD=id", ...more]);
  return (JSON.parse(await readFile(target, "utf8")) as { features: Feature[] }).features;
}

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "padwright-bulk-"));
  file = join(folder, "sites.fgb");
  written = await writeFlatGeobuf((await memoryStore(RECORDS)).store, file);
  const app = await testApp(RECORDS);
  const { features } = (await (await app.request("/ogc/collections/sites/items?limit=1000")).json()) as {
    features: Feature[];
  };
  wanted = features;
});
afterAll(() => rm(folder, { recursive: true }));

describe("the bulk download", () => {
  it("holds every site that has a place, and counts the others", () => {
    const placed = wanted.filter(({ geometry }) => geometry !== null);
    expect(written).toEqual({ sites: placed.length, withoutPlace: wanted.length - placed.length, indexNodeSize: 16 });
    expect(written.withoutPlace).toBe(1);
  });

  it("keeps ids, types, nulls and nested members", async () => {
    const got = new Map((await translated(file)).map((feature) => [feature.id, feature.properties]));
    expect(got.size).toBe(written.sites);
    for (const { id, geometry, properties } of wanted) {
      if (geometry === null) continue;
      const { record, ...columns } = got.get(id) ?? {};
      const { record: kept, ...plain } = properties;
      // The format has no null: what is unknown is not there, and never a zero, a false or an empty text.
      expect(columns).toEqual(Object.fromEntries(Object.entries(plain).filter(([, value]) => value !== null)));
      expect(typeof record === "string" ? JSON.parse(record) : record).toEqual(kept);
    }
  });

  it("says in its header that it has an index, and a file without one says so too", async () => {
    const bare = join(folder, "bare.fgb");
    await run("ogr2ogr", ["-f", "FlatGeobuf", bare, file, "-lco", "SPATIAL_INDEX=NO"]);
    expect([await readIndexNodeSize(file), await readIndexNodeSize(bare)]).toEqual([16, 0]);
    await writeFile(join(folder, "other.fgb"), "this is something else altogether");
    await expect(readIndexNodeSize(join(folder, "other.fgb"))).rejects.toThrow("no FlatGeobuf file");
  });

  it.each([
    [-99.95, 35.02, -99.8, 35.2],
    [-99.7, 35.3, -99.69, 35.44],
    [-100, 35, -99, 36],
    [-106, 40, -105, 41],
    [10, 10, 11, 11],
  ])("gives for a box what going through all of them gives (%d, %d, %d, %d)", async (...box) => {
    const everything = join(folder, "all.json");
    await writeFile(everything, JSON.stringify({ type: "FeatureCollection", features: wanted }));
    const brute = await translated(everything, "-spat", ...box.map(String));
    const indexed = await translated(file, "-spat", ...box.map(String));
    const ids = (features: readonly Feature[]) => features.map(({ id }) => id).sort();
    expect(ids(indexed)).toEqual(ids(brute));
    const inside = wanted.filter(({ geometry }) => {
      const { type, coordinates } = (geometry ?? {}) as { type?: string; coordinates?: number[] };
      const [x = 0, y = 0] = coordinates ?? [];
      return type === "Point" && x >= box[0] && x <= box[2] && y >= box[1] && y <= box[3];
    });
    expect(ids(indexed)).toEqual(expect.arrayContaining(ids(inside)));
  });
});
