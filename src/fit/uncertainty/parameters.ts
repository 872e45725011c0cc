/**
 * The uncertain numbers of one question and ways to read them. A run of the builder with a recording pick finds which
 * estimates a problem really uses; each then becomes one parameter (a range, or errors with standard deviations).
 */
import type { Estimate } from "../../units/estimate.ts";
import type { Pick } from "../lines/choice.ts";

export interface ErrorParameter {
  readonly estimate: Estimate;
  /** Index of the draw for its own error, or -1. */
  readonly own: number;
  /** Index of the draw for the error shared with its survey on the same axis, or -1. */
  readonly shared: number;
}

export interface Parameters {
  readonly ranges: readonly Estimate[];
  readonly errors: readonly ErrorParameter[];
  /** Number of independent standard normal draws. */
  readonly draws: number;
}

export function hasRange(estimate: Estimate): boolean {
  return estimate.low < estimate.high;
}

export function hasError(estimate: Estimate): boolean {
  return estimate.sigma > 0 || estimate.sigmaShared > 0;
}

/** Last word of the path: values of one survey share their error axis by axis. */
function axis(estimate: Estimate): string {
  return estimate.path.slice(estimate.path.lastIndexOf("/") + 1);
}

/** Runs `build` with a pick that notes what it reads. */
export function collectParameters(build: (pick: Pick) => unknown): Parameters {
  const seen = new Set<Estimate>();
  build((estimate) => {
    seen.add(estimate);
    return estimate.value;
  });
  const ranges: Estimate[] = [];
  const errors: ErrorParameter[] = [];
  const shared = new Map<string, number>();
  let draws = 0;
  for (const estimate of seen) {
    if (hasRange(estimate)) ranges.push(estimate);
    if (!hasError(estimate)) continue;
    const own = estimate.sigma > 0 ? draws++ : -1;
    let common = -1;
    if (estimate.sigmaShared > 0) {
      const key = `${estimate.survey ?? estimate.path} ${axis(estimate)}`;
      common = shared.get(key) ?? draws++;
      shared.set(key, common);
    }
    errors.push({ estimate, own, shared: common });
  }
  return { ranges, errors, draws };
}

/** Reads ranges at the given fractions (0 low, 1 high) and adds errors of the given standard normal draws. */
export function pickAt(
  parameters: Parameters,
  fractions: ReadonlyMap<Estimate, number>,
  normals: ArrayLike<number> | null,
): Pick {
  const errors = new Map(parameters.errors.map((error) => [error.estimate, error]));
  return (estimate) => {
    const fraction = fractions.get(estimate);
    const base = fraction === undefined ? estimate.value : estimate.low + fraction * (estimate.high - estimate.low);
    const error = normals === null ? undefined : errors.get(estimate);
    if (error === undefined) return base;
    const own = error.own < 0 ? 0 : estimate.sigma * normals![error.own]!;
    const common = error.shared < 0 ? 0 : estimate.sigmaShared * normals![error.shared]!;
    return base + own + common;
  };
}

/** Reads one estimate shifted by `shift`, all others at their nominal value. */
export function pickShifted(target: Estimate, shift: number): Pick {
  return (estimate) => (estimate === target ? estimate.value + shift : estimate.value);
}
