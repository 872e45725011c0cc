/** A catalogue built, read, swapped and broken off, over invented campgrounds. */
import { expect, test } from "vitest";
import { completeOptions } from "../../../src/fit/options.ts";
import { buildCatalogue, type CatalogueInput, type Finished, POINTER } from "../../../src/records/catalogue/build.ts";
import { decodeIndex } from "../../../src/records/catalogue/index-file.ts";
import { mayServe } from "../../../src/records/catalogue/may-serve.ts";
import type { ObjectSink } from "../../../src/records/catalogue/objects.ts";
import { openCatalogue } from "../../../src/records/catalogue/open.ts";
import { rig } from "../../fit/core/builders.ts";

function memorySink(): ObjectSink & { readonly objects: Map<string, Uint8Array>; reads: number } {
  const objects = new Map<string, Uint8Array>();
  const sink = {
    objects,
    reads: 0,
    get: async (name: string) => {
      sink.reads++;
      return objects.get(name) ?? null;
    },
    has: async (name: string) => objects.has(name),
    put: async (name: string, bytes: Uint8Array) => {
      objects.set(name, bytes);
    },
  };
  return sink;
}

interface Camp {
  readonly id: string;
  readonly at: readonly [number, number];
  readonly length?: number | null;
  readonly type?: string;
}

/** An invented campground with one site. */
function campText({ id, at, length = 12, type = "nema-tt-30" }: Camp): string {
  const pad = { origin: at, ...(length === null ? {} : { length }), width: 4, overhangRear: 0.5 };
  const power = {
    id: "p",
    service: "power",
    at: { along: 2, left: 3, height: 1 },
    basis: "measured",
    receptacles: [{ id: "r", type }],
  };
  return JSON.stringify({
    type: "FeatureCollection",
    campground: {
      id,
      name: `Invented ${id}`,
      invented: true,
      timeZone: "America/Denver",
      electricalSystem: "120/240",
      drivesOn: "right",
    },
    features: [
      {
        type: "Feature",
        id: "1",
        geometry: { type: "Point", coordinates: at },
        properties: {
          kind: "site",
          name: "1",
          layout: "back-in",
          heading: 20,
          pad,
          services: { power: "yes", water: "no", sewer: "no" },
          hookups: [power],
          limits: { height: 3.6 },
        },
      },
    ],
  });
}

async function* inputs(camps: readonly Camp[], texts?: ReadonlyMap<string, string>): AsyncGenerator<CatalogueInput> {
  for (const camp of camps) {
    const text = texts?.get(camp.id) ?? campText(camp);
    yield { name: `${camp.id}.geojson`, mark: String(text.length), read: async () => text };
  }
}

const CAMPS: readonly Camp[] = [
  { id: "heron", at: [-105.2, 40.1] },
  { id: "plover", at: [-105.9, 40.4], length: 7 },
  { id: "rail", at: [179.9, -17.2], type: "as-3112-15" },
  { id: "wren", at: [-179.95, -17.3], length: null },
];

test("what is built is read back whole, found by box, circle and route, also across the antimeridian", async () => {
  const sink = memorySink();
  const { manifest, refused } = await buildCatalogue(inputs(CAMPS), sink);
  expect(refused).toEqual([]);
  expect(manifest).toMatchObject({ campgrounds: 4, sites: 4 });
  const catalogue = await openCatalogue(sink);
  const found = async (area: Parameters<NonNullable<typeof catalogue.meeting>>[0]) =>
    (await catalogue.meeting?.(area))?.map(({ id }) => id);
  expect(await found({ box: [-105.5, 40, -105, 40.3] })).toEqual(["heron"]);
  expect(await found({ box: [179, -18, -179, -17] })).toEqual(["rail", "wren"]);
  expect(await found({ middle: { longitude: -180, latitude: -17.25 }, radius: 20_000 })).toEqual(["rail", "wren"]);
  const route = [
    { longitude: -106.4, latitude: 40.4 },
    { longitude: -105.5, latitude: 40.4 },
  ];
  expect(await found({ route, aside: 5000 })).toEqual(["plover"]);
  const reads = sink.reads;
  const stored = await catalogue.get("plover");
  expect(stored?.document).toMatchObject({ campground: { name: "Invented plover" } });
  await catalogue.get("plover");
  expect(sink.reads - reads).toBe(1);
  expect(await catalogue.get("nobody")).toBeNull();
});

