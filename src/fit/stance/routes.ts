import type { LineTask, RigPoint, RouteKind, Wall } from "./problem.ts";

/** Walls in the order in which the corners follow them: corner k sits between wall k and wall k + 1. */
export const WALLS: readonly Wall[] = ["left", "rear", "right", "front"];

/** Number of no wall: a leg that is legal in every direction. */
export const NO_WALL = -1;

/**
 * A way to the last leg of a line: `length` metres along the rig, then straight from (x, y) of the rig frame to any
 * point beyond wall number `wall`.
 */
export interface Departure {
  readonly kind: RouteKind;
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly wall: number;
  /** Metres of it from the inlet to the wall. */
  readonly setback: number;
  /** Inlet, wall point, corners of the rig, ending at (x, y). */
  readonly path: readonly RigPoint[];
}

/** The corners of the body in the order of `WALLS`. */
export function bodyCorners(length: number, width: number): readonly RigPoint[] {
  const half = width / 2;
  return [
    { fromRear: 0, left: half },
    { fromRear: 0, left: -half },
    { fromRear: length, left: -half },
    { fromRear: length, left: half },
  ];
}

/** The point of the wall straight before the inlet. */
export function wallPoint(line: LineTask, length: number, width: number): RigPoint {
  switch (line.wall) {
    case "left":
      return { fromRear: line.inlet.fromRear, left: width / 2 };
    case "rear":
      return { fromRear: 0, left: line.inlet.left };
    case "right":
      return { fromRear: line.inlet.fromRear, left: -width / 2 };
    case "front":
      return { fromRear: length, left: line.inlet.left };
  }
}

export function rigDistance(a: RigPoint, b: RigPoint): number {
  return Math.hypot(a.fromRear - b.fromRear, a.left - b.left);
}

/** Names a route by the first corner of the body that it passes. */
export function kindByCorner(corner: number): RouteKind {
  return corner <= 1 ? "around-rear" : "around-front";
}

/**
 * The shortest ground routes from an inlet, all of the form constant + distance from a fixed point: straight out, round
 * one corner either way, round two corners either way; or straight beneath. A third corner is never shorter. Outside
 * the half-plane of its wall a route's formula is too short, because it would cut through the rig.
 */
export function shortestDepartures(line: LineTask, length: number, width: number): readonly Departure[] {
  const { inlet } = line;
  if (line.mayRunBeneath) {
    return [{ kind: "beneath", x: inlet.fromRear, y: inlet.left, length: 0, wall: NO_WALL, setback: 0, path: [inlet] }];
  }
  const corners = bodyCorners(length, width);
  const wall = WALLS.indexOf(line.wall);
  const start = wallPoint(line, length, width);
  const setback = rigDistance(inlet, start);
  const head = setback > 0 ? [inlet, start] : [start];
  const routes: Departure[] = [
    { kind: "direct", x: start.fromRear, y: start.left, length: setback, wall, setback, path: head },
  ];
  const around = (cornerNumbers: readonly number[], lastWall: number): void => {
    const path = [...head];
    let along = setback;
    let last = start;
    for (const number of cornerNumbers) {
      const corner = corners[(number + corners.length) % corners.length] as RigPoint;
      along += rigDistance(last, corner);
      path.push(corner);
      last = corner;
    }
    const first = ((cornerNumbers[0] as number) + corners.length) % corners.length;
    const beyond = (lastWall + WALLS.length) % WALLS.length;
    const { fromRear: x, left: y } = last;
    routes.push({ kind: kindByCorner(first), x, y, length: along, wall: beyond, setback, path });
  };
  around([wall], wall + 1);
  around([wall - 1], wall - 1);
  around([wall, wall + 1], wall + 2);
  around([wall - 1, wall - 2], wall + 2);
  return routes;
}
