/** All that is constant while the rig keeps one direction: where it may stand, what it may not overlap, its routes. */
import type { Facing, Obstacle, RigPart, StanceProblem } from "../../src/fit/stance/problem.ts";
import { cornersOf, insideOf, insideOfBox, type OpenConvex, turnedSet } from "./planar.ts";
import { type RouteGraph, routeGraph } from "./routes.ts";

/** Metres by which limits are loosened, so that a pad exactly as large as the rig keeps its one place. */
const LOOSE = 1e-9;
/** Metres of overlap that still count as standing clear. */
const STANDING = 1e-8;
/** Places are looked for within this many metres of the pad frame's origin. */
const WORLD = 500;
const PUSHES = 6;

export interface Direction {
  readonly facing: Facing;
  readonly yaw: number;
  readonly graphs: readonly RouteGraph[];
  /** Places of the rig origin that keep every limit (closed half-planes). */
  readonly limits: OpenConvex;
  /** Corners of that set, counter-clockwise. */
  readonly ground: readonly (readonly [number, number])[];
  /** The box round it. */
  readonly extent: { readonly x: number; readonly y: number; readonly a: number; readonly b: number };
  /** Open sets of rig places at which a part overlaps an obstacle. */
  readonly forbidden: readonly OpenConvex[];
  /** Those, and the open sets of places at which the body or a keep-out lies over a target it blocks. */
  readonly useless: readonly OpenConvex[];
}

/** Rig places at which the part, grown by the clearance, overlaps the obstacle: one half-plane for each axis. */
function overlapSet(part: RigPart, obstacle: Obstacle, cos: number, sin: number): OpenConvex {
  const grown = {
    fromRearMin: part.fromRearMin - obstacle.clearance,
    fromRearMax: part.fromRearMax + obstacle.clearance,
    leftMin: part.leftMin - obstacle.clearance,
    leftMax: part.leftMax + obstacle.clearance,
  };
  const corners = cornersOf(grown).map(([x, y]) => [cos * x - sin * y, sin * x + cos * y] as const);
  const solid = insideOf(obstacle.outline);
  const box = turnedSet(insideOfBox(grown), cos, sin);
  const nx = [...solid.nx, ...box.nx.map((n) => -n)];
  const ny = [...solid.ny, ...box.ny.map((n) => -n)];
  const max = [
    ...solid.max.map(
      (edge, i) =>
        edge - Math.min(...corners.map(([x, y]) => (solid.nx[i] as number) * x + (solid.ny[i] as number) * y)),
    ),
    ...box.max.map(
      (edge, i) =>
        edge -
        Math.min(...obstacle.outline.map((p) => (box.nx[i] as number) * p.along + (box.ny[i] as number) * p.left)),
    ),
  ];
  return { nx, ny, max };
}

/** The polygon of all places that keep the limits: the world square, cut by one half-plane after the other. */
function cutDown(limits: OpenConvex): (readonly [number, number])[] {
  let polygon: (readonly [number, number])[] = [
    [-WORLD, -WORLD],
    [WORLD, -WORLD],
    [WORLD, WORLD],
    [-WORLD, WORLD],
  ];
  limits.max.forEach((max, k) => {
    const over = (p: readonly [number, number]): number =>
      (limits.nx[k] as number) * p[0] + (limits.ny[k] as number) * p[1] - max;
    polygon = polygon.flatMap((p, i) => {
      const q = polygon[(i + 1) % polygon.length] as readonly [number, number];
      const atP = over(p);
      const atQ = over(q);
      const kept: (readonly [number, number])[] = atP <= 0 ? [p] : [];
      if ((atP < 0 && atQ > 0) || (atP > 0 && atQ < 0)) {
        const t = atP / (atP - atQ);
        kept.push([p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])]);
      }
      return kept;
    });
  });
  return polygon;
}

/** Rig places at which a shape of the rig, a set relative to its origin, covers the point. */
function coverSet(shape: OpenConvex, x: number, y: number): OpenConvex {
  return {
    nx: shape.nx.map((n) => -n),
    ny: shape.ny.map((n) => -n),
    max: shape.max.map((max, i) => max - (shape.nx[i] as number) * x - (shape.ny[i] as number) * y),
  };
}

