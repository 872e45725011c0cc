/** The geodata interface read by a real client: GDAL's OAPIF driver (Debian's gdal-bin), against the server on Node. */
import { execFile } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Service, serve } from "../../../src/node/serve.ts";
import { SOURCES } from "./records.ts";

interface Feature {
  readonly id: string;
  readonly geometry: unknown;
  readonly properties: Readonly<Record<string, unknown>>;
}

const COLLECTIONS = ["campgrounds", "sites", "hookups", "obstacles"];
const DEMO = new URL("../../../data/demo/campground.geojson", import.meta.url);

let folder: string;
let service: Service;
let base: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "padwright-gdal-"));
  const records = [...SOURCES, { name: "demo", input: JSON.parse(await readFile(DEMO, "utf8")) }];
  for (const { name, input } of records) await writeFile(join(folder, `${name}.geojson`), JSON.stringify(input));
  service = await serve({ port: 0, folder, version: "0", page: null, log: () => undefined, settings: {} });
  base = `${service.address}/ogc`;
});
afterAll(async () => {
  await service.stop();
  await rm(folder, { recursive: true });
});

const run = async (command: string, ...words: string[]): Promise<string> => {
  const { stdout, stderr } = await promisify(execFile)(command, words, { maxBuffer: 2 ** 26 });
  // GDAL tells of a page that it could not read and then ends as if all were well.
  if (/ERROR/.test(stderr)) throw new Error(stderr);
  return stdout + stderr;
};

async function translated(collection: string, ...more: string[]): Promise<Feature[]> {
  const file = join(folder, "out.json");
  await rm(file, { force: true });
  await run("ogr2ogr", "-f", "GeoJSON", file, `OAPIF:${base}`, collection, "-lco", "ID_FIELD=id", ...more);
  return (JSON.parse(await readFile(file, "utf8")) as { features: Feature[] }).features;
}

async function direct(collection: string, query = ""): Promise<Feature[]> {
  const response = await fetch(`${base}/collections/${collection}/items?limit=1000${query}`);
  return ((await response.json()) as { features: Feature[] }).features;
}

const ids = (features: readonly Feature[]): string[] => features.map(({ id }) => id).sort();

/** GDAL writes fifteen digits of a coordinate: positions are compared to a ten-millionth of a metre. */
const tidy = (value: unknown): unknown => {
  if (typeof value === "number") return Number(value.toFixed(12));
  if (Array.isArray(value)) return value.map(tidy);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, tidy(inner)]));
};

describe("GDAL", () => {
  it("lists the collections and counts their features", async () => {
    const listed = await run("ogrinfo", `OAPIF:${base}`);
    for (const collection of COLLECTIONS) expect(listed).toContain(`: ${collection} (title:`);
    const summary = await run("ogrinfo", "-so", `OAPIF:${base}`, "sites");
    expect(summary).toContain(`Feature Count: ${(await direct("sites")).length}`);
    expect(summary).toMatch(/padLengthLow: Real .*\n/);
    expect(summary).toMatch(/record: String\(JSON\)/);
  });

  it.each(COLLECTIONS)("pages through %s and brings every one home with nothing lost", async (collection) => {
    const wanted = await direct(collection);
    const got = await translated(collection, "-oo", "PAGE_SIZE=3");
    const byId = new Map(got.map((feature) => [feature.id, feature]));
    expect(ids(got)).toEqual(ids(wanted));
    for (const { id, geometry, properties } of wanted) {
      const one = byId.get(id);
      expect({ ...one, geometry: tidy(one?.geometry) }).toEqual({
        type: "Feature",
        id,
        geometry: tidy(geometry),
        properties,
      });
    }
    expect(wanted.some(({ properties }) => Object.values(properties).includes(null))).toBe(true);
  });

  it("reads a feature without geometry, nested members and odd ids", async () => {
    const sites = new Map((await translated("sites")).map((feature) => [feature.id, feature]));
    expect(sites.get("alder%3Abend:tape")?.geometry).toBeNull();
    expect(sites.get("alder%3Abend:50%25")?.properties["record"]).toMatchObject({
      ownMember: { nested: [1, 2.25, "x", null], empty: {}, list: [] },
    });
  });

  it.each([
    ["sites", [-105.138, 42.917, -105.136, 42.9185]],
    ["hookups", [-105.1376, 42.9168, -105.1368, 42.9174]],
    ["obstacles", [-105.21, 40.19, -105.0, 40.21]],
  ])("keeps of %s what a box holds", async (collection, box) => {
    const everything = join(folder, "all.json");
    await writeFile(everything, JSON.stringify({ type: "FeatureCollection", features: await direct(collection) }));
    const file = join(folder, "box.json");
    await rm(file, { force: true });
    await run("ogr2ogr", "-f", "GeoJSON", file, everything, "-spat", ...box.map(String));
    // GDAL's own filter over the whole collection, apart from ours.
    const wanted = (JSON.parse(await readFile(file, "utf8")) as { features: Feature[] }).features;
    const got = await translated(collection, "-spat", ...box.map(String), "-oo", "PAGE_SIZE=5");
    expect(wanted.length).toBeGreaterThan(0);
    expect(wanted.length).toBeLessThan((await direct(collection)).length);
    expect(ids(got)).toEqual(ids(wanted));
    const ours = (await direct(collection, `&bbox=${box}`)).filter(({ geometry }) => geometry !== null);
    expect(ids(ours)).toEqual(ids(wanted));
  });

  it("leaves a filter by property to the server, because the description names the parameter", async () => {
    const said = await run("ogrinfo", "--debug", "HTTP", "-q", `OAPIF:${base}`, "sites", "-where", "layout='parallel'");
    expect(said).toMatch(/Fetch\(\S+items\?f=geojson&limit=10&layout=parallel\)/);
    expect(said.match(/^OGRFeature\(/gm)).toHaveLength((await direct("sites", "&layout=parallel")).length);
  });
});
