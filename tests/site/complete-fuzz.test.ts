import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readCampground } from "../../src/records/geojson.ts";
import { completeSite } from "../../src/site/complete.ts";

const RUNS = 400;

const length = fc.oneof(
  fc.double({ min: 0, max: 60, noNaN: true }),
  fc.constantFrom("12 ft", "3 m", "0 m", "55 ft 6 in"),
);
const span = fc.oneof(
  length,
  fc.tuple(fc.double({ min: 0, max: 5, noNaN: true }), fc.double({ min: 5, max: 30, noNaN: true })),
);
const longitude = fc.double({ min: 7, max: 7.0003, noNaN: true });
const latitude = fc.double({ min: 51, max: 51.0003, noNaN: true });
const position = fc.tuple(longitude, latitude);
const basis = fc.constantFrom("measured", "mapped", "gps", "described", "code", "assumed");
const name = fc.constantFrom(
  "rear-left",
  "rear-right",
  "exit-left",
  "exit-right",
  "power",
  "water",
  "oak",
  "wheel-stop",
);
const optional = { requiredKeys: [] as never[] };
const provenance = { basis, accuracy: length, accuracyShared: length, survey: fc.constantFrom("s1", "s2") };
const hookup = fc
  .tuple(
    fc.constantFrom("power", "water", "sewer", "fill", "cable"),
    fc.record(
      {
        at: fc.oneof(fc.record({ along: span, left: span, height: length }, optional), fc.record({ position })),
        place: fc.record(
          { side: fc.constantFrom("left", "driver", "passenger"), third: fc.constantFrom("rear", "behind", "front") },
          optional,
        ),
        observedAt: fc.constantFrom("2019-01-02", "2031-05-06"),
        receptacles: fc.array(fc.record({ type: fc.constantFrom("nema-14-50", "toString") }), { maxLength: 2 }),
        ...provenance,
      },
      optional,
    ),
  )
  .map(([service, rest]) => ({ service, ...rest }));
const corner = fc.record({ along: length, left: length });
const properties = fc.record(
  {
    layout: fc.constantFrom("back-in", "pull-through", "parallel"),
    heading: fc.double({ min: 0, max: 360, noNaN: true }),
    facings: fc.constantFrom(["in"], ["out"], ["out", "in"]),
    entry: fc.oneof(fc.record({ position }), fc.record({ bearing: fc.integer({ min: 0, max: 359 }) })),
    pad: fc.record(
      {
        length: span,
        width: span,
        origin: position,
        grade: fc.double({ min: -0.2, max: 0.2, noNaN: true }),
        ...provenance,
        place: fc.record(provenance, optional),
      },
      optional,
    ),
    services: fc.record({ power: fc.constantFrom("yes", "no"), sewer: fc.constant("yes") }, optional),
    hookups: fc.array(hookup, { maxLength: 4 }),
    obstacles: fc.array(
      fc.record({
        what: fc.constantFrom("tree", "road", "wall"),
        outline: fc.array(corner, { minLength: 3, maxLength: 7 }),
      }),
      { maxLength: 2 },
    ),
    measurements: fc.array(fc.record({ from: name, to: name, distance: length }), { maxLength: 8 }),
    stop: fc.record({ along: length, height: length }, optional),
    pattern: fc.constantFrom("p", "constructor"),
    mirror: fc.boolean(),
  },
  optional,
);
const west = 7.0001;
const geometry = fc.oneof(
  fc.constant(null),
  fc.record({ type: fc.constant("Point"), coordinates: position }),
  fc.double({ min: 1e-5, max: 2e-4, noNaN: true }).map((size) => ({
    type: "Polygon",
    coordinates: [
      [
        [west, 51],
        [west + size, 51],
        [west + size, 51.0001],
        [west, 51.00005],
        [west, 51],
      ],
    ],
  })),
);

/** Every number of an answer is finite, but for the top of an obstacle that nobody measured. */
function onlyFinite(value: unknown, key = ""): void {
  if (typeof value === "number") expect(Number.isFinite(value) || (key === "to" && value === Infinity)).toBe(true);
  if (typeof value !== "object" || value === null) return;
  for (const [name, below] of Object.entries(value)) onlyFinite(below, name);
}

describe("any record that the reader takes", () => {
  test("leaves a pad's length unknown where a tape across it is shorter than its width", () => {
    const { campground, features } = readCampground({
      type: "FeatureCollection",
      campground: { id: "c" },
      features: [
        {
          type: "Feature",
          id: "1",
          geometry: null,
          properties: {
            kind: "site",
            pad: { width: "12 ft" },
            hookups: [{ service: "power", place: { third: "rear" } }],
            measurements: [{ from: "exit-left", to: "rear-right", distance: "3 m" }],
          },
        },
      ],
    });
    const { pad } = completeSite(features[0]!, campground, features);
    expect(pad.length).toBeNull();
    expect(pad.width?.value).toBeCloseTo(3.6576);
  });

  test("is completed without a throw, and without a number that is none", () => {
    const site = fc.record({ geometry, properties });
    const code = fc.constantFrom("NEC-551.77", "IEC-60364-7-708", "none");
    fc.assert(
      fc.property(fc.array(site, { minLength: 1, maxLength: 3 }), code, properties, (sites, sitingCode, p) => {
        const { campground, features } = readCampground({
          type: "FeatureCollection",
          campground: { id: "invented", drivesOn: "right", sitingCode, patterns: { p } },
          features: [
            ...sites.map((one, index) => ({
              type: "Feature",
              id: index,
              geometry: one.geometry,
              properties: { kind: "site", ...one.properties },
            })),
            {
              type: "Feature",
              geometry: {
                type: "LineString",
                coordinates: [
                  [7, 51],
                  [7.0003, 51.0002],
                ],
              },
              properties: { kind: "road" },
            },
          ],
        });
        for (const feature of features) {
          if (feature.properties["kind"] !== "site") continue;
          const done = completeSite(feature, campground, features, { asOf: "2026-05-04" });
          onlyFinite(done);
          for (const { low, value, high } of done.hookups
            .flatMap(({ along, left }) => [along, left])
            .filter((one) => one !== null)) {
            expect(low <= value && value <= high).toBe(true);
          }
        }
      }),
      { numRuns: RUNS },
    );
  });
});
