/** Sizes against what the site states: length, width, height, number of vehicles. */

import type { CompletedRig } from "../../rig/completed.ts";
import type { CompletedSite } from "../../site/completed.ts";
import type { Estimate } from "../../units/estimate.ts";
import type { Check, CheckFamily } from "../answer.ts";
import type { Say } from "../say.ts";
import { valueWords } from "../value-words.ts";
import { check, notApplicable } from "./check.ts";
import { judge, judgeWithComfort, total } from "./compare.ts";
import type { PlacedRig } from "./placed.ts";

interface AtMost {
  readonly id: string;
  readonly family: CheckFamily;
  readonly deciding: boolean;
  readonly what: string;
  readonly value: Estimate;
  readonly limit: Estimate;
  readonly limitWords: string;
  readonly source: string;
  /** Room below the limit that is wanted; less is tight. */
  readonly comfort?: number;
  /** Metres added to the value (levelling). */
  readonly added?: number;
  readonly change: string;
}

/** value + added against a stated limit. */
function atMost(input: AtMost, say: Say): Check {
  const margin = total(
    [
      { of: input.limit, times: 1 },
      { of: input.value, times: -1 },
    ],
    -(input.added ?? 0),
  );
  const judged = input.comfort === undefined ? judge(margin) : judgeWithComfort(margin, input.comfort);
  const value = input.value.value + (input.added ?? 0);
  const room = margin.value < 0 ? `${say.needed(-margin.value)} too much` : `${say.available(margin.value)} to spare`;
  const doubt = judged === "unknown" || judged === "tight" ? doubtWords(margin, say) : "";
  return check({
    id: input.id,
    family: input.family,
    deciding: input.deciding,
    status: judged,
    value,
    limit: input.limit.value,
    unit: "m",
    source: input.source,
    why: `${input.what} ${say.needed(value)}; ${input.limitWords} ${say.available(input.limit.value)}: ${room}${doubt}.`,
    ...(judged === "pass"
      ? {}
      : { change: judged === "unknown" ? `Measure ${valueWords(margin.doubt ?? input.value.path)}.` : input.change }),
  });
}

function doubtWords(margin: { low: number; high: number; sigma: number }, say: Say): string {
  if (margin.high > margin.low)
    return `, with anything from ${say.length(margin.low, "down")} to ${say.length(margin.high, "down")} possible`;
  return margin.sigma > 0 ? `, give or take ${say.fine(margin.sigma, "up")}` : "";
}

/** limits.length: the rig's own length, without what it tows, against the length the site states. */
export function statedLength(rig: CompletedRig, site: CompletedSite, say: Say): Check {
  const limit = site.limits.length;
  if (limit === null) return notApplicable("limits.length", "The record states no longest rig.");
  return atMost(
    {
      id: "limits.length",
      family: "may-not",
      deciding: true,
      what: "The rig is",
      value: rig.length,
      limit,
      limitWords: "the site takes rigs up to",
      source: "the site's record, /limits/length",
      change: "Ask the host whether the limit is meant for this pad.",
    },
    say,
  );
}

/** What stands out furthest on one side: an open slide or an open awning; null when nothing does. */
function outstanding(placed: PlacedRig, wall: "left" | "right", awnings: boolean): Estimate | null {
  const open = placed.rig.slideouts.filter((slide) => placed.slides.some((part) => part.id === slide.id));
  const depths = [
    ...open.filter((slide) => slide.wall === wall).map((slide) => slide.depth),
    ...(awnings ? placed.rig.awnings.filter((one) => one.wall === wall).map((one) => one.projection) : []),
  ];
  return depths.reduce<Estimate | null>(
    (most, depth) => (most === null || depth.value > most.value ? depth : most),
    null,
  );
}

/**
 * Width that the rig takes up lived in: body, the deepest thing on the left, the deepest thing on the right. Terms for
 * a sum, to be compared with a site's width; where on the site it stands is another matter.
 */
function widthLivedIn(placed: PlacedRig, awnings: boolean): Estimate[] {
  const sides = [outstanding(placed, "left", awnings), outstanding(placed, "right", awnings)];
  return [placed.rig.width, ...sides.filter((one) => one !== null)];
}

