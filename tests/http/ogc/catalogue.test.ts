/** Geodata over a catalogue: the same features as over records at hand, and no class declared that does not hold. */
import { beforeAll, describe, expect, it } from "vitest";
import { buildCatalogue } from "../../../src/records/catalogue/build.ts";
import { openCatalogue } from "../../../src/records/catalogue/open.ts";
import { type CampgroundStore, memoryStore } from "../../../src/records/store.ts";
import { testApp } from "../helpers.ts";
import { SOURCES, TERN } from "./records.ts";

const RECORDS = [
  ...SOURCES,
  ...Array.from({ length: 6 }, (_, index) => ({
    name: `far${index}`,
    input: {
      ...TERN,
      campground: { id: `far-${index}` },
      features: [{ ...TERN.features[0], geometry: { type: "Point", coordinates: [10 + index, 50] } }],
    },
  })),
];

let catalogue: CampgroundStore;
let atHand: CampgroundStore;
const read: string[] = [];

beforeAll(async () => {
  const objects = new Map<string, Uint8Array>();
  const sink = {
    has: async (name: string) => objects.has(name),
    get: async (name: string) => objects.get(name) ?? null,
    put: async (name: string, bytes: Uint8Array) => void objects.set(name, bytes),
  };
  async function* inputs() {
    for (const { name, input } of RECORDS) yield { name, mark: "1", read: async () => JSON.stringify(input) };
  }
  await buildCatalogue(inputs(), sink);
  const opened = await openCatalogue(sink);
  catalogue = {
    ...opened,
    get: (id: string) => {
      read.push(id);
      return opened.get(id);
    },
  };
  atHand = (await memoryStore(RECORDS)).store;
});

async function idsFrom(store: CampgroundStore, query: string, counted?: number): Promise<string[]> {
  const app = await testApp([], {
    store,
    ...(counted === undefined ? {} : { limits: { campgroundsCounted: counted } }),
  });
  const page = (await (await app.request(`/ogc/collections/sites/items?${query}`)).json()) as {
    features: { id: string; geometry: unknown }[];
  };
  return page.features.map(({ id }) => id);
}

const classes = async (store: CampgroundStore, counted: number): Promise<number> => {
  const app = await testApp([], { store, limits: { campgroundsCounted: counted } });
  return ((await (await app.request("/ogc/conformance")).json()) as { conformsTo: string[] }).conformsTo.length;
};

describe("a catalogue", () => {
  const boxes = ["-105.3,40,-105.1,41", "179,-17,-179,-16", "11.5,49,13.5,51", "-180,-90,180,90", "0,0,1,1"];

  it.each(boxes)("of few campgrounds answers box %s as records at hand do", async (box) => {
    expect(await idsFrom(catalogue, `bbox=${box}`)).toEqual(await idsFrom(atHand, `bbox=${box}`));
  });

  it.each(boxes)(
    "of many reads for box %s what comes near, and finds every feature with a geometry there",
    async (box) => {
      read.length = 0;
      const near = await idsFrom(catalogue, `bbox=${box}`, 2);
      const all = await idsFrom(atHand, `bbox=${box}`);
      expect(near.filter((id) => !id.endsWith(":tape"))).toEqual(all.filter((id) => !id.endsWith(":tape")));
      if (box === "11.5,49,13.5,51") expect([...new Set(read)]).toEqual(["far-2", "far-3"]);
      if (box === "0,0,1,1") expect(read).toEqual([]);
    },
  );

  it("declares the classes only while a box is held against every record", async () => {
    expect([await classes(catalogue, 50), await classes(catalogue, 2), await classes(atHand, 2)]).toEqual([5, 0, 5]);
  });
});
