import { describe, expect, test } from "vitest";
import { CAMPGROUND_LIMITS, readCampground } from "../../src/records/geojson.ts";

/** An invented back-in site near nowhere in particular. */
function site(id: string, more: object = {}, shift = 0) {
  const west = -105.3 + shift;
  return {
    type: "Feature",
    id,
    geometry: {
      type: "Polygon",
      coordinates: [
        [
          [west, 40.2],
          [west + 0.00005, 40.2],
          [west + 0.00005, 40.20014],
          [west, 40.20014],
          [west, 40.2],
        ],
      ],
    },
    properties: {
      kind: "site",
      name: id,
      layout: "back-in",
      heading: 180,
      pad: { length: "50 ft", width: "14 ft" },
      hookups: [{ service: "power", at: { along: "6 ft", left: "9 ft", height: 1 } }],
      ...more,
    },
  };
}
const campground = (features: unknown[], member: object = { id: "invented-creek", drivesOn: "right" }) => ({
  type: "FeatureCollection",
  campground: member,
  features,
});

describe("reading a campground", () => {
  test("unknown members are kept, missing is missing, quantities stay as they were written", () => {
    const {
      features,
      report,
      document,
      campground: read,
    } = readCampground(
      JSON.stringify({ ...campground([{ ...site("7", { colour: { of: "door" } }), mood: 3 }]), weather: "fine" }),
    );
    expect(report).toEqual({ accepted: 1, features: 1, refused: [], warnings: [] });
    expect(features[0]?.properties["colour"]).toEqual({ of: "door" });
    expect(features[0]?.properties["pad"]).toEqual({ length: "50 ft", width: "14 ft" });
    expect(features[0]).toHaveProperty("mood", 3);
    expect(features[0]?.properties).not.toHaveProperty("services");
    expect(document).toHaveProperty("weather", "fine");
    expect(read).toEqual({ id: "invented-creek", drivesOn: "right" });
  });

  test("one bad feature is refused with index, id, path and what is expected; the rest loads", () => {
    const { features, report } = readCampground(
      campground([
        site("1"),
        site("2", { hookups: [{ service: "power", at: { along: "7 fx", left: 2 } }] }),
        site("3"),
      ]),
    );
    expect(features.map(({ id }) => id)).toEqual(["1", "3"]);
    expect(report.accepted).toBe(2);
    expect(report.refused).toHaveLength(1);
    expect(report.refused[0]).toMatchObject({
      index: 1,
      id: "2",
      path: "/features/1/properties/hookups/0/at/along",
      code: "unknown-unit",
    });
    expect(report.refused[0]?.expected).toContain("length");
  });

  test("all faults of a feature are told at once", () => {
    const { report } = readCampground(
      campground([site("9", { layout: "drive-up", heading: 900, pad: { length: "50" } })]),
    );
    expect(report.refused.map(({ path }) => path).sort()).toEqual([
      "/features/0/properties/heading",
      "/features/0/properties/layout",
      "/features/0/properties/pad/length",
    ]);
    expect(report.refused.find(({ path }) => path.endsWith("layout"))?.expected).toContain("pull-through");
  });

  test("a hookup more than 60 m from its pad is left out and the site kept", () => {
    const near = { service: "water", at: { along: 3, left: -4 } };
    const far = { service: "power", at: { position: [-105.3, 40.2095] } };
    const farToo = { service: "sewer", at: { along: -61, left: 0 } };
    const { features, report } = readCampground(campground([site("4", { hookups: [far, near, farToo] })]));
    expect(features[0]?.properties["hookups"]).toEqual([near]);
    expect(report.accepted).toBe(1);
    expect(report.refused.map(({ code, path }) => [code, path])).toEqual([
      ["pedestal-too-far", "/features/0/properties/hookups/0"],
      ["pedestal-too-far", "/features/0/properties/hookups/2"],
    ]);
  });

  test("59 m is near enough", () => {
    const { report } = readCampground(
      campground([site("4", { hookups: [{ service: "power", at: { along: -59, left: 0 } }] })]),
    );
    expect(report.refused).toEqual([]);
  });

  test("a bad member of the campground is refused and left out, the others stand", () => {
    const {
      campground: read,
      report,
      features,
    } = readCampground(campground([site("1")], { id: "c", drivesOn: "middle", sitingCode: "NEC-551.77" }));
    expect(read).toEqual({ id: "c", sitingCode: "NEC-551.77" });
    expect(report.refused[0]).toMatchObject({ index: null, path: "/campground/drivesOn" });
    expect(features).toHaveLength(1);
  });

  test("a feature of an unknown kind is kept with a warning", () => {
    const bench = { ...site("b"), properties: { kind: "bench", colour: "red" } };
    const { features, report } = readCampground(campground([bench]));
    expect(features[0]?.properties).toEqual({ kind: "bench", colour: "red" });
    expect(report.warnings[0]).toMatchObject({ code: "ignored", path: "/features/0/properties/kind" });
  });

  test("a stray feature is asked about", () => {
    const swapped = { ...site("3"), geometry: { type: "Point", coordinates: [40.2, -75.3] } };
    const others = ["1", "2", "5"].map((id) => ({
      ...site(id),
      geometry: { type: "Point", coordinates: [-75.3, 40.2] },
    }));
    const { report, features } = readCampground(campground([...others, swapped]));
    expect(features).toHaveLength(4);
    expect(report.warnings).toHaveLength(1);
    expect(report.warnings[0]?.path).toBe("/features/3/geometry");
    expect(report.warnings[0]?.text).toContain("swapped?");
  });

  test("a site cut at the antimeridian is a pad, one in several other parts is none", () => {
    const part = (west: number, east: number) => [
      [
        [west, -16],
        [east, -16],
        [east, -15.9999],
        [west, -15.9999],
        [west, -16],
      ],
    ];
    const at = (id: string, coordinates: unknown) => ({ ...site(id), geometry: { type: "MultiPolygon", coordinates } });
    const { features, report } = readCampground(
      campground([
        at("cut", [part(179.99998, 180), part(-180, -179.99997)]),
        at("apart", [part(10, 10.0001), part(10.0002, 10.0003)]),
      ]),
    );
    expect(features.map(({ id }) => id)).toEqual(["cut"]);
    expect(report.refused[0]).toMatchObject({ id: "apart", code: "wrong-geometry" });
  });

  test("a road as a point is refused, a site without geometry is taken", () => {
    const { features, report } = readCampground(
      campground([
        { type: "Feature", geometry: { type: "Point", coordinates: [1, 2] }, properties: { kind: "road" } },
        { ...site("tape"), geometry: null },
      ]),
    );
    expect(features.map(({ id }) => id)).toEqual(["tape"]);
    expect(report.refused[0]).toMatchObject({ code: "wrong-geometry", expected: "LineString" });
  });
});

