import { describe, expect, it } from "vitest";
import { memoryStore, siteOf } from "../../src/records/store.ts";

const site = (id: string, more: Record<string, unknown> = {}) => ({
  type: "Feature",
  id,
  geometry: null,
  properties: { kind: "site", name: id, ...more },
});
const camp = (id: string, features: unknown[]) => ({
  type: "FeatureCollection",
  campground: { id, name: `${id} (invented)` },
  features,
});

describe("the store in memory", () => {
  it("lists campgrounds by id with what can be fitted and what was refused", async () => {
    const road = { type: "Feature", geometry: null, properties: { kind: "road" } };
    const far = site("A3", { hookups: [{ service: "power", at: { along: 900, left: 2 } }] });
    const { store, refused } = await memoryStore([
      { name: "z", input: JSON.stringify(camp("zeta", [site("Z1")])) },
      { name: "a", input: camp("alpha", [site("A1"), site("A2", { heading: "north" }), far, road]) },
      { name: "again", input: camp("zeta", []) },
      { name: "text", input: "{}" },
      { name: "nameless", input: { type: "FeatureCollection", features: [] } },
    ]);
    expect((await store.list()).map(({ id, sites, brokenSites }) => [id, sites, brokenSites])).toEqual([
      ["alpha", 2, 1],
      ["zeta", 1, 0],
    ]);
    expect(refused.map(({ name }) => name)).toEqual(["again", "text", "nameless"]);
    const stored = await store.get("alpha");
    expect(stored?.brokenSites.map(({ id }) => id)).toEqual(["A2"]);
    expect(stored?.brokenSites[0]?.faults[0]?.path).toBe("/features/1/properties/heading");
    expect(stored === null ? null : siteOf(stored, "A1")?.id).toBe("A1");
    expect(stored === null ? null : siteOf(stored, "A2")).toBeNull();
    expect(await store.get("beta")).toBeNull();
  });

  it("changes its version with any record and with nothing else", async () => {
    const version = async (...sources: unknown[]) =>
      (await memoryStore(sources.map((input) => ({ name: "x", input })))).store.version();
    const one = await version(camp("a", [site("1")]), camp("b", []));
    expect(await version(camp("b", []), camp("a", [site("1")]))).toBe(one);
    expect(await version(camp("a", [site("2")]), camp("b", []))).not.toBe(one);
    expect(await version(camp("a", [site("1")]))).not.toBe(one);
  });
});
