import { type ConvexSet, convexSet } from "./convex.ts";
import { noseVector } from "./frame.ts";
import type { Facing, RigPart } from "./problem.ts";
import { TOUCH_TOLERANCE } from "./tolerance.ts";

/** Metres by which every part is grown fore and aft, and on either side: the scatter of parking. */
export interface Growth {
  readonly lengthwise: number;
  readonly sidewise: number;
}

export const NO_GROWTH: Growth = { lengthwise: 0, sidewise: 0 };

/** A half-plane for the rig's origin, in rig-aligned coordinates, with the pad limit that it comes from. */
interface OriginLimit {
  readonly nx: number;
  readonly ny: number;
  readonly limit: number;
  readonly what: string;
}

/** Where the pad's limits let the rig's origin be, for one nose direction, in rig-aligned coordinates. */
export interface OriginRoom {
  readonly xMin: number;
  readonly xMax: number;
  readonly yMin: number;
  readonly yMax: number;
  /** The limits that are not parallel to an axis. */
  readonly planes: ConvexSet;
  /** Metres by which one limit would have to give way; 0 when there is room. */
  readonly excess: number;
  /** The limits that leave no room. */
  readonly blockers: readonly string[];
}

/** Sine below which a limit is parallel to the rig: a ten thousandth of a millimetre over a long pad. */
const AXIS_TOLERANCE = 1e-12;

/** Half-extent that stands for no limit on a side while corners are looked for. */
const FAR = 1e6;

/**
 * The origin's room: every limit of a part, moved in by the farthest point of that part in the limit's direction. Each
 * part keeps its own limits: taking the common bounding box of all parts would lose metres with yaw.
 */
export function originRoom(parts: readonly RigPart[], facing: Facing, yaw: number, growth: Growth): OriginRoom {
  const limits = tightest(parts, facing, yaw, growth);
  const box = { xMin: -Infinity, xMax: Infinity, yMin: -Infinity, yMax: Infinity };
  const slanted: OriginLimit[] = [];
  for (const limit of limits) {
    if (Math.abs(limit.ny) < AXIS_TOLERANCE) {
      if (limit.nx > 0) box.xMax = Math.min(box.xMax, limit.limit);
      else box.xMin = Math.max(box.xMin, -limit.limit);
    } else if (Math.abs(limit.nx) < AXIS_TOLERANCE) {
      if (limit.ny > 0) box.yMax = Math.min(box.yMax, limit.limit);
      else box.yMin = Math.max(box.yMin, -limit.limit);
    } else slanted.push(limit);
  }
  const { excess, blockers } = shortage(limits);
  const bounds = slanted.length === 0 || excess > 0 ? box : boundsOf(box, slanted);
  return {
    ...bounds,
    planes: convexSet(slanted.map((limit) => [limit.nx, limit.ny, limit.limit])),
    excess,
    blockers,
  };
}

/** One limit per direction: the tightest over all parts. */
function tightest(parts: readonly RigPart[], facing: Facing, yaw: number, growth: Growth): readonly OriginLimit[] {
  const { cos, sin } = noseVector(facing, yaw);
  const limits: OriginLimit[] = [];
  for (const part of parts) {
    for (const limit of part.limits) {
      const nx = cos * limit.along + sin * limit.left;
      const ny = cos * limit.left - sin * limit.along;
      const reachX = nx > 0 ? part.fromRearMax + growth.lengthwise : part.fromRearMin - growth.lengthwise;
      const reachY = ny > 0 ? part.leftMax + growth.sidewise : part.leftMin - growth.sidewise;
      const moved = { nx, ny, limit: limit.max - nx * reachX - ny * reachY, what: limit.what };
      const same = placeOfDirection(limits, nx, ny);
      if (same < 0) limits.push(moved);
      else if (moved.limit < (limits[same] as OriginLimit).limit) limits[same] = moved;
    }
  }
  return limits;
}

