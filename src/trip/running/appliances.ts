/** The appliances that are reckoned with: the rig's own list, or what a rig of its class usually has. */

import sets from "../../../data/appliance-sets.json" with { type: "json" };
import watts from "../../../data/appliances.json" with { type: "json" };
import type { Appliance, CompletedRig, RigClass } from "../../rig/completed.ts";
import type { Assumption } from "../../units/estimate.ts";
import type { RunningAppliance } from "./types.ts";

const USUAL: Readonly<Record<RigClass, readonly string[]>> = sets.classes;
/** Name of the appliance that stands in the air conditioners' own rows. */
const ROOF_UNIT = "roof air conditioner";

/** An appliance whose name holds a word of the table runs for minutes; any other for hours, the cautious side. */
function dutyOf(name: string): RunningAppliance["duty"] {
  const lower = name.toLowerCase();
  return sets.minutes.some((word) => lower.includes(word)) ? "minutes" : "hours";
}

/** The top of the published range. */
function usualAppliance(name: string): RunningAppliance | null {
  const fuel = sets.either.includes(name) ? "either" : "electric";
  const common = { name, fuel, bothLegs: false, assumed: true, duty: dutyOf(name) } as const;
  if (name === ROOF_UNIT) {
    const largest = watts.roofAirConditioners.rows.at(-1);
    return largest === undefined ? null : { ...common, watts: largest.watts, starts: largest.starts };
  }
  const row = watts.rows.find((one) => one.name === name);
  return row === undefined ? null : { ...common, watts: row.wattsMost, starts: null };
}

export interface Reckoned {
  readonly appliances: readonly RunningAppliance[];
  readonly assumed: readonly Assumption[];
}

/** Appliances of a rig with what was taken for granted. */
export function reckonedAppliances(rig: Pick<CompletedRig, "appliances" | "class">): Reckoned {
  if (rig.appliances.length > 0) {
    const own = rig.appliances.map((one: Appliance) => ({ ...one, assumed: false, duty: dutyOf(one.name) }));
    return { appliances: own, assumed: [] };
  }
  const usual = USUAL[rig.class].flatMap((name) => usualAppliance(name) ?? []);
  const value = usual.map((one) => `${one.name} ${one.watts} W`).join(", ");
  const source = `${sets.source}; watts: ${watts.source} (${watts.mark})`;
  return { appliances: usual, assumed: [{ path: "/rig/appliances", value, source }] };
}
