import { type CompiledProblem, compileProblem, type SolveRequest, turnTargets } from "./compile.ts";
import { GroundCourses } from "./courses.ts";
import { DetourBranching } from "./detours.ts";
import { evaluateStance } from "./evaluate.ts";
import { stanceFromRear } from "./frame.ts";
import type { Stance, StanceProblem, StanceSolution } from "./problem.ts";
import { DEFAULT_NODE_LIMIT, type SearchOutcome, StanceSearch } from "./search.ts";

/** Why no stance exists. */
export interface Infeasible {
  readonly feasible: false;
  /**
   * `limits`: the pad's limits leave no room in any direction; `obstacles`: nowhere is clear; `lines`: no clear stance
   * keeps every floor, or lets some line out at all.
   */
  readonly reason: "limits" | "obstacles" | "lines";
  /** The limits, the ids of the obstacles, or the ids of the lines. */
  readonly blockers: readonly string[];
  /** For limits: metres by which one of them would have to give way, in the direction in which that is least. */
  readonly excess?: number;
  /** False when the search stopped at its node limit, so that a stance may exist all the same. */
  readonly proven: boolean;
}

/** A problem made ready for many solves. */
export interface CompiledStance {
  readonly compiled: CompiledProblem;
  readonly search: StanceSearch;
}

/** Makes a problem ready: everything that depends on pad, obstacles and rig is worked out once. */
export function compileStance(problem: StanceProblem, request: SolveRequest = {}): CompiledStance {
  const compiled = compileProblem(problem, request);
  const ground = compiled.hasDetours ? new GroundCourses(problem, compiled.lines) : null;
  const detours = ground === null ? null : new DetourBranching(compiled, ground);
  return { compiled, search: new StanceSearch(compiled, ground, detours) };
}

/**
 * Moves the targets: `targets` holds along and left of every line of the problem in turn, metres; `budgets`, one per
 * line, replaces the laws' budgets. Limits and obstacles stay as compiled.
 */
export function moveTargets(stance: CompiledStance, targets: Float64Array, budgets?: Float64Array): void {
  const { lines, families } = stance.compiled;
  for (const line of lines) {
    const at = line.index + line.index;
    line.target = { along: targets[at] as number, left: targets[at + 1] as number };
    const budget = budgets?.[line.index];
    if (budget !== undefined && budget !== line.law.budget) line.law = { ...line.law, budget };
  }
  for (const family of families) turnTargets(family, lines);
  stance.search.reload();
}

/**
 * The largest worst margin of a compiled problem in metres, without stance and paths; negative infinity when no stance
 * exists. The hot loop of sampling and of screening many sites.
 */
export function bestMargin(stance: CompiledStance): number {
  const { request, pulled } = stance.compiled;
  const { family, value } = stance.search.run(request.nodeLimit ?? DEFAULT_NODE_LIMIT);
  return pulled && request.towards === undefined && family !== null ? Infinity : value;
}

/**
 * The stance with the largest worst margin: the greatest s such that every line of the objective keeps a margin of at
 * least s, every line with a floor keeps its floor, every part keeps its limits and is clear of every obstacle. With
 * `towards` the value is minus the distance of the body's centre from that point; without any line in the objective
 * it is Infinity and the stance is the one nearest the middle of the limits.
 */
export function solveStance(problem: StanceProblem, request: SolveRequest = {}): StanceSolution | Infeasible {
  const stance = compileStance(problem, request);
  const { compiled } = stance;
  if (compiled.families.length === 0) return noRoom(compiled);
  const outcome = stance.search.run(request.nodeLimit ?? DEFAULT_NODE_LIMIT);
  if (outcome.family === null) return explain(stance, outcome);
  return solution(problem, request, compiled, outcome);
}

function solution(
  problem: StanceProblem,
  request: SolveRequest,
  compiled: CompiledProblem,
  outcome: SearchOutcome,
): StanceSolution {
  const { x, y, family, value, bound, nodes } = outcome;
  const { facing, yaw, cos, sin } = family as NonNullable<typeof family>;
  const rear = { along: cos * x - sin * y, left: sin * x + cos * y };
  const stance: Stance = stanceFromRear(rear, facing, yaw, problem.length);
  const free = compiled.pulled && request.towards === undefined;
  return {
    ...evaluateStance(problem, stance),
    worst: free ? Infinity : value,
    bound: free ? Infinity : bound,
    proven: bound <= value,
    nodes,
  };
}

function noRoom(compiled: CompiledProblem): Infeasible {
  let least: { readonly excess: number; readonly blockers: readonly string[] } | null = null;
  for (const room of compiled.rooms) if (least === null || room.excess < least.excess) least = room;
  const { excess, blockers } = least ?? { excess: 0, blockers: [] };
  return { feasible: false, reason: "limits", blockers, excess, proven: true };
}

/** Finds out whether it is the obstacles alone that leave no stance, by asking for one without any line. */
function explain(stance: CompiledStance, outcome: SearchOutcome): Infeasible {
  const { problem, request, lines } = stance.compiled;
  const proven = outcome.bound <= outcome.value;
  if (lines.length > 0) {
    const { floors: _floors, towards: _towards, ...rest } = request;
    const clear = solveStance({ ...problem, lines: [] }, rest);
    if (!("feasible" in clear)) return { feasible: false, reason: "lines", blockers: lineBlockers(stance), proven };
    return { ...clear, proven: clear.proven && proven };
  }
  return { feasible: false, reason: "obstacles", blockers: [...stance.search.met], proven };
}

/** The lines that no clear stance can serve even alone; when each could be served alone, all that were asked for. */
function lineBlockers(stance: CompiledStance): readonly string[] {
  const { problem, request, lines } = stance.compiled;
  if (lines.length === 1) return lines.map((line) => line.task.id);
  const alone = lines.filter((line) => {
    const floors = Number.isNaN(line.floor) ? [null] : [line.floor];
    const { towards: _towards, ...rest } = request;
    const one = solveStance({ ...problem, lines: [line.task] }, { ...rest, floors });
    return "feasible" in one;
  });
  return (alone.length > 0 ? alone : lines).map((line) => line.task.id);
}
