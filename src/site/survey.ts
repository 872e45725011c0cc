/**
 * From tape distances between marks to places in the pad frame, because hosts know distances, not axes.
 *
 * Distances are on the ground, as a tape lies. The corners rear-left, rear-right, exit-left and exit-right are those of
 * a rectangular pad; `wheel-stop` is the middle of the wheel stop, on the pad's axis. Every other name is a mark: a
 * hookup id, a post, a tree. Two distances leave two places, one on either side of the line between the known marks: a
 * stated side or third decides, otherwise the mark is reported as ambiguous with both places.
 */
import type { PadPoint } from "../geo/pad-frame.ts";
import { type Adjustment, adjust } from "./survey/adjust.ts";
import type { SurveyInput } from "./survey/input.ts";
import { type Mark, placeOf, type Tape } from "./survey/network.ts";
import { buildNetwork, type NetworkPlan } from "./survey/plan.ts";
import { startPlaces } from "./survey/start.ts";
import { fits, type Wish } from "./survey/wish.ts";

export interface SolvedMark extends PadPoint {
  readonly id: string;
  /** Standard deviation of either coordinate, metres. */
  readonly sigmaAlong: number;
  readonly sigmaLeft: number;
}

export interface Residual {
  /** Place in the list of measurements. */
  readonly index: number;
  readonly from: string;
  readonly to: string;
  readonly distance: number;
  /** Measured minus computed, metres. */
  readonly residual: number;
  /** The residual in its own standard deviations; 0 when no other tape checks it. */
  readonly surprise: number;
}

export interface SurveySolution {
  readonly marks: readonly SolvedMark[];
  /** Pad sizes from the tapes and the record together; null when neither gives them. */
  readonly length: { readonly value: number; readonly sigma: number } | null;
  readonly width: { readonly value: number; readonly sigma: number } | null;
  readonly residuals: readonly Residual[];
  /** Marks that the tapes leave in two places. */
  readonly ambiguous: readonly { readonly id: string; readonly places: readonly [PadPoint, PadPoint] }[];
  /** Marks with too few tapes, and tapes that are of no use for that reason. */
  readonly undetermined: readonly string[];
  /** Measurements that contradict the others by more than three standard deviations, the worst first. */
  readonly contradictions: readonly Residual[];
}

/** Standard deviation of one tape distance when none is stated, metres (common practice, no source). */
export const TAPE_ACCURACY = 0.03;
/** Standard deviations beyond which a residual is a contradiction. */
const CONTRADICTION = 3;
/** Chi-square by which another place of a mark must be worse to be ruled out: three standard deviations. */
const RULED_OUT = CONTRADICTION * CONTRADICTION;
/** Rounds in which one more mark may turn out to be its mirror image. */
const MOST_ROUNDS = 4;
/** Metres by which two places of a mark differ when they are two. */
const APART = 0.05;
/** Share of the worst surprise from which another tape is named beside it: with one check, both may be the wrong one. */
const AS_SURPRISING = 0.999;

/** Solves a survey. Never throws; what the tapes do not give is named as ambiguous or undetermined. */
export function solveSurvey(input: SurveyInput): SurveySolution {
  const leftOut = new Set<string>();
  for (;;) {
    const plan = buildNetwork(input, TAPE_ACCURACY, leftOut);
    const solution = solvePlan(input, plan);
    if (typeof solution !== "string") return solution;
    // A mark whose tapes all pull in one line, or that hangs loose with others, is taken out so that the rest is solved.
    leftOut.add(solution);
  }
}

