/** Holds the product's probabilities against truths drawn from the stated errors and decided by the reference. */
import { fitRig } from "../../src/fit/fit.ts";
import { decide } from "../reference/decide.ts";
import {
  type CalibrationSite,
  calibrationSite,
  drawing,
  drawnTruth,
  lengthened,
  questionOf,
} from "./calibration-sites.ts";

export const TENTHS = 10;

export interface Judged {
  readonly seed: number;
  readonly probability: number;
  readonly truths: number;
  readonly true: number;
  readonly undecided: number;
}

export interface Tenth {
  readonly tenth: number;
  readonly sites: number;
  readonly truths: number;
  /** Mean probability that the product gave, and the share of the truths that came true. */
  readonly said: number;
  readonly came: number;
  /** Largest difference of a single site, in points of probability. */
  readonly worstSite: number;
}

/** Truths by which a site's line length is brought near its limit, and halvings of the length tried. */
const AIM_TRUTHS = 60;
const AIM_STEPS = 9;
const LONGEST = 40;

function share(
  one: CalibrationSite,
  seed: number,
  truths: number,
): { readonly yes: number; readonly undecided: number } {
  const next = drawing(seed);
  let yes = 0;
  let undecided = 0;
  for (let truth = 0; truth < truths; truth++) {
    const decision = decide(drawnTruth(one, next));
    if (decision === "yes") yes++;
    if (decision === "undecided") undecided++;
  }
  return { yes, undecided };
}

/**
 * The site with its lines lengthened until about `wanted` of its truths work: so that every tenth has sites. The truths
 * that aim are not those that judge, and the product has no part in it.
 */
function aimed(one: CalibrationSite, seed: number, wanted: number): CalibrationSite {
  let [short, long] = [0, LONGEST];
  for (let step = 0; step < AIM_STEPS; step++) {
    const middle = (short + long) / 2;
    if (share(lengthened(one, middle), seed, AIM_TRUTHS).yes < wanted * AIM_TRUTHS) short = middle;
    else long = middle;
  }
  return lengthened(one, long);
}

/** Judges so many sites, starting from a seed; a site on which the rig cannot stand as recorded is passed over. */
export function judgeSites(count: number, truths: number, firstSeed = 1): Judged[] {
  const judged: Judged[] = [];
  for (let seed = firstSeed; judged.length < count; seed++) {
    const wanted = (judged.length + 0.5) / count;
    const one = aimed(calibrationSite(seed), seed * 2 + 1_000_003, wanted);
    const { probability } = fitRig(questionOf(one));
    if (probability === undefined) continue;
    const { yes, undecided } = share(one, seed * 2, truths);
    judged.push({ seed, probability, truths, true: yes, undecided });
  }
  return judged;
}

export function byTenth(judged: readonly Judged[]): Tenth[] {
  return Array.from({ length: TENTHS }, (_, tenth) => {
    const rows = judged.filter(({ probability }) => Math.min(TENTHS - 1, Math.floor(probability * TENTHS)) === tenth);
    const truths = rows.reduce((sum, row) => sum + row.truths, 0);
    const said = rows.reduce((sum, row) => sum + row.probability * row.truths, 0) / truths;
    const came = rows.reduce((sum, row) => sum + row.true, 0) / truths;
    const worstSite = Math.max(0, ...rows.map((row) => Math.abs(row.true / row.truths - row.probability)));
    return { tenth, sites: rows.length, truths, said, came, worstSite };
  });
}
