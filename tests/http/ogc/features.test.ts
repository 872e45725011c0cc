import geodesic from "geographiclib-geodesic";
import { describe, expect, it } from "vitest";
import { meetsBox } from "../../../src/http/ogc/meets-box.ts";
import type { WireGeometry } from "../../../src/site/feature.ts";
import { testApp } from "../helpers.ts";
import { ALDER, SOURCES } from "./records.ts";

interface Feature {
  readonly id: string;
  readonly geometry: { readonly type: string; readonly coordinates: never } | null;
  readonly properties: Readonly<Record<string, unknown>>;
}

async function all(collection: string): Promise<Map<string, Feature>> {
  const app = await testApp(SOURCES);
  const response = await app.request(`/ogc/collections/${collection}/items?limit=1000`);
  expect(response.status).toBe(200);
  const { features } = (await response.json()) as { features: Feature[] };
  return new Map(features.map((feature) => [feature.id, feature]));
}

/** Metres and degrees from a point on the earth to another, by an independent library. */
function inverse(from: readonly number[], to: readonly number[]) {
  const { s12, azi1 } = geodesic.Geodesic.WGS84.Inverse(from[1] ?? 0, from[0] ?? 0, to[1] ?? 0, to[0] ?? 0);
  return { metres: s12 ?? Number.NaN, bearing: ((azi1 ?? Number.NaN) + 360) % 360 };
}

describe("the sites", () => {
  it("carry columns from the record and the record itself, unknown members included", async () => {
    const sites = await all("sites");
    expect([...sites.keys()]).toEqual([
      "alder%3Abend:3",
      "alder%3Abend:4/b",
      "alder%3Abend:50%25",
      "alder%3Abend:tape",
      "alder%3Abend:vague",
      "tern-point:east-of-the-line",
      "tern-point:west-of-the-line",
    ]);
    const fifty = sites.get("alder%3Abend:50%25");
    expect(fifty?.properties).toMatchObject({
      campground: "alder:bend",
      site: "50%",
      layout: "pull-through",
      power: "no",
      sewer: "unknown",
      accessible: "yes",
      maxAmps: null,
      longestRig: 12,
      closed: "flood",
      record: ALDER.features[2].properties,
    });
    expect(fifty?.geometry).toEqual(ALDER.features[2].geometry);
    expect(sites.get("alder%3Abend:tape")?.geometry).toBeNull();
  });

  it("fill in what a pattern draws", async () => {
    const { properties } = (await all("sites")).get("alder%3Abend:3") as Feature;
    expect(properties).toMatchObject({
      padLengthLow: 13.7,
      padWidthHigh: 4,
      power: "yes",
      water: "yes",
      sewer: "no",
      receptacles: "nema-14-50 nema-tt-30",
      maxAmps: 50,
      heading: 100,
      grade: 0.03,
    });
  });
});

describe("the hookups", () => {
  it("stand on the earth where pad and place are on record, checked with a geodesic library", async () => {
    const hookups = await all("hookups");
    const origin = [-105.2, 40.1];
    const position = (hookups.get("alder%3Abend:3:post") as Feature).geometry?.coordinates as unknown as number[];
    // A grade of 3 % makes 3.1 m on the surface a little less on the level.
    const along = 3.1 / Math.hypot(1, 0.03);
    const { metres, bearing } = inverse(origin, position);
    expect(metres).toBeCloseTo(Math.hypot(along, 4.2), 3);
    expect(bearing).toBeCloseTo(100 - (Math.atan2(4.2, along) * 180) / Math.PI, 2);
    const mirrored = (hookups.get("alder%3Abend:4/b:post") as Feature).geometry?.coordinates as unknown as number[];
    const other = inverse([-105.2, 40.102], mirrored);
    expect(other.bearing).toBeCloseTo(100 + (Math.atan2(4.2, along) * 180) / Math.PI, 2);
  });

  it("have no geometry where the place is a region or the pad has none, and say the region", async () => {
    const hookups = await all("hookups");
    expect(hookups.get("alder%3Abend:tape:tap")).toMatchObject({
      geometry: null,
      properties: { alongLow: 2, alongHigh: 2, leftLow: -3, service: "water", accuracy: 0.05 },
    });
    const vague = hookups.get("alder%3Abend:vague:somewhere") as Feature;
    expect(vague.geometry).toBeNull();
    expect(vague.properties).toMatchObject({ basis: "described", accuracy: null, record: { place: { side: "left" } } });
    expect(vague.properties["alongLow"]).toBeLessThan(vague.properties["alongHigh"] as number);
    expect(vague.properties["leftLow"]).toBeGreaterThan(0);
  });
});

