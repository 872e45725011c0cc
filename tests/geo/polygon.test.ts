import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { convexPieces } from "../../src/geo/convex-pieces.ts";
import type { PadPoint } from "../../src/geo/pad-frame.ts";
import {
  centroid,
  contains,
  convexHull,
  crossesItself,
  distanceToRing,
  isConvex,
  type Ring,
  signedArea,
} from "../../src/geo/polygon.ts";
import { bufferedLine, circumscribedCircle, leastRectangle, rectangle } from "../../src/geo/shapes.ts";

const p = (along: number, left: number): PadPoint => ({ along, left });
const lShape = [p(0, 0), p(6, 0), p(6, 2), p(2.5, 2), p(2.5, 5), p(0, 5)];
const total = (pieces: readonly Ring[]) => pieces.reduce((sum, piece) => sum + signedArea(piece), 0);

describe("polygons", () => {
  test("area, direction, centroid and convexity", () => {
    expect(signedArea(lShape)).toBeCloseTo(6 * 2 + 2.5 * 3, 12);
    expect(signedArea([...lShape].reverse())).toBeCloseTo(-19.5, 12);
    expect(isConvex(lShape)).toBe(false);
    expect(isConvex(rectangle(0, 6, 1, 4))).toBe(true);
    expect(centroid(rectangle(0, 6, 1, 4))).toEqual(p(3, 2.5));
    expect(isConvex([...rectangle(0, 6, 1, 4)].reverse())).toBe(false);
  });

  test("a pentagram turns left at every corner and is not convex", () => {
    const star = [0, 2, 4, 1, 3].map((k) => p(Math.cos((k * 2 * Math.PI) / 5), Math.sin((k * 2 * Math.PI) / 5)));
    expect(isConvex(star)).toBe(false);
    expect(crossesItself(star)).toBe(true);
  });

  test("contains counts the edge as inside and the notch as outside", () => {
    expect(contains(lShape, p(1, 4))).toBe(true);
    expect(contains(lShape, p(4, 4))).toBe(false);
    expect(contains(lShape, p(6, 1))).toBe(true);
    expect(contains(lShape, p(2.5, 3))).toBe(true);
    expect(distanceToRing(p(4, 4), lShape)).toBeCloseTo(1.5, 12);
    expect(distanceToRing(p(1, 1), lShape)).toBe(0);
  });

  test("bow-tie, spike and touching corner cross themselves; an L does not", () => {
    expect(crossesItself([p(0, 0), p(4, 3), p(4, 0), p(0, 3)])).toBe(true);
    expect(crossesItself([p(0, 0), p(5, 0), p(3, 0), p(3, 2)])).toBe(true);
    expect(crossesItself([p(0, 0), p(4, 0), p(4, 3), p(2, 0), p(0, 3)])).toBe(true);
    expect(crossesItself(lShape)).toBe(false);
  });
});

describe("convex pieces", () => {
  test("an L gives two pieces with the same area", () => {
    const pieces = convexPieces(lShape);
    expect(pieces).toHaveLength(2);
    expect(pieces.every((piece) => isConvex(piece))).toBe(true);
    expect(total(pieces)).toBeCloseTo(19.5, 9);
  });

  test("a clockwise outline and a hole are handled", () => {
    const hole = rectangle(1, 2, 0.5, 1.5);
    const pieces = convexPieces([...lShape].reverse(), [hole]);
    expect(pieces.every((piece) => isConvex(piece))).toBe(true);
    expect(total(pieces)).toBeCloseTo(18.5, 9);
    expect(pieces.some((piece) => contains(piece, p(1.5, 1)))).toBe(false);
    expect(pieces.some((piece) => contains(piece, p(0.5, 1)))).toBe(true);
  });

  /** Its pieces meet along a line through the origin, which rounding once put between them. */
  const CRACKED = [
    1, 1.0105520911476893, 2.691615400118397, 1, 1, 2.3984169753362674, 2.9032990751472147, 7.124177812470709,
    1.6180339887498953, 1,
  ];

  test("any star-shaped outline: convex pieces, area kept, points inside and outside kept", () => {
    const radii = fc.array(fc.double({ min: 1, max: 9, noNaN: true }), { minLength: 5, maxLength: 14 });
    const unit = fc.double({ min: -8, max: 8, noNaN: true });
    fc.assert(
      fc.property(radii, unit, unit, (lengths, along, left) => {
        const outline = lengths.map((radius, index) => {
          const angle = (2 * Math.PI * index) / lengths.length;
          return p(radius * Math.cos(angle), radius * Math.sin(angle));
        });
        const pieces = convexPieces(outline);
        expect(pieces.every((piece) => isConvex(piece, 1e-9))).toBe(true);
        expect(total(pieces)).toBeCloseTo(signedArea(outline), 6);
        const point = p(along, left);
        const edge = Math.min(
          ...outline.map((a, index) => {
            const b = outline[(index + 1) % outline.length] as PadPoint;
            return distanceToRing(point, [a, b]);
          }),
        );
        if (edge > 1e-6) expect(pieces.some((piece) => contains(piece, point))).toBe(contains(outline, point));
      }),
      { examples: [[CRACKED, 0, 0]] },
    );
  });
});

describe("shapes", () => {
  test("a circle drawn as a polygon holds every point of the circle", () => {
    const ring = circumscribedCircle(p(3, -2), 1.5);
    for (let k = 0; k < 360; k += 1) {
      const angle = (k * Math.PI) / 180;
      expect(contains(ring, p(3 + 1.4999999 * Math.cos(angle), -2 + 1.4999999 * Math.sin(angle)))).toBe(true);
    }
    expect(signedArea(ring)).toBeLessThan(Math.PI * 1.5 ** 2 * 1.03);
    expect(isConvex(ring)).toBe(true);
  });

  test("a line with a width holds its neighbourhood, also at the bend, and no more than 2 % beside it", () => {
    const pieces = bufferedLine([p(0, 0), p(10, 0), p(10, 7)], 4);
    expect(pieces).toHaveLength(2);
    const within = (point: PadPoint) => pieces.some((piece) => contains(piece, point));
    expect(within(p(5, 1.999))).toBe(true);
    expect(within(p(11.41, -1.41))).toBe(true);
    expect(within(p(5, 2.1))).toBe(false);
  });

  test("the least rectangle of a turned pad", () => {
    const angle = 0.3;
    const turned = rectangle(2, 14, -1.5, 1.5).map((point) =>
      p(
        point.along * Math.cos(angle) - point.left * Math.sin(angle),
        point.along * Math.sin(angle) + point.left * Math.cos(angle),
      ),
    );
    const found = leastRectangle(turned);
    expect(found?.angle).toBeCloseTo(0.3, 9);
    expect(found?.first).toBeCloseTo(12, 9);
    expect(found?.second).toBeCloseTo(3, 9);
    expect(found?.centre.along).toBeCloseTo(8 * Math.cos(angle), 9);
    expect(leastRectangle([p(0, 0), p(1, 1), p(2, 2)])).toBeNull();
  });

  test("the hull leaves out inner and straight points", () => {
    expect(convexHull([...lShape, p(1, 1), p(3, 0)])).toHaveLength(5);
  });
});