/** limits.width: body, open slides and (when `awnings`) open awnings against the width the site states. */
export function statedWidth(placed: PlacedRig, site: CompletedSite, awnings: boolean, say: Say): Check {
  const limit = site.limits.width;
  if (limit === null) return notApplicable("limits.width", "The record states no width.");
  const used = widthLivedIn(placed, awnings);
  const margin = total([{ of: limit, times: 1 }, ...used.map((of) => ({ of, times: -1 }))]);
  const value = limit.value - margin.value;
  const judged = judge(margin);
  const room = margin.value < 0 ? `${say.needed(-margin.value)} too much` : `${say.available(margin.value)} to spare`;
  const change =
    judged === "unknown" ? `Measure ${valueWords(margin.doubt ?? limit.path)}.` : "Keep a slide or the awning in.";
  return check({
    id: "limits.width",
    family: "may-not",
    deciding: true,
    status: judged,
    value,
    limit: limit.value,
    unit: "m",
    source: "the site's record, /limits/width",
    why: `Lived in${awnings ? ", awning open," : ""} the rig takes ${say.needed(value)} of width; the site states ${say.available(limit.value)}: ${room}.`,
    ...(judged === "pass" ? {} : { change }),
  });
}

/** height.limit: the rig's own height against the height the site states. There is no federal limit to fall back on. */
export function statedHeight(rig: CompletedRig, site: CompletedSite, say: Say): Check {
  const limit = site.limits.height;
  if (limit === null) return notApplicable("height.limit", "The record states no greatest height.");
  return atMost(
    {
      id: "height.limit",
      family: "may-not",
      deciding: true,
      what: "The rig stands",
      value: rig.height,
      limit,
      limitWords: "the site takes heights up to",
      source: "the site's record, /limits/height",
      change: "Another site: the rig's height cannot be changed.",
    },
    say,
  );
}

/** Where the towed or towing vehicle goes: second-vehicle. */
export function secondVehicle(rig: CompletedRig, site: CompletedSite, say: Say): Check {
  const id = "second-vehicle";
  if (rig.towing === null) return notApplicable(id, "The rig comes without a second vehicle.");
  const init = {
    id,
    family: "may-not" as const,
    deciding: false,
    value: null,
    limit: null,
    unit: null,
    source: "the site's record",
  };
  const named = `The ${rig.towing.what}`;
  const most = site.rules.maxVehicles;
  if (most !== null && most < 2) {
    const why = `${named} is a second vehicle and the site takes ${most}.`;
    return check({
      ...init,
      status: "fail",
      value: 2,
      limit: most,
      source: "the site's record, /rules/maxVehicles",
      why,
      change: "Ask for other parking.",
    });
  }
  if (site.extraVehicle === "outline")
    return check({ ...init, status: "pass", why: `${named} has its own marked place.` });
  const behind = togetherOnPad(rig, site, say);
  if (behind?.fits === true)
    return check({ ...init, status: "pass", family: "cannot", ...behind.numbers, unit: "m", why: behind.why });
  if (site.extraVehicle === "elsewhere") {
    return check({
      ...init,
      status: "tight",
      why: `${named} is to be parked elsewhere; it does not stay with the rig.`,
      change: "Ask where.",
    });
  }
  if (site.extraVehicle === "none") {
    const why = `The site has no place of its own for a second vehicle. ${behind?.why ?? `Whether ${named.toLowerCase()} fits on the pad with the rig is not known.`}`;
    const known = behind?.sure === true;
    return check({
      ...init,
      status: known ? "fail" : "unknown",
      ...(behind?.numbers ?? {}),
      unit: behind === null ? null : "m",
      why,
      change: known ? "Ask for other parking." : "Measure /rig/towing/length and the pad.",
    });
  }
  const why = `Where ${named.toLowerCase()} may stand is not on record. ${behind?.why ?? ""}`.trim();
  return check({ ...init, status: "unknown", why, change: "Ask the host (/site/properties/extraVehicle)." });
}

/** Rig and second vehicle one behind the other on the pad; null when a length is not known. */
function togetherOnPad(
  rig: CompletedRig,
  site: CompletedSite,
  say: Say,
): { fits: boolean; sure: boolean; why: string; numbers: { value: number; limit: number } } | null {
  const other = rig.towing?.length ?? null;
  const pad = site.pad.length;
  if (other === null || pad === null) return null;
  const margin = total([
    { of: pad, times: 1 },
    { of: rig.length, times: -1 },
    { of: other, times: -1 },
  ]);
  const judged = judge(margin);
  const value = rig.length.value + other.value;
  const room =
    margin.value < 0
      ? `${say.needed(-margin.value)} over unless unhitched and the other vehicle has its own place`
      : `${say.available(margin.value)} to spare`;
  return {
    fits: judged === "pass",
    sure: judged === "pass" || judged === "fail",
    why: `Together they are ${say.needed(value)} on a pad of ${say.available(pad.value)}: ${room}.`,
    numbers: { value, limit: pad.value },
  };
}
