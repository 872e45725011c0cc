/**
 * The campground reader against RFC 7946 (The GeoJSON Format, IETF, August 2016).
 *
 * Section numbers are from memory; the wording of section 7.1 was read second-hand, in a public quotation of it. The
 * RFC's own examples are from memory. The bad inputs are a list of our own, each tried also on geojson-validation 1.0.2:
 * its answer, as measured when the list was made, stands beside ours, so that a change of that package is seen.
 */
import secondOpinion from "geojson-validation";
import { describe, expect, test } from "vitest";
import { readCampground } from "../../src/records/geojson.ts";

type Want = "taken" | "repaired" | "refused" | "warned";

const ring = [
  [10, 50],
  [10.002, 50],
  [10.002, 50.001],
  [10, 50.001],
  [10, 50],
];
const hole = [
  [10.0005, 50.0002],
  [10.0005, 50.0006],
  [10.0011, 50.0006],
  [10.0011, 50.0002],
  [10.0005, 50.0002],
];
const polygon = (...rings: unknown[]) => ({ type: "Polygon", coordinates: rings });
const point = (...numbers: unknown[]) => ({ type: "Point", coordinates: numbers });
const feature = (geometry: unknown, more: object = {}) => ({ type: "Feature", properties: {}, geometry, ...more });
const collection = (features: unknown[], more: object = {}) => ({
  type: "FeatureCollection",
  campground: { id: "invented" },
  features,
  ...more,
});

function nested(depth: number): unknown {
  let inner: unknown = point(10, 50);
  for (let level = 0; level < depth; level += 1) inner = { type: "GeometryCollection", geometries: [inner] };
  return inner;
}

function brackets(depth: number): unknown {
  let inner: unknown = 1;
  for (let level = 0; level < depth; level += 1) inner = [inner];
  return inner;
}

function outcome(input: unknown): { want: Want; codes: string[]; paths: string[]; warnings: string[] } {
  const { report, features } = readCampground(input);
  const warnings = report.warnings.filter((warning) => !warning.path.endsWith("/kind")).map((warning) => warning.code);
  const want: Want =
    report.refused.length > 0 || features.length === 0
      ? "refused"
      : warnings.includes("repaired")
        ? "repaired"
        : warnings.length > 0
          ? "warned"
          : "taken";
  return {
    want,
    codes: report.refused.map((refusal) => refusal.code),
    paths: report.refused.map((refusal) => refusal.path),
    warnings,
  };
}

interface Row {
  readonly row: number;
  readonly what: string;
  readonly input: unknown;
  readonly want: Want;
  readonly code?: string;
  /** What geojson-validation 1.0.2 said of the feature when measured: A accepts, R refuses, T throws. */
  readonly other?: "A" | "R" | "T";
}

const one = (geometry: unknown, more: object = {}) => collection([feature(geometry, more)]);

