import { describe, expect, it } from "vitest";
import { campgroundCollection } from "../../../src/site/schema.ts";
import { codes, feature, features, node, pitch, taken, way, xml } from "./fixtures.ts";

const TO_POST = 6;
const ON_MAP = 3;

describe("a pitch as a node", () => {
  const result = taken(xml(node(11, -103.2, 44.1, { tourism: "camp_pitch", ref: "17B", surface: "gravel" })));
  const site = feature(result, "node-11");

  it("is the sign post: a point with its accuracy, and no size, heading or hookup", () => {
    expect(site.geometry).toEqual({ type: "Point", coordinates: [-103.2, 44.1] });
    expect(Object.keys(site.properties).sort()).toEqual(["kind", "name", "osm", "pad"]);
    const { name, pad, osm } = site.properties as Record<string, Record<string, unknown>>;
    expect(name).toBe("17B");
    expect(Object.keys(pad as object).sort()).toEqual(["place", "surface"]);
    const place = (pad as Record<string, Record<string, unknown>>)["place"];
    expect(place).toMatchObject({ basis: "mapped", source: expect.stringContaining("identifying post") });
    expect(place?.["accuracy"]).toBeCloseTo(Math.hypot(ON_MAP, TO_POST), 9);
    expect(osm).toMatchObject({ place: "sign post", id: "node/11" });
  });

  it("lists what stays unknown", () => {
    const unknown = result.report.unknown.map(({ what }) => what);
    expect(unknown).toEqual(expect.arrayContaining(["pad.length", "heading", "services.power", "services.sewer"]));
    expect(unknown).not.toContain("name");
    expect(unknown).not.toContain("pad.surface");
  });

  it("is valid under the record's schema", () => {
    expect(campgroundCollection.safeParse(result.collection).success).toBe(true);
  });
});

describe("accuracy of a survey", () => {
  const accuracy = (tags: Record<string, string>) =>
    (pitch(tags)["pad"] as Record<string, Record<string, unknown>>)["place"] as Record<string, unknown>;

  it("takes a radius of 68 % as 1.510 standard deviations per axis", () => {
    const place = accuracy({ "gps:accuracy_m": "12.5", "survey:date": "2023-07-31" });
    expect(place["basis"]).toBe("gps");
    expect(place["accuracy"]).toBeCloseTo(Math.hypot(12.5 / 1.5096, TO_POST), 3);
    expect(place["observedAt"]).toBe("2023-07-31");
  });

  it("reads 0 as typed on a map, and does not believe nonsense", () => {
    expect(accuracy({ "gps:accuracy_m": "0" })).toMatchObject({
      basis: "mapped",
      accuracy: Math.hypot(ON_MAP, TO_POST),
    });
    expect(accuracy({ "gps:accuracy_m": "NaN" })).toMatchObject({ basis: "mapped" });
    expect(accuracy({ "gps:accuracy_m": "-3" })).toMatchObject({ basis: "mapped" });
  });

  it("refuses a day that no calendar has", () => {
    expect(pitch({ "survey:date": "2023-02-31" })["observedAt"]).toBeUndefined();
    expect(pitch({ check_date: "2023-02-28" })["observedAt"]).toBe("2023-02-28");
  });
});

