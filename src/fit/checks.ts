/** Every check of the answer, always all of them, in a fixed order. */

import type { CompletedRig } from "../rig/completed.ts";
import type { AnswerLine, Check, PowerAnswer } from "./answer.ts";
import { type Arrangement, isParked } from "./arrange.ts";
import { accessibleChecks } from "./clearance/accessible.ts";
import { awningRooms } from "./clearance/awning-room.ts";
import { check, notApplicable } from "./clearance/check.ts";
import { secondVehicle, statedHeight, statedLength, statedWidth } from "./clearance/limits.ts";
import { accessHeight, overhead } from "./clearance/overhead.ts";
import { overhang, padLength, padWidth, wheelStop } from "./clearance/pad.ts";
import { doorsClear, PEOPLE_DEFAULTS, pedestalSpace, serviceSide } from "./clearance/people.ts";
import { type PlacedRig, placeRig } from "./clearance/placed.ts";
import { separation } from "./clearance/separation.ts";
import { devices } from "./devices.ts";
import type { Levelling } from "./level/level.ts";
import { chanceToLetOut, chanceToStand } from "./lines/certain.ts";
import { HOPELESS } from "./lines/verdict.ts";
import { localRules } from "./local-rules.ts";
import { alongAtStop } from "./parts.ts";
import { type Say, sayer } from "./say.ts";
import { stanceProblem, withoutWantedAwnings } from "./setup.ts";
import { lineStatus } from "./verdict.ts";
import { survivesScatter } from "./window.ts";

export interface CheckInput {
  readonly arrangement: Arrangement;
  readonly lines: readonly AnswerLine[];
  readonly power: PowerAnswer;
  /** Checks of the water answer. */
  readonly water: readonly Check[];
}

function lineCheck(line: AnswerLine, usesKit: boolean, unproven: boolean): Check {
  const status = lineStatus(line);
  const doubtful = unproven && status === "fail" ? "unknown" : status;
  return check({
    id: `line.${line.service}`,
    family: "cannot",
    deciding: line.need === "required",
    status: doubtful === "pass" && usesKit ? "pass with kit" : doubtful,
    value: line.needed,
    limit: line.available,
    unit: "m",
    source: "the records and the allowance kept in hand (common practice, no source)",
    why: line.why,
  });
}

function matingCheck(power: PowerAnswer, need: string): Check {
  const statuses = {
    direct: "pass",
    adapter: "pass with kit",
    "adapter with caution": "pass with kit",
    refused: "fail",
    unknown: "unknown",
    none: "not applicable",
  } as const;
  return check({
    id: "power.mating",
    family: "must-not",
    deciding: need === "required",
    status: statuses[power.mating],
    value: power.amps,
    limit: null,
    unit: "A",
    source: "table of plugs and receptacles, data/receptacles.json",
    why: power.why,
  });
}

/** Whether the body stands anywhere at all, clear of everything. */
function standCheck(arrangement: Arrangement, say: Say): Check {
  const init = {
    id: "fit.stand",
    family: "cannot" as const,
    deciding: true,
    value: null,
    limit: null,
    unit: "m" as const,
    source: "the site's record: pad, obstacles and devices",
  };
  if (!arrangement.padKnown) {
    return check({
      ...init,
      status: "unknown",
      why: "The pad's length and width are not on record, so no stance is claimed.",
      change: "Measure the pad (/site/properties/pad).",
    });
  }
  const { parking } = arrangement;
  if (isParked(parking))
    return check({ ...init, status: "pass", why: "The rig stands clear of everything on record." });
  const { reason, blockers, excess } = parking.outcome;
  if (!parking.outcome.proven)
    return check({ ...init, status: "unknown", why: "The search for a stance ended before it was complete." });
  const what = blockers.join(", ");
  const required = arrangement.chosen.map((one) => one.choice).filter((line) => line.need === "required");
  const chance = reason === "lines" ? chanceToLetOut(arrangement, required) : chanceToStand(arrangement);
  if (chance > HOPELESS) {
    return check({
      ...init,
      status: "unknown",
      why: `By the nominal sizes the rig does not stand here (${what}), but within what is known of them it may.`,
      change: "Measure the pad and the rig.",
    });
  }
  if (reason === "limits") {
    const by = excess === undefined ? "" : ` by ${say.needed(excess)}`;
    return check({
      ...init,
      status: "fail",
      value: excess ?? null,
      limit: 0,
      why: `The rig is too big for the pad${by} (${what}).`,
      change: "A larger pad, a smaller rig, or a slide that stays closed.",
    });
  }
  const why =
    reason === "obstacles"
      ? `No place on the pad is clear of ${what}.`
      : `No clear stance lets these lines out: ${what}.`;
  return check({
    ...init,
    status: "fail",
    why,
    change: "Another site, or ask the host whether the obstacle is as recorded.",
  });
}

