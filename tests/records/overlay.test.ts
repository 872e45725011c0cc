import { describe, expect, it } from "vitest";
import { overlaid } from "../../src/records/overlay.ts";
import type { Box } from "../../src/records/place.ts";
import type { CampgroundStore, CampgroundSummary, StoredCampground } from "../../src/records/store.ts";

const summary = (id: string, name: string, box: Box | null): CampgroundSummary => ({
  id,
  name,
  sites: 1,
  brokenSites: 0,
  box,
  version: name,
});

function store(version: string, list: readonly CampgroundSummary[], near?: readonly string[]): CampgroundStore {
  return {
    list: async () => list,
    ...(near === undefined ? {} : { meeting: async () => list.filter(({ id }) => near.includes(id)) }),
    get: async (id) => {
      const found = list.find((one) => one.id === id);
      return found === undefined ? null : ({ summary: found } as StoredCampground);
    },
    version: async () => version,
  };
}

const HERE: Box = [-106.3, 39.8, -106.1, 39.9];
const AREA = { box: [-106.2, 39.7, -106, 39.85] } as const;
const names = (list: readonly CampgroundSummary[] | undefined) => list?.map(({ name }) => name);

describe("a store over another", () => {
  const upper = store("7", [summary("heron", "upper heron", HERE), summary("wren", "upper wren", null)]);
  const lower = store(
    "c1",
    [
      summary("dipper", "lower dipper", HERE),
      summary("heron", "lower heron", HERE),
      summary("rail", "lower rail", null),
    ],
    ["dipper", "heron"],
  );

  it("is believed for what both have, and the lower one for the rest", async () => {
    const both = overlaid(upper, lower);
    expect(names(await both.list())).toEqual(["lower dipper", "upper heron", "lower rail", "upper wren"]);
    expect((await both.get("heron"))?.summary.name).toBe("upper heron");
    expect((await both.get("rail"))?.summary.name).toBe("lower rail");
    expect(await both.get("nobody")).toBeNull();
    expect(await both.version()).toBe("7.c1");
  });

  it("looks in an area by the upper record's place, also when the lower one lay elsewhere", async () => {
    expect(names(await overlaid(upper, lower).meeting?.(AREA))).toEqual(["lower dipper", "upper heron"]);
    const moved = store("8", [summary("heron", "moved heron", [10, 50, 11, 51])]);
    expect(names(await overlaid(moved, lower).meeting?.(AREA))).toEqual(["lower dipper"]);
    const across = store("9", [summary("tern", "upper tern", [179, -18, -179, -17])]);
    const strip = (west: number, east: number) =>
      overlaid(across, lower).meeting?.({ box: [west, -17.5, east, -17.4] });
    expect(names(await strip(-179.5, -179.4))).toContain("upper tern");
    expect(names(await strip(179.4, 179.5))).toContain("upper tern");
    expect(names(await strip(-178, 178))).not.toContain("upper tern");
    expect(names(await strip(178, -178))).toContain("upper tern");
  });

  it("has no index of areas when the lower one has none", () => {
    expect(overlaid(upper, store("c1", [])).meeting).toBeUndefined();
  });
});