describe("a pitch as an area", () => {
  // About 10 m from west to east and 22 m from south to north.
  const corners = [
    node(1, -103.2, 44.1),
    node(2, -103.199875, 44.1),
    node(3, -103.199875, 44.1002),
    node(4, -103.2, 44.1002),
  ];
  const result = taken(xml(...corners, way(5, [1, 2, 3, 4, 1], { tourism: "camp_pitch", ref: "4" })));
  const site = feature(result, "way-5");

  it("is the whole pitch and not the pad: its middle, its outline kept aside, no length or width", () => {
    expect(site.geometry?.type).toBe("Point");
    const [longitude, latitude] = (site.geometry as unknown as { coordinates: number[] }).coordinates as [
      number,
      number,
    ];
    expect(longitude).toBeCloseTo(-103.1999375, 7);
    expect(latitude).toBeCloseTo(44.1001, 7);
    const pad = site.properties["pad"] as Record<string, Record<string, number>>;
    expect(pad["length"]).toBeUndefined();
    expect(pad["width"]).toBeUndefined();
    const osm = site.properties["osm"] as Record<string, unknown>;
    expect(osm["place"]).toBe("middle of the pitch");
    expect((osm["outline"] as { coordinates: number[][][] }).coordinates[0]).toHaveLength(5);
    // Half of the diagonal (12.2 m) spread evenly, and the error of the map.
    const half = Math.hypot(10, 22.2) / 2;
    expect(pad["place"]?.["accuracy"]).toBeCloseTo(Math.hypot(ON_MAP, half / Math.sqrt(3)), 1);
  });

  it("keeps only the middle of an outline that crosses itself", () => {
    const crossing = taken(xml(...corners, way(5, [1, 3, 2, 4, 1], { tourism: "camp_pitch" })));
    const { osm } = feature(crossing, "way-5").properties as { osm: Record<string, unknown> };
    expect(osm["outline"]).toBeUndefined();
    expect(codes(crossing, "way/5")).toContain("incomplete-geometry");
  });

  it("survives nodes that are missing", () => {
    const holed = taken(xml(...corners.slice(0, 3), way(5, [1, 2, 3, 4, 1], { tourism: "camp_pitch" })));
    expect(codes(holed, "way/5")).toEqual(expect.arrayContaining(["missing-reference", "incomplete-geometry"]));
    const nothing = taken(xml(way(5, [1, 2, 3, 4, 1], { tourism: "camp_pitch" })));
    expect(feature(nothing, "way-5").geometry).toBeNull();
  });
});

describe("limits", () => {
  const limits = (tags: Record<string, string>) => pitch(tags)["limits"];

  it("reads metres, feet and inches", () => {
    expect(limits({ maxlength: "12" })).toEqual({ length: 12 });
    expect(limits({ maxlength: "40'", maxheight: "13'6\"", maxwidth: "3.5 m" })).toEqual({
      length: expect.closeTo(12.192, 9),
      height: expect.closeTo(4.1148, 9),
      width: 3.5,
    });
    expect(limits({ maxlength: "35 ft" })).toEqual({ length: expect.closeTo(10.668, 9) });
  });

  it("takes words and nonsense for no limit", () => {
    for (const value of ["default", "none", "below_default", "unsigned", "long", "-4", "0", "NaN", "1e3", "9999"]) {
      expect(limits({ maxheight: value }), value).toBeUndefined();
    }
    const bad = taken(xml(node(11, -103.2, 44.1, { tourism: "camp_pitch", maxlength: "3,5" })));
    expect(codes(bad, "node/11")).toEqual(["bad-value"]);
  });
});

