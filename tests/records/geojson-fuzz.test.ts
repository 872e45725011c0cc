import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readCampground } from "../../src/records/geojson.ts";

const RUNS = 1000;

const VALID = {
  type: "FeatureCollection",
  campground: { id: "invented", drivesOn: "left", patterns: { p: { pad: { length: 14.5 } } } },
  features: [
    {
      type: "Feature",
      id: "A7",
      geometry: {
        type: "Polygon",
        coordinates: [
          [
            [7, 51],
            [7.0002, 51],
            [7.0002, 51.00005],
            [7, 51.00005],
            [7, 51],
          ],
        ],
      },
      properties: {
        kind: "site",
        layout: "back-in",
        heading: 90,
        pad: { length: "40 ft", width: [3, 4] },
        hookups: [
          {
            service: "power",
            at: { along: "3 ft", left: [1, "2 m"] },
            receptacles: [{ type: "nema-14-50", amps: 50 }],
          },
          { service: "water", at: { position: [7.0001, 51.0001], height: 0.6 }, basis: "gps", accuracy: 3 },
        ],
        obstacles: [{ what: "tree", at: { along: 4, left: 3 }, radius: 0.3, to: 9 }],
      },
    },
    {
      type: "Feature",
      geometry: {
        type: "LineString",
        coordinates: [
          [7, 51],
          [7.001, 51.001],
        ],
      },
      properties: { kind: "road", width: 5 },
    },
    { type: "Feature", geometry: { type: "Point", coordinates: [7, 51] }, properties: { kind: "dump" } },
  ],
};

/** Every refusal and warning has a path that is a JSON Pointer and says something; nothing is lost uncounted. */
function wellReported(input: unknown): void {
  const { report, features, document } = readCampground(input);
  for (const { path, code, message, expected } of report.refused) {
    expect(path === "" || path.startsWith("/")).toBe(true);
    expect(code).toMatch(/^[a-z0-9-]+$/);
    expect(message.length).toBeGreaterThan(0);
    expect(expected.length).toBeGreaterThan(0);
  }
  expect(report.accepted).toBe(features.length);
  if (report.features === null) {
    expect(report.refused.length).toBeGreaterThan(0);
    expect(document).toBeNull();
  } else {
    const untaken = new Set(report.refused.filter(({ code }) => code !== "pedestal-too-far").map(({ index }) => index));
    untaken.delete(null);
    expect(report.accepted + untaken.size).toBe(report.features);
  }
}

type Container = Record<string | number, unknown>;

function places(value: unknown, found: [Container, string | number][] = []): [Container, string | number][] {
  if (typeof value !== "object" || value === null) return found;
  for (const key of Object.keys(value)) {
    const container = value as Container;
    found.push([container, key]);
    places(container[key], found);
  }
  return found;
}

const junk = fc.oneof(
  fc.jsonValue(),
  fc.constantFrom<unknown>(
    Number.NaN,
    Number.POSITIVE_INFINITY,
    -0,
    1e308,
    5e-324,
    "12",
    "12 ft",
    true,
    null,
    undefined,
    [],
    {},
  ),
  fc.constantFrom<unknown>(() => 1, Symbol("s"), 10n, new Date(0), new Map(), { toString: 5 }, "\uD800", "\u202E"),
);

describe("any input", () => {
  test("arbitrary JSON and text never crash and always give a path", () => {
    fc.assert(fc.property(fc.oneof(fc.json(), fc.string(), fc.jsonValue(), fc.anything()), wellReported), {
      numRuns: RUNS,
    });
  });

  test("arbitrary features never crash", () => {
    const member = fc.record(
      {
        type: fc.constantFrom("Feature", "feature", 5),
        id: fc.oneof(fc.string(), fc.integer(), fc.jsonValue()),
        geometry: fc.oneof(
          fc.constant(null),
          fc.record({
            type: fc.constantFrom("Point", "Polygon", "MultiPolygon", "toString"),
            coordinates: fc.jsonValue(),
          }),
        ),
        properties: fc.oneof(
          fc.jsonValue(),
          fc.record({
            kind: fc.constantFrom("site", "road", "__proto__", "hasOwnProperty"),
            hookups: fc.jsonValue(),
            pad: fc.jsonValue(),
          }),
        ),
        bbox: fc.jsonValue(),
      },
      { requiredKeys: [] },
    );
    const input = fc.record({
      type: fc.constant("FeatureCollection"),
      campground: fc.jsonValue(),
      features: fc.array(member),
    });
    fc.assert(fc.property(input, wellReported), { numRuns: RUNS });
  });

  test("a valid campground with up to three values replaced or taken out never crashes", () => {
    const count = places(VALID).length;
    const change = fc.tuple(
      fc.nat({ max: count - 1 }),
      fc.oneof({ weight: 4, arbitrary: junk }, { weight: 1, arbitrary: fc.constant("remove") }),
    );
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 3 }), fc.boolean(), (changes, asText) => {
        const copy: unknown = structuredClone(VALID);
        const all = places(copy);
        for (const [at, value] of changes) {
          const [container, key] = all[at] as [Container, string | number];
          if (value === "remove") delete container[key];
          else container[key] = value;
        }
        let input: unknown = copy;
        try {
          if (asText) input = JSON.stringify(copy);
        } catch {
          // What cannot be written as JSON is handed over as an object.
        }
        wellReported(input);
      }),
      { numRuns: RUNS },
    );
  });

  test("text cut or changed at any place never crashes", () => {
    const text = JSON.stringify(VALID);
    const at = fc.nat({ max: text.length });
    fc.assert(
      fc.property(at, at, fc.string({ maxLength: 3 }), (from, to, between) => {
        wellReported(text.slice(0, Math.min(from, to)) + between + text.slice(Math.max(from, to)));
      }),
      { numRuns: RUNS },
    );
  });
});