const ROWS: readonly Row[] = [
  { row: 1, what: "control polygon", input: one(polygon(ring, hole)), want: "taken", other: "A" },
  { row: 2, what: "exterior clockwise", input: one(polygon([...ring].reverse())), want: "repaired", other: "A" },
  {
    row: 3,
    what: "hole counter-clockwise",
    input: one(polygon(ring, [...hole].reverse())),
    want: "repaired",
    other: "A",
  },
  {
    row: 4,
    what: "unclosed ring",
    input: one(polygon(ring.slice(0, 4))),
    want: "refused",
    code: "unclosed-ring",
    other: "R",
  },
  {
    row: 5,
    what: "ring of 3 positions",
    input: one(polygon([ring[0], ring[1], ring[0]])),
    want: "refused",
    code: "short-ring",
    other: "R",
  },
  { row: 6, what: "longitude 200", input: one(point(200, 10)), want: "refused", code: "out-of-range", other: "A" },
  {
    row: 7,
    what: "latitude -105 (axes swapped)",
    input: one(point(40, -105)),
    want: "refused",
    code: "swapped-axes",
    other: "A",
  },
  { row: 8, what: "3D point", input: one(point(10, 50, 1600)), want: "taken", other: "A" },
  { row: 9, what: "position of 4 elements", input: one(point(10, 50, 1600, 7)), want: "warned", other: "A" },
  { row: 10, what: "NaN", input: one(point(Number.NaN, 50)), want: "refused", code: "not-json", other: "A" },
  {
    row: 11,
    what: "Infinity",
    input: one(point(10, Number.POSITIVE_INFINITY)),
    want: "refused",
    code: "not-json",
    other: "A",
  },
  { row: 12, what: "text as coordinate", input: one(point("0", 50)), want: "refused", code: "wrong-type", other: "R" },
  {
    row: 13,
    what: "bow-tie",
    input: one(
      polygon([
        [0, 0],
        [0.002, 0.002],
        [0.002, 0],
        [0, 0.003],
        [0, 0],
      ]),
    ),
    want: "refused",
    code: "self-crossing",
    other: "A",
  },
  {
    row: 14,
    what: "hole outside its shell",
    input: one(
      polygon(
        ring,
        hole.map(([lon = 0, lat = 0]) => [lon + 1, lat]),
      ),
    ),
    want: "refused",
    code: "hole-outside",
    other: "A",
  },
  {
    row: 15,
    what: "ring without area",
    input: one(
      polygon([
        [0, 0],
        [1, 1],
        [2, 2],
        [0, 0],
      ]),
    ),
    want: "refused",
    code: "no-area",
    other: "A",
  },
  { row: 16, what: "GeometryCollection 3,000 deep", input: one(nested(3000)), want: "refused", code: "too-deep" },
  {
    row: 17,
    what: "coordinates 5,000 deep",
    input: one({ type: "Polygon", coordinates: brackets(5000) }),
    want: "refused",
    code: "too-deep",
  },
  {
    row: 18,
    what: "own __proto__ in properties",
    input: JSON.stringify(one(point(10, 50))).replace('"properties":{}', '"properties":{"__proto__":{"admin":true}}'),
    want: "warned",
  },
  {
    row: 19,
    what: 'geometry type "constructor"',
    input: one({ type: "constructor", coordinates: [10, 50] }),
    want: "refused",
    code: "unknown-geometry-type",
    other: "A",
  },
  {
    row: 20,
    what: 'type "featurecollection"',
    input: { ...collection([feature(point(10, 50))]), type: "featurecollection" },
    want: "refused",
    code: "wrong-type",
  },
  {
    row: 21,
    what: 'type "point"',
    input: one({ type: "point", coordinates: [10, 50] }),
    want: "refused",
    code: "unknown-geometry-type",
    other: "R",
  },
  {
    row: 22,
    what: "polygon not cut at the antimeridian",
    input: one(
      polygon([
        [179.999, 1],
        [-179.999, 1],
        [-179.999, 1.001],
        [179.999, 1.001],
        [179.999, 1],
      ]),
    ),
    want: "refused",
    code: "uncut-antimeridian",
    other: "A",
  },
  {
    row: 23,
    what: "collection in a collection",
    input: one(nested(2)),
    want: "refused",
    code: "nested-collection",
    other: "A",
  },
  {
    row: 24,
    what: "duplicate consecutive vertices",
    input: one(polygon([ring[0], ...ring, ring[0]])),
    want: "repaired",
    other: "A",
  },
  {
    row: 25,
    what: "duplicate feature ids",
    input: collection([feature(point(10, 50), { id: "A1" }), feature(point(10, 50.0001), { id: "A1" })]),
    want: "refused",
    code: "duplicate-id",
  },
  {
    row: 26,
    what: "no properties member",
    input: collection([{ type: "Feature", geometry: point(10, 50) }]),
    want: "refused",
    code: "wrong-type",
    other: "R",
  },
  {
    row: 27,
    what: "no geometry member",
    input: collection([{ type: "Feature", properties: {} }]),
    want: "refused",
    code: "missing",
    other: "R",
  },
  { row: 28, what: "geometry null", input: one(null), want: "taken", other: "A" },
  {
    row: 29,
    what: "properties an array",
    input: one(point(10, 50), { properties: [] }),
    want: "refused",
    code: "wrong-type",
    other: "A",
  },
  {
    row: 30,
    what: "id an object",
    input: one(point(10, 50), { id: {} }),
    want: "refused",
    code: "wrong-type",
    other: "A",
  },
  {
    row: 31,
    what: "bbox of 5 numbers",
    input: one(point(10, 50), { bbox: [9, 49, 11, 51, 0] }),
    want: "refused",
    code: "bad-bbox",
    other: "R",
  },
  {
    row: 32,
    what: "bbox south over north",
    input: one(point(10, 50), { bbox: [9, 51, 11, 49] }),
    want: "refused",
    code: "bad-bbox",
    other: "A",
  },
  {
    row: 33,
    what: "bbox west over east",
    input: one(point(179, 50), { bbox: [170, 49, -170, 51] }),
    want: "taken",
    other: "A",
  },
  {
    row: 34,
    what: "bbox of texts",
    input: one(point(10, 50), { bbox: ["9", "49", "11", "51"] }),
    want: "refused",
    code: "bad-bbox",
    other: "A",
  },
  {
    row: 35,
    what: "feature with coordinates (7.1)",
    input: one(point(10, 50), { coordinates: [10, 50] }),
    want: "refused",
    code: "member-of-another-type",
    other: "A",
  },
  {
    row: 36,
    what: "geometry with properties (7.1)",
    input: one({ ...point(10, 50), properties: {} }),
    want: "refused",
    code: "member-of-another-type",
    other: "A",
  },
  {
    row: 37,
    what: "crs EPSG:3857 with metres",
    input: collection([feature(point(1_113_194.9, 6_446_275.8))], {
      crs: { type: "name", properties: { name: "EPSG:3857" } },
    }),
    want: "refused",
    code: "other-reference-system",
  },
  {
    row: 38,
    what: "line of 1 position",
    input: one({ type: "LineString", coordinates: [[10, 50]] }),
    want: "refused",
    code: "short-line",
    other: "R",
  },
  { row: 39, what: "empty point", input: one(point()), want: "refused", code: "short-position", other: "R" },
  {
    row: 40,
    what: "empty polygon (ours: read as null, section 3.1)",
    input: one(polygon()),
    want: "repaired",
    other: "A",
  },
  { row: 41, what: "null among the features", input: collection([null]), want: "refused", code: "wrong-type" },
  {
    row: 42,
    what: "a geometry among the features",
    input: collection([point(10, 50)]),
    want: "refused",
    code: "wrong-type",
  },
  { row: 43, what: "5 among the features", input: collection([5]), want: "refused", code: "wrong-type" },
  {
    row: 45,
    what: "duplicate JSON key",
    input: JSON.stringify(one(point(10, 50))).replace('"properties":{}', '"properties":{"a":1,"\\u0061":2}'),
    want: "refused",
    code: "duplicate-key",
  },
  {
    row: 46,
    what: "1e999",
    input: JSON.stringify(one(point(10, 50))).replace("[10,50]", "[1e999,50]"),
    want: "refused",
    code: "number-out-of-range",
  },
  { row: 47, what: "byte order mark", input: `\uFEFF${JSON.stringify(one(point(10, 50)))}`, want: "taken" },
];