test("a swap never mixes versions: whoever has opened the old one goes on reading it", async () => {
  const sink = memorySink();
  await buildCatalogue(inputs(CAMPS), sink);
  const old = await openCatalogue(sink);
  const changed = new Map([["heron", campText({ ...CAMPS[0]!, length: 19 })]]);
  await buildCatalogue(inputs(CAMPS.slice(0, 2), changed), sink);
  const fresh = await openCatalogue(sink);
  expect((await old.list()).length).toBe(4);
  expect(JSON.stringify((await old.get("heron"))?.document)).toContain('"length":12');
  expect((await fresh.list()).map(({ id }) => id)).toEqual(["heron", "plover"]);
  expect(JSON.stringify((await fresh.get("heron"))?.document)).toContain('"length":19');
  expect(await old.version()).not.toBe(await fresh.version());
});

test("a build that was broken off goes on: files read before are not read again, changed ones are", async () => {
  const sink = memorySink();
  const finished = new Map<string, Finished>();
  const done = async (one: Finished) => {
    finished.set(one.name, one);
    if (finished.size === 2) throw new Error("the lights went out");
  };
  await expect(buildCatalogue(inputs(CAMPS), sink, { done })).rejects.toThrow("the lights went out");
  expect(sink.objects.has(POINTER)).toBe(false);
  const read: string[] = [];
  async function* watched(): AsyncGenerator<CatalogueInput> {
    for await (const input of inputs(CAMPS, new Map([["plover", campText({ ...CAMPS[1]!, length: 7.25 })]]))) {
      yield {
        ...input,
        read: () => {
          read.push(input.name);
          return input.read();
        },
      };
    }
  }
  const built = await buildCatalogue(watched(), sink, { finished });
  expect(read).toEqual(["plover.geojson", "rail.geojson", "wren.geojson"]);
  const straight = await buildCatalogue(
    inputs(CAMPS, new Map([["plover", campText({ ...CAMPS[1]!, length: 7.25 })]])),
    memorySink(),
  );
  expect(built.name).toBe(straight.name);
});

test("a file that is no campground, and an id that is taken, are told of and left out", async () => {
  const sink = memorySink();
  async function* some(): AsyncGenerator<CatalogueInput> {
    yield* inputs([CAMPS[0]!]);
    yield { name: "again.geojson", mark: "1", read: async () => campText({ ...CAMPS[0]!, at: [1, 2] }) };
    yield { name: "torn.geojson", mark: "1", read: async () => '{"type":' };
  }
  const { manifest, refused } = await buildCatalogue(some(), sink);
  expect(manifest.campgrounds).toBe(1);
  expect(refused.map(({ name }) => name)).toEqual(["again.geojson", "torn.geojson"]);
  expect(refused[0]?.why).toContain('"heron"');
});

test("an index that is cut, foreign or of another version is refused", async () => {
  const sink = memorySink();
  const { manifest } = await buildCatalogue(inputs(CAMPS), sink);
  const bytes = sink.objects.get(manifest.index.object) as Uint8Array;
  await expect(decodeIndex(bytes.slice(0, 40))).rejects.toThrow("cut short");
  await expect(decodeIndex(new Uint8Array(20))).rejects.toThrow("no catalogue index");
  const later = bytes.slice();
  later[4] = 9;
  await expect(decodeIndex(later)).rejects.toThrow("version 9");
});

test("a campground is left alone only when no site of it can serve", async () => {
  const sink = memorySink();
  await buildCatalogue(inputs(CAMPS), sink);
  const catalogue = await openCatalogue(sink);
  const envelopes = new Map(catalogue.entries.map(({ id, envelope }) => [id, envelope]));
  const coach = rig({ length: 8.5, connections: [{ service: "power", fromRear: 1, length: 7.62 }] });
  const serving = (needs: Parameters<typeof completeOptions>[0]) =>
    [...envelopes].filter(([, envelope]) => mayServe(envelope, coach, completeOptions(needs))).map(([id]) => id);
  expect(serving({})).toEqual(["heron", "rail", "wren"]);
  expect(serving({ needs: { power: "required" } })).toEqual(["heron", "wren"]);
  expect(serving({ needs: { sewer: "required" } })).toEqual([]);
  // The pad with its overhang, and four standard deviations of a tape (0.05 m) in its favour.
  expect(envelopes.get("plover")).toMatchObject({ longestPad: 7.7, highest: 3.6, power: true, sewer: false });
});
