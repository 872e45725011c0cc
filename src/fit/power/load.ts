/**
 * What may run together: the largest sets of the rig's appliances that the supply carries, and the smallest that trip
 * it. On two legs nobody recorded which leg an appliance is on, so a set runs for certain only when one leg bears all
 * of it, and trips for certain only when no split over the legs bears it.
 */
import type { Appliance } from "../../rig/completed.ts";
import { grouped, listWords, oneDecimal } from "./words.ts";

export interface LoadSupply {
  readonly legs: number;
  readonly amps: number;
  readonly continuousAmps: number;
  readonly voltsToNeutral: number;
}

export interface LoadSet {
  readonly appliances: readonly string[];
  readonly watts: number;
  readonly runs: boolean;
  /** True when it may run for three hours or more. */
  readonly continuous: boolean;
  readonly why: string;
}

export interface LoadAnswer {
  /** Largest sets that run, then smallest sets that trip. */
  readonly canRun: readonly LoadSet[];
  /** Sets that run only when the panel splits them over both legs. */
  readonly dependsOnSplit: readonly LoadSet[];
  /** Appliances that need both legs and have one. */
  readonly dead: readonly string[];
  readonly notes: readonly string[];
}

/** Sets are counted one by one up to this many appliances, the greatest in watts first. */
const MOST_APPLIANCES = 10;
/** Sets shown of each kind. */
const SHOWN = 3;

interface Load {
  readonly name: string;
  readonly watts: number;
  readonly starts: number | null;
  readonly bothLegs: boolean;
}

export type Reach = "hours" | "short" | "split" | "trips";

/** True when some split of the single-leg loads over two legs keeps each within `limit` watts. */
function splits(loads: readonly Load[], limit: number): boolean {
  const shared = loads.filter((load) => load.bothLegs).reduce((sum, load) => sum + load.watts, 0) / 2;
  const singles = loads.filter((load) => !load.bothLegs).map((load) => load.watts);
  const total = singles.reduce((sum, watts) => sum + watts, 0);
  for (let mask = 0; mask < 2 ** singles.length; mask += 1) {
    const first = singles.reduce((sum, watts, index) => ((mask >> index) & 1 ? sum + watts : sum), 0);
    if (first + shared <= limit && total - first + shared <= limit) return true;
  }
  return false;
}

function reachOf(loads: readonly Load[], supply: LoadSupply): Reach {
  const perLeg = supply.amps * supply.voltsToNeutral;
  const perLegHours = supply.continuousAmps * supply.voltsToNeutral;
  const worstLeg = loads.reduce((sum, load) => sum + (load.bothLegs ? load.watts / 2 : load.watts), 0);
  if (worstLeg <= perLegHours) return "hours";
  if (worstLeg <= perLeg) return "short";
  return supply.legs > 1 && splits(loads, perLeg) ? "split" : "trips";
}

/**
 * How far a supply carries a set of electric appliances: for hours, for a short while, only when the panel splits it
 * over both legs, or not at all. An appliance that needs both legs trips a supply of one here: it does not run.
 */
export function loadReach(appliances: readonly Appliance[], supply: LoadSupply): Reach {
  if (supply.legs === 1 && appliances.some((appliance) => appliance.bothLegs)) return "trips";
  return reachOf(appliances, supply);
}

interface Judged {
  readonly mask: number;
  readonly loads: readonly Load[];
  readonly watts: number;
  readonly reach: Reach;
}

/** Every combination of the loads; the index is its mask, the first entry the empty one. */
function judgeAll(loads: readonly Load[], supply: LoadSupply): readonly Judged[] {
  return Array.from({ length: 2 ** loads.length }, (_, mask) => {
    const members = loads.filter((_load, index) => (mask >> index) & 1);
    const watts = members.reduce((sum, load) => sum + load.watts, 0);
    return { mask, loads: members, watts, reach: reachOf(members, supply) };
  });
}

/**
 * The sets of one reach to which no load can be added (or from which none can be taken) without leaving it. One load
 * at a time is enough, because adding a load never makes a set reach further.
 */