describe("bad inputs", () => {
  test.each(ROWS)("$row: $what is $want", ({ input, want, code }) => {
    const seen = outcome(input);
    expect(seen.want).toBe(want);
    if (code !== undefined) expect(seen.codes).toContain(code);
    if (want === "refused") expect(seen.paths.every((path) => path === "" || path.startsWith("/"))).toBe(true);
  });

  test("no input changed the prototype of objects", () => {
    expect(({} as Record<string, unknown>)["admin"]).toBeUndefined();
    const taken = readCampground(ROWS.find(({ row }) => row === 18)?.input).features[0];
    expect(Object.getOwnPropertyNames(taken?.properties)).toEqual([]);
  });

  test.each(ROWS.filter(({ other }) => other !== undefined))(
    "$row: geojson-validation 1.0.2 says $other of it",
    ({ input, other }) => {
      const first = (input as { features: unknown[] }).features[0];
      const complaints = secondOpinion.isFeature(first, true) ?? [];
      expect(complaints.length > 0 ? "R" : "A").toBe(other);
    },
  );

  test("whatever geojson-validation refuses, we refuse", () => {
    const refusedThere = ROWS.filter(({ other }) => other === "R");
    expect(refusedThere.length).toBeGreaterThan(8);
    expect(refusedThere.every(({ want }) => want === "refused")).toBe(true);
  });
});

describe("the RFC's own examples (from memory)", () => {
  const examples: [string, unknown][] = [
    ["A.1 point", point(100, 0)],
    [
      "A.2 line",
      {
        type: "LineString",
        coordinates: [
          [100, 0],
          [101, 1],
        ],
      },
    ],
    [
      "A.3 polygon",
      polygon([
        [100, 0],
        [101, 0],
        [101, 1],
        [100, 1],
        [100, 0],
      ]),
    ],
    [
      "A.3 polygon with a hole",
      polygon(
        [
          [100, 0],
          [101, 0],
          [101, 1],
          [100, 1],
          [100, 0],
        ],
        [
          [100.8, 0.8],
          [100.8, 0.2],
          [100.2, 0.2],
          [100.2, 0.8],
          [100.8, 0.8],
        ],
      ),
    ],
    [
      "A.4 points",
      {
        type: "MultiPoint",
        coordinates: [
          [100, 0],
          [101, 1],
        ],
      },
    ],
    [
      "A.5 lines",
      {
        type: "MultiLineString",
        coordinates: [
          [
            [100, 0],
            [101, 1],
          ],
          [
            [102, 2],
            [103, 3],
          ],
        ],
      },
    ],
    [
      "A.7 collection",
      {
        type: "GeometryCollection",
        geometries: [
          point(100, 0),
          {
            type: "LineString",
            coordinates: [
              [101, 0],
              [102, 1],
            ],
          },
        ],
      },
    ],
    [
      "3.1.9 polygon cut at the antimeridian",
      {
        type: "MultiPolygon",
        coordinates: [
          [
            [
              [180, 40],
              [180, 50],
              [170, 50],
              [170, 40],
              [180, 40],
            ],
          ],
          [
            [
              [-170, 40],
              [-170, 50],
              [-180, 50],
              [-180, 40],
              [-170, 40],
            ],
          ],
        ],
      },
    ],
  ];

  test.each(examples)("%s is taken as it stands", (_, geometry) => {
    const { features, report } = readCampground(one(geometry));
    expect(report.refused).toEqual([]);
    expect(features[0]?.geometry).toEqual(geometry);
  });

  test("5.2: a bounding box over the antimeridian (west 177, east -178) is taken", () => {
    expect(outcome(one(point(179, -18), { bbox: [177, -20, -178, -16] })).want).toBe("taken");
  });
});
