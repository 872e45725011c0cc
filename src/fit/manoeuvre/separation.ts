/** Distances between a box about an axle and convex areas. Plain numbers throughout: the search asks millions of times. */
import type { PadPoint } from "../stance/problem.ts";
import { type Box, type Placed, reach } from "./vehicle.ts";

/** A convex area, counter-clockwise, made ready for many questions. */
export interface Area {
  readonly corners: readonly PadPoint[];
  /** Corners as along, left, along, left, ... */
  readonly flat: readonly number[];
  /** Outward unit normals of the sides and how far out each side lies: along, left, offset, along, ... */
  readonly sides: readonly number[];
  readonly centre: PadPoint;
  readonly radius: number;
}

/** Numbers of a side in `sides`. */
const SIDE = 3;

export function makeArea(corners: readonly PadPoint[]): Area {
  const sides = corners.flatMap((from, index) => {
    const to = corners[(index + 1) % corners.length] as PadPoint;
    const size = Math.hypot(to.along - from.along, to.left - from.left);
    if (size === 0) return [];
    const along = (to.left - from.left) / size;
    const left = (from.along - to.along) / size;
    return [along, left, along * from.along + left * from.left];
  });
  const sum = corners.reduce((a, b) => ({ along: a.along + b.along, left: a.left + b.left }), { along: 0, left: 0 });
  const centre = { along: sum.along / corners.length, left: sum.left / corners.length };
  const radius = Math.max(...corners.map((one) => Math.hypot(one.along - centre.along, one.left - centre.left)));
  return { corners, flat: corners.flatMap(({ along, left }) => [along, left]), sides, centre, radius };
}

/** The part of a convex area on the near side of a line: along * p.along + left * p.left <= offset. */
export function cut(corners: readonly PadPoint[], along: number, left: number, offset: number): PadPoint[] {
  const kept: PadPoint[] = [];
  corners.forEach((from, index) => {
    const to = corners[(index + 1) % corners.length] as PadPoint;
    const a = along * from.along + left * from.left - offset;
    const b = along * to.along + left * to.left - offset;
    if (a <= 0) kept.push(from);
    if ((a < 0 && b > 0) || (a > 0 && b < 0)) {
      const share = a / (a - b);
      kept.push({
        along: from.along + share * (to.along - from.along),
        left: from.left + share * (to.left - from.left),
      });
    }
  });
  return kept;
}

/**
 * Largest gap along the sides of either; negative by how deep they overlap. Never more than the distance. Stops once it
 * is at least `enough`.
 */
function gapAlongSides(x: number, y: number, cos: number, sin: number, box: Box, area: Area, enough: number): number {
  const { rear, front, half } = box;
  let gap = Number.NEGATIVE_INFINITY;
  const { sides, flat } = area;
  for (let index = 0; index < sides.length; index += SIDE) {
    const along = sides[index] as number;
    const left = sides[index + 1] as number;
    const ahead = along * cos + left * sin;
    const aside = left * cos - along * sin;
    const least =
      along * x +
      left * y -
      (sides[index + 2] as number) +
      (ahead > 0 ? ahead * rear : ahead * front) -
      (aside > 0 ? aside : -aside) * half;
    if (least > gap) {
      gap = least;
      if (gap >= enough) return gap;
    }
  }
  let aheadMin = Number.POSITIVE_INFINITY;
  let aheadMax = Number.NEGATIVE_INFINITY;
  let asideMin = Number.POSITIVE_INFINITY;
  let asideMax = Number.NEGATIVE_INFINITY;
  for (let index = 0; index < flat.length; index += 2) {
    const along = (flat[index] as number) - x;
    const left = (flat[index + 1] as number) - y;
    const ahead = along * cos + left * sin;
    const aside = left * cos - along * sin;
    if (ahead < aheadMin) aheadMin = ahead;
    if (ahead > aheadMax) aheadMax = ahead;
    if (aside < asideMin) asideMin = aside;
    if (aside > asideMax) asideMax = aside;
  }
  return Math.max(gap, aheadMin - front, rear - aheadMax, asideMin - half, -half - asideMax);
}

export interface Nearest {
  readonly distance: number;
  /** The point of the area. */
  readonly at: PadPoint;
}

function toSegment(point: PadPoint, a: PadPoint, b: PadPoint): Nearest {
  const along = b.along - a.along;
  const left = b.left - a.left;
  const squared = along * along + left * left;
  const raw = squared === 0 ? 0 : ((point.along - a.along) * along + (point.left - a.left) * left) / squared;
  const share = Math.min(1, Math.max(0, raw));
  const at = { along: a.along + share * along, left: a.left + share * left };
  return { distance: Math.hypot(point.along - at.along, point.left - at.left), at };
}

/** The nearest point of the area to a box that does not overlap it. */
export function nearest(at: Placed, box: Box, area: Area): Nearest {
  let best: Nearest = { distance: Number.POSITIVE_INFINITY, at: area.centre };
  for (const point of area.corners) {
    const along = point.along - at.along;
    const left = point.left - at.left;
    const ahead = along * at.cos + left * at.sin;
    const aside = left * at.cos - along * at.sin;
    const beyond = Math.max(box.rear - ahead, ahead - box.front, 0);
    const beside = Math.max(Math.abs(aside) - box.half, 0);
    const distance = Math.hypot(beyond, beside);
    if (distance < best.distance) best = { distance, at: point };
  }
  for (const ahead of [box.rear, box.front]) {
    for (const aside of [-box.half, box.half]) {
      const point = {
        along: at.along + at.cos * ahead - at.sin * aside,
        left: at.left + at.sin * ahead + at.cos * aside,
      };
      area.corners.forEach((from, index) => {
        const found = toSegment(point, from, area.corners[(index + 1) % area.corners.length] as PadPoint);
        if (found.distance < best.distance) best = found;
      });
    }
  }
  return best;
}

/** As `separation`, but along the sides only: never more than the distance, and as deep when they overlap. */
export function roughSeparation(
  x: number,
  y: number,
  cos: number,
  sin: number,
  box: Box,
  area: Area,
  enough: number,
): number {
  const apart = Math.hypot(x - area.centre.along, y - area.centre.left) - area.radius - reach(box);
  return apart >= enough ? apart : gapAlongSides(x, y, cos, sin, box, area, enough);
}

/**
 * Metres between the box and the area; negative by how deep they overlap. Only whether it is more than `enough` is
 * told of what is farther than that.
 */
export function separation(at: Placed, box: Box, area: Area, enough: number): number {
  const gap = roughSeparation(at.along, at.left, at.cos, at.sin, box, area, enough);
  return gap <= 0 || gap >= enough ? gap : nearest(at, box, area).distance;
}
