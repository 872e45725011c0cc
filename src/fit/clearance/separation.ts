/**
 * Distance to neighbours, buildings and lines under a rule that is named. Rules differ from place to place, so without
 * a name nothing is judged. Measured from the edges of slides and awnings where the rule counts them.
 */
import data from "../../../data/separation-rules.json" with { type: "json" };
import type { Check } from "../answer.ts";
import type { Say } from "../say.ts";
import { padToRig } from "../stance/frame.ts";
import type { PadPoint } from "../stance/problem.ts";
import { TOUCH_TOLERANCE } from "../stance/tolerance.ts";
import { check, notApplicable, unknownCheck } from "./check.ts";
import type { PlacedPart, PlacedRig } from "./placed.ts";
import { type Nearest, nearest } from "./polygon.ts";

export interface Neighbour {
  readonly id: string;
  readonly kind: "rig" | "building" | "street" | "line";
  /** Convex, counter-clockwise, pad frame; a rig with its slides and awning as it is expected to stand. */
  readonly outline: readonly PadPoint[];
}

type Rule = (typeof data.rules)[number];

function separationRule(id: string | null): Rule | null {
  return data.rules.find((rule) => rule.id === id) ?? null;
}

type Direction = "side" | "end";

/** Whether a neighbour lies beside the rig or at one of its ends, from the nearest points seen from the rig. */
function directionOf(placed: PlacedRig, found: Nearest): Direction {
  const from = padToRig(placed.stance, placed.length, found.from);
  const to = padToRig(placed.stance, placed.length, found.to);
  return Math.abs(to.fromRear - from.fromRear) > Math.abs(to.left - from.left) ? "end" : "side";
}

interface Gap {
  readonly neighbour: Neighbour;
  readonly part: PlacedPart;
  readonly distance: number;
  readonly limit: number;
  readonly how: string;
}

function gapTo(placed: PlacedRig, parts: readonly PlacedPart[], neighbour: Neighbour, rule: Rule): Gap | null {
  let best: { found: Nearest; part: PlacedPart } | null = null;
  for (const part of parts) {
    const found = nearest(part.outline, neighbour.outline);
    if (best === null || found.distance < best.found.distance) best = { found, part };
  }
  if (best === null) return null;
  const { found, part } = best;
  // Overlapping outlines lie in no direction: the stricter distance counts.
  const direction = found.distance === 0 ? null : directionOf(placed, found);
  const strictest = rule.end === null ? rule.side : Math.max(rule.side, rule.end);
  const between = direction === "side" ? rule.side : direction === "end" ? rule.end : strictest;
  const limit = neighbour.kind === "rig" ? between : rule[neighbour.kind];
  if (limit === null) return null;
  const how =
    neighbour.kind === "rig" && direction !== null ? (direction === "side" ? "side to side" : "end to end") : "";
  return { neighbour, part, distance: found.distance, limit, how };
}

/**
 * separation. `ruleId` names the rule; `awnings` says whether the awnings are open. A neighbour that the rule says
 * nothing about is not judged.
 */
export function separation(
  placed: PlacedRig,
  ruleId: string | null,
  neighbours: readonly Neighbour[],
  awnings: boolean,
  say: Say,
): Check {
  const id = "separation";
  const rule = separationRule(ruleId);
  if (rule === null) {
    const named =
      ruleId === null ? "No rule of separation is named for this place" : `The rule "${ruleId}" has no separation here`;
    return notApplicable(id, `${named}, so no distance to neighbours is judged; ask the host.`);
  }
  const source = `${rule.name} (${rule.mark})`;
  const parts =
    rule.attachments === false ? [placed.body] : [placed.body, ...placed.slides, ...(awnings ? placed.awnings : [])];
  const gaps = neighbours.map((one) => gapTo(placed, parts, one, rule)).filter((gap) => gap !== null);
  if (gaps.length === 0) {
    const why = `${rule.name} asks for ${say.length(rule.side)} between sides; no neighbour that it speaks of is on record.`;
    return unknownCheck(
      { id, family: "may-not", deciding: false, unit: "m", limit: rule.side, source, why },
      "Measure to the neighbouring rig and buildings",
      "/site/properties/obstacles",
    );
  }
  const worst = gaps.reduce((best, gap) => (gap.distance - gap.limit < best.distance - best.limit ? gap : best));
  const meets = worst.distance >= worst.limit - TOUCH_TOLERANCE;
  const unsaid = rule.attachments === null ? " Whether awnings and slides count is not said there; here they do." : "";
  return check({
    id,
    family: "may-not",
    deciding: false,
    status: meets ? "pass" : "fail",
    value: worst.distance,
    limit: worst.limit,
    least: true,
    unit: "m",
    source,
    why: `From the ${worst.part.id} to ${worst.neighbour.id} are ${say.available(worst.distance)}; ${rule.name} (${rule.wording}) asks for ${say.needed(worst.limit)}${worst.how === "" ? "" : ` ${worst.how}`}: ${meets ? "meets" : "does not meet"} it.${unsaid}`,
    ...(meets ? {} : { change: "Stand further off, or keep the awning in." }),
  });
}