function placeOfDirection(limits: readonly OriginLimit[], nx: number, ny: number): number {
  for (let place = 0; place < limits.length; place++) {
    const other = limits[place] as OriginLimit;
    if (Math.abs(other.nx - nx) < AXIS_TOLERANCE && Math.abs(other.ny - ny) < AXIS_TOLERANCE) return place;
  }
  return -1;
}

/**
 * How much is missing: the least uniform push t of all limits that leaves a point is the largest -sum(weight * limit)
 * over the pairs of opposite limits and the triples that close in on a point (Helly in the plane). Moving the one limit
 * with the largest weight takes t / weight: for two opposite limits, the sum of both.
 */
function shortage(limits: readonly OriginLimit[]): { readonly excess: number; readonly blockers: readonly string[] } {
  let excess = 0;
  let blockers: readonly string[] = [];
  const consider = (members: readonly OriginLimit[], weights: readonly number[]): void => {
    const sum = weights.reduce((total, weight) => total + weight, 0);
    const push = -members.reduce((total, limit, index) => total + limit.limit * ((weights[index] as number) / sum), 0);
    const missing = push / (Math.max(...weights) / sum);
    if (push <= TOUCH_TOLERANCE || missing <= excess) return;
    excess = missing;
    blockers = [...new Set(members.map((limit) => limit.what))];
  };
  for (let i = 0; i < limits.length; i++) {
    for (let j = i + 1; j < limits.length; j++) {
      const a = limits[i] as OriginLimit;
      const b = limits[j] as OriginLimit;
      const ab = a.nx * b.ny - a.ny * b.nx;
      if (Math.abs(ab) < AXIS_TOLERANCE) {
        if (a.nx * b.nx + a.ny * b.ny < 0) consider([a, b], [1, 1]);
        continue;
      }
      for (let k = j + 1; k < limits.length; k++) {
        const c = limits[k] as OriginLimit;
        const turn = Math.sign(ab);
        const weights = [turn * (b.nx * c.ny - b.ny * c.nx), turn * (c.nx * a.ny - c.ny * a.nx), turn * ab];
        if (weights.every((weight) => weight > AXIS_TOLERANCE)) consider([a, b, c], weights);
      }
    }
  }
  return { excess, blockers };
}

interface Box {
  readonly xMin: number;
  readonly xMax: number;
  readonly yMin: number;
  readonly yMax: number;
}

/** The bounding box of box and slanted limits: a square cut by every limit in turn, let out by a touch. */
function boundsOf(box: Box, slanted: readonly OriginLimit[]): Box {
  let corners = [
    { x: Math.max(box.xMin, -FAR), y: Math.max(box.yMin, -FAR) },
    { x: Math.min(box.xMax, FAR), y: Math.max(box.yMin, -FAR) },
    { x: Math.min(box.xMax, FAR), y: Math.min(box.yMax, FAR) },
    { x: Math.max(box.xMin, -FAR), y: Math.min(box.yMax, FAR) },
  ];
  for (const { nx, ny, limit } of slanted) {
    const kept: { x: number; y: number }[] = [];
    corners.forEach((corner, index) => {
      const next = corners[(index + 1) % corners.length] as { x: number; y: number };
      const here = limit + TOUCH_TOLERANCE - nx * corner.x - ny * corner.y;
      const there = limit + TOUCH_TOLERANCE - nx * next.x - ny * next.y;
      if (here >= 0) kept.push(corner);
      if (here >= 0 !== there >= 0) {
        const part = here / (here - there);
        kept.push({ x: corner.x + part * (next.x - corner.x), y: corner.y + part * (next.y - corner.y) });
      }
    });
    corners = kept;
  }
  const open = (value: number): number => (Math.abs(value) >= FAR ? Math.sign(value) * Infinity : value);
  return {
    xMin: open(Math.min(...corners.map((corner) => corner.x)) - TOUCH_TOLERANCE),
    xMax: open(Math.max(...corners.map((corner) => corner.x)) + TOUCH_TOLERANCE),
    yMin: open(Math.min(...corners.map((corner) => corner.y)) - TOUCH_TOLERANCE),
    yMax: open(Math.max(...corners.map((corner) => corner.y)) + TOUCH_TOLERANCE),
  };
}
