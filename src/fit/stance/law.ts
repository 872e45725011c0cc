import type { ReachLaw } from "./problem.ts";
import { VALUE_TOLERANCE } from "./tolerance.ts";

/**
 * A reach law made ready for the solver. With `run` the ground route in metres, the margin is
 * min(budget - sqrt(run^2 + fall^2), cap - run); `cap` is the run that the required slope permits, Infinity when none
 * is asked.
 */
export interface CompiledLaw {
  readonly budget: number;
  readonly fall: number;
  readonly cap: number;
  /** Least fall per metre of run; 0 when none is asked. */
  readonly requiredSlope: number;
  readonly slopeAlong: number;
  readonly slopeLeft: number;
  /** True when the fall depends on where the rig stands. */
  readonly sloping: boolean;
  /** True when the margin is budget - run. */
  readonly dropped: boolean;
}

/** Prepares a law; a required slope of 0 asks for none. */
export function compileLaw(law: ReachLaw): CompiledLaw {
  const requiredSlope = law.requiredSlope !== undefined && law.requiredSlope > 0 ? law.requiredSlope : 0;
  const sloping = law.slopeAlong !== 0 || law.slopeLeft !== 0;
  return {
    budget: law.budget,
    fall: law.fallAtLevel,
    cap: requiredSlope > 0 ? law.fallAtLevel / requiredSlope : Infinity,
    requiredSlope,
    slopeAlong: law.slopeAlong,
    slopeLeft: law.slopeLeft,
    sloping,
    dropped: !sloping && law.fallAtLevel === 0 && requiredSlope === 0,
  };
}

/** Margin in metres of a route of `run` metres with the given fall. */
export function marginOf(budget: number, fall: number, requiredSlope: number, run: number): number {
  const byLength = budget - (fall === 0 ? run : Math.sqrt(run * run + fall * fall));
  return requiredSlope > 0 ? Math.min(byLength, fall / requiredSlope - run) : byLength;
}

/** The longest ground route that leaves a margin of at least `margin`; negative infinity when none does. */
export function longestRun(budget: number, fall: number, cap: number, margin: number): number {
  const straight = budget - margin;
  if (fall === 0) return Math.min(straight, cap - margin);
  // The best margin of all is the one of no run, where rounding may leave the hose a hair shorter than its fall.
  if (straight < Math.abs(fall) - VALUE_TOLERANCE) return -Infinity;
  return Math.min(Math.sqrt(Math.max(0, (straight - fall) * (straight + fall))), cap - margin);
}

/** How fast `longestRun` shrinks per metre of margin: 1 for a dropped line, more where the fall takes its share. */
export function runPerMargin(budget: number, fall: number, cap: number, margin: number): number {
  if (fall === 0) return 1;
  const straight = budget - margin;
  const root = Math.sqrt(Math.max(0, (straight - fall) * (straight + fall)));
  return root <= cap - margin ? straight / root : 1;
}
