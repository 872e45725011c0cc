/** Whether a sewer hose drains: fall against run, with the named slope that it is held to. */

import rules from "../../../data/drain-rules.json" with { type: "json" };
import type { Estimate } from "../../units/estimate.ts";
import type { SewerAnswer } from "../answer.ts";
import { type Quantity, total } from "../clearance/compare.ts";
import type { Say } from "../say.ts";
import { TOUCH_TOLERANCE } from "../stance/tolerance.ts";
import { valueWords } from "../value-words.ts";

/** Least fall per metre of run: 1/4 in per ft, WAC 246-359-740(3), read. */
export const REQUIRED_SLOPE = rules.slopes.required.value;
/** Lower edge of the marginal band: 1/8 in per ft, IPC Table 704.1 for rigid pipe of 3 in to 6 in, read. */
export const MARGINAL_SLOPE = rules.slopes.marginal.value;

const SOURCE = rules.slopes.required.source;

export interface DrainInput {
  /** Id of the rig's outlet that is used; null when none is. */
  readonly outlet: string | null;
  /** Outlet above its ground, rim above its ground, metres; null when unknown. */
  readonly outletHeight: Estimate | null;
  readonly rimHeight: Estimate | null;
  /** Metres that levelling adds at the outlet; null when the pad's slope is unknown. */
  readonly raise: number | null;
  /** True when grade and crossfall are both on record. */
  readonly groundKnown: boolean;
  /** Fall from outlet to rim at the stance, ground and raise included, metres; null when there is no stance. */
  readonly fallAtStance: number | null;
  /** Ground length of the hose, metres; null when there is no stance. */
  readonly run: number | null;
  /** True when the hose has to pass under or round the rig: the riser is on the other side. */
  readonly otherSide?: boolean;
}

type Class = "drains" | "marginal" | "poor" | "uphill";
const ORDER: readonly Class[] = ["uphill", "poor", "marginal", "drains"];
/** Two-sided 90 % of a normal error: what lies beyond has a probability of 0.05 on either side. */
const QUANTILE = 1.6448536269514722;

/** Fall that a run needs at the required slope, metres. */
export function fallNeeded(run: number, slope: number = REQUIRED_SLOPE): number {
  return run * slope;
}

/** Fall in metres over a run on ground that rises by `rise` per metre towards the riser. */
export function fallOver(outletHeight: number, rimHeight: number, run: number, rise = 0): number {
  return outletHeight - rimHeight - rise * run;
}

/**
 * Longest run, metres, that keeps the slope when the outlet stands `drop` above the rim at level ground and the ground
 * rises by `rise` per metre towards the riser. Infinity where the ground falls at least as steeply as the slope asks.
 */
export function longestDrainRun(drop: number, rise = 0, slope: number = REQUIRED_SLOPE): number {
  const each = slope + rise;
  if (each <= 0) return drop >= 0 ? Infinity : 0;
  return Math.max(0, drop / each);
}

/** Class of a fall over a run; without run any fall drains. */
export function drainClass(fall: number, run: number): Class {
  if (fall <= 0) return "uphill";
  if (fall >= run * REQUIRED_SLOPE - TOUCH_TOLERANCE) return "drains";
  return fall >= run * MARGINAL_SLOPE - TOUCH_TOLERANCE ? "marginal" : "poor";
}

function unchecked(input: DrainInput, why: string): SewerAnswer {
  return {
    status: input.outlet === null ? "none" : "fall not checked",
    outlet: input.outlet,
    fall: null,
    run: input.run,
    slope: null,
    requiredSlope: REQUIRED_SLOPE,
    longestRun: null,
    why,
    source: SOURCE,
  };
}

/** What is missing, in words with the place where it belongs. */
function missing(input: DrainInput): string[] {
  const gone: string[] = [];
  if (input.outletHeight === null)
    gone.push("the height of the rig's drain outlet above the ground (no usual figure is published)");
  if (input.rimHeight === null) gone.push("the height of the riser's rim above the ground");
  if (!input.groundKnown || input.raise === null)
    gone.push("the slope of the ground, along and across (grade and crossfall of the pad)");
  return gone;
}

