/** Requirements of OGC 17-069r4, read in the standard's own repository (core/standard/requirements). */
import { describe, expect, it } from "vitest";
import { memoryStore } from "../../../src/records/store.ts";
import { problemIn, testApp } from "../helpers.ts";
import { ALDER, SOURCES, TERN } from "./records.ts";

interface Link {
  readonly rel: string;
  readonly href: string;
  readonly type: string;
}
interface Items {
  readonly numberMatched?: number;
  readonly numberReturned: number;
  readonly links: readonly Link[];
  readonly features: readonly { readonly id: string; readonly properties: Readonly<Record<string, unknown>> }[];
}

const ITEMS = "/ogc/collections/sites/items";

async function items(query = "", collection = "sites"): Promise<Items> {
  const app = await testApp(SOURCES);
  const response = await app.request(`/ogc/collections/${collection}/items${query}`);
  if (response.status !== 200) throw new Error(await response.text());
  return (await response.json()) as Items;
}

const idsOf = ({ features }: Items): string[] => features.map(({ id }) => id.replace(/^.*?:/, ""));
const link = ({ links }: Items, rel: string): string | undefined => links.find((one) => one.rel === rel)?.href;

describe("filters", () => {
  it("bbox keeps what meets the box and what has no geometry (fc-bbox-response)", async () => {
    expect(idsOf(await items("?bbox=-105.2001,40.0999,-105.1999,40.1001"))).toEqual(["3", "tape"]);
    expect(idsOf(await items("?bbox=-105.2099,40.1101,-105.2098,40.1102"))).toEqual(["50%25", "tape"]);
    expect(idsOf(await items("?bbox=-105.2001,40.0999,-100,-105.1999,40.1001,9000"))).toEqual(["3", "tape"]);
    expect(idsOf(await items("?bbox=179,-17,-179,-16"))).toEqual(["tape", "east-of-the-line", "west-of-the-line"]);
    expect(idsOf(await items("?bbox=-179,-17,179,-16"))).toEqual(["tape"]);
    expect(idsOf(await items("?bbox=-105.21,40.19,-105.2,40.21", "obstacles"))).toEqual(["walk"]);
  });

  it("a property keeps what has exactly its value, and bbox adds to it", async () => {
    expect(idsOf(await items("?layout=parallel"))).toEqual(["tape", "west-of-the-line"]);
    expect(idsOf(await items("?layout=parallel&bbox=-105.3,40,-105.1,41"))).toEqual(["tape"]);
    expect(idsOf(await items("?sites=2", "campgrounds"))).toEqual(["tern-point"].map(() => "tern-point"));
    expect(idsOf(await items("?shared=false&service=water", "hookups"))).toEqual(["tape:tap"]);
    expect((await items("?site=none")).numberMatched).toBe(0);
  });

  it("datetime is read and matches features without a time (fc-time-response)", async () => {
    for (const value of [
      "2026-07-04T12:00:00Z",
      "../2026-07-04T12:00:00%2B02:00",
      "2026-01-01T00:00:00Z/",
      "2026-01-01T00:00:00Z/2026-01-02T00:00:00.5Z",
    ]) {
      expect((await items(`?datetime=${value}`)).numberMatched).toBe(7);
    }
  });

  it.each([
    ["unknown=1", "unknown"],
    ["limit=0", "limit"],
    ["limit=ten", "limit"],
    ["bbox=1,2,3", "bbox"],
    ["bbox=1,2,3,x", "bbox"],
    ["bbox=1,2,3,0x7", "bbox"],
    ["bbox=1,3,3,2", "bbox"],
    ["bbox=-181,0,3,2", "bbox"],
    ["bbox=0,0,9,3,3,2", "bbox"],
    ["bbox=1,2,3,4&bbox=1,2,3,4", "bbox"],
    ["datetime=2026", "datetime"],
    ["datetime=2026-02-30T00:00:00Z", "datetime"],
    ["datetime=../..", "datetime"],
    ["datetime=2026-02-02T00:00:00Z/2026-02-01T00:00:00Z", "datetime"],
    ["layout=sideways", "layout"],
    ["padLengthLow=3", "padLengthLow"],
    ["f=xml", "f"],
  ])("?%s is refused (query-param-unknown, query-param-invalid)", async (query, parameter) => {
    const app = await testApp(SOURCES);
    const problem = await problemIn(await app.request(`${ITEMS}?${query}`), 400, "invalid-parameter");
    expect(problem.errors.map((error) => error.parameter)).toContain(parameter);
  });
});