/** A yes must survive the driver's scatter. */
function parkingCheck(arrangement: Arrangement, say: Say): Check {
  const { setup, parking, facing } = arrangement;
  const { along, across } = setup.options.parking;
  const init = {
    id: "fit.parking",
    family: "risk" as const,
    deciding: true,
    value: null,
    limit: null,
    unit: "m" as const,
    source: "option parking (assumed)",
  };
  if (!arrangement.padKnown || !isParked(parking) || parking.least < 0) {
    return {
      ...check({ ...init, status: "not applicable", why: "There is no good stance to be off from." }),
      deciding: false,
    };
  }
  // Only required lines make the verdict; a wanted line that scatter takes away is told by its own margin.
  const required = parking.lines.filter((line) => line.need === "required");
  const problem = stanceProblem(withoutWantedAwnings(setup), facing, required);
  const off = `${say.length(along)} along and ${say.length(across)} across`;
  return survivesScatter(
    problem,
    parking.shown.stance,
    setup.options.parking,
    alongAtStop(setup.rig, setup.site, facing),
  )
    ? check({ ...init, status: "pass", why: `It still works when parked up to ${off} off.` })
    : check({
        ...init,
        status: "tight",
        why: `Parked up to ${off} off, something no longer reaches or touches: park by the window.`,
        change: "Use a spotter and stop inside the window.",
      });
}

function overEdge(arrangement: Arrangement, placed: PlacedRig | null, say: Say): Check {
  const id = "fit.slides";
  if (!arrangement.slidesOverEdge || placed === null) {
    const some = placed !== null && placed.slides.length > 0;
    const why = some ? "Open slides stay within the pad." : "No open slide.";
    return some
      ? check({
          id,
          family: "cannot",
          deciding: true,
          status: "pass",
          value: null,
          limit: null,
          unit: "m",
          source: "the site's record",
          why,
        })
      : notApplicable(id, why);
  }
  const stated = arrangement.setup.site.limits.width;
  if (stated !== null) {
    const why = "An open slide hangs over the pad's side edge and keeps the width that the site states.";
    return check({
      id,
      family: "cannot",
      deciding: true,
      status: "pass",
      value: null,
      limit: stated.value,
      unit: "m",
      source: "the site's record, /limits/width",
      why,
    });
  }
  const half = (arrangement.setup.site.pad.width?.value ?? 0) / 2;
  const over = Math.max(
    ...placed.slides.flatMap((slide) => slide.outline.map((corner) => Math.abs(corner.left) - half)),
  );
  return check({
    id,
    family: "cannot",
    deciding: true,
    status: "tight",
    value: over,
    limit: 0,
    unit: "m",
    source: "the site's record",
    why: `An open slide hangs ${say.needed(over)} over the pad's side edge; nothing on record stands there, but nobody has said that the ground beside the pad is free.`,
    change: "Ask the host, or keep that slide closed.",
  });
}

/** A working-space check decides as `tight`: a stance inside the space is never a plain yes. */
function spaceCheck(made: Check): Check {
  return made.status === "tight" || made.status === "fail" ? { ...made, status: "tight", deciding: true } : made;
}

