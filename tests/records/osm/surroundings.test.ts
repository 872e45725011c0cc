import { describe, expect, it } from "vitest";
import { codes, feature, features, node, relation, type TagList, taken, way, xml } from "./fixtures.ts";

/** A closed way of four nodes and an open one of two, about 10 m by 22 m. */
const square = [
  node(1, -103.2, 44.1),
  node(2, -103.199875, 44.1),
  node(3, -103.199875, 44.1002),
  node(4, -103.2, 44.1002),
];
const area = (tags: TagList) => taken(xml(...square, way(5, [1, 2, 3, 4, 1], tags)));
const line = (tags: TagList) => taken(xml(...square, way(5, [1, 2, 3], tags)));
const spot = (tags: TagList) => taken(xml(node(7, -103.2, 44.1, tags)));
const only = (result: ReturnType<typeof taken>) => {
  expect(result.collection.features).toHaveLength(1);
  return result.collection.features[0] as (typeof result.collection.features)[number];
};

describe("trees", () => {
  it("are a trunk in the way and a crown in the wind, of unknown height unless stated", () => {
    const result = spot({ natural: "tree", circumference: "1.57", diameter_crown: "7", leaf_cycle: "deciduous" });
    expect(feature(result, "node-7").properties).toMatchObject({ kind: "obstacle", what: "tree" });
    expect(feature(result, "node-7").properties["radius"]).toBeCloseTo(0.24987, 4);
    expect(feature(result, "node-7").properties["to"]).toBeUndefined();
    expect(feature(result, "node-7-crown").properties).toMatchObject({
      kind: "shelter",
      what: "trees",
      radius: 3.5,
      leaf: "deciduous",
    });
    expect(feature(result, "node-7-crown").properties["height"]).toBeUndefined();
    expect(feature(spot({ natural: "tree", height: "41 ft" }), "node-7").properties["to"]).toBeCloseTo(12.4968, 6);
  });

  it("stand in rows as lines; a wood is ground", () => {
    const row = line({ natural: "tree_row", height: "9" });
    expect(features(row, "shelter")[0]).toMatchObject({
      geometry: { type: "LineString" },
      properties: { what: "trees", height: 9 },
    });
    expect(features(row, "obstacle")).toHaveLength(1);
    expect(only(area({ natural: "wood" })).properties).toMatchObject({ kind: "ground", what: "wood" });
    expect(spot({ natural: "wood" }).collection.features).toHaveLength(0);
  });
});

describe("barriers and buildings", () => {
  it("are lines also when they close, unless they are areas", () => {
    expect(only(line({ barrier: "hedge", height: "1.8", width: "0.9" }))).toMatchObject({
      geometry: { type: "LineString" },
      properties: { kind: "shelter", what: "hedge", height: 1.8, width: 0.9 },
    });
    expect(only(area({ barrier: "wall" })).geometry?.type).toBe("LineString");
    expect(only(area({ barrier: "hedge", area: "yes" })).geometry?.type).toBe("Polygon");
    expect(only(line({ barrier: "fence" })).properties).toMatchObject({ kind: "shelter", what: "fence" });
  });

  it("give a height from storeys only as an estimate", () => {
    const { properties } = only(area({ building: "yes", "building:levels": "2" }));
    expect(properties).toMatchObject({ kind: "shelter", what: "building", height: 6 });
    expect((properties["osm"] as { remarks: string[] }).remarks.join(" ")).toContain("estimated");
    expect(only(area({ building: "yes", height: "7.25", "building:levels": "2" })).properties["height"]).toBe(7.25);
    expect(only(area({ building: "yes" })).properties["height"]).toBeUndefined();
  });

  it("may hang in the air, or lie beneath the ground", () => {
    expect(only(area({ "building:part": "yes", min_height: "3.2", height: "5.1" })).properties).toMatchObject({
      kind: "obstacle",
      what: "roof",
      from: 3.2,
      to: 5.1,
    });
    expect(area({ building: "yes", location: "underground" }).collection.features).toHaveLength(0);
    expect(line({ building: "yes" }).collection.features).toHaveLength(0);
  });
});

describe("roads and gates", () => {
  it("keep width, direction and clear height", () => {
    const road = only(line({ highway: "service", width: "3.4", oneway: "yes", maxheight: "12'6\"", incline: "6%" }));
    expect(road.properties).toMatchObject({ kind: "road", width: 3.4, oneWay: true, osm: { incline: 0.06 } });
    expect(road.properties["clearHeight"]).toBeCloseTo(3.81, 9);
    expect(road.geometry).toMatchObject({
      type: "LineString",
      coordinates: [[-103.2, 44.1], expect.anything(), [-103.199875, 44.1002]],
    });
  });

  it("turn with oneway=-1, line and incline alike", () => {
    const road = only(line({ highway: "track", oneway: "-1", incline: "6%" }));
    expect(road.properties).toMatchObject({ oneWay: true, osm: { incline: -0.06 } });
    expect(road.geometry).toMatchObject({ coordinates: [[-103.199875, 44.1002], expect.anything(), [-103.2, 44.1]] });
  });

  it("say nothing of width or height that is not there", () => {
    const road = only(line({ highway: "residential", maxheight: "default" }));
    expect(Object.keys(road.properties).sort()).toEqual(["accuracy", "basis", "kind", "osm"]);
    expect(area({ highway: "service", area: "yes" }).collection.features).toHaveLength(0);
  });

  it("know restrictors of height", () => {
    expect(only(spot({ barrier: "height_restrictor", maxheight: "2.9" })).properties).toMatchObject({
      kind: "gate",
      clearHeight: 2.9,
    });
    expect(only(line({ highway: "path" })).properties).toMatchObject({ kind: "obstacle", what: "walkway" });
  });
});

