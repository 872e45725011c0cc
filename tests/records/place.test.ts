import { describe, expect, it } from "vitest";
import { boxOf, isInBox, metresBetween, placeOf } from "../../src/records/place.ts";
import type { CampgroundFeature } from "../../src/site/feature.ts";

const feature = (geometry: CampgroundFeature["geometry"], properties = {}): CampgroundFeature => ({
  type: "Feature",
  geometry,
  properties,
});

describe("places for searching", () => {
  it("is the middle of an outline, also across the antimeridian", () => {
    const ring = (east: number) => [
      [179.9998, 10],
      [east, 10],
      [east, 10.0003],
      [179.9998, 10.0003],
      [179.9998, 10],
    ];
    const inland = feature({
      type: "Polygon",
      coordinates: [
        [
          [7, 45],
          [7.0004, 45],
          [7.0004, 45.0002],
          [7, 45.0002],
          [7, 45],
        ],
      ],
    });
    expect(placeOf(inland)?.longitude).toBeCloseTo(7.0002, 9);
    expect(placeOf(inland)?.latitude).toBeCloseTo(45.0001, 9);
    expect(placeOf(feature({ type: "Polygon", coordinates: [ring(-179.9994)] }))?.longitude).toBeCloseTo(-179.9998, 9);
    expect(placeOf(feature({ type: "Polygon", coordinates: [ring(180)] }))?.longitude).toBeCloseTo(179.9999, 9);
  });
  it("is the pad's origin when there is no geometry, and nothing when there is neither", () => {
    expect(placeOf(feature(null, { pad: { origin: [-106, 39] } }))).toEqual({ longitude: -106, latitude: 39 });
    expect(placeOf(feature(null, { pad: { length: 12 } }))).toBeNull();
  });
  it("has the smallest box, which crosses the antimeridian when that is shorter", () => {
    const at = (longitude: number, latitude: number) => ({ longitude, latitude });
    expect(boxOf([at(-106, 39), at(-105, 41), at(-107, 40)])).toEqual([-107, 39, -105, 41]);
    expect(boxOf([at(179, -17), at(-178, -16)])).toEqual([179, -17, -178, -16]);
    expect(boxOf([at(5, 6)])).toEqual([5, 6, 5, 6]);
    expect(boxOf([])).toBeNull();
    expect(isInBox(at(-179, -16.5), [179, -17, -178, -16])).toBe(true);
    expect(isInBox(at(0, -16.5), [179, -17, -178, -16])).toBe(false);
    expect(isInBox(at(179.5, -15), [179, -17, -178, -16])).toBe(false);
  });
  it("measures over the antimeridian", () => {
    const apart = metresBetween({ longitude: 179.999, latitude: 0 }, { longitude: -179.999, latitude: 0 });
    // 0.002 degrees of the equator of a sphere of 6,371,008.8 m: 2 pi R x 0.002 / 360, derived.
    expect(apart).toBeCloseTo(222.39, 1);
  });
});