describe("the obstacles", () => {
  it("are those of the map and those of the pads", async () => {
    const obstacles = await all("obstacles");
    expect([...obstacles.keys()]).toEqual([
      "alder%3Abend:3:1",
      "alder%3Abend:4/b:1",
      "alder%3Abend:oak",
      "alder%3Abend:walk",
    ]);
    expect(obstacles.get("alder%3Abend:oak")?.properties).toMatchObject({
      site: null,
      what: "tree",
      radius: 0.4,
      to: 14,
    });
    const ring = (id: string) =>
      ((obstacles.get(id) as Feature).geometry?.coordinates as unknown as number[][][])?.[0] ?? [];
    const table = ring("alder%3Abend:3:1");
    expect(table).toHaveLength(4);
    expect(table[0]).toEqual(table.at(-1));
    const far = inverse([-105.2, 40.1], table.find((one) => inverse([-105.2, 40.1], one).metres > 10) ?? []);
    expect(far.metres).toBeCloseTo(Math.hypot(9 / Math.hypot(1, 0.03), 5.5), 3);
    // Counter-clockwise (RFC 7946 section 3.1.6), also when the drawing is a mirror image.
    for (const one of [table, ring("alder%3Abend:4/b:1")]) {
      const twice = one
        .slice(1)
        .reduce((sum, [x = 0, y = 0], at) => sum + (one[at]?.[0] ?? 0) * y - x * (one[at]?.[1] ?? 0), 0);
      expect(twice).toBeGreaterThan(0);
    }
  });
});

describe("the campgrounds", () => {
  it("are a point in the middle, also across the antimeridian", async () => {
    const campgrounds = await all("campgrounds");
    expect(campgrounds.get("alder%3Abend")?.properties).toMatchObject({
      sites: 5,
      electricalSystem: "120/240",
      elevation: 1512,
      record: ALDER.campground,
    });
    const middle = campgrounds.get("tern-point")?.geometry?.coordinates as unknown as number[];
    expect(middle[0]).toBeCloseTo(179.99995, 9);
  });
});

describe("a geometry and a box", () => {
  const ring = (west: number, south: number, east: number, north: number) => [
    [west, south],
    [east, south],
    [east, north],
    [west, north],
    [west, south],
  ];
  const cases: readonly [string, WireGeometry, readonly [number, number, number, number], boolean][] = [
    ["a point on the edge", { type: "Point", coordinates: [2, 1] }, [0, 0, 2, 3], true],
    ["a point beside", { type: "Point", coordinates: [2.001, 1] }, [0, 0, 2, 3], false],
    [
      "a line across without an end inside",
      {
        type: "LineString",
        coordinates: [
          [-1, 1],
          [3, 2],
        ],
      },
      [0, 0, 2, 3],
      true,
    ],
    [
      "a line past a corner",
      {
        type: "LineString",
        coordinates: [
          [-1, 2],
          [1.5, 4.6],
        ],
      },
      [0, 0, 2, 3],
      false,
    ],
    ["a box inside a polygon", { type: "Polygon", coordinates: [ring(-9, -9, 9, 9)] }, [0, 0, 2, 3], true],
    [
      "a box in a hole",
      { type: "Polygon", coordinates: [ring(-9, -9, 9, 9), ring(-1, -1, 4, 5)] },
      [0, 0, 2, 3],
      false,
    ],
    ["a polygon inside the box", { type: "Polygon", coordinates: [ring(0.5, 0.5, 1, 1)] }, [0, 0, 2, 3], true],
    ["both sides of the antimeridian", { type: "Point", coordinates: [-179, 1] }, [178, 0, -178, 3], true],
    ["the rest of the world", { type: "Point", coordinates: [0, 1] }, [178, 0, -178, 3], false],
    [
      "a multi-polygon",
      { type: "MultiPolygon", coordinates: [[ring(8, 8, 9, 9)], [ring(1, 2, 5, 5)]] },
      [0, 0, 2, 3],
      true,
    ],
    [
      "a standing line",
      {
        type: "LineString",
        coordinates: [
          [1, -4],
          [1, 9],
        ],
      },
      [0, 0, 2, 3],
      true,
    ],
  ];
  it.each(cases)("%s", (_, geometry, box, expected) => {
    expect(meetsBox(geometry, box)).toBe(expected);
  });
});
