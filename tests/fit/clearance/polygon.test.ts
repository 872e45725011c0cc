import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { nearest, overlap, roomOutward } from "../../../src/fit/clearance/polygon.ts";
import { rigToPad } from "../../../src/fit/stance/frame.ts";
import type { PadPoint, Stance } from "../../../src/fit/stance/problem.ts";

function turned(at: PadPoint, length: number, width: number, angle: number): PadPoint[] {
  return [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([x, y]) => {
    const a = ((x as number) * length) / 2;
    const b = ((y as number) * width) / 2;
    return {
      along: at.along + a * Math.cos(angle) - b * Math.sin(angle),
      left: at.left + a * Math.sin(angle) + b * Math.cos(angle),
    };
  });
}

/** Points on the outline, close together: an independent search for the distance. */
function walked(outline: readonly PadPoint[], step = 400): PadPoint[] {
  return outline.flatMap((corner, index) => {
    const next = outline[(index + 1) % outline.length] as PadPoint;
    return Array.from({ length: step }, (_, k) => ({
      along: corner.along + ((next.along - corner.along) * k) / step,
      left: corner.left + ((next.left - corner.left) * k) / step,
    }));
  });
}

describe("distance of outlines", () => {
  it("agrees with a walk round both outlines", () => {
    const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(number(-6, 6), number(-6, 6), number(0, 3), number(0, 3), (along, left, angle, other) => {
        const first = turned({ along: 0, left: 0 }, 5, 2, angle);
        const second = turned({ along, left }, 1.5, 3, other);
        const found = nearest(first, second);
        const points = walked(second, 60);
        const searched = Math.min(
          ...walked(first, 60).map((p) =>
            Math.min(...points.map((q) => Math.hypot(p.along - q.along, p.left - q.left))),
          ),
        );
        if (found.distance === 0) expect(overlap(first, second) || searched < 0.06).toBe(true);
        else expect(Math.abs(found.distance - searched)).toBeLessThan(0.06);
      }),
      { numRuns: 60 },
    );
  });

  it("touching is nothing apart and no overlap; one inside the other overlaps", () => {
    const square = turned({ along: 0, left: 0 }, 2, 2, 0);
    const beside = turned({ along: 2, left: 0 }, 2, 2, 0);
    expect(overlap(square, beside)).toBe(false);
    expect(nearest(square, beside).distance).toBe(0);
    expect(overlap(square, turned({ along: 0.1, left: 0 }, 0.2, 0.3, 1))).toBe(true);
  });
});

describe("room outward from a wall", () => {
  const size = { length: 8, width: 2.5 };
  const stances: Stance[] = [
    { facing: "out", along: 1, left: 0.4, yaw: 0 },
    { facing: "in", along: 1.5, left: -0.3, yaw: 0.2 },
    { facing: "out", along: 2, left: 0, yaw: -0.3 },
  ];
  /** A box given in the rig frame, seen on the pad. */
  const box = (stance: Stance, x1: number, x2: number, y1: number, y2: number): PadPoint[] =>
    [
      [x1, y1],
      [x2, y1],
      [x2, y2],
      [x1, y2],
    ].map(([x, y]) => rigToPad(stance, size.length, { fromRear: x as number, left: y as number }));

  it.each(stances)("facing $facing, yaw $yaw", (stance) => {
    const room = (wall: "left" | "right" | "rear" | "front", start: number, end: number, outline: PadPoint[]) =>
      roomOutward(stance, size, { wall, start, end }, outline);
    expect(room("left", 2, 5, box(stance, 4, 6, 2, 3))).toBeCloseTo(0.75, 9);
    expect(room("right", 2, 5, box(stance, 4, 6, 2, 3))).toBe(Number.POSITIVE_INFINITY);
    expect(room("right", 2, 5, box(stance, 1, 3, -4, -3.5))).toBeCloseTo(2.25, 9);
    expect(room("left", 2, 4, box(stance, 4, 6, 2, 3))).toBe(Number.POSITIVE_INFINITY);
    expect(room("left", 2, 5, box(stance, 4, 6, 0.5, 3))).toBeCloseTo(0, 9);
    expect(room("rear", -1, 0.5, box(stance, -3, -0.6, 0.2, 2))).toBeCloseTo(0.6, 9);
    expect(room("front", -1, 0.1, box(stance, 9, 11, -2, 2))).toBeCloseTo(1, 9);
  });
});
