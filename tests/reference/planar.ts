/**
 * Open convex shapes as half-planes, and whether a straight segment enters one. Touching is clear: only points inside
 * by more than `TOUCH` count as entered.
 */
import type { PadPoint, RigBox } from "../../src/fit/stance/problem.ts";

/** Depth in metres up to which a line or a part counts as touching only. */
export const TOUCH = 1e-7;

/** The open convex set of all points with `nx[i] x + ny[i] y < max[i]` for every i; the normals have length 1. */
export interface OpenConvex {
  readonly nx: readonly number[];
  readonly ny: readonly number[];
  readonly max: readonly number[];
}

/** The inside of a convex counter-clockwise polygon. */
export function insideOf(outline: readonly PadPoint[]): OpenConvex {
  const nx: number[] = [];
  const ny: number[] = [];
  const max: number[] = [];
  outline.forEach((from, i) => {
    const to = outline[(i + 1) % outline.length] as PadPoint;
    const length = Math.hypot(to.along - from.along, to.left - from.left);
    if (length === 0) return;
    const x = (to.left - from.left) / length;
    const y = (from.along - to.along) / length;
    nx.push(x);
    ny.push(y);
    max.push(x * from.along + y * from.left);
  });
  return { nx, ny, max };
}

export type FlatBox = Pick<RigBox, "fromRearMin" | "fromRearMax" | "leftMin" | "leftMax">;

/** The inside of a box of the rig frame. */
export function insideOfBox(box: FlatBox): OpenConvex {
  return {
    nx: [1, -1, 0, 0],
    ny: [0, 0, 1, -1],
    max: [box.fromRearMax, -box.fromRearMin, box.leftMax, -box.leftMin],
  };
}

/** The same set turned about the origin. */
export function turnedSet(set: OpenConvex, cos: number, sin: number): OpenConvex {
  return {
    nx: set.nx.map((x, i) => cos * x - sin * (set.ny[i] as number)),
    ny: set.nx.map((x, i) => sin * x + cos * (set.ny[i] as number)),
    max: set.max,
  };
}

/** The four corners of a box of the rig frame, counter-clockwise, as [x, y]. */
export function cornersOf(box: FlatBox): [number, number][] {
  return [
    [box.fromRearMin, box.leftMin],
    [box.fromRearMax, box.leftMin],
    [box.fromRearMax, box.leftMax],
    [box.fromRearMin, box.leftMax],
  ];
}

/** True when the point lies inside by more than touching. */
export function contains(set: OpenConvex, x: number, y: number): boolean {
  return set.max.every((max, i) => (set.nx[i] as number) * x + (set.ny[i] as number) * y < max - TOUCH);
}

/**
 * True when the segment from (px, py) to (qx, qy) enters the set wherever its ends may be within their play.
 *
 * An end with play (a, b) may stand anywhere within +-a along x and +-b along y of the point given, both ends by the
 * same displacement scaled with `atP` and `atQ` (0 or 1). A point at the fraction t of the segment is then displaced by
 * between atP and atQ of it, so the worst displacement towards any edge is linear in t, and the test stays a clip of
 * one interval. With a = b = 0 it is the plain test.
 */
export function enters(
  set: OpenConvex,
  px: number,
  py: number,
  qx: number,
  qy: number,
  a: number,
  b: number,
  atP: number,
  atQ: number,
): boolean {
  let first = 0;
  let last = 1;
  for (let i = 0; i < set.max.length; i++) {
    const nx = set.nx[i] as number;
    const ny = set.ny[i] as number;
    const outside = TOUCH - (set.max[i] as number);
    const play = a * Math.abs(nx) + b * Math.abs(ny);
    const p = nx * px + ny * py + outside + atP * play;
    const q = nx * qx + ny * qy + outside + atQ * play;
    if (p >= 0 && q >= 0) return false;
    if (p < 0 && q < 0) continue;
    const crossing = p / (p - q);
    if (p >= 0) first = Math.max(first, crossing);
    else last = Math.min(last, crossing);
    if (first >= last) return false;
  }
  return true;
}
