/** What may run at a stop: on the site's supply and on the rig's generator, with what trips and what gives way. */
import { cautionsFor } from "../../fit/clearance/cautions.ts";
import { type LoadSupply, loadAnswer } from "../../fit/power/load.ts";
import { grouped } from "../../fit/power/words.ts";
import { reckonedAppliances } from "./appliances.ts";
import { baseLoads, staggerSteps } from "./day.ts";
import { EXHAUST_CAUTION, generatorHours, generatorSupply, transferAnswer } from "./generator.ts";
import type { RunningAppliance, RunningInput, RunningPlan, RunningSupply } from "./types.ts";
import { voltageAnswer } from "./voltage.ts";

/** What the loads make of a supply. */
function loadsOn(appliances: readonly RunningAppliance[], supply: LoadSupply) {
  const base = baseLoads(appliances, supply);
  return {
    load: loadAnswer(appliances, supply),
    base: base.map((one) => one.name),
    day: staggerSteps(appliances, base, supply),
  };
}

function siteSupply(input: RunningInput, appliances: readonly RunningAppliance[]): RunningSupply | null {
  const power = input.fit?.power ?? null;
  if (power === null || power.mating === "none" || power.mating === "refused") return null;
  const title = "The site's supply";
  const nothing = { from: "site", title, load: null, base: [], day: [], transfer: null, notes: [] } as const;
  const { amps, legs, voltsToNeutral, voltAmperes, continuousVoltAmperes } = power;
  const voltage = voltageAnswer(power, input.site?.electricalSystem ?? null);
  if (amps === null || legs === null || voltsToNeutral === null || continuousVoltAmperes === null) {
    return { ...nothing, watts: null, continuousWatts: null, voltage, why: power.why };
  }
  const supply = { legs, amps, continuousAmps: continuousVoltAmperes / (legs * voltsToNeutral), voltsToNeutral };
  const most = voltAmperes ?? legs * amps * voltsToNeutral;
  const shared = legs > 1 ? " in all, half of it on each leg" : "";
  return {
    ...nothing,
    ...loadsOn(appliances, supply),
    watts: most,
    continuousWatts: continuousVoltAmperes,
    voltage,
    why: `The site gives ${grouped(most)} W${shared}, ${grouped(continuousVoltAmperes)} W for three hours or more (planning rule; ${power.weakestLink ?? "the weakest link"}).`,
  };
}

function ownSupply(input: RunningInput, appliances: readonly RunningAppliance[]): RunningSupply | null {
  const { rig } = input;
  const elevation = input.site?.elevation ?? input.elevation ?? null;
  const made = generatorSupply(rig, elevation, input.units);
  if (made === null || rig.generator === null) return null;
  // Whether it feeds both legs nobody recorded, so what needs both is told and not judged.
  const single = appliances.filter((one) => !one.bothLegs);
  const starting = single
    .filter((one) => one.fuel !== "gas" && one.starts !== null && one.starts > made.watts)
    .map((one) => ({
      text: `${one.name} draws ${grouped(one.starts ?? 0)} W for the moment of starting, more than the generator gives: it may stall or trip.`,
      source: "the rig's record, or the table of appliances",
    }));
  const both = appliances
    .filter((one) => one.bothLegs && one.fuel !== "gas")
    .map((one) => ({ text: `${one.name} needs both legs: not judged on the generator.`, source: "the rig's record" }));
  return {
    from: "generator",
    title: "The rig's generator",
    watts: made.watts,
    continuousWatts: made.continuousWatts,
    ...loadsOn(single, made.supply),
    voltage: null,
    transfer: transferAnswer(rig.generator),
    why: made.why,
    notes: [...made.notes, ...starting, ...both],
  };
}

/** What may run where, and when the generator may. */
export function whatMayRun(input: RunningInput): RunningPlan {
  const { appliances, assumed } = reckonedAppliances(input.rig);
  const supplies = [siteSupply(input, appliances), ownSupply(input, appliances)].filter((one) => one !== null);
  const hasGenerator = input.rig.generator !== null;
  return {
    appliances,
    supplies,
    generatorHours: hasGenerator ? generatorHours(input.site?.rules.generatorHours ?? null, input.site !== null) : null,
    cautions: hasGenerator ? [EXHAUST_CAUTION, ...cautionsFor(new Set(["generator"]))] : [],
    assumed,
  };
}
