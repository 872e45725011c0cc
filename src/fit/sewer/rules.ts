/** Named rules about a sewer inlet's place. Each judges only what it says; none speaks for another place. */
import data from "../../../data/drain-rules.json" with { type: "json" };
import type { Check } from "../answer.ts";
import { check } from "../clearance/check.ts";
import type { Say } from "../say.ts";
import { TOUCH_TOLERANCE } from "../stance/tolerance.ts";

export interface DrainPlace {
  /** Rim above grade (or slab, where the rule says slab), metres; null when unknown. */
  readonly rimHeight: number | null;
  /** Inside diameter of the inlet, metres; null when unknown. */
  readonly diameter: number | null;
  /** Metres outside the unit's wall, negative when under the unit; null when unknown. */
  readonly outsideWall: number | null;
  /** Side of a vehicle driven through the dump station; null when this is no dump station or nobody knows. */
  readonly dumpSide: "left" | "right" | null;
}

type Rule = (typeof data.rules)[number];

interface Asked {
  readonly id: string;
  readonly what: string;
  readonly value: number | null;
  readonly meets: boolean | null;
  readonly limit: number | null;
  readonly least: boolean;
  readonly asks: string;
}

function rimAsked(rule: Rule, rim: number | null, say: Say): Asked | null {
  if (rule.rim === null) return null;
  const { low, high, above } = rule.rim;
  const belowLow = low !== null && rim !== null && rim < low - TOUCH_TOLERANCE;
  const aboveHigh = high !== null && rim !== null && rim > high + TOUCH_TOLERANCE;
  const asks =
    low === null
      ? `at most ${say.fine(high as number)} above ${above}`
      : high === null
        ? `at least ${say.fine(low)} above ${above}`
        : `${say.fine(low)} to ${say.fine(high)} above ${above}`;
  // The nearer end of the permitted range is the limit that the margin counts from.
  const low_ = low ?? Number.NEGATIVE_INFINITY;
  const high_ = high ?? Number.POSITIVE_INFINITY;
  const least = rim !== null ? Math.abs(rim - low_) < Math.abs(high_ - rim) : high === null;
  return {
    id: "rim",
    what: "The riser's rim",
    value: rim,
    meets: rim === null ? null : !belowLow && !aboveHigh,
    limit: least ? low : high,
    least,
    asks,
  };
}

function diameterAsked(rule: Rule, diameter: number | null, say: Say): Asked | null {
  if (rule.diameter === null) return null;
  const limit = rule.diameter.inlet;
  const fitting = rule.diameter.fitting === null ? "" : ` or a ${say.fine(rule.diameter.fitting)} fitting`;
  return {
    id: "diameter",
    what: "The inlet",
    value: diameter,
    meets: diameter === null ? null : diameter >= limit - TOUCH_TOLERANCE,
    limit,
    least: true,
    asks: `at least ${say.fine(limit)} across${fitting}`,
  };
}

function reachAsked(rule: Rule, outside: number | null, say: Say): Asked | null {
  if (rule.reach === null) return null;
  const beneath = outside !== null && outside < 0;
  const limit = beneath ? rule.reach.beneath : rule.reach.outside;
  const value = outside === null ? null : Math.abs(outside);
  return {
    id: "reach",
    what: beneath ? "The inlet under the unit" : "The inlet",
    value,
    meets: value === null ? null : value <= limit + TOUCH_TOLERANCE,
    limit,
    least: false,
    asks: `within ${say.length(rule.reach.outside)} outside the wall, or under the unit within ${say.length(rule.reach.beneath)} of it`,
  };
}

/**
 * What the named rule says of a drain's place, one check for each figure that it gives; empty for an unknown rule id.
 * A dump station's side is judged only where the rule names one.
 */
export function drainRuleChecks(ruleId: string, place: DrainPlace, say: Say): Check[] {
  const rule = data.rules.find((candidate) => candidate.id === ruleId);
  if (rule === undefined) return [];
  const asked = [
    rimAsked(rule, place.rimHeight, say),
    diameterAsked(rule, place.diameter, say),
    reachAsked(rule, place.outsideWall, say),
  ].filter((one) => one !== null);
  const checks = asked.map((one) => ruleCheck(rule, one, say));
  if (rule.dumpSide !== null) checks.push(sideCheck(rule, place.dumpSide));
  return checks;
}

function ruleCheck(rule: Rule, asked: Asked, say: Say): Check {
  const shown = asked.value === null ? "is not on record" : `has ${say.fine(asked.value)}`;
  const verdict = asked.meets === null ? "not judged" : asked.meets ? "meets" : "does not meet";
  return check({
    id: `drain-rule.${asked.id}`,
    family: "may-not",
    deciding: false,
    status: asked.meets === null ? "unknown" : asked.meets ? "pass" : "fail",
    value: asked.value,
    limit: asked.limit,
    ...(asked.least ? { least: true as const } : {}),
    unit: "m",
    source: `${rule.name} (${rule.appliesTo}; ${rule.mark})`,
    why: `${asked.what} ${shown}; ${rule.name} (${rule.appliesTo}) asks ${asked.asks}: ${verdict}.`,
    ...(asked.meets === null ? { change: "Measure it." } : {}),
  });
}

function sideCheck(rule: Rule, side: DrainPlace["dumpSide"]): Check {
  const meets = side === null ? null : side === rule.dumpSide;
  return check({
    id: "drain-rule.side",
    family: "may-not",
    deciding: false,
    status: meets === null ? "unknown" : meets ? "pass" : "fail",
    value: null,
    limit: null,
    unit: null,
    source: `${rule.name} (${rule.appliesTo}; ${rule.mark})`,
    why:
      side === null
        ? `On which side of a rig driven through the inlet lies is not on record; ${rule.name} asks for the ${rule.dumpSide}.`
        : `The inlet lies on the ${side} of a rig driven through; ${rule.name} asks for the ${rule.dumpSide} (road side).`,
    ...(meets === null ? { change: "Ask the host or look at the lane." } : {}),
  });
}
