/** Distances between a box about an axle and convex areas. */
import type { PadPoint } from "../stance/problem.ts";
import type { Box, Placed } from "./vehicle.ts";
import { reach } from "./vehicle.ts";

/** A convex area, counter-clockwise, made ready for many questions. */
export interface Area {
  readonly corners: readonly PadPoint[];
  /** Outward unit normals of the sides and how far out each side lies. */
  readonly normals: readonly { readonly along: number; readonly left: number; readonly offset: number }[];
  readonly centre: PadPoint;
  readonly radius: number;
}

export function makeArea(corners: readonly PadPoint[]): Area {
  const normals = corners.flatMap((from, index) => {
    const to = corners[(index + 1) % corners.length] as PadPoint;
    const size = Math.hypot(to.along - from.along, to.left - from.left);
    if (size === 0) return [];
    const along = (to.left - from.left) / size;
    const left = (from.along - to.along) / size;
    return [{ along, left, offset: along * from.along + left * from.left }];
  });
  const sum = corners.reduce((a, b) => ({ along: a.along + b.along, left: a.left + b.left }), { along: 0, left: 0 });
  const centre = { along: sum.along / corners.length, left: sum.left / corners.length };
  const radius = Math.max(...corners.map((one) => Math.hypot(one.along - centre.along, one.left - centre.left)));
  return { corners, normals, centre, radius };
}

/** The part of a convex area on the side of a line to which `normal` points away: normal . p <= offset. */
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

/** Largest gap along the sides of either; negative by how deep they overlap. Never more than the distance. */
function gapAlongSides(at: Placed, box: Box, area: Area): number {
  let gap = Number.NEGATIVE_INFINITY;
  for (const normal of area.normals) {
    const ahead = normal.along * at.cos + normal.left * at.sin;
    const aside = normal.left * at.cos - normal.along * at.sin;
    const least =
      normal.along * at.along +
      normal.left * at.left -
      normal.offset +
      Math.min(ahead * box.rear, ahead * box.front) -
      Math.abs(aside) * box.half;
    if (least > gap) gap = least;
  }
  let aheadMin = Number.POSITIVE_INFINITY;
  let aheadMax = Number.NEGATIVE_INFINITY;
  let asideMin = Number.POSITIVE_INFINITY;
  let asideMax = Number.NEGATIVE_INFINITY;
  for (const point of area.corners) {
    const along = point.along - at.along;
    const left = point.left - at.left;
    const ahead = along * at.cos + left * at.sin;
    const aside = left * at.cos - along * at.sin;
    if (ahead < aheadMin) aheadMin = ahead;
    if (ahead > aheadMax) aheadMax = ahead;
    if (aside < asideMin) asideMin = aside;
    if (aside > asideMax) asideMax = aside;
  }
  return Math.max(gap, aheadMin - box.front, box.rear - aheadMax, asideMin - box.half, -box.half - asideMax);
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

/**
 * Metres between the box and the area; negative by how deep they overlap. Only whether it is more than `enough` is
 * told of what is farther than that.
 */
export function separation(at: Placed, box: Box, area: Area, enough: number): number {
  const apart = Math.hypot(at.along - area.centre.along, at.left - area.centre.left) - area.radius - reach(box);
  if (apart >= enough) return apart;
  const gap = gapAlongSides(at, box, area);
  return gap <= 0 || gap >= enough ? gap : nearest(at, box, area).distance;
}
