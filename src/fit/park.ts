/**
 * Where to park for one set of lines: the best worst margin over the required lines, which wanted lines can be served
 * beside them, and the stance to show.
 */
import { type LineChoice, nominal, type Pick as PickNumber } from "./lines/choice.ts";
import type { Manner } from "./lines/task.ts";
import { alongAtStop } from "./parts.ts";
import { type Setup, stanceProblem } from "./setup.ts";
import { type SolveRequest, solveStance } from "./stance/index.ts";
import type { Facing, PadPoint, StanceProblem, StanceSolution } from "./stance/problem.ts";

type Outcome = ReturnType<typeof solveStance>;

function leastMargin(solution: StanceSolution): number {
  return Math.min(Number.POSITIVE_INFINITY, ...solution.lines.map((line) => line.margin));
}

export function isSolved(outcome: Outcome): outcome is StanceSolution {
  return !("feasible" in outcome);
}

/** How much a wanted line counts when not all can be served: power before drain before water before the rest. */
const WANTED_WEIGHT = { power: 16, sewer: 8, water: 4, cable: 2, fill: 1 } as const;

export interface Parked {
  readonly facing: Facing;
  /** Lines served or required, in the order of `solution.lines`. */
  readonly lines: readonly LineChoice[];
  /** Wanted lines left out because no stance serves them beside the others. */
  readonly dropped: readonly LineChoice[];
  /** Largest worst margin over the required lines alone; Infinity without required lines. */
  readonly best: number;
  readonly bound: number;
  readonly proven: boolean;
  /** The stance shown. */
  readonly shown: StanceSolution;
  /** Least margin over `lines` at the stance shown, metres; Infinity without lines. */
  readonly least: number;
  /** True when the stance survives the parking scatter by construction. */
  readonly steady: boolean;
}

export interface NotParked {
  readonly facing: Facing;
  readonly outcome: Exclude<Outcome, StanceSolution>;
}

/** Subsets of the wanted lines, the most valuable first; the empty set last. */
export function wantedSubsets(wanted: readonly LineChoice[]): LineChoice[][] {
  const count = 2 ** wanted.length;
  const subsets = Array.from({ length: count }, (_, mask) => wanted.filter((_, bit) => (mask >> bit) % 2 === 1));
  const value = (subset: readonly LineChoice[]) => subset.reduce((sum, line) => sum + WANTED_WEIGHT[line.service], 0);
  return subsets.sort((a, b) => value(b) - value(a));
}

/** Largest displacement of an inlet or corner that the driver's scatter can cause, metres. */
export function scatterReach(setup: Setup): number {
  const { along, across, yaw } = setup.options.parking;
  return Math.hypot(along, across) + yaw * (setup.rig.length.value / 2);
}

/** Growth of the rig's outline that stands for the driver's scatter, metres. */
export function scatterGrowth(setup: Setup): NonNullable<SolveRequest["grow"]> {
  const { along, across, yaw } = setup.options.parking;
  // Tyres at a wheel stop cannot be off along the pad; forward of it the scatter is tried on the stance itself.
  const atStop = setup.site.stop !== null;
  return {
    lengthwise: atStop ? 0 : along + yaw * (setup.rig.width.value / 2),
    sidewise: across + yaw * (setup.rig.length.value / 2),
  };
}

/** Where the middle of the rig should stand: tyres at the wheel stop, else the middle of the pad. */
function preferredMiddle(setup: Setup, facing: Facing): PadPoint {
  const { rig, site } = setup;
  const stop = alongAtStop(rig, site, facing);
  if (stop !== null) return { along: stop + rig.length.value / 2, left: 0 };
  return { along: site.pad.length === null ? 0 : site.pad.length.value / 2, left: 0 };
}

/**
 * Among the stances whose margins are good enough, the one nearest to the middle of the pad: first with room to work
 * and for the driver's scatter, then without the one, then without either.
 */
function show(
  setup: Setup,
  facing: Facing,
  lines: readonly LineChoice[],
  best: StanceSolution,
): Pick<Parked, "shown" | "least" | "steady"> {
  const { worst } = best;
  if (worst < 0) return { shown: best, least: leastMargin(best), steady: false };
  const comfort = Math.min(setup.options.comfort, worst);
  const scatter = scatterReach(setup);
  const floor = Math.min(worst, Math.max(comfort, scatter));
  const towards = preferredMiddle(setup, facing);
  const plain = stanceProblem(setup, facing, lines);
  const roomy = stanceProblem({ ...setup, workspace: true }, facing, lines);
  const tries: readonly { readonly problem: StanceProblem; readonly floor: number; readonly grow: boolean }[] = [
    { problem: roomy, floor, grow: true },
    { problem: plain, floor, grow: true },
    { problem: roomy, floor: comfort, grow: false },
    { problem: plain, floor: comfort, grow: false },
  ];
  for (const { problem, floor: least, grow } of tries) {
    const floors = problem.lines.map(() => least);
    const request: SolveRequest = { floors, towards, ...(grow ? { grow: scatterGrowth(setup) } : {}) };
    const outcome = solveStance(problem, request);
    if (isSolved(outcome)) return { shown: outcome, least: leastMargin(outcome), steady: grow && least >= scatter };
  }
  return { shown: best, least: leastMargin(best), steady: false };
}

/** Best worst margin over `lines`, without choosing a stance to show. */
export function bestOver(
  setup: Setup,
  facing: Facing,
  lines: readonly LineChoice[],
  manner: Manner = "laid",
  pick: PickNumber = nominal,
): Outcome {
  return solveStance(stanceProblem(setup, facing, lines, manner, pick));
}

/** Parks the rig for one facing: required lines first, then as many wanted ones as can be served beside them. */
export function park(setup: Setup, facing: Facing, choices: readonly LineChoice[]): Parked | NotParked {
  const required = choices.filter((line) => line.need === "required");
  const wanted = choices.filter((line) => line.need === "wanted");
  const base = bestOver(setup, facing, required);
  if (!isSolved(base)) return { facing, outcome: base };
  const common = { facing, best: base.worst, bound: base.bound, proven: base.proven };
  for (const subset of wantedSubsets(wanted)) {
    const lines = [...required, ...subset];
    if (base.worst < 0 && subset.length > 0) continue;
    const outcome = subset.length === 0 ? base : bestOver(setup, facing, lines);
    if (!isSolved(outcome) || (outcome.worst < 0 && subset.length > 0)) continue;
    const dropped = wanted.filter((line) => !subset.includes(line));
    return { ...common, lines, dropped, ...show(setup, facing, lines, outcome) };
  }
  return { ...common, lines: required, dropped: wanted, ...show(setup, facing, required, base) };
}
