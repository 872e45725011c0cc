/** Named rules about a water outlet: pressure, riser, distance from sewage, and the fill tap at a dump station. */

import hose from "../../../data/hose.json" with { type: "json" };
import data from "../../../data/water-outlet-rules.json" with { type: "json" };
import type { Check } from "../answer.ts";
import { check, notApplicable } from "../clearance/check.ts";
import type { Say } from "../say.ts";
import { TOUCH_TOLERANCE } from "../stance/tolerance.ts";

export interface WaterOutlet {
  /** Pascals at the outlet, riser above ground and pipe in metres, distance from the sewer riser; null when unknown. */
  readonly pressure: number | null;
  readonly riserHeight: number | null;
  readonly pipe: number | null;
  readonly toSewer: number | null;
}

type Rule = (typeof data.rules)[number];

function leastCheck(
  rule: Rule,
  id: string,
  what: string,
  value: number | null,
  limit: number,
  unit: "m" | "Pa",
  shown: (v: number) => string,
): Check {
  const meets = value === null ? null : value >= limit * (1 - TOUCH_TOLERANCE);
  const verdict = meets === null ? "not judged" : meets ? "meets" : "does not meet";
  return check({
    id: `water-rule.${id}`,
    family: "may-not",
    deciding: false,
    status: meets === null ? "unknown" : meets ? "pass" : "fail",
    value,
    limit,
    least: true,
    unit,
    source: `${rule.name} (${rule.mark})`,
    why: `${what} ${value === null ? "is not on record" : `is ${shown(value)}`}; ${rule.name} asks for at least ${shown(limit)}: ${verdict}.`,
    ...(meets === null ? { change: "Measure it." } : {}),
  });
}

/** One check for each figure that the named rule gives; empty for an unknown rule. */
export function waterRuleChecks(ruleId: string, outlet: WaterOutlet, say: Say): Check[] {
  const rule = data.rules.find((candidate) => candidate.id === ruleId);
  if (rule === undefined) return [];
  const made: Check[] = [];
  const fine = (metres: number): string => say.fine(metres);
  if (rule.pressure !== null) {
    made.push(
      leastCheck(rule, "pressure", "The pressure", outlet.pressure, rule.pressure, "Pa", (v) => say.pressure(v)),
    );
  }
  if (rule.riserHeight !== null) {
    made.push(leastCheck(rule, "riser", "The riser above ground", outlet.riserHeight, rule.riserHeight, "m", fine));
  }
  if (rule.pipe !== null) made.push(leastCheck(rule, "pipe", "The pipe", outlet.pipe, rule.pipe, "m", fine));
  if (rule.waterToSewer?.grouped === true) {
    const none = notApplicable(
      "water-rule.to-sewer",
      `${rule.name} lets water and sewer outlets stand together.`,
      rule.name,
    );
    made.push({ ...none, family: "may-not" });
  } else if (rule.waterToSewer?.least != null) {
    const what = "The distance from water to sewer riser";
    const one = leastCheck(rule, "to-sewer", what, outlet.toSewer, rule.waterToSewer.least, "m", (v) => say.length(v));
    made.push({ ...one, source: `${rule.name} (${rule.waterToSewer.mark})` });
  }
  return made;
}

/** Distance of a tank-filling tap from a dump station, metres, against the named rule; null when no such rule is known. */
export function fillTapCheck(ruleId: string, distance: number | null, say: Say): Check | null {
  const rule = data.fillTap.rules.find((candidate) => candidate.id === ruleId);
  if (rule === undefined) return null;
  const meets = distance === null ? null : distance >= data.fillTap.least - TOUCH_TOLERANCE;
  return check({
    id: "fill-tap.distance",
    family: "may-not",
    deciding: false,
    status: meets === null ? "unknown" : meets ? "pass" : "fail",
    value: distance,
    limit: data.fillTap.least,
    least: true,
    unit: "m",
    source: `${rule.name} (${rule.mark})`,
    why:
      distance === null
        ? `How far the fill tap is from the dump station is not on record; ${rule.name} asks for ${say.length(data.fillTap.least)}.`
        : `The fill tap is ${say.available(distance)} from the dump station; ${rule.name} asks for at least ${say.length(data.fillTap.least)}.`,
    ...(meets === null ? { change: "Measure from the tap to the dump inlet." } : {}),
  });
}

/** Whether so many hours under pressure lie within the scope of a hose's backflow device; null for an unknown device. */
export function backflowScope(
  deviceId: string,
  hours: number,
): { within: boolean; why: string; source: string } | null {
  const device = hose.backflow.devices.find((candidate) => candidate.id === deviceId);
  if (device === undefined) return null;
  const within = hours <= hose.backflow.hours;
  const why = within
    ? `${hours} hours under pressure lie within the ${hose.backflow.hours} hours of the ${device.name}.`
    : `${hours} hours under pressure are outside the ${hose.backflow.hours} hours of the ${device.name}: shut the tap when away.`;
  return { within, why, source: `${device.source} (${device.mark})` };
}
