/** The body on its pad: length with permitted overhang, the overhang itself, the wheel stop, width with slides. */

import clearances from "../../../data/clearances.json" with { type: "json" };
import type { CompletedSite } from "../../site/completed.ts";
import type { Check } from "../answer.ts";
import { TYRE_RADIUS } from "../keep-outs.ts";
import { isTrailer } from "../level/wheels.ts";
import type { Say } from "../say.ts";
import { rigToPad } from "../stance/frame.ts";
import type { PadPoint } from "../stance/problem.ts";
import { TOUCH_TOLERANCE } from "../stance/tolerance.ts";
import { valueWords } from "../value-words.ts";
import { check, notApplicable, unknownCheck } from "./check.ts";
import { type Judgement, judge, judgeWithComfort, total } from "./compare.ts";
import { heightsMeet, type PlacedRig } from "./placed.ts";
import { nearest } from "./polygon.ts";

/** fit.length: rig against pad plus the overhang that is permitted behind its rear edge. Needs no stance. */
export function padLength(rig: PlacedRig["rig"], site: CompletedSite, say: Say): Check {
  const pad = site.pad.length;
  const init = {
    id: "fit.length",
    family: "cannot" as const,
    deciding: true,
    unit: "m" as const,
    source: "the pad's length on record",
  };
  if (pad === null) {
    return unknownCheck(
      {
        ...init,
        value: rig.length.value,
        why: `The rig is ${say.needed(rig.length.value)}; the pad's length is not on record.`,
      },
      "Measure the pad",
      "/site/properties/pad/length",
    );
  }
  const overhang = site.pad.overhangRear;
  const body = [
    { of: pad, times: 1 },
    { of: rig.length, times: -1 },
  ];
  const bare = total(body);
  const margin = overhang === null ? bare : total([...body, { of: overhang, times: 1 }]);
  const limit = pad.value + (overhang?.value ?? 0);
  const room = margin.value < 0 ? `${say.needed(-margin.value)} over` : `${say.available(margin.value)} to spare`;
  const hang =
    overhang === null || overhang.value === 0
      ? ""
      : `, ${say.available(overhang.value)} of it overhang behind the rear edge`;
  const why = `The rig is ${say.needed(rig.length.value)}, the pad takes ${say.available(limit)}${hang}: ${room}.`;
  const judged = judge(margin);
  const made = { ...init, value: rig.length.value, limit, why };
  // Where nobody said whether a rear end may hang over, a rig that would fit with it is not turned away.
  const couldHang = overhang === null && judge(total([...body, { of: rig.rearOverhang, times: 1 }])) !== "fail";
  if (judged === "fail" && couldHang) {
    return unknownCheck(
      { ...made, why: `${why} Whether the rear may hang over the pad's edge is not on record.` },
      "Ask how far a rear end may hang over",
      "/site/properties/pad/overhangRear",
    );
  }
  const change =
    judged === "unknown"
      ? `Measure ${valueWords(margin.doubt ?? pad.path)}.`
      : "A longer pad, or a permitted overhang.";
  return check({ ...made, status: judged, ...(judged === "pass" ? {} : { change }) });
}

function rearmost(outline: readonly PadPoint[]): number {
  return Math.min(...outline.map((corner) => corner.along));
}

/** fit.overhang: how far the body hangs behind the pad's rear edge at this stance, against what is permitted. */
export function overhang(placed: PlacedRig, site: CompletedSite, say: Say): Check {
  const hangs = Math.max(0, -rearmost(placed.body.outline));
  const allowed = site.pad.overhangRear;
  const init = {
    id: "fit.overhang",
    family: "may-not" as const,
    deciding: true,
    unit: "m" as const,
    source: "the site's record, /pad/overhangRear",
  };
  if (hangs === 0) return notApplicable(init.id, "At this stance nothing of the body hangs over the pad's rear edge.");
  if (allowed === null) {
    const why = `The body hangs ${say.needed(hangs)} over the pad's rear edge; whether it may is not on record.`;
    return unknownCheck(
      { ...init, value: hangs, why },
      "Ask how far a rear end may hang over",
      "/site/properties/pad/overhangRear",
    );
  }
  const judged = judge(total([{ of: allowed, times: 1 }], -hangs));
  const why = `The body hangs ${say.needed(hangs)} over the pad's rear edge; ${say.available(allowed.value)} is permitted.`;
  return check({
    ...init,
    status: judged,
    value: hangs,
    limit: allowed.value,
    why,
    ...(judged === "pass" ? {} : { change: "Stand further forward." }),
  });
}

/** Rear face of the wheel (or jack) that comes first to the pad's rear edge. */
function firstWheel(placed: PlacedRig): number {
  const { rig, stance, length } = placed;
  const rear = rig.rearOverhang.value;
  const front = rear + rig.wheelbase.value;
  const facingOut = stance.facing === "out";
  // A trailer nose-in comes with its jack first, which has no tyre.
  const radius = !facingOut && isTrailer(rig.class) ? 0 : TYRE_RADIUS;
  const axle = rigToPad(stance, length, { fromRear: facingOut ? rear : front, left: 0 });
  return axle.along - radius;
}