describe("caps", () => {
  test("bytes, features, positions and rings", () => {
    const codes = (input: unknown, limits: object) =>
      readCampground(input, limits).report.refused.map(({ code }) => code);
    const text = JSON.stringify(campground([site("1"), site("2")]));
    expect(codes(text, { bytes: text.length - 1 })).toEqual(["too-large"]);
    expect(codes(text, { bytes: text.length })).toEqual([]);
    expect(codes(text.replace('"name":"1"', '"name":"é"'), { bytes: text.length })).toEqual(["too-large"]);
    expect(codes(text, { features: 1 })).toEqual(["too-many-features"]);
    expect(codes(text, { positions: 9 })).toEqual(["too-many-positions"]);
    expect(codes(text, { ringPositions: 4 })).toEqual(["too-many-positions", "too-many-positions"]);
  });

  test("an object that holds itself ends at the depth cap", () => {
    const loop: Record<string, unknown> = campground([]);
    loop["self"] = loop;
    expect(readCampground(loop).report.refused[0]?.code).toBe("too-deep");
  });

  test("500 sites with thirty obstacles each pass within the published caps", () => {
    const features: unknown[] = [];
    for (let index = 0; index < 500; index += 1) {
      features.push(site(`s${index}`, {}, index * 1e-4));
      for (let tree = 0; tree < 30; tree += 1) {
        const coordinates = [-105.3 + index * 1e-4, 40.2 + tree * 1e-5];
        features.push({
          type: "Feature",
          geometry: { type: "Point", coordinates },
          properties: { kind: "obstacle", what: "tree", radius: 0.25 },
        });
      }
    }
    const text = JSON.stringify(campground(features));
    expect(text.length).toBeLessThan(CAMPGROUND_LIMITS.bytes);
    const { report } = readCampground(text);
    expect(report).toMatchObject({ accepted: 15_500, refused: [], warnings: [] });
  });
});