function extremes(judged: readonly Judged[], count: number, reach: Reach, step: "add" | "take"): Judged[] {
  return judged.filter((set) => {
    if (set.mask === 0 || set.reach !== reach) return false;
    for (let index = 0; index < count; index += 1) {
      const held = ((set.mask >> index) & 1) === 1;
      if (held === (step === "add")) continue;
      const neighbour = judged[set.mask ^ (1 << index)];
      if (neighbour && neighbour.mask !== 0 && neighbour.reach === reach) return false;
    }
    return true;
  });
}

/** Judges combinations of the electric appliances. Watts are taken as volt-amperes at power factor 1. */
export function loadAnswer(appliances: readonly Appliance[], supply: LoadSupply): LoadAnswer {
  const electric = appliances.filter((appliance) => appliance.fuel !== "gas");
  const dead =
    supply.legs > 1 ? [] : electric.filter((appliance) => appliance.bothLegs).map((appliance) => appliance.name);
  const alive = electric
    .filter((appliance) => supply.legs > 1 || !appliance.bothLegs)
    .sort((one, other) => other.watts - one.watts);
  const loads = alive.slice(0, MOST_APPLIANCES);
  const judged = judgeAll(loads, supply);
  const greatest = (reach: Reach): readonly Judged[] =>
    extremes(judged, loads.length, reach, "add")
      .sort((one, other) => other.watts - one.watts || one.mask - other.mask)
      .slice(0, SHOWN);
  const least = (reach: Reach): readonly Judged[] =>
    extremes(judged, loads.length, reach, "take")
      .sort((one, other) => one.watts - other.watts || one.mask - other.mask)
      .slice(0, SHOWN);
  const shown = [...greatest("hours"), ...greatest("short"), ...least("trips")];
  return {
    canRun: shown.map((set) => setOf(set, supply)),
    dependsOnSplit: least("split").map((set) => setOf(set, supply)),
    dead,
    notes: notesOf(alive, electric, dead, supply),
  };
}

function setOf(set: Judged, supply: LoadSupply): LoadSet {
  const names = set.loads.map((load) => load.name);
  const limit = supply.amps * supply.voltsToNeutral;
  const hours = supply.continuousAmps * supply.voltsToNeutral;
  const perLeg = supply.legs > 1 ? " a leg" : "";
  const sum = `${listWords(names)}: ${grouped(set.watts)} W`;
  const sentences: Record<Reach, string> = {
    hours: `${sum}, within ${grouped(hours)} VA${perLeg} for hours (${oneDecimal(supply.continuousAmps)} A).`,
    short: `${sum}, within ${grouped(limit)} VA${perLeg} but above ${grouped(hours)} VA: not for three hours or more.`,
    split: `${sum}: more than one leg bears (${grouped(limit)} VA); it runs only when the panel splits it over both legs.`,
    trips: `${sum}, above ${grouped(limit * supply.legs)} VA${supply.legs > 1 ? " or in no way split over the legs" : ""}: an overload of ${oneDecimal(supply.amps)} A: the breaker trips, or the weakest link overheats.`,
  };
  return {
    appliances: names,
    watts: set.watts,
    runs: set.reach === "hours" || set.reach === "short",
    continuous: set.reach === "hours",
    why: sentences[set.reach],
  };
}

function notesOf(
  alive: readonly Appliance[],
  electric: readonly Appliance[],
  dead: readonly string[],
  supply: LoadSupply,
): readonly string[] {
  const notes: string[] = [];
  if (dead.length > 0) notes.push(`${listWords(dead)} needs both legs and does not run on one.`);
  if (alive.length > MOST_APPLIANCES) {
    notes.push(`Only the ${MOST_APPLIANCES} greatest of ${alive.length} appliances were combined.`);
  }
  const limit = supply.amps * supply.voltsToNeutral;
  for (const appliance of alive) {
    if (appliance.starts === null || appliance.starts <= appliance.watts) continue;
    const alone =
      appliance.starts > limit * (appliance.bothLegs ? supply.legs : 1) ? ", above the supply by itself" : "";
    notes.push(
      `${appliance.name} draws ${grouped(appliance.starts)} W for the moment of starting${alone}: start it before the others.`,
    );
  }
  const either = electric.filter((appliance) => appliance.fuel === "either").map((appliance) => appliance.name);
  if (either.length > 0) notes.push(`${listWords(either)} can run on gas instead.`);
  return notes;
}
