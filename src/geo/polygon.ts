/**
 * Polygons in a plane of metres. A ring is a list of corners without the closing repeat; counter-clockwise rings
 * (seen with `left` as the second axis) have a positive area.
 */
import type { PadPoint } from "./pad-frame.ts";

export type Ring = readonly PadPoint[];

/** Twice the signed area of the triangle a, b, c; positive when c lies to the left of the way from a to b. */
export function turn(a: PadPoint, b: PadPoint, c: PadPoint): number {
  return (b.along - a.along) * (c.left - a.left) - (b.left - a.left) * (c.along - a.along);
}

/** Area of a ring, square metres; negative when it is clockwise. Corners are taken relative to the first. */
export function signedArea(ring: Ring): number {
  const first = ring[0];
  if (first === undefined) return 0;
  let doubled = 0;
  for (let index = 1; index + 1 < ring.length; index += 1) {
    doubled += turn(first, at(ring, index), at(ring, index + 1));
  }
  return doubled / 2;
}

/** The same ring, counter-clockwise. */
export function counterClockwise(ring: Ring): Ring {
  return signedArea(ring) < 0 ? [...ring].reverse() : ring;
}

/** The mean of the area; the mean of the corners when the area is zero. */
export function centroid(ring: Ring): PadPoint {
  const origin = at(ring, 0);
  let doubled = 0;
  let along = 0;
  let left = 0;
  for (let index = 1; index + 1 < ring.length; index += 1) {
    const b = at(ring, index);
    const c = at(ring, index + 1);
    const weight = turn(origin, b, c);
    doubled += weight;
    along += weight * (b.along - origin.along + c.along - origin.along);
    left += weight * (b.left - origin.left + c.left - origin.left);
  }
  if (doubled === 0) {
    const sum = ring.reduce((a, b) => ({ along: a.along + b.along, left: a.left + b.left }));
    return { along: sum.along / ring.length, left: sum.left / ring.length };
  }
  const corners = 3;
  return { along: origin.along + along / (corners * doubled), left: origin.left + left / (corners * doubled) };
}

/**
 * True when no corner turns clockwise by more than `tolerance` square metres (twice the area of the corner's triangle)
 * and the ring winds once.
 */
export function isConvex(ring: Ring, tolerance = 0): boolean {
  if (ring.length < 3) return false;
  let turned = 0;
  for (let index = 0; index < ring.length; index += 1) {
    const a = cyclic(ring, index);
    const b = cyclic(ring, index + 1);
    const c = cyclic(ring, index + 2);
    const bend = turn(a, b, c);
    if (bend < -tolerance) return false;
    const ahead = (b.along - a.along) * (c.along - b.along) + (b.left - a.left) * (c.left - b.left);
    turned += Math.atan2(bend, ahead);
  }
  return Math.abs(turned - 2 * Math.PI) < 1;
}

/** Metres from an edge up to which a point is on it: beyond what rounding moves a point of a pad's size. */
const ON_EDGE = 1e-9;

/**
 * True when the point lies inside the ring or on its edge. What counts as on the edge allows for rounding, so that no
 * point falls into the crack between two pieces of one polygon.
 */
export function contains(ring: Ring, point: PadPoint): boolean {
  let winding = 0;
  for (let index = 0; index < ring.length; index += 1) {
    const a = cyclic(ring, index);
    const b = cyclic(ring, index + 1);
    const side = turn(a, b, point);
    if (Math.abs(side) <= ON_EDGE * Math.hypot(b.along - a.along, b.left - a.left) && withinBox(a, b, point))
      return true;
    if (a.left <= point.left && b.left > point.left && side > 0) winding += 1;
    if (a.left > point.left && b.left <= point.left && side < 0) winding -= 1;
  }
  return winding !== 0;
}

function withinBox(a: PadPoint, b: PadPoint, point: PadPoint): boolean {
  return (
    point.along >= Math.min(a.along, b.along) - ON_EDGE &&
    point.along <= Math.max(a.along, b.along) + ON_EDGE &&
    point.left >= Math.min(a.left, b.left) - ON_EDGE &&
    point.left <= Math.max(a.left, b.left) + ON_EDGE
  );
}

/** True when the closed segments a-b and c-d have a point in common. */
export function segmentsMeet(a: PadPoint, b: PadPoint, c: PadPoint, d: PadPoint): boolean {
  const abc = turn(a, b, c);
  const abd = turn(a, b, d);
  const cda = turn(c, d, a);
  const cdb = turn(c, d, b);
  if (abc * abd < 0 && cda * cdb < 0) return true;
  return (
    (abc === 0 && withinBox(a, b, c)) ||
    (abd === 0 && withinBox(a, b, d)) ||
    (cda === 0 && withinBox(c, d, a)) ||
    (cdb === 0 && withinBox(c, d, b))
  );
}

/** True when two sides that are not neighbours touch or cross, or two neighbours fold back onto each other. */
export function crossesItself(ring: Ring): boolean {
  const count = ring.length;
  for (let first = 0; first < count; first += 1) {
    const a = cyclic(ring, first);
    const b = cyclic(ring, first + 1);
    const c = cyclic(ring, first + 2);
    const folds =
      turn(a, b, c) === 0 && (b.along - a.along) * (c.along - b.along) + (b.left - a.left) * (c.left - b.left) < 0;
    if (count > 2 && folds) return true;
    for (let second = first + 2; second < count; second += 1) {
      if (first === 0 && second === count - 1) continue;
      if (segmentsMeet(a, b, cyclic(ring, second), cyclic(ring, second + 1))) return true;
    }
  }
  return false;
}

/** The convex hull, counter-clockwise, without corners on a straight side. */
export function convexHull(points: Ring): Ring {
  const sorted = [...points].sort((a, b) => a.along - b.along || a.left - b.left);
  if (sorted.length < 3) return sorted;
  const chain = (ordered: Ring): PadPoint[] => {
    const kept: PadPoint[] = [];
    for (const point of ordered) {
      while (kept.length >= 2 && turn(at(kept, kept.length - 2), at(kept, kept.length - 1), point) <= 0) kept.pop();
      kept.push(point);
    }
    kept.pop();
    return kept;
  };
  return [...chain(sorted), ...chain([...sorted].reverse())];
}

/** Metres from a point to the closed segment a-b. */
export function distanceToSegment(point: PadPoint, a: PadPoint, b: PadPoint): number {
  const along = b.along - a.along;
  const left = b.left - a.left;
  const squared = along * along + left * left;
  const part =
    squared === 0
      ? 0
      : Math.min(1, Math.max(0, ((point.along - a.along) * along + (point.left - a.left) * left) / squared));
  return Math.hypot(point.along - a.along - part * along, point.left - a.left - part * left);
}

/** Metres from a point to a ring's area; 0 inside. */
export function distanceToRing(point: PadPoint, ring: Ring): number {
  if (ring.length > 2 && contains(ring, point)) return 0;
  let least = Number.POSITIVE_INFINITY;
  for (let index = 0; index < ring.length; index += 1) {
    least = Math.min(least, distanceToSegment(point, cyclic(ring, index), cyclic(ring, index + 1)));
  }
  return least;
}

function at(ring: Ring, index: number): PadPoint {
  const point = ring[index];
  if (point === undefined) throw new RangeError(`a ring of ${ring.length} corners has no corner ${index}`);
  return point;
}

function cyclic(ring: Ring, index: number): PadPoint {
  return at(ring, index % ring.length);
}
