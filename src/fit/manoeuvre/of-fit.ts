/** The manoeuvre of a fit, from its stance and its levelling. */
import type { FitInput } from "../arrange.ts";
import type { Levelling } from "../level/level.ts";
import type { Say } from "../say.ts";
import type { Stance } from "../stance/problem.ts";
import type { ManoeuvreAnswer } from "./answer.ts";
import { judgeManoeuvre } from "./manoeuvre.ts";

export function manoeuvreOf(
  { rig, site, options }: FitInput,
  stance: Stance,
  level: Levelling,
  say: Say,
): ManoeuvreAnswer | null {
  const { grade, crossfall } = site.pad;
  // Blocks or a jack name the wheel that stays; without both slopes nobody knows whether they are called for.
  const standsLevel = level.stays !== null ? false : grade === null || crossfall === null ? null : true;
  return judgeManoeuvre({ rig, site, stance, devices: options.devices, level: standsLevel }, say);
}

/** True when some part of the way in or out is driven in reverse. */
export function hasReverse(answer: ManoeuvreAnswer): boolean {
  return [answer.in, answer.out].some((leg) => leg.moves.some(({ gear }) => gear === "reverse"));
}