describe("services and things", () => {
  it("are dump, fill and what lies about", () => {
    expect(
      only(spot({ amenity: "sanitary_dump_station", opening_hours: "08:00-20:00", fee: "no" })).properties,
    ).toMatchObject({
      kind: "dump",
      hours: "08:00-20:00",
      fee: "no",
    });
    expect(only(spot({ amenity: "drinking_water" })).properties).toMatchObject({ kind: "fill", drinkable: "yes" });
    expect(only(spot({ amenity: "water_point" })).properties["drinkable"]).toBeUndefined();
    expect(only(spot({ man_made: "water_tap", drinking_water: "no" })).properties).toMatchObject({
      kind: "fill",
      drinkable: "no",
    });
    expect(only(spot({ leisure: "firepit" })).properties["what"]).toBe("fire-ring");
    expect(only(spot({ leisure: "picnic_table" })).properties["what"]).toBe("table");
    expect(only(area({ natural: "water" })).properties).toMatchObject({ kind: "ground", what: "water" });
  });

  it("leave out what is for boats", () => {
    const result = spot({ waterway: "sanitary_dump_station" });
    expect(result.collection.features).toHaveLength(0);
    expect(codes(result)).toContain("for-boats");
    expect(only(spot({ waterway: "sanitary_dump_station", amenity: "sanitary_dump_station" })).properties["kind"]).toBe(
      "dump",
    );
  });
});

describe("multipolygon relations", () => {
  // An outer ring of two ways that meet, one of them drawn the other way round, and a hole.
  const outer = [node(1, -103.2, 44.1), node(2, -103.197, 44.1), node(3, -103.197, 44.102), node(4, -103.2, 44.102)];
  const hole = [node(11, -103.199, 44.1005), node(12, -103.198, 44.1005), node(13, -103.198, 44.1012)];
  const ways = [way(31, [1, 2, 3]), way(32, [1, 4, 3]), way(33, [11, 12, 13, 11])];
  const members = [
    [31, "outer"],
    [32, "outer"],
    [33, "inner"],
  ] as const;

  it("are put together from their ways", () => {
    const result = taken(
      xml(...outer, ...hole, ...ways, relation(6, members, { type: "multipolygon", natural: "water" })),
    );
    const { geometry } = only(result);
    expect(geometry?.type).toBe("Polygon");
    const rings = (geometry as unknown as { coordinates: number[][][] }).coordinates;
    expect(rings.map((ring) => ring.length)).toEqual([5, 4]);
  });

  it("are left out when a way is missing or they do not close", () => {
    for (const some of [ways.slice(1), [way(31, [1, 2]), ...ways.slice(1)]]) {
      const result = taken(
        xml(...outer, ...hole, ...some, relation(6, members, { type: "multipolygon", natural: "water" })),
      );
      expect(result.collection.features).toHaveLength(0);
      expect(codes(result, "relation/6").length).toBeGreaterThan(0);
    }
  });
});

describe("the campground", () => {
  const wide = [node(1, -103.21, 44.09), node(2, -103.19, 44.09), node(3, -103.19, 44.11), node(4, -103.21, 44.11)];
  const tags = {
    tourism: "caravan_site",
    name: "Crooked Pine",
    power_supply: "yes",
    "power_supply:voltage": "230 V",
    "socket:cee_blue": "40",
  };
  const data = xml(
    ...wide,
    way(50, [1, 2, 3, 4, 1], tags),
    node(7, -103.2, 44.1, { tourism: "camp_pitch", ref: "7" }),
    node(8, -103.3, 44.1, { tourism: "camp_pitch", ref: "8" }),
  );

  it("gives its name and facts; what it has, no pitch has for that", () => {
    const { collection, report } = taken(data);
    expect(collection.campground).toMatchObject({ id: "osm-way-50", name: "Crooked Pine", electricalSystem: "230" });
    expect(collection.campground["osm"]).toMatchObject({ electrical: { power: "yes", volts: 230 } });
    expect(
      features({ ok: true, collection, report }, "site").every(
        ({ properties }) => properties["services"] === undefined,
      ),
    ).toBe(true);
    expect(codes({ ok: true, collection, report }, "node/8")).toContain("outside-campground");
  });

  it("takes the caller's id and name", () => {
    const { campground } = taken(data, { campgroundId: "mine", name: "Mine" }).collection;
    expect(campground).toMatchObject({ id: "mine", name: "Mine", licence: expect.stringContaining("ODbL") });
  });

  it("does not read 240 V as a system", () => {
    const { campground } = taken(data.replace("230 V", "240")).collection;
    expect(campground["electricalSystem"]).toBeUndefined();
  });

  it("imports what lies round one element alone", () => {
    const near = taken(data, { bboxOf: "node/8" });
    expect(features(near, "site").map(({ properties }) => properties["name"])).toEqual(["8"]);
    expect(near.report.beyondBox).toBe(2);
  });

  it("chooses none of several that hold no pitch, and none that is far from all", () => {
    const two = xml(
      node(1, -103.2, 44.1, { tourism: "camp_site", name: "East" }),
      node(2, -103.3, 44.1, { tourism: "camp_site", name: "West" }),
    );
    expect(taken(two).collection.campground).toMatchObject({ id: "osm-import" });
    const far = xml(
      node(1, -102.2, 44.1, { tourism: "camp_site", name: "East" }),
      node(2, -103.3, 44.1, { tourism: "camp_pitch" }),
    );
    expect(taken(far).collection.campground["name"]).toBeUndefined();
  });
});
