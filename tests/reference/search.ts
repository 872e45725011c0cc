/**
 * The largest worst margin by bisection of boxes, best bound first: slow, but every step is a bound that can be read.
 *
 * A box of rig places is dropped when a part surely breaks a limit or surely overlaps an obstacle for every place in
 * it, or when no place in it can beat what is already in hand. The bound on a line's margin drops an edge of its
 * visibility graph only if that edge is blocked for every place in the box, so jumps of detours and keep-outs are
 * covered without any continuity.
 */
import type { Facing, Stance, StanceProblem } from "../../src/fit/stance/problem.ts";
import { BoxHeap } from "./box-heap.ts";
import { type Direction, directionOf, nearestClear, surelyImpossible } from "./directions.ts";
import { stanceOf } from "./evaluate.ts";
import { runOf, runWithoutBarriers } from "./routes.ts";

export interface SearchOptions {
  /** The bracket stops at this width, metres. */
  readonly tolerance?: number;
  /** Boxes with a shorter half diagonal than this are not split, metres. */
  readonly floor?: number;
  readonly boxLimit?: number;
}

export interface ReferenceOptimum {
  /** Worst margin of `stance`; -Infinity when no stance with a route for every line was found. */
  readonly lower: number;
  /** No stance has a larger worst margin. */
  readonly upper: number;
  readonly stance?: Stance;
  /** True when some stance keeps every limit, whether or not it overlaps an obstacle. */
  readonly room: boolean;
  /** True when a stance that stands clear was met, whether or not its lines have routes. */
  readonly stands: boolean;
  readonly boxes: number;
  /** True when the box limit stopped the search. */
  readonly stopped: boolean;
}

const TOLERANCE = 5e-5;
const FLOOR = 1e-7;
const BOX_LIMIT = 3_000_000;

/** Upper bound of the worst margin over the box; stops early once it is not above `cut`. */
export function boundOver(direction: Direction, x: number, y: number, a: number, b: number, cut: number): number {
  let bound = Number.POSITIVE_INFINITY;
  for (const barriers of [false, true]) {
    for (const graph of direction.graphs) {
      if (barriers && graph.barriers.length === 0) continue;
      const { law, target } = graph.line;
      const run = barriers ? runOf(graph, x, y, a, b) : runWithoutBarriers(graph, x, y, a, b);
      const fall =
        law.fallAtLevel +
        law.slopeAlong * (x + graph.inletX - target.along) +
        law.slopeLeft * (y + graph.inletY - target.left);
      const spread = a * Math.abs(law.slopeAlong) + b * Math.abs(law.slopeLeft);
      const leastFall = Math.max(0, Math.abs(fall) - spread);
      bound = Math.min(bound, law.budget - Math.sqrt(run * run + leastFall * leastFall));
      if (law.requiredSlope !== undefined) bound = Math.min(bound, (fall + spread) / law.requiredSlope - run);
      if (bound <= cut) return bound;
    }
  }
  return bound;
}

/** The best worst margin over all facings, yaws and places, as a bracket with the stance that attains its lower end. */
export function searchOptimum(problem: StanceProblem, options: SearchOptions = {}): ReferenceOptimum {
  const { tolerance = TOLERANCE, floor = FLOOR, boxLimit = BOX_LIMIT } = options;
  const heap = new BoxHeap();
  const directions: Direction[] = [];
  let lower = Number.NEGATIVE_INFINITY;
  let dropped = Number.NEGATIVE_INFINITY;
  let best: { facing: Facing; yaw: number; x: number; y: number } | undefined;
  let stands = false;
  let boxes = 0;

  const consider = (index: number, x: number, y: number, a: number, b: number): void => {
    const direction = directions[index] as Direction;
    boxes += 1;
    if (surelyImpossible(direction, x, y, a, b)) return;
    const bound = boundOver(direction, x, y, a, b, lower + tolerance);
    if (bound > lower + tolerance) heap.push({ bound, index, x, y, a, b });
    else dropped = Math.max(dropped, bound);
  };
  const sample = (index: number, x: number, y: number): void => {
    const direction = directions[index] as Direction;
    // Where a target can only be reached by touching, the second place finds it and the first hardly ever does.
    for (const sets of [direction.forbidden, direction.useless]) {
      const at = nearestClear(direction, sets, x, y);
      if (at === undefined) continue;
      stands = true;
      const worst = boundOver(direction, at[0], at[1], 0, 0, lower);
      if (worst <= lower) continue;
      lower = worst;
      best = { facing: direction.facing, yaw: direction.yaw, x: at[0], y: at[1] };
    }
  };

  for (const facing of problem.facings) {
    for (const yaw of problem.yaws) {
      const direction = directionOf(problem, facing, yaw);
      if (direction === undefined) continue;
      directions.push(direction);
      const { x, y, a, b } = direction.extent;
      sample(directions.length - 1, x, y);
      consider(directions.length - 1, x, y, a, b);
    }
  }
  let stopped = false;
  for (let box = heap.pop(); box !== undefined; box = heap.pop()) {
    const { index, x, y, a, b, bound } = box;
    if (bound <= lower + tolerance || Math.hypot(a, b) < floor) {
      dropped = Math.max(dropped, bound);
      if (bound <= lower + tolerance) break;
      continue;
    }
    if (boxes > boxLimit) {
      dropped = Math.max(dropped, bound);
      stopped = true;
      break;
    }
    sample(index, x, y);
    if (a >= b) {
      consider(index, x - a / 2, y, a / 2, b);
      consider(index, x + a / 2, y, a / 2, b);
    } else {
      consider(index, x, y - b / 2, a, b / 2);
      consider(index, x, y + b / 2, a, b / 2);
    }
  }
  const found = best === undefined ? {} : { stance: stanceOf(problem, best.facing, best.yaw, best.x, best.y) };
  return { lower, upper: Math.max(lower, dropped), room: directions.length > 0, stands, boxes, stopped, ...found };
}
