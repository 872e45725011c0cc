/**
 * How exposed an awning is at a site, without any forecast: for search and for those who plan.
 *
 * The words are set by two winds everybody knows. `low`: a gust at the foot of a near gale (Beaufort 7) would still
 * press less than the lowest tested awning class. `high`: a gust at the top of a fresh breeze (Beaufort 5) would press
 * more. The choice of these two winds is assumed.
 */

import classes from "../../data/awning-wind-classes.json" with { type: "json" };
import beaufort from "../../data/beaufort.json" with { type: "json" };
import type { UnitSystem } from "../units/print.ts";
import { nominalSpeed } from "./awning-class.ts";
import type { Rose, Sector } from "./rose.ts";
import { upwindText } from "./say.ts";
import { compassWord, sectorsAround } from "./sector.ts";

export type ExposureWord = "low" | "moderate" | "high" | "unknown";

export interface Exposure {
  readonly level: ExposureWord;
  /** Gust at the awning over the gust in open country: for sorting, small is sheltered. */
  readonly ratio: number;
  /** The direction that decides. */
  readonly from: number;
  /** One sentence. */
  readonly why: string;
}

export interface ExposureOptions {
  /** True bearing that the wind mostly comes from, radians; left out, all directions count alike. */
  readonly prevailing?: number;
  /** What that wind is called in the sentence. Default "the prevailing wind". */
  readonly called?: string;
  readonly units?: UnitSystem;
}

const NEAR_GALE = 7;
const FRESH_BREEZE = 5;
const CLASS_SPEED = nominalSpeed(classes.unknownClass.class);

function speedFrom(force: number): number {
  return beaufort.forces[force]!.from;
}

/** Ratios of local gust to gust in open country below which exposure is low, and from which it is high. */
export const EXPOSURE_LIMITS = {
  lowBelow: CLASS_SPEED / speedFrom(NEAR_GALE),
  highFrom: CLASS_SPEED / speedFrom(FRESH_BREEZE + 1),
} as const;

/** The word for a ratio of one direction or of many. */
export function exposureWord(ratio: number): Exclude<ExposureWord, "unknown"> {
  if (ratio >= EXPOSURE_LIMITS.highFrom) return "high";
  return ratio < EXPOSURE_LIMITS.lowBelow ? "low" : "moderate";
}

/** The exposure of a place to the prevailing wind, or to all directions by the root mean square of their ratios. */
export function exposureLevel(rose: Rose, options: ExposureOptions = {}): Exposure {
  const { prevailing, called = "the prevailing wind", units = "metric" } = options;
  const counted = prevailing === undefined ? rose.sectors : sectorsAround(prevailing).map((at) => rose.sectors[at]!);
  const worst = counted.reduce((a, b) => (b.ratio > a.ratio ? b : a));
  const summary = prevailing === undefined ? rootMeanSquare : most;
  const ratio = summary(counted, (sector) => sector.ratio);
  const sound = exposureWord(summary(counted, (sector) => sector.ratioSound));
  const word = exposureWord(ratio);
  const level = word === "low" && sound !== "low" ? "moderate" : word;
  if (rose.flags.includes("nothing-recorded")) {
    const why = "The record holds neither shelter nor ground round this site, so its exposure is not known.";
    return { level: "unknown", ratio, from: worst.from, why };
  }
  return {
    level,
    ratio,
    from: worst.from,
    why: sentence(level, word, worst, prevailing === undefined ? null : { from: prevailing, called }, units),
  };
}

function most(sectors: readonly Sector[], pick: (sector: Sector) => number): number {
  return Math.max(...sectors.map(pick));
}

function rootMeanSquare(sectors: readonly Sector[], pick: (sector: Sector) => number): number {
  return Math.sqrt(sectors.reduce((sum, sector) => sum + pick(sector) ** 2, 0) / sectors.length);
}

function sentence(
  level: ExposureWord,
  word: ExposureWord,
  worst: Sector,
  wind: { readonly from: number; readonly called: string } | null,
  units: UnitSystem,
): string {
  const subject =
    wind === null
      ? `Exposure is ${level} over all directions, worst from ${compassWord(worst.from)}`
      : `Exposure is ${level} to ${wind.called} from ${compassWord(wind.from)}`;
  const doubt = level === word ? "" : " The shelter is a guess and not enough for less.";
  return `${subject}: ${upwindText(worst, units)}.${doubt}`;
}
