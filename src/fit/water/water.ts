/** Is the site's water fit to connect to: drinkable, in season, hose, thread, pressure. */
import data from "../../../data/hose.json" with { type: "json" };
import type { RigLine } from "../../rig/completed.ts";
import type { CompletedHookup } from "../../site/completed.ts";
import type { Check } from "../answer.ts";
import { check, notApplicable, unknownCheck } from "../clearance/check.ts";
import type { Say } from "../say.ts";
import { hoseLoss } from "./loss.ts";
import { PRESSURE_SOURCE, pressureBand, REGULATOR_PLACE } from "./pressure.ts";
import { threadMating } from "./thread.ts";

export interface WaterInput {
  /** The site's outlet; null when there is none. */
  readonly hookup: Pick<CompletedHookup, "water" | "path"> | null;
  /** The rig's hose; null when it carries none. */
  readonly line: RigLine | null;
  /** JSON Pointer of the rig's water connection. */
  readonly connectionPath: string;
  /** Items of the kit by their item words. */
  readonly kit: readonly string[];
  /** Hours that the hookup is to last; null when nobody said. */
  readonly hours: number | null;
}

export interface WaterAnswer {
  readonly checks: readonly Check[];
  /** Items called for and not in the kit. */
  readonly kit: readonly { readonly item: string; readonly why: string }[];
  /** One paragraph for the stay; null without an outlet. */
  readonly words: string | null;
}

/** Word of the kit for a regulator and for a hose fit for drinking water. */
const REGULATOR_ITEM = "water-regulator";
const DRINKING_HOSE_ITEM = "drinking-hose";

/** Flow at which the loss of the hose is told: one shower, litres per second. */
const TOLD_FLOW = data.flows.find((flow) => flow.id === "one-shower") as (typeof data.flows)[number];

function drinkable(input: WaterInput): Check {
  const state = input.hookup?.water?.drinkable ?? "unknown";
  const init = {
    id: "water.drinkable",
    family: "must-not" as const,
    deciding: false,
    value: null,
    limit: null,
    unit: null,
  };
  const source = "the site's record";
  if (state === "unknown") {
    const why =
      "Whether the water is fit to drink is not on record; do not drink it or fill the tank before that is known.";
    return unknownCheck(
      { ...init, source, why },
      "Ask the host",
      `${input.hookup?.path ?? "/site/properties"}/drinkable`,
    );
  }
  const why =
    state === "yes"
      ? "The record calls the water fit to drink."
      : "The record says that the water is not fit to drink: do not fill the fresh tank with it.";
  return check({ ...init, status: state === "yes" ? "pass" : "fail", source, why });
}

function season(input: WaterInput): Check {
  const seasonal = input.hookup?.water?.seasonal ?? null;
  if (seasonal === null) return notApplicable("water.season", "The record names no season for the water.");
  return unknownCheck(
    {
      id: "water.season",
      family: "risk",
      deciding: false,
      unit: null,
      source: "the site's record",
      why: `The water is seasonal: "${seasonal}".`,
    },
    "Ask whether it is on at your date",
    `${input.hookup?.path ?? "/site/properties"}/seasonal`,
  );
}

/** Whether a hose is fit for drinking water; true, false or null as the record says. */
function hoseCheck(line: RigLine | null, path: string, carriesDrinkingHose: boolean): Check {
  const init = { id: "water.hose", family: "must-not" as const, deciding: false, value: null, limit: null, unit: null };
  const source = `${data.drinkingMaterial.source} (${data.drinkingMaterial.mark})`;
  const needs = `Needed is ${data.drinkingMaterial.inWords}.`;
  if (line?.drinkingWater === true)
    return check({ ...init, status: "pass", source, why: "The hose is sold for drinking water." });
  if (carriesDrinkingHose)
    return check({
      ...init,
      status: "pass with kit",
      source,
      why: "A drinking water hose is in the kit; use that one.",
    });
  if (line === null || line.drinkingWater === false) {
    const why = line === null ? "The rig carries no water hose." : "The hose is not sold for drinking water.";
    return check({ ...init, status: "fail", source, why: `${why} ${needs}`, change: "Bring a drinking water hose." });
  }
  return unknownCheck(
    { ...init, source, why: `Whether the hose is sold for drinking water is not on record. ${needs}` },
    "Read the print on the hose",
    `${path}/line/drinkingWater`,
  );
}

