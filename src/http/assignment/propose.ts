/** One assignment from the problem as asked to the plan with its explanations; the same for routes and command line. */
import { type AskedProblem, type Assembling, assembleProblem } from "../../assign/assemble.ts";
import type { ExactSolver, Stop } from "../../assign/exact.ts";
import type { AssignmentProblem } from "../../assign/problem.ts";
import type { WayFit } from "../../assign/score.ts";
import { EFFORTS, type Solution, type SolveProgress, solveAssignment } from "../../assign/solve.ts";
import { fitRig } from "../../fit/fit.ts";
import { DEFAULT_OPTIONS } from "../../fit/options.ts";
import type { AssignmentOptions } from "../schemas/assignment.ts";

export interface ProposePorts {
  readonly clock: () => number;
  readonly exact?: ExactSolver | undefined;
  readonly stop?: Stop;
  readonly breathe: () => Promise<void>;
  readonly progress?: (progress: ProposeProgress) => void;
  /** Fits that were made before. */
  readonly memory: Map<string, readonly WayFit[]>;
}

export type ProposeProgress = { readonly phase: "fits"; readonly done: number } | SolveProgress;

export interface Proposed {
  readonly problem: AssignmentProblem;
  readonly solution: Solution;
}

const SECONDS = 30;
const MILLISECONDS = 1000;
/** Kept fits; when there are more, all are forgotten. */
const MOST_KEPT = 100_000;

/** Scores every stay at every site. Null when it was asked to stop. */
export async function scoreStays(asked: AskedProblem, ports: ProposePorts): Promise<AssignmentProblem | null> {
  if (ports.memory.size > MOST_KEPT) ports.memory.clear();
  const assembling: Assembling = {
    fit: (rig, site, options) =>
      fitRig({ rig, site, options: { ...DEFAULT_OPTIONS, ...options, detail: "summary" }, rose: null }),
    memory: ports.memory,
    breathe: ports.breathe,
    progress: (done) => ports.progress?.({ phase: "fits", done }),
    ...(ports.stop === undefined ? {} : { stop: ports.stop }),
  };
  return assembleProblem(asked, assembling);
}

/** Scores and solves. Null when it was asked to stop before there was a problem to solve. */
export async function propose(
  asked: AskedProblem,
  options: AssignmentOptions,
  ports: ProposePorts,
): Promise<Proposed | null> {
  const problem = await scoreStays(asked, ports);
  if (problem === null) return null;
  const solution = await solveAssignment(problem, {
    seed: options.seed ?? 1,
    effort: EFFORTS[options.effort ?? "usual"],
    clock: ports.clock,
    milliseconds: (options.seconds ?? SECONDS) * MILLISECONDS,
    breathe: ports.breathe,
    ...(ports.stop === undefined ? {} : { stop: ports.stop }),
    ...(ports.progress === undefined ? {} : { progress: ports.progress }),
    ...(ports.exact === undefined ? {} : { exact: ports.exact }),
  });
  return { problem, solution };
}