describe("pages", () => {
  it("follow one another to the end, and back again, with the filter kept", async () => {
    const app = await testApp(SOURCES);
    const seen: string[][] = [];
    let address: string | undefined = `http://h.example${ITEMS}?limit=3&electricalSystem=120/240`;
    let last = "";
    while (address !== undefined) {
      last = address;
      const page = (await (await app.request(address)).json()) as Items;
      expect(page.numberMatched).toBe(5);
      expect(page.numberReturned).toBe(page.features.length);
      seen.push(idsOf(page));
      address = link(page, "next");
    }
    expect(seen).toEqual([
      ["3", "4/b", "50%25"],
      ["tape", "vague"],
    ]);
    const end = (await (await app.request(last)).json()) as Items;
    const back = (await (await app.request(link(end, "prev") ?? "")).json()) as Items;
    expect(idsOf(back)).toEqual(["3", "4/b", "50%25"]);
    expect(link(back, "prev")).toBeUndefined();
    const forth = (await (await app.request(link(back, "next") ?? "")).json()) as Items;
    expect(idsOf(forth)).toEqual(["tape", "vague"]);
  });

  it("lower a limit above the largest page to it (fc-limit-response)", async () => {
    const app = await testApp(SOURCES, { limits: { itemsPage: 2 } });
    const page = (await (await app.request(`${ITEMS}?limit=500`)).json()) as Items;
    expect(page.features).toHaveLength(2);
  });

  it("neither repeat nor lose a feature when records change between two pages", async () => {
    const { store: before } = await memoryStore(SOURCES);
    const [first, , ...others] = ALDER.features;
    const grown = { ...first, id: "0-new", properties: { ...first.properties, name: "New" } };
    const changed = { ...ALDER, features: [grown, first, ...others] };
    const { store: after } = await memoryStore([
      { name: "alder", input: changed },
      { name: "tern", input: TERN },
      { name: "a", input: { ...TERN, campground: { id: "aaa" } } },
    ]);
    let store = before;
    const moving = { list: () => store.list(), get: (id: string) => store.get(id), version: () => store.version() };
    const app = await testApp(SOURCES, { store: moving });
    const one = (await (await app.request(`${ITEMS}?limit=2`)).json()) as Items;
    expect(idsOf(one)).toEqual(["3", "4/b"]);
    store = after;
    const two = (await (await app.request(link(one, "next") ?? "")).json()) as Items;
    expect(idsOf(two)).toEqual(["50%25", "tape"]);
    const three = (await (await app.request(link(two, "next") ?? "")).json()) as Items;
    expect(idsOf(three)).toEqual(["vague", "east-of-the-line"]);
  });

  it("end early when a page would read too many records, and go on from there", async () => {
    const many = Array.from({ length: 7 }, (_, index) => ({
      name: `c${index}`,
      input: { ...TERN, campground: { id: `c${index}`, electricalSystem: index === 6 ? "rare" : "230" } },
    }));
    const app = await testApp(many, { limits: { campgroundsPerPage: 3, campgroundsCounted: 2 } });
    const seen: string[] = [];
    const sizes: number[] = [];
    let address: string | undefined = `${ITEMS}?electricalSystem=rare`;
    let last: Items | undefined;
    while (address !== undefined) {
      last = (await (await app.request(address)).json()) as Items;
      expect(last.numberMatched).toBeUndefined();
      sizes.push(last.features.length);
      seen.push(...last.features.map(({ id }) => id));
      address = link(last, "next");
    }
    expect(sizes).toEqual([0, 0, 2]);
    expect(seen).toEqual(["c6:east-of-the-line", "c6:west-of-the-line"]);
    const back = (await (await app.request(link(last as Items, "prev") ?? "")).json()) as Items;
    expect([back.features.length, link(back, "prev") === undefined]).toEqual([0, false]);
  });

  it("refuse a cursor of another question and one that was made by hand", async () => {
    const app = await testApp(SOURCES);
    const page = (await (await app.request(`${ITEMS}?limit=1`)).json()) as Items;
    const cursor = new URL(link(page, "next") ?? "").searchParams.get("cursor");
    for (const query of [`layout=parallel&cursor=${cursor}`, "cursor=abc", `cursor=${cursor?.slice(2)}`]) {
      await problemIn(await app.request(`${ITEMS}?${query}`), 400, "invalid-cursor");
    }
  });
});

describe("links and formats", () => {
  it("every answer has self and alternate, in the body and in the Link header (fc-links, f-links)", async () => {
    const app = await testApp(SOURCES);
    const response = await app.request(`http://h.example${ITEMS}?limit=2`);
    const page = (await response.json()) as Items;
    expect(response.headers.get("content-type")).toBe("application/geo+json");
    const rels = page.links.map(({ rel }) => rel);
    expect(rels).toEqual([
      "self",
      "alternate",
      "next",
      "collection",
      "http://www.opengis.net/def/rel/ogc/1.0/queryables",
    ]);
    for (const { rel, href, type } of page.links) {
      expect(response.headers.get("link")).toContain(`<${href}>; rel="${rel}"; type="${type}"`);
      expect((await app.request(href)).headers.get("content-type")).toBe(type);
    }
    const plain = await app.request(link(page, "alternate") ?? "");
    expect(((await plain.json()) as Items).features).toEqual(page.features);
  });

  it("one feature is the one of the list, at its own address, whatever its id holds", async () => {
    const app = await testApp(SOURCES);
    for (const collection of ["sites", "hookups", "obstacles", "campgrounds"]) {
      const { features } = await items("?limit=1000", collection);
      for (const feature of features) {
        const address = `/ogc/collections/${collection}/items/${encodeURIComponent(feature.id)}`;
        const { links, ...one } = (await (await app.request(address)).json()) as Record<string, unknown>;
        expect(one).toEqual(feature);
        expect((links as Link[]).map(({ rel }) => rel)).toEqual(["self", "alternate", "collection"]);
      }
    }
    await problemIn(await app.request(`${ITEMS}/alder%3Abend:none`), 404, "not-found");
    await problemIn(await app.request("/ogc/collections/pads/items"), 404, "not-found");
  });

  it("an unchanged page is a 304, and HEAD has the header alone", async () => {
    const app = await testApp(SOURCES);
    const etag = (await app.request(ITEMS)).headers.get("etag") ?? "";
    expect((await app.request(ITEMS, { headers: { "If-None-Match": etag } })).status).toBe(304);
    const head = await app.request(ITEMS, { method: "HEAD" });
    expect([head.status, await head.text()]).toEqual([200, ""]);
  });
});