function thread(input: WaterInput): { made: Check; adapter: string | null } {
  const mating = threadMating(input.hookup?.water?.thread ?? null);
  const init = {
    id: "water.thread",
    family: "cannot" as const,
    deciding: false,
    value: null,
    limit: null,
    unit: null,
    source: mating.source,
  };
  if (mating.mating === "unknown") {
    return {
      made: unknownCheck(
        { ...init, why: mating.why },
        "Look at the outlet's thread",
        `${input.hookup?.path ?? "/site/properties"}/thread`,
      ),
      adapter: null,
    };
  }
  return {
    made: check({ ...init, status: mating.mating === "direct" ? "pass" : "pass with kit", why: mating.why }),
    adapter: mating.adapter,
  };
}

function pressure(input: WaterInput, say: Say): Check {
  const at = input.hookup?.water?.pressure ?? null;
  const band = pressureBand(at);
  const has = input.kit.includes(REGULATOR_ITEM);
  const limit = input.line?.rating ?? null;
  const init = {
    id: "water.pressure",
    family: "risk" as const,
    deciding: false,
    value: at,
    limit,
    unit: "Pa" as const,
    source: PRESSURE_SOURCE,
  };
  const place = has
    ? `Put the regulator ${REGULATOR_PLACE}.`
    : `A regulator is ${band.regulator}; it goes ${REGULATOR_PLACE}.`;
  if (at === null) {
    return unknownCheck(
      { ...init, why: `The pressure at the tap is ${band.inWords}. ${place}` },
      "Measure with a gauge at the tap",
      `${input.hookup?.path ?? "/site/properties"}/pressure`,
    );
  }
  const overHose = limit !== null && at > limit;
  const hose = overHose ? ` The hose is rated for ${say.pressure(limit, "down")} only.` : "";
  const status =
    overHose && !has
      ? "fail"
      : band.regulator === "advised"
        ? band.band === "low"
          ? "tight"
          : "pass"
        : has
          ? "pass with kit"
          : "fail";
  const why = `${say.pressure(at, "up")} at the tap: ${band.inWords}.${hose} ${place}`;
  return check({ ...init, status, why, ...(status === "fail" ? { change: "Bring a pressure regulator." } : {}) });
}

function lossWords(line: RigLine | null, at: number | null, say: Say): string {
  if (line?.diameter == null)
    return "The hose's inside diameter is not on record, so what it takes of the pressure is not computed.";
  const loss = hoseLoss({ flow: TOLD_FLOW.litresPerSecond, diameter: line.diameter, length: line.length.value });
  const left = at === null ? "" : `, which leaves about ${say.pressure(Math.max(0, at - loss.pressure), "down")}`;
  return `At ${TOLD_FLOW.inWords}, the hose takes about ${say.pressure(loss.pressure, "up")}${left} (Hazen-Williams, C ${data.headLoss.roughness.value} assumed; without ${data.headLoss.leavesOut}).`;
}

function backflowWords(hours: number | null): string {
  const limit = data.backflow.hours;
  const device = data.backflow.devices[0] as (typeof data.backflow.devices)[number];
  const long = hours !== null && hours > limit;
  const stay = long ? ` This hookup is to last ${hours} hours.` : "";
  return `A ${device.name} is meant for at most ${limit} hours under pressure.${stay} Shut the tap when away.`;
}

/** Every check of the water at a site. Without an outlet each is "not applicable". */
export function waterAnswer(input: WaterInput, say: Say): WaterAnswer {
  if (input.hookup === null) {
    const ids = ["water.drinkable", "water.season", "water.hose", "water.thread", "water.pressure"];
    return { checks: ids.map((id) => notApplicable(id, "No water outlet is used here.")), kit: [], words: null };
  }
  const hose = hoseCheck(input.line, input.connectionPath, input.kit.includes(DRINKING_HOSE_ITEM));
  const { made: threads, adapter } = thread(input);
  const pressed = pressure(input, say);
  const kit: { item: string; why: string }[] = [];
  if (!input.kit.includes(REGULATOR_ITEM)) kit.push({ item: REGULATOR_ITEM, why: pressed.why });
  if (adapter !== null && !input.kit.includes(adapter)) kit.push({ item: adapter, why: threads.why });
  if (hose.status === "fail") kit.push({ item: DRINKING_HOSE_ITEM, why: hose.why });
  const at = input.hookup.water?.pressure ?? null;
  return {
    checks: [drinkable(input), season(input), hose, threads, pressed],
    kit,
    words: [pressed.why, lossWords(input.line, at, say), backflowWords(input.hours)].join(" "),
  };
}
