import { describe, expect, it } from "vitest";
import { codes, feature, features, node, type TagList, taken, way, xml } from "./fixtures.ts";

const PITCH = { tourism: "camp_pitch", ref: "9", "socket:nema_tt_30": "1", note: 'by the "old" oak; 5 < 6 & dry' };
const HEDGE = { barrier: "hedge", height: "1.4" };
const HOUSE = { building: "toilets", height: "3.1" };
const AT = [-103.2, 44.1] as const;
const LINE = [
  [-103.201, 44.1],
  [-103.2, 44.1007],
] as const;
const RING = [
  [-103.205, 44.101],
  [-103.2048, 44.101],
  [-103.2048, 44.1013],
  [-103.205, 44.101],
] as const;

const asXml = xml(
  node(1, AT[0], AT[1], PITCH),
  ...[...LINE, ...RING.slice(0, 3)].map(([lon, lat], index) => node(index + 2, lon, lat)),
  way(20, [2, 3], HEDGE),
  way(21, [4, 5, 6, 4], HOUSE),
);

const feat = (id: object, geometry: object, properties: object) => ({ type: "Feature", ...id, geometry, properties });
const shapes = [
  { type: "Point", coordinates: AT },
  { type: "LineString", coordinates: LINE },
  { type: "Polygon", coordinates: [RING] },
];
const all: readonly (readonly [string, TagList])[] = [
  ["node/1", PITCH],
  ["way/20", HEDGE],
  ["way/21", HOUSE],
];
const collection = (features: readonly object[], more: object = {}) => ({
  type: "FeatureCollection",
  ...more,
  features,
});

const flat = collection(all.map(([id, tags], index) => feat({ id }, shapes[index] as object, tags)));
const nested = collection(
  all.map(([id, tags], index) => feat({}, shapes[index] as object, { "@id": id, tags, meta: {}, relations: [] })),
);
const hstore = (tags: TagList) =>
  Object.entries(tags)
    .map(([key, value]) => `"${key}"=>"${value.replace(/(["\\])/g, "\\$1")}"`)
    .join(",");
const gdal = collection(
  all.map(([id, { ref, height, ...rest }], index) => {
    const number = id.split("/")[1];
    const own = index === 2 ? { osm_id: null, osm_way_id: number } : { osm_id: number };
    return feat({}, shapes[index] as object, {
      ...own,
      ref: ref ?? null,
      height: height ?? null,
      surface: null,
      other_tags: hstore(rest as TagList),
    });
  }),
  { name: "points", crs: { type: "name", properties: { name: "urn:ogc:def:crs:OGC:1.3:CRS84" } } },
);
const overpass = {
  version: 0.6,
  osm3s: { timestamp_osm_base: "2026-05-04T10:00:00Z" },
  elements: [
    { type: "node", id: 1, lon: AT[0], lat: AT[1], tags: PITCH },
    { type: "way", id: 20, geometry: LINE.map(([lon, lat]) => ({ lat, lon })), tags: HEDGE },
    { type: "way", id: 21, nodes: [4, 5, 6, 4], tags: HOUSE },
    ...RING.slice(0, 3).map(([lon, lat], index) => ({ type: "node", id: index + 4, lon, lat })),
  ],
};

describe("the same data in every form", () => {
  const expected = taken(asXml).collection.features;

  it("has content to compare", () => {
    expect(expected.map(({ id }) => id)).toEqual(["node-1", "way-20", "way-21"]);
    expect((feature(taken(asXml), "node-1").properties["osm"] as { tags: TagList }).tags["note"]).toBe(PITCH.note);
  });

  it.each([
    ["GeoJSON with plain tags", flat],
    ["GeoJSON with a member tags", nested],
    ["GeoJSON with other_tags and null columns", gdal],
    ["Overpass JSON", overpass],
  ])("%s, as text and as object", (_, form) => {
    expect(taken(form).collection.features).toEqual(expected);
    expect(taken(JSON.stringify(form)).collection.features).toEqual(expected);
  });

  it("does not change what it is given", () => {
    const before = JSON.stringify(gdal);
    taken(gdal);
    expect(JSON.stringify(gdal)).toBe(before);
  });
});

describe("Overpass JSON", () => {
  it("takes a middle for a pitch whose outline was not delivered, and claims no outline", () => {
    const result = taken({
      elements: [
        {
          type: "way",
          id: 3,
          center: { lat: 44.1, lon: -103.2 },
          nodes: [1, 2, 3, 1],
          tags: { tourism: "camp_pitch" },
        },
      ],
    });
    const { properties, geometry } = feature(result, "way-3");
    expect(geometry).toEqual({ type: "Point", coordinates: [-103.2, 44.1] });
    expect((properties["osm"] as Record<string, unknown>)["outline"]).toBeUndefined();
    expect(codes(result, "way/3")).toEqual(["incomplete-geometry"]);
  });

  it("tells of an answer that was cut off", () => {
    expect(codes(taken({ elements: [], remark: "runtime error: timeout" }))).toContain("truncated-data");
  });

  it("puts relations together from places of their members", () => {
    const draw = (pairs: readonly (readonly number[])[]) => pairs.map(([lon, lat]) => ({ lon, lat }));
    const members = [
      { type: "way", ref: 1, role: "outer", geometry: draw([...RING.slice(0, 2)]) },
      { type: "way", ref: 2, role: "outer", geometry: draw([...RING.slice(1)]) },
    ];
    const result = taken({
      elements: [{ type: "relation", id: 8, members, tags: { type: "multipolygon", building: "yes" } }],
    });
    expect(features(result, "shelter")[0]?.geometry?.type).toBe("Polygon");
  });
});

describe("GeoJSON", () => {
  it("names features without a reference by their place in the list, and claims no licence", () => {
    const result = taken(collection([feat({ id: "odd/1" }, shapes[0] as object, { tourism: "camp_pitch" })]));
    expect(result.collection.features[0]?.id).toBe("feature-1");
    expect(result.collection.campground["licence"]).toBeUndefined();
    expect(codes(result)).toContain("no-licence");
  });

  it("leaves heights of positions out and refuses another reference system", () => {
    const high = collection([
      feat({}, { type: "Point", coordinates: [-103.2, 44.1, 2578.9] }, { tourism: "camp_pitch" }),
    ]);
    expect(taken(high).collection.features[0]?.geometry).toEqual({ type: "Point", coordinates: [-103.2, 44.1] });
  });
});