describe("what a pitch says of services", () => {
  it("knows three states", () => {
    expect(pitch({ power_supply: "yes" })["services"]).toEqual({ power: "yes" });
    expect(pitch({ power_supply: "no" })["services"]).toEqual({ power: "no" });
    expect(pitch({ power_supply: "perhaps" })["services"]).toBeUndefined();
    expect(pitch({})["services"]).toBeUndefined();
  });

  it("reads the draft tags and writes none", () => {
    const site = pitch({ "camp_pitch:electric": "yes", "camp_pitch:drinking_water": "no", "camp_pitch:type": "tents" });
    expect(site["services"]).toEqual({ power: "yes", water: "no" });
    const { tags } = site["osm"] as { tags: Record<string, string> };
    expect(Object.keys(tags)).toEqual([
      "camp_pitch:drinking_water",
      "camp_pitch:electric",
      "camp_pitch:type",
      "tourism",
    ]);
  });

  it("never makes a sewer inlet of a drain", () => {
    const site = pitch({ "camp_pitch:drain": "yes", sanitary_dump_station: "yes" });
    expect(site["services"]).toBeUndefined();
    expect(site["hookups"]).toBeUndefined();
    const { remarks } = site["osm"] as { remarks: string[] };
    expect(remarks.join(" ")).toContain("possible and not verified");
    expect(pitch({ "camp_pitch:drain": "no" })["services"]).toEqual({ sewer: "no" });
  });

  it("gives hookups no place", () => {
    const site = pitch({ power_supply: "yes", drinking_water: "yes" });
    const hookups = site["hookups"] as Record<string, unknown>[];
    expect(hookups.map(({ service }) => service)).toEqual(["power", "water"]);
    for (const hookup of hookups) {
      expect(hookup["at"]).toBeUndefined();
      expect(hookup["place"]).toBeUndefined();
    }
  });

  it("does not turn an incline into a grade", () => {
    const site = pitch({ incline: "-5%" });
    const { pad, osm } = site as { pad: Record<string, unknown>; osm: { remarks: string[] } };
    expect(pad["grade"]).toBeUndefined();
    expect(osm.remarks.join(" ")).toContain("no direction");
  });

  it("keeps every tag", () => {
    const tags = { fee: "yes", opening_hours: "Apr-Oct", capacity: "6", access: "customers", "nearly:anything": "2" };
    const { tags: kept } = pitch(tags)["osm"] as { tags: Record<string, string> };
    expect(kept).toEqual({ ...tags, tourism: "camp_pitch" });
    const { report } = taken(xml(node(11, -103.2, 44.1, { tourism: "camp_pitch", ref: "3", ...tags })));
    expect(report.tags.find(({ key }) => key === "ref")).toEqual({ key: "ref", read: 1, kept: 0, ignored: 0 });
    expect(report.tags.find(({ key }) => key === "fee")).toEqual({ key: "fee", read: 0, kept: 1, ignored: 0 });
  });
});

describe("older practice and mistakes", () => {
  it("reads camp_site=camp_pitch and camp_site=pitch as pitches, and says so", () => {
    const result = taken(
      xml(node(1, -103.2, 44.1, { camp_site: "camp_pitch" }), node(2, -103.201, 44.1, { camp_site: "pitch" })),
    );
    expect(features(result, "site")).toHaveLength(2);
    expect(codes(result)).toEqual(["deprecated-tag", "deprecated-tag"]);
    expect(feature(result, "node-2").properties["osm"]).toMatchObject({ tags: { camp_site: "pitch" } });
    expect(result.report.tags).toEqual([{ key: "camp_site", read: 2, kept: 0, ignored: 0 }]);
  });

  it("takes a campground that is named by a number for a pitch, unless told not to", () => {
    const data = xml(
      node(1, -103.2, 44.1, { tourism: "camp_site", name: "12A" }),
      node(2, -103.2, 44.1003, { tourism: "camp_site", name: "Crooked Pine" }),
    );
    const result = taken(data);
    expect(features(result, "site").map(({ id }) => id)).toEqual(["node-1"]);
    expect(codes(result, "node/1")).toContain("taken-for-pitch");
    expect(result.report.takenForPitches).toBe(1);
    expect(result.collection.campground["name"]).toBe("Crooked Pine");
    expect(features(taken(data, { campSitesArePitches: "never" }), "site")).toHaveLength(0);
    expect(features(taken(data, { campSitesArePitches: "always" }), "site")).toHaveLength(2);
  });

  it("takes a crowd of nameless campgrounds for pitches, and few of them not", () => {
    const crowd = (count: number) =>
      xml(
        ...Array.from({ length: count }, (_, index) =>
          node(index + 1, -103.2 + index / 1e4, 44.1, { tourism: "camp_site" }),
        ),
      );
    expect(features(taken(crowd(50)), "site")).toHaveLength(50);
    expect(features(taken(crowd(49)), "site")).toHaveLength(0);
  });
});