/** Class at both ends of what the heights may be. */
function ends(input: DrainInput, fall: number, run: number): { worst: Class; best: Class; spread: Quantity } {
  const spread = total([
    { of: input.outletHeight as Estimate, times: 1 },
    { of: input.rimHeight as Estimate, times: -1 },
  ]);
  const reserve = QUANTILE * spread.sigma;
  const worst = drainClass(fall + (spread.low - spread.value) - reserve, run);
  const best = drainClass(fall + (spread.high - spread.value) + reserve, run);
  return { worst, best, spread };
}

/**
 * The sewer answer. A height that is only a range gives the class of its worse end, named as such; where one end
 * drains and the other runs uphill nothing is claimed.
 */
export function drainAnswer(input: DrainInput, say: Say): SewerAnswer {
  if (input.outlet === null) return unchecked(input, "No sewer outlet of the rig is joined to a riser here.");
  const gone = missing(input);
  if (gone.length > 0) return unchecked(input, `Fall not checked: measure ${gone.join(" and ")}.`);
  const { run, fallAtStance: fall } = input;
  if (run === null || fall === null || !Number.isFinite(run)) {
    return unchecked(input, "Fall not checked: no permitted way for the hose from outlet to riser is known.");
  }
  const drop = (input.outletHeight as Estimate).value + (input.raise as number) - (input.rimHeight as Estimate).value;
  const rise = run > 0 ? (drop - fall) / run : 0;
  const longest = longestDrainRun(drop, rise);
  const { worst, best, spread } = ends(input, fall, run);
  const nothingClaimed = worst === "uphill" && best !== "uphill";
  const facts = {
    outlet: input.outlet,
    fall,
    run,
    slope: run > 0 ? fall / run : null,
    requiredSlope: REQUIRED_SLOPE,
    longestRun: Number.isFinite(longest) ? longest : null,
    source: SOURCE,
  };
  const told = numbers(facts, say, input.otherSide === true);
  if (nothingClaimed) {
    const doubt = spread.doubt === null ? "the heights of outlet and rim" : valueWords(spread.doubt);
    return {
      ...facts,
      status: "fall not checked",
      why: `${told} Over what the heights may be it may also run uphill: measure ${doubt}.`,
    };
  }
  const range =
    worst === best ? "" : ` Over what the heights may be it is between ${worst} and ${best}; the worse is given.`;
  const status = ORDER[Math.min(ORDER.indexOf(worst), ORDER.indexOf(best))] as Class;
  return { ...facts, status, why: `${told}${range} ${advice(status)}` };
}

/** The numbers in a sentence. */
function numbers(
  facts: { fall: number; run: number; slope: number | null; longestRun: number | null },
  say: Say,
  otherSide: boolean,
): string {
  const required = `${say.fall(REQUIRED_SLOPE)} (${rules.slopes.required.rule})`;
  const slope = facts.slope === null ? "" : `, ${say.fall(facts.slope, "down")}`;
  const needs = say.fine(fallNeeded(facts.run), "up");
  const limit =
    facts.longestRun === null
      ? "The ground falls towards the riser steeply enough that the slope sets no longest run."
      : `The longest run at that slope is ${say.available(facts.longestRun)}.`;
  const side = otherSide ? " The riser is on the other side of the rig, so the hose runs under or round it." : "";
  return `The hose falls ${say.fine(facts.fall, "down")} over ${say.needed(facts.run)}${slope}; ${required} asks for ${needs}. ${limit}${side}`;
}

function advice(status: Class): string {
  switch (status) {
    case "drains":
      return `Keep the hose straight and supported: ${rules.sag.inWords}. Use it ${rules.connectorLength.inWords}.`;
    case "marginal":
      return `That is at least ${rules.slopes.marginal.inWords} (${rules.slopes.marginal.rule}, for rigid pipe) but less than asked: ${rules.sag.inWords}.`;
    case "poor":
      return "It will drain slowly and hold solids: shorten the run, raise the outlet's end of the rig or stand nearer.";
    case "uphill":
      return "It does not drain by itself: stand on higher ground or use another riser.";
  }
}