/** The solution, or the name of a mark or corner that stands in its way. */
function solvePlan(input: SurveyInput, plan: NetworkPlan): SurveySolution | string {
  const tried = adjustments(input, plan);
  const solved = tried.filter((result) => typeof result !== "number").sort((a, b) => a.chiSquare - b.chiSquare);
  const fitting = solved.filter((adjustment) => fitsWishes(plan, adjustment, input.wishes));
  const best = fitting[0] ?? solved[0];
  if (best === undefined) {
    const singular = tried.find((result) => typeof result === "number");
    const blocking = plan.free.find(({ along, left }) =>
      [along, left].some((coordinate) => "unknown" in coordinate && coordinate.unknown === singular),
    );
    return blocking?.id ?? unsolved(input, plan);
  }
  const rivals = fitting.filter((other) => other.chiSquare - best.chiSquare < RULED_OUT);
  const ambiguous = ambiguities(plan, best, rivals);
  const unclear = new Set(ambiguous.map(({ id }) => id));
  const residuals = plan.network.tapes.map((tape, index) => residualOf(tape, best, index));
  const worst = Math.max(0, ...residuals.map(({ surprise }) => surprise));
  return {
    marks: plan.free.filter(({ id }) => !unclear.has(id)).map((mark) => solvedMark(mark, best)),
    length: sizeOf(plan.length, best),
    width: sizeOf(plan.width, best),
    residuals,
    ambiguous,
    undetermined: plan.undetermined,
    contradictions: residuals
      .filter(({ surprise }) => surprise > CONTRADICTION && surprise >= AS_SURPRISING * worst)
      .sort((a, b) => b.surprise - a.surprise),
  };
}

/** The survey adjusted from its likeliest start and, for every mark that could be its mirror image, from that one. */
function adjustments(input: SurveyInput, plan: NetworkPlan): (Adjustment | number)[] {
  const results: (Adjustment | number)[] = [];
  let base = new Set<string>();
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const { unknowns, open } = startPlaces(plan, input.wishes, base);
    const here = adjust(plan.network, unknowns);
    results.push(here);
    let better: { chiSquare: number; mirrored: Set<string> } | null = null;
    for (const id of open) {
      const mirrored = new Set(base);
      if (!mirrored.delete(id)) mirrored.add(id);
      const there = adjust(plan.network, startPlaces(plan, input.wishes, mirrored).unknowns);
      results.push(there);
      if (typeof there === "number") continue;
      const least = better?.chiSquare ?? (typeof here === "number" ? Number.POSITIVE_INFINITY : here.chiSquare);
      if (there.chiSquare < least - RULED_OUT) better = { chiSquare: there.chiSquare, mirrored };
    }
    if (better === null) break;
    base = better.mirrored;
  }
  return results;
}

function unsolved(input: SurveyInput, plan: NetworkPlan): SurveySolution {
  const undetermined = [...plan.undetermined, ...plan.free.map(({ id }) => id)];
  return {
    marks: [],
    length: input.length,
    width: input.width,
    residuals: [],
    ambiguous: [],
    undetermined,
    contradictions: [],
  };
}

function fitsWishes(plan: NetworkPlan, adjustment: Adjustment, wishes: ReadonlyMap<string, Wish>): boolean {
  const length = plan.length === null ? null : (adjustment.unknowns[plan.length] as number);
  return plan.free.every((mark) => fits(placeOf(mark, adjustment.unknowns), wishes.get(mark.id), length));
}

function ambiguities(plan: NetworkPlan, best: Adjustment, rivals: readonly Adjustment[]): SurveySolution["ambiguous"] {
  return plan.free.flatMap((mark) => {
    const here = placeOf(mark, best.unknowns);
    for (const rival of rivals) {
      const there = placeOf(mark, rival.unknowns);
      if (Math.hypot(there.along - here.along, there.left - here.left) > APART) {
        return [{ id: mark.id, places: [here, there] as const }];
      }
    }
    return [];
  });
}

function solvedMark(mark: Mark, { unknowns, covariance }: Adjustment): SolvedMark {
  const sigma = (coordinate: Mark["along"]): number =>
    "fixed" in coordinate
      ? 0
      : Math.abs(coordinate.factor) * Math.sqrt(covariance[coordinate.unknown]?.[coordinate.unknown] ?? 0);
  return { id: mark.id, ...placeOf(mark, unknowns), sigmaAlong: sigma(mark.along), sigmaLeft: sigma(mark.left) };
}

function sizeOf(unknown: number | null, { unknowns, covariance }: Adjustment) {
  if (unknown === null) return null;
  return { value: unknowns[unknown] as number, sigma: Math.sqrt(covariance[unknown]?.[unknown] ?? 0) };
}

function residualOf(tape: Tape, { residuals, surprises }: Adjustment, at: number): Residual {
  const { index, from, to, distance } = tape;
  return { index, from, to, distance, residual: residuals[at] as number, surprise: surprises[at] as number };
}

export type { SurveyInput, TapeMeasurement } from "./survey/input.ts";
export type { Wish } from "./survey/wish.ts";
