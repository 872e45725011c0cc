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
const MOST_APPLIANCES = 12;
/** Sets shown of each kind. */
const SHOWN = 3;

interface Load {
  readonly name: string;
  readonly watts: number;
  readonly starts: number | null;
  readonly bothLegs: boolean;
}

type Reach = "hours" | "short" | "split" | "trips";

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

interface Judged {
  readonly mask: number;
  readonly loads: readonly Load[];
  readonly watts: number;
  readonly reach: Reach;
}

function isWithin(small: number, large: number): boolean {
  return (small & large) === small;
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
  const judged: Judged[] = [];
  for (let mask = 1; mask < 2 ** loads.length; mask += 1) {
    const members = loads.filter((_, index) => (mask >> index) & 1);
    const watts = members.reduce((sum, load) => sum + load.watts, 0);
    judged.push({ mask, loads: members, watts, reach: reachOf(members, supply) });
  }
  const largest = (set: Judged, among: readonly Judged[]): boolean =>
    !among.some((other) => other.mask !== set.mask && isWithin(set.mask, other.mask));
  const smallest = (set: Judged, among: readonly Judged[]): boolean =>
    !among.some((other) => other.mask !== set.mask && isWithin(other.mask, set.mask));
  const pick = (reach: Reach, keep: typeof largest): readonly Judged[] => {
    const among = judged.filter((set) => set.reach === reach);
    return among.filter((set) => keep(set, among));
  };
  const greatestFirst = (one: Judged, other: Judged): number => other.watts - one.watts || one.mask - other.mask;
  const leastFirst = (one: Judged, other: Judged): number => one.watts - other.watts || one.mask - other.mask;
  const hours = [...pick("hours", largest)].sort(greatestFirst).slice(0, SHOWN);
  const short = [...pick("short", largest)].sort(greatestFirst).slice(0, SHOWN);
  const trips = [...pick("trips", smallest)].sort(leastFirst).slice(0, SHOWN);
  const split = [...pick("split", smallest)].sort(leastFirst).slice(0, SHOWN);
  return {
    canRun: [...hours, ...short, ...trips].map((set) => setOf(set, supply)),
    dependsOnSplit: split.map((set) => setOf(set, supply)),
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
    trips: `${sum}, above ${grouped(limit * supply.legs)} VA${supply.legs > 1 ? " or in no way split over the legs" : ""}: trips the ${supply.amps} A breaker.`,
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