function placedChecks(arrangement: Arrangement, placed: PlacedRig, say: Say) {
  const { site, options } = arrangement.setup;
  const stands = devices(site, options.devices);
  const people = {
    ...PEOPLE_DEFAULTS,
    pedestalClear: options.workspace.pedestal,
    serviceSideClear: options.workspace.side,
  };
  const required = options.awning === "required";
  const awnings = awningRooms(placed, site, required, say);
  const open = arrangement.openAwnings.length > 0;
  return {
    awnings: awnings.answers,
    checks: [
      padWidth(placed, site, say),
      overhang(placed, site, say),
      wheelStop(placed, site, say),
      overEdge(arrangement, placed, say),
      statedWidth(placed, site, required, say),
      overhead(placed, site, say),
      ...awnings.checks,
      ...doorsClear(placed, site, stands, say, people),
      ...(options.workspace.pedestal > 0 ? [spaceCheck(pedestalSpace(placed, stands, say, people))] : []),
      ...(options.workspace.side > 0 ? [spaceCheck(serviceSide(placed, site, say, people))] : []),
      separation(placed, site.sitingCode, [], open, say),
    ],
  };
}

const STANCE_CHECKS = [
  "fit.width",
  "fit.overhang",
  "fit.stop",
  "fit.slides",
  "limits.width",
  "height.overhead",
  "awning.room",
  "door.clear",
  "workspace.pedestal",
  "workspace.side",
  "separation",
] as const;

function unplaced(): Check[] {
  return STANCE_CHECKS.map((id) => notApplicable(id, "No stance to judge it at."));
}

function contestedCheck(arrangement: Arrangement): Check {
  const power = arrangement.chosen.find((candidate) => candidate.choice.service === "power")?.power ?? null;
  if (power === null || !power.contested) return notApplicable("power.contested", "The receptacle is this site's own.");
  return check({
    id: "power.contested",
    family: "risk",
    deciding: true,
    status: "tight",
    value: null,
    limit: null,
    unit: null,
    source: "the site's record: a receptacle serves one rig at a time",
    why: "The pedestal is shared and the receptacle is not allotted to this site: it may be taken.",
    change: "Ask the host to hold it for this site.",
  });
}

function closedCheck(arrangement: Arrangement): Check {
  const { closed } = arrangement.setup.site;
  return closed === null
    ? notApplicable("site.closed", "The record does not say that the site is closed.")
    : check({
        id: "site.closed",
        family: "may-not",
        deciding: true,
        status: "fail",
        value: null,
        limit: null,
        unit: null,
        source: "the site's record",
        why: `The site is closed: ${closed}.`,
      });
}

/** Most that levelling lifts a corner of the body, metres. */
function raiseOfBody(level: Levelling, rig: CompletedRig): number {
  const half = rig.width.value / 2;
  const corners = [0, rig.length.value].flatMap((fromRear) =>
    [half, -half].map((left) => level.raiseAt(fromRear, left) ?? 0),
  );
  return Math.max(0, ...corners);
}

/** All checks with the awning answers; `placed` is null when there is no stance. */
export function allChecks(input: CheckInput) {
  const { arrangement, lines, power } = input;
  const { setup, parking, levelling, facing } = arrangement;
  const { rig, site, options } = setup;
  const say = sayer(options.units);
  const level = levelling.get(facing)!;
  const stance = arrangement.padKnown && isParked(parking) ? parking.shown.stance : null;
  const raised = raiseOfBody(level, rig);
  const placed = stance === null ? null : placeRig(rig, stance, { closedSlides: options.closeSlides, raised });
  const usesKit = (line: AnswerLine) =>
    arrangement.chosen.some((one) => one.choice.service === line.service && one.kit.length > 0);
  const unproven = isParked(parking) && !parking.proven;
  const at = placed === null ? { awnings: [], checks: unplaced() } : placedChecks(arrangement, placed, say);
  const powerNeed = lines.find((line) => line.service === "power")?.need ?? "ignored";
  const checks: Check[] = [
    closedCheck(arrangement),
    standCheck(arrangement, say),
    padLength(rig, site, say),
    ...lines.map((line) => lineCheck(line, usesKit(line), unproven)),
    matingCheck(power, powerNeed),
    contestedCheck(arrangement),
    parkingCheck(arrangement, say),
    statedLength(rig, site, say),
    statedHeight(rig, site, say),
    accessHeight(rig, site, say),
    ...at.checks,
    secondVehicle(rig, site, say),
    ...input.water,
    ...localRules(site, placed, say),
    level.check,
    ...accessibleChecks(site, false, say),
  ];
  return { checks, awnings: at.awnings, placed, level, stance };
}
