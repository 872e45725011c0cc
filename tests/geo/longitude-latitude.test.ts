import { describe, expect, test } from "vitest";
import {
  crosses,
  crossesAntimeridian,
  rightHanded,
  ringContains,
  roughArea,
  roughDistance,
} from "../../src/geo/longitude-latitude.ts";

const square = [
  [10, 50],
  [10.001, 50],
  [10.001, 50.002],
  [10, 50.002],
  [10, 50],
];

describe("longitude and latitude", () => {
  test("direction is repaired: outer ring counter-clockwise, hole clockwise", () => {
    const hole = [
      [10.0002, 50.0002],
      [10.0004, 50.0002],
      [10.0004, 50.0006],
      [10.0002, 50.0002],
    ];
    expect(rightHanded([[...square].reverse(), hole])).toEqual([square, [...hole].reverse()]);
  });

  test("area and distance are right to a percent", () => {
    expect(roughArea([square]) / (71.5 * 222.4)).toBeCloseTo(1, 1);
    const apart = roughDistance({ longitude: 10, latitude: 50 }, { longitude: 10, latitude: 50.01 });
    expect(apart / 1112.3).toBeCloseTo(1, 2);
  });

  test("crossings, overlaps and holes that leave the shell are seen", () => {
    expect(crosses([square])).toBe(false);
    expect(
      crosses([
        [
          [0, 0],
          [2, 2],
          [2, 0],
          [0, 2],
          [0, 0],
        ],
      ]),
    ).toBe(true);
    expect(
      crosses([
        [
          [0, 0],
          [5, 0],
          [3, 0],
          [3, 2],
          [0, 0],
        ],
      ]),
    ).toBe(true);
    const shell = [
      [0, 0],
      [6, 0],
      [6, 5],
      [0, 5],
      [0, 0],
    ];
    const leaving = [
      [5, 1],
      [5, 2],
      [7, 2],
      [7, 1],
      [5, 1],
    ];
    expect(crosses([shell, leaving])).toBe(true);
    expect(ringContains(shell, [3, 2])).toBe(true);
    expect(ringContains(shell, [7, 2])).toBe(false);
  });

  test("a step of more than half a turn is a line that was not cut", () => {
    expect(
      crossesAntimeridian([
        [179.9, 1],
        [-179.9, 1],
      ]),
    ).toBe(true);
    expect(
      crossesAntimeridian([
        [-60, 1],
        [100, 1],
      ]),
    ).toBe(false);
  });
});
