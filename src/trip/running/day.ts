/**
 * What is switched off before what. The greatest set that may run for hours is left on; everything else is switched
 * against it, giving up first what can run on gas, then heat that keeps, last what cools people.
 */
import sets from "../../../data/appliance-sets.json" with { type: "json" };
import { type LoadSupply, loadAnswer, loadReach } from "../../fit/power/load.ts";
import { grouped, listWords } from "../../fit/power/words.ts";
import type { RunningAppliance, StaggerStep } from "./types.ts";

const sumOf = (all: readonly RunningAppliance[]): number => all.reduce((sum, one) => sum + one.watts, 0);

/** The greatest set that may run for hours, of what runs for hours. */
export function baseLoads(appliances: readonly RunningAppliance[], supply: LoadSupply): readonly RunningAppliance[] {
  const lasting = appliances.filter((one) => one.fuel !== "gas" && one.duty === "hours");
  const best = loadAnswer(lasting, supply).canRun.find((set) => set.continuous);
  if (best === undefined) return [];
  const names = [...best.appliances];
  // Two appliances may bear one name: each entry of the set stands for one of them.
  return lasting.filter((one) => {
    const at = names.indexOf(one.name);
    if (at < 0) return false;
    names.splice(at, 1);
    return true;
  });
}

/** Order in which running loads give way; what the table does not name goes before what cools people. */
function yieldRank(appliance: RunningAppliance): number {
  const lower = appliance.name.toLowerCase();
  const at = sets.yields.findIndex((word) => lower.includes(word));
  const last = sets.yields.length - 1;
  const rank = at < 0 ? last - 1 / 2 : at;
  return appliance.fuel === "either" ? rank - sets.yields.length : rank;
}

/** A load of minutes may use what is there for a short while; one of hours only what is there for hours. */
function runs(set: readonly RunningAppliance[], wanted: RunningAppliance, supply: LoadSupply): boolean {
  const reach = loadReach(set, supply);
  return reach === "hours" || (reach === "short" && wanted.duty === "minutes");
}

/** The running loads that have to go for one more; null when it does not run even alone. */
function givingWay(
  wanted: RunningAppliance,
  base: readonly RunningAppliance[],
  supply: LoadSupply,
): readonly RunningAppliance[] | null {
  if (!runs([wanted], wanted, supply)) return null;
  const order = [...base].sort((one, other) => yieldRank(one) - yieldRank(other));
  let kept = order;
  const off: RunningAppliance[] = [];
  while (!runs([...kept, wanted], wanted, supply)) {
    const next = kept[0];
    if (next === undefined) return null;
    off.push(next);
    kept = kept.slice(1);
  }
  // What went early may have gone for nothing, once something greater had to go as well.
  for (const one of [...off]) {
    const others = off.filter((each) => each !== one);
    const staying = base.filter((each) => !others.includes(each));
    if (runs([...staying, wanted], wanted, supply)) off.splice(off.indexOf(one), 1);
  }
  return off;
}

function aloneWords(wanted: RunningAppliance, supply: LoadSupply): string {
  const limit = supply.amps * supply.voltsToNeutral;
  const hours = supply.continuousAmps * supply.voltsToNeutral;
  const watts = `${wanted.name} (${grouped(wanted.watts)} W)`;
  if (wanted.bothLegs && supply.legs === 1) return `${watts} needs both legs and has one: it does not run here.`;
  const bound = wanted.duty === "minutes" ? limit : hours;
  const lasting = wanted.duty === "minutes" ? "" : " for three hours or more";
  return `${watts} does not run here even alone: the supply gives ${grouped(bound)} W${lasting}.`;
}

function stepWords(wanted: RunningAppliance, off: readonly RunningAppliance[], together: number): string {
  const gas = off.filter((one) => one.fuel === "either").map((one) => one.name);
  const onGas = gas.length === 0 ? "" : ` (${listWords(gas)} can run on gas meanwhile)`;
  const first =
    off.length === 0
      ? "nothing has to be switched off"
      : `switch off the ${listWords(off.map((one) => one.name))} first`;
  const itself = off.length > 0 && wanted.fuel === "either" ? " Or run it on gas." : "";
  const starts =
    wanted.starts !== null && wanted.starts > wanted.watts ? ` It draws ${grouped(wanted.starts)} W for a moment.` : "";
  return `${wanted.name} (${grouped(wanted.watts)} W): ${first}${onGas}; ${grouped(together)} W then run together.${itself}${starts}`;
}

/** One step for every electric appliance that is not left on, the greatest first. */
export function staggerSteps(
  appliances: readonly RunningAppliance[],
  base: readonly RunningAppliance[],
  supply: LoadSupply,
): readonly StaggerStep[] {
  return appliances
    .filter((one) => one.fuel !== "gas" && !base.includes(one))
    .sort((one, other) => other.watts - one.watts)
    .map((wanted): StaggerStep => {
      const off = givingWay(wanted, base, supply);
      const { name, watts } = wanted;
      if (off === null) {
        return { appliance: name, watts, off: [], together: watts, runs: false, why: aloneWords(wanted, supply) };
      }
      const together = sumOf(base.filter((one) => !off.includes(one))) + watts;
      return {
        appliance: name,
        watts,
        off: off.map((one) => one.name),
        together,
        runs: true,
        why: stepWords(wanted, off, together),
      };
    });
}
