/** Verdict of one line from its numbers, as published: reaches, tight, short, unknown. */
import type { LineVerdict } from "../answer.ts";

/** Up to this standard deviation a line that is neither clear nor hopeless is tight; beyond, it is unknown. Metres. */
export const TIGHT_SIGMA = 0.15;
/** Probabilities at which an uncertain line counts as reaching or as short. */
export const SURE = 0.95;
export const HOPELESS = 0.05;

export interface LineFacts {
  /** Margin as laid at the stance shown, metres. */
  readonly margin: number;
  /** Least and greatest margin over the ranges, parking anew, metres. */
  readonly marginLow: number;
  readonly marginHigh: number;
  /** Probability that the margin is not negative, at the least favourable end; null without errors. */
  readonly probability: number | null;
  /** Greatest margin of the least path over the ranges, parking anew, metres. */
  readonly leastHigh: number;
  /** Least margin of the least path over the ranges, metres. */
  readonly leastLow: number;
  /** Probability that the least path fits, at the most favourable end; null without errors. */
  readonly leastProbability: number | null;
  /** Largest standard deviation among the values that decide, metres. */
  readonly decidingSigma: number;
  readonly hasRanges: boolean;
}

/** Published rule of the line's verdict (see the vocabulary). */
export function lineVerdict(facts: LineFacts): LineVerdict {
  const fits = facts.margin >= 0 && facts.marginLow >= 0;
  if (fits && (facts.probability === null || facts.probability >= SURE)) return "reaches";
  const hopeless = facts.leastHigh < 0;
  if (hopeless && (facts.leastProbability === null || facts.leastProbability <= HOPELESS)) return "short";
  if (facts.decidingSigma > TIGHT_SIGMA) return "unknown";
  // A range that reaches into another verdict at one of its ends decides nothing.
  const rangeDecides =
    facts.hasRanges && (facts.leastLow < 0 !== facts.leastHigh < 0 || facts.marginLow < 0 !== facts.marginHigh < 0);
  if (rangeDecides) return "unknown";
  return facts.leastHigh < 0 ? "unknown" : "tight";
}