/** fit.stop: wheels before the stop, the end of the body over it, and room behind it. */
export function wheelStop(placed: PlacedRig, site: CompletedSite, say: Say): Check {
  const id = "fit.stop";
  const { stop } = site;
  if (stop === null) return notApplicable(id, "The record names no wheel stop or kerb.");
  const init = {
    id,
    family: "cannot" as const,
    deciding: true,
    unit: "m" as const,
    source: `the ${stop.kind === "kerb" ? "kerb" : "wheel stop"} on record and a tyre of ${say.length(TYRE_RADIUS)} radius (assumed)`,
  };
  const wheel = firstWheel(placed);
  // Tyres that touch the stop stand where a stop is meant to hold them, however well its place is known.
  const touching = stop.along.value - wheel <= TOUCH_TOLERANCE;
  const ahead = touching ? "pass" : judge(total([{ of: stop.along, times: -1 }], wheel));
  if (ahead !== "pass") {
    const why = `The nearest wheel would stand ${say.length(Math.max(0, stop.along.value - wheel), "up")} past the stop.`;
    return check({
      ...init,
      status: ahead,
      value: stop.along.value,
      limit: wheel,
      why,
      change: "Stand further from the stop.",
    });
  }
  const past = stop.along.value - rearmost(placed.body.outline);
  if (past <= 0) {
    const why = `The whole rig stands before the stop, ${say.available(-past)} from it.`;
    return check({ ...init, status: "pass", value: stop.along.value, limit: rearmost(placed.body.outline), why });
  }
  const under = total(
    [
      { of: placed.rig.groundClearance, times: 1 },
      { of: stop.height, times: -1 },
    ],
    placed.raised,
  );
  const over = judgeWithComfort(under, clearances.stopMargin.value);
  if (over !== "pass") {
    const why = `The body hangs ${say.needed(past)} past the stop, which is ${say.fine(stop.height.value, "up")} high; the body clears ${say.fine(placed.rig.groundClearance.value + placed.raised, "down")}.`;
    return check({
      ...init,
      status: over,
      value: stop.height.value,
      limit: placed.rig.groundClearance.value + placed.raised,
      why,
      change:
        over === "unknown"
          ? `Measure ${valueWords(under.doubt ?? "/groundClearance")}.`
          : "Stand further from the stop.",
    });
  }
  return behindStop(init, past, stop.clearBehind, say);
}

function behindStop(
  init: Pick<Check, "id" | "family" | "deciding" | "unit" | "source">,
  past: number,
  clear: NonNullable<CompletedSite["stop"]>["clearBehind"],
  say: Say,
): Check {
  if (clear === null) {
    const why = `The body hangs ${say.needed(past)} past the stop; how much is clear behind it is not on record.`;
    return unknownCheck(
      { ...init, value: past, why },
      "Measure from the stop to the first thing behind it",
      "/site/properties/stop/clearBehind",
    );
  }
  const judged = judge(total([{ of: clear, times: 1 }], -past));
  const why = `The body hangs ${say.needed(past)} past the stop, over ${say.available(clear.value)} that is clear.`;
  return check({
    ...init,
    status: judged,
    value: past,
    limit: clear.value,
    why,
    ...(judged === "pass" ? {} : { change: "Stand further from the stop." }),
  });
}

/** fit.width: body and open slides across the pad at this stance. Informs; slides over the edge are told, not refused. */
export function padWidth(placed: PlacedRig, site: CompletedSite, say: Say): Check {
  const id = "fit.width";
  const across = (outline: readonly PadPoint[]): [number, number] => [
    Math.min(...outline.map((p) => p.left)),
    Math.max(...outline.map((p) => p.left)),
  ];
  const all = [placed.body, ...placed.slides].map((part) => across(part.outline));
  const right = Math.min(...all.map((ends) => ends[0]));
  const left = Math.max(...all.map((ends) => ends[1]));
  const used = left - right;
  const init = {
    id,
    family: "cannot" as const,
    deciding: false,
    unit: "m" as const,
    source: "the pad's width on record",
  };
  const pad = site.pad.width;
  if (pad === null) {
    return unknownCheck(
      {
        ...init,
        value: used,
        why: `With slides out the rig takes ${say.needed(used)}; the pad's width is not on record.`,
      },
      "Measure the pad",
      "/site/properties/pad/width",
    );
  }
  const toLeft = pad.value / 2 - left;
  const toRight = pad.value / 2 + right;
  const bodyEnds = across(placed.body.outline);
  const bodyOver = judge(total([{ of: pad, times: 1 / 2 }], -Math.max(bodyEnds[1], -bodyEnds[0])));
  const allOver = judge(total([{ of: pad, times: 1 / 2 }], -Math.max(left, -right)));
  const status: Judgement = bodyOver !== "pass" ? bodyOver : allOver === "pass" ? "pass" : "tight";
  const hang = (room: number, side: string): string =>
    room < 0 ? `${say.needed(-room)} over the ${side} edge` : `${say.available(room)} inside the ${side} edge`;
  const beside = besideWords(placed, site, say);
  const why = `With slides out the rig takes ${say.needed(used)} on a pad of ${say.available(pad.value)}: ${hang(toLeft, "left")}, ${hang(toRight, "right")}.${beside}`;
  return check({
    ...init,
    status,
    value: used,
    limit: pad.value,
    why,
    ...(status === "pass" ? {} : { change: "Stand more to the other side, or keep a slide in." }),
  });
}

/** The nearest thing on record beside body and slides. */
function besideWords(placed: PlacedRig, site: CompletedSite, say: Say): string {
  let best = { distance: Infinity, what: "", part: "" };
  for (const part of [placed.body, ...placed.slides]) {
    for (const obstacle of site.obstacles) {
      if (obstacle.bars === "line" || !heightsMeet(part, obstacle)) continue;
      const { distance } = nearest(part.outline, obstacle.outline);
      if (distance < best.distance) best = { distance, what: `${obstacle.what} ${obstacle.id}`, part: part.id };
    }
  }
  if (!Number.isFinite(best.distance)) return "";
  return ` Nearest on record is the ${best.what}, ${say.available(best.distance)} from the ${best.part}.`;
}
