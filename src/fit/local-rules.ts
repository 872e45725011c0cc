/**
 * What a named local rule says of the site's drain and of its water outlet. Rules contradict each other from place to
 * place, so nothing is judged where the campground names none, and none of these decides whether the rig fits.
 */
import type { CompletedHookup, CompletedSite, Service } from "../site/completed.ts";
import type { Estimate } from "../units/estimate.ts";
import type { Check, CheckStatus } from "./answer.ts";
import { check, notApplicable } from "./clearance/check.ts";
import type { Say } from "./say.ts";
import { drainRuleChecks } from "./sewer/rules.ts";
import { padToRig } from "./stance/frame.ts";
import type { Stance } from "./stance/problem.ts";
import { waterRuleChecks } from "./water/rules.ts";

/** Where the rig stands and how large it is; null without a stance. */
export interface Standing {
  readonly stance: Stance;
  readonly length: number;
  readonly width: number;
}

/** A value that somebody measured; a range is no measure to hold against a rule. */
function measured(estimate: Estimate | null | undefined): number | null {
  return estimate == null || estimate.low !== estimate.high ? null : estimate.value;
}

function placeOf(hookup: CompletedHookup) {
  const along = measured(hookup.along);
  const left = measured(hookup.left);
  return along === null || left === null ? null : { along, left };
}

/** Metres from the rig's wall to a hookup, negative when it lies under the rig. */
function outsideWall(hookup: CompletedHookup, standing: Standing | null): number | null {
  const place = placeOf(hookup);
  if (place === null || standing === null) return null;
  const { fromRear, left } = padToRig(standing.stance, standing.length, place);
  const beyond = Math.max(-fromRear, fromRear - standing.length);
  const beside = Math.abs(left) - standing.width / 2;
  return beyond <= 0 && beside <= 0 ? Math.max(beyond, beside) : Math.hypot(Math.max(0, beyond), Math.max(0, beside));
}

const ORDER: readonly CheckStatus[] = ["fail", "unknown", "pass", "not applicable"];

/** One check out of a rule's several figures: the worst of them, and the words of all. */
function folded(id: string, made: readonly Check[], what: string): Check {
  const first = made[0];
  if (first === undefined) return notApplicable(id, `No local rule about ${what} is named for this place.`);
  const status = ORDER.find((one) => made.some((each) => each.status === one)) ?? "not applicable";
  const changes = [...new Set(made.flatMap((one) => one.change ?? []))];
  return check({
    id,
    family: "may-not",
    deciding: false,
    status,
    value: null,
    limit: null,
    unit: null,
    source: [...new Set(made.map((one) => one.source))].join("; "),
    why: made.map((one) => one.why).join(" "),
    ...(changes.length === 0 ? {} : { change: changes.join(" ") }),
  });
}

const hookupOf = (site: CompletedSite, service: Service): CompletedHookup | undefined =>
  site.hookups.find((hookup) => hookup.service === service);

function drainRule(site: CompletedSite, standing: Standing | null, say: Say): Check {
  const id = "drain-rule";
  const riser = hookupOf(site, "sewer");
  if (riser === undefined) return notApplicable(id, "No drain is on record here.");
  const place = {
    rimHeight: measured(riser.height),
    diameter: riser.sewer?.diameter ?? null,
    outsideWall: outsideWall(riser, standing),
    dumpSide: null,
  };
  // A rule on dump stations speaks of the side of a lane, not of a site.
  const made = drainRuleChecks(site.sitingCode ?? "", place, say).filter((one) => one.id !== "drain-rule.side");
  return folded(id, made, "drains");
}

function toSewer(site: CompletedSite, tap: CompletedHookup): number | null {
  const from = placeOf(tap);
  const riser = hookupOf(site, "sewer");
  const to = riser === undefined ? null : placeOf(riser);
  return from === null || to === null ? null : Math.hypot(from.along - to.along, from.left - to.left);
}

function waterRule(site: CompletedSite, say: Say): Check {
  const id = "water-rule";
  const tap = hookupOf(site, "water");
  if (tap === undefined) return notApplicable(id, "No water outlet is on record here.");
  const outlet = {
    pressure: tap.water?.pressure ?? null,
    riserHeight: measured(tap.height),
    pipe: null,
    toSewer: toSewer(site, tap),
  };
  return folded(id, waterRuleChecks(site.sitingCode ?? "", outlet, say), "water outlets");
}

/** drain-rule and water-rule, always both. */
export function localRules(site: CompletedSite, standing: Standing | null, say: Say): readonly Check[] {
  return [drainRule(site, standing, say), waterRule(site, say)];
}
