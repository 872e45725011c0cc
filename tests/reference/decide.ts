/**
 * Is there any place at which every line reaches? The search of boxes again, stopped as soon as the answer is known:
 * at the first place with no margin below zero, or when no box can hold one.
 */
import type { StanceProblem } from "../../src/fit/stance/problem.ts";
import { type Direction, directionOf, nearestClear, surelyImpossible } from "./directions.ts";
import { boundOver } from "./search.ts";

/** Boxes with a shorter half diagonal are not split, metres: what they hide is within this of the limit. */
const FLOOR = 1e-4;
const BOX_LIMIT = 300_000;

/** `undecided` when the best margin lies within the floor of zero, or the box limit was met. */
export type Decision = "yes" | "no" | "undecided";

interface Open {
  readonly direction: Direction;
  readonly x: number;
  readonly y: number;
  readonly a: number;
  readonly b: number;
}

function works(direction: Direction, x: number, y: number): boolean {
  const at = nearestClear(direction, direction.useless, x, y);
  return at !== undefined && boundOver(direction, at[0], at[1], 0, 0, -1e-12) >= 0;
}

export function decide(problem: StanceProblem): Decision {
  const open: Open[] = [];
  for (const facing of problem.facings) {
    for (const yaw of problem.yaws) {
      const direction = directionOf(problem, facing, yaw);
      if (direction !== undefined) open.push({ direction, ...direction.extent });
    }
  }
  let undecided = false;
  let boxes = 0;
  for (let box = open.pop(); box !== undefined; box = open.pop()) {
    const { direction, x, y, a, b } = box;
    if (surelyImpossible(direction, x, y, a, b)) continue;
    if (boundOver(direction, x, y, a, b, -1e-12) < 0) continue;
    if (works(direction, x, y)) return "yes";
    boxes += 1;
    if (boxes > BOX_LIMIT) return "undecided";
    if (Math.hypot(a, b) < FLOOR) {
      undecided = true;
      continue;
    }
    const halves =
      a >= b
        ? [x - a / 2, x + a / 2].map((at) => ({ direction, x: at, y, a: a / 2, b }))
        : [y - b / 2, y + b / 2].map((at) => ({ direction, x, y: at, a, b: b / 2 }));
    open.push(...halves);
  }
  return undecided ? "undecided" : "no";
}