/** Undefined when no place keeps the limits. */
export function directionOf(problem: StanceProblem, facing: Facing, yaw: number): Direction | undefined {
  const theta = facing === "out" ? yaw : Math.PI - yaw;
  const cos = Math.cos(theta);
  const sin = Math.sin(theta);
  const nx: number[] = [];
  const ny: number[] = [];
  const max: number[] = [];
  for (const part of problem.parts) {
    const corners = cornersOf(part).map(([x, y]) => [cos * x - sin * y, sin * x + cos * y] as const);
    for (const limit of part.limits) {
      nx.push(limit.along);
      ny.push(limit.left);
      max.push(limit.max - Math.max(...corners.map(([x, y]) => limit.along * x + limit.left * y)) + LOOSE);
    }
  }
  const limits = { nx, ny, max };
  const ground = cutDown(limits);
  if (ground.length === 0) return undefined;
  const xs = ground.map((p) => p[0]);
  const ys = ground.map((p) => p[1]);
  const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const forbidden = problem.parts.flatMap((part) =>
    problem.obstacles
      .filter((obstacle) => part.from < obstacle.to && obstacle.from < part.to)
      .map((obstacle) => overlapSet(part, obstacle, cos, sin)),
  );
  const graphs = problem.lines.map((line) => routeGraph(problem, line, theta));
  const covers = graphs.flatMap((graph) =>
    graph.rigShapes.map((shape) => coverSet(shape, graph.line.target.along, graph.line.target.left)),
  );
  return {
    facing,
    yaw,
    graphs,
    limits,
    ground,
    extent: { x: (x0 + x1) / 2, y: (y0 + y1) / 2, a: (x1 - x0) / 2, b: (y1 - y0) / 2 },
    forbidden,
    useless: [...forbidden, ...covers],
  };
}

/** True when no place of the box can be stood on. */
export function surelyImpossible(direction: Direction, x: number, y: number, a: number, b: number): boolean {
  const { limits } = direction;
  for (let i = 0; i < limits.max.length; i++) {
    const nx = limits.nx[i] as number;
    const ny = limits.ny[i] as number;
    const least = nx * x + ny * y - (limits.max[i] as number) - a * Math.abs(nx) - b * Math.abs(ny);
    if (least > LOOSE) return true;
  }
  for (const set of direction.forbidden) {
    let inside = true;
    for (let i = 0; inside && i < set.max.length; i++) {
      const nx = set.nx[i] as number;
      const ny = set.ny[i] as number;
      const depth = (set.max[i] as number) - nx * x - ny * y - a * Math.abs(nx) - b * Math.abs(ny);
      inside = depth > STANDING;
    }
    if (inside) return true;
  }
  return false;
}

function nearestOnGround(direction: Direction, x: number, y: number): [number, number] {
  const { limits, ground } = direction;
  let outside = false;
  for (let i = 0; i < limits.max.length; i++) {
    if ((limits.nx[i] as number) * x + (limits.ny[i] as number) * y > (limits.max[i] as number)) outside = true;
  }
  if (!outside) return [x, y];
  let best: [number, number] = [x, y];
  let least = Number.POSITIVE_INFINITY;
  ground.forEach((p, i) => {
    const q = ground[(i + 1) % ground.length] as readonly [number, number];
    const dx = q[0] - p[0];
    const dy = q[1] - p[1];
    const length2 = dx * dx + dy * dy;
    const t = length2 === 0 ? 0 : Math.min(1, Math.max(0, ((x - p[0]) * dx + (y - p[1]) * dy) / length2));
    const at: [number, number] = [p[0] + t * dx, p[1] + t * dy];
    const distance = Math.hypot(at[0] - x, at[1] - y);
    if (distance < least) {
      least = distance;
      best = at;
    }
  });
  return best;
}

/**
 * A place near (x, y) that keeps the limits and lies in none of the sets: moved onto the ground, then pushed out of each
 * set by the shortest way, a few times. Undefined when that does not lead to a clear place; it need not, the search
 * goes on splitting.
 */
export function nearestClear(
  direction: Direction,
  sets: readonly OpenConvex[],
  x: number,
  y: number,
): [number, number] | undefined {
  let at = nearestOnGround(direction, x, y);
  for (let push = 0; push <= PUSHES; push++) {
    let moved = false;
    for (const set of sets) {
      let depth = Number.POSITIVE_INFINITY;
      let edge = -1;
      for (let i = 0; i < set.max.length; i++) {
        const d = (set.max[i] as number) - (set.nx[i] as number) * at[0] - (set.ny[i] as number) * at[1];
        if (d < depth) {
          depth = d;
          edge = i;
        }
      }
      if (depth <= STANDING) continue;
      moved = true;
      at = [at[0] + depth * (set.nx[edge] as number), at[1] + depth * (set.ny[edge] as number)];
    }
    if (!moved) return at;
    at = nearestOnGround(direction, at[0], at[1]);
  }
  return undefined;
}
