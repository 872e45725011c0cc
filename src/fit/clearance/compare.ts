/**
 * Honest comparison of uncertain numbers. A range compares by its ends: it passes when every value passes, fails when
 * none does. A standard deviation passes at a probability of 0.95 and fails at 0.05. What lies between is `tight`
 * when the survey is good and `unknown` when it is not.
 */
import type { Estimate } from "../../units/estimate.ts";
import { TOUCH_TOLERANCE } from "../stance/tolerance.ts";

/** A sum of estimates: nominal value, ends of the range, standard deviation of the rest. */
export interface Quantity {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly sigma: number;
  /** JSON Pointer of the value that contributes most doubt; null when there is none. */
  readonly doubt: string | null;
}

export interface Term {
  readonly of: Estimate;
  /** Factor of this value in the sum: 1, -1 or a slope. */
  readonly times: number;
}

/** Quantile of the normal distribution at a probability of 0.95. */
const QUANTILE = 1.6448536269514722;
/** Up to this standard deviation, metres, a doubtful comparison is called tight; above it nobody knows. */
const TIGHT_SIGMA = 0.15;

/** An exact number as a quantity. */
export function exactly(value: number): Quantity {
  return { value, low: value, high: value, sigma: 0, doubt: null };
}

/**
 * `constant` plus the terms. Ends of ranges add as an interval; own errors add in quadrature; errors shared within a
 * survey add with their signs before they join, so that two points of one survey do not differ by it.
 */
export function total(terms: readonly Term[], constant = 0): Quantity {
  let value = constant;
  let low = constant;
  let high = constant;
  let variance = 0;
  const shared = new Map<string, number>();
  let doubt: string | null = null;
  let most = 0;
  for (const { of, times } of terms) {
    value += times * of.value;
    low += Math.min(times * of.low, times * of.high);
    high += Math.max(times * of.low, times * of.high);
    variance += (times * of.sigma) ** 2;
    // Without a name of its own a shared error is shared with nothing else here.
    const survey = of.survey ?? `${of.path}#alone`;
    shared.set(survey, (shared.get(survey) ?? 0) + times * of.sigmaShared);
    const weight = Math.abs(times) * ((of.high - of.low) / 2 + of.sigma + of.sigmaShared);
    if (weight > most) {
      most = weight;
      doubt = of.path;
    }
  }
  for (const error of shared.values()) variance += error ** 2;
  return { value, low, high, sigma: Math.sqrt(variance), doubt };
}

export type Judgement = "pass" | "tight" | "unknown" | "fail";

/** Judges a margin (available - needed): at least `wanted` passes. */
export function judge(margin: Quantity, wanted = 0): Judgement {
  const reserve = QUANTILE * margin.sigma;
  const low = margin.low - wanted;
  const high = margin.high - wanted;
  if (low - reserve >= -TOUCH_TOLERANCE) return "pass";
  if (high < -TOUCH_TOLERANCE && high + reserve <= 0) return "fail";
  return margin.high - margin.low <= TOUCH_TOLERANCE && margin.sigma <= TIGHT_SIGMA ? "tight" : "unknown";
}

/**
 * Judges a margin that should also leave some room: fails below nothing, is tight below `comfort`, passes from there.
 */
export function judgeWithComfort(margin: Quantity, comfort: number): Judgement {
  const bare = judge(margin);
  if (bare !== "pass") return bare;
  return margin.value < comfort - TOUCH_TOLERANCE ? "tight" : "pass";
}
