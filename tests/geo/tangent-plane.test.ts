import { describe, expect, test } from "vitest";
import { padFrame, padToPlane, planeToPad } from "../../src/geo/pad-frame.ts";
import { degrees, radians, tangentPlane, turnBetween, wrapLongitude } from "../../src/geo/tangent-plane.ts";

describe("tangent plane", () => {
  test("east is along growing longitude and north along growing latitude", () => {
    const plane = tangentPlane({ longitude: -110.5, latitude: 44.5 });
    const east = plane.toPlane({ longitude: -110.4999, latitude: 44.5 });
    const north = plane.toPlane({ longitude: -110.5, latitude: 44.5001 });
    expect(east.east).toBeCloseTo(7.953, 3);
    expect(Math.abs(east.north)).toBeLessThan(1e-4);
    expect(north.north).toBeCloseTo(11.1122, 4);
  });

  test("there and back again within a thousandth of a millimetre, also at the antimeridian and the poles", () => {
    for (const origin of [
      { longitude: 180, latitude: 16.5 },
      { longitude: -179.99999, latitude: -45 },
      { longitude: 12, latitude: 90 },
      { longitude: -70, latitude: -89.99999 },
      { longitude: 0, latitude: 0 },
    ]) {
      const plane = tangentPlane(origin);
      for (const point of [
        { east: 31.5, north: -12.25 },
        { east: -88, north: 47 },
      ]) {
        const back = plane.toPlane(plane.toLonLat(point));
        expect(Math.hypot(back.east - point.east, back.north - point.north)).toBeLessThan(1e-6);
      }
    }
  });

  test("a pad over the antimeridian measures the same as the same pad elsewhere", () => {
    const here = tangentPlane({ longitude: 179.99998, latitude: -16.8 }).toPlane({
      longitude: -179.99995,
      latitude: -16.80003,
    });
    const there = tangentPlane({ longitude: 10.00001, latitude: -16.8 }).toPlane({
      longitude: 10.00008,
      latitude: -16.80003,
    });
    expect(Math.hypot(here.east - there.east, here.north - there.north)).toBeLessThan(1e-6);
  });

  test("bearings and longitudes wrap", () => {
    expect(degrees(turnBetween(radians(350), radians(15)))).toBeCloseTo(25, 9);
    expect(degrees(turnBetween(radians(15), radians(350)))).toBeCloseTo(-25, 9);
    expect(wrapLongitude(190)).toBe(-170);
    expect(wrapLongitude(180)).toBe(-180);
    expect(wrapLongitude(-185)).toBe(175);
  });
});

describe("pad frame", () => {
  test("heading east: along is east and left is north", () => {
    const point = planeToPad({ east: 7, north: 2 }, radians(90));
    expect(point.along).toBeCloseTo(7, 12);
    expect(point.left).toBeCloseTo(2, 12);
  });

  test("heading south-west: left is to the south-east", () => {
    const point = padToPlane({ along: 0, left: 3 }, radians(225));
    expect(point.east).toBeCloseTo(3 * Math.SQRT1_2, 12);
    expect(point.north).toBeCloseTo(-3 * Math.SQRT1_2, 12);
  });

  test("longitude and latitude to the pad and back", () => {
    const frame = padFrame({ longitude: -105.27, latitude: 40.01 }, radians(212));
    const back = frame.toPad(frame.toLonLat({ along: 9.25, left: -4.5 }));
    expect(back.along).toBeCloseTo(9.25, 8);
    expect(back.left).toBeCloseTo(-4.5, 8);
  });
});
