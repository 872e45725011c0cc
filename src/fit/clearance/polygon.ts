/** Distances between convex outlines in the pad frame, and room outward from a wall. Metres. */
import { padToRig } from "../stance/frame.ts";
import type { PadPoint, RigPoint, Stance } from "../stance/problem.ts";
import { TOUCH_TOLERANCE } from "../stance/tolerance.ts";

export interface Nearest {
  /** Metres between the outlines; 0 when they touch or overlap. */
  readonly distance: number;
  /** The nearest points of the first and the second outline. */
  readonly from: PadPoint;
  readonly to: PadPoint;
}

function minus(a: PadPoint, b: PadPoint): PadPoint {
  return { along: a.along - b.along, left: a.left - b.left };
}

function nearestOnSegment(point: PadPoint, start: PadPoint, end: PadPoint): PadPoint {
  const way = minus(end, start);
  const square = way.along ** 2 + way.left ** 2;
  if (square === 0) return start;
  const off = minus(point, start);
  const share = Math.min(1, Math.max(0, (off.along * way.along + off.left * way.left) / square));
  return { along: start.along + share * way.along, left: start.left + share * way.left };
}

function sides(outline: readonly PadPoint[]): [PadPoint, PadPoint][] {
  return outline.map((corner, index) => [corner, outline[(index + 1) % outline.length] as PadPoint]);
}

/** True when the interiors overlap: no side of either separates them. */
export function overlap(first: readonly PadPoint[], second: readonly PadPoint[]): boolean {
  for (const outline of [first, second]) {
    const other = outline === first ? second : first;
    for (const [start, end] of sides(outline)) {
      const way = minus(end, start);
      const length = Math.hypot(way.along, way.left);
      if (length === 0) continue;
      // Outside of a counter-clockwise outline lies to the right of its sides.
      const outward = (p: PadPoint): number =>
        ((p.along - start.along) * way.left - (p.left - start.left) * way.along) / length;
      if (other.every((corner) => outward(corner) >= -TOUCH_TOLERANCE)) return false;
    }
  }
  return true;
}

/** The nearest points of two convex counter-clockwise outlines. */
export function nearest(first: readonly PadPoint[], second: readonly PadPoint[]): Nearest {
  const any = first[0] as PadPoint;
  if (overlap(first, second)) return { distance: 0, from: any, to: any };
  let best: Nearest = { distance: Infinity, from: any, to: any };
  const offer = (from: PadPoint, to: PadPoint): void => {
    const distance = Math.hypot(from.along - to.along, from.left - to.left);
    if (distance < best.distance) best = { distance, from, to };
  };
  for (const corner of first)
    for (const [start, end] of sides(second)) offer(corner, nearestOnSegment(corner, start, end));
  for (const corner of second)
    for (const [start, end] of sides(first)) offer(nearestOnSegment(corner, start, end), corner);
  return best;
}

/** A stretch of a wall in rig coordinates, from `start` to `end` along it. */
export interface WallStretch {
  readonly wall: "left" | "right" | "rear" | "front";
  readonly start: number;
  readonly end: number;
}

/** Along the wall and outward from it, for a point of the rig frame. */
function wallCoordinates(stretch: WallStretch, length: number, width: number, point: RigPoint): [number, number] {
  switch (stretch.wall) {
    case "left":
      return [point.fromRear, point.left - width / 2];
    case "right":
      return [point.fromRear, -point.left - width / 2];
    case "rear":
      return [point.left, -point.fromRear];
    case "front":
      return [point.left, point.fromRear - length];
  }
}

/** Keeps the part of a polygon where `inside` (a linear function) is not negative. */
function clip(points: [number, number][], inside: (point: [number, number]) => number): [number, number][] {
  const kept: [number, number][] = [];
  points.forEach((point, index) => {
    const next = points[(index + 1) % points.length] as [number, number];
    const here = inside(point);
    const there = inside(next);
    if (here >= 0) kept.push(point);
    if (here * there < 0) {
      const share = here / (here - there);
      kept.push([point[0] + share * (next[0] - point[0]), point[1] + share * (next[1] - point[1])]);
    }
  });
  return kept;
}

/**
 * Free metres straight outward from a stretch of wall to an outline; Infinity when nothing of it stands before the
 * stretch, 0 when it reaches the wall.
 */
export function roomOutward(
  stance: Stance,
  size: { readonly length: number; readonly width: number },
  stretch: WallStretch,
  outline: readonly PadPoint[],
): number {
  const local = outline.map((corner) =>
    wallCoordinates(stretch, size.length, size.width, padToRig(stance, size.length, corner)),
  );
  let before = clip(local, (point) => point[0] - stretch.start);
  before = clip(before, (point) => stretch.end - point[0]);
  const widest = Math.max(...before.map((point) => point[0])) - Math.min(...before.map((point) => point[0]));
  // What only grazes the end of the stretch does not stand before it.
  if (before.length === 0 || widest <= TOUCH_TOLERANCE) return Infinity;
  const outward = clip(before, (point) => point[1]);
  if (outward.length === 0) return Infinity;
  return Math.min(...outward.map((point) => point[1]));
}
