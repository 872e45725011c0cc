/** Where tanks are emptied and filled next, which of those visits are needed, and what is done at them. */
import table from "../../../data/supplies.json" with { type: "json" };
import { contentWords, STORE_WORDS } from "../../fit/stay/say.ts";
import type { Levels, Store } from "../../fit/stay/types.ts";
import type { CaseRates } from "../../fit/stay/use.ts";
import type { Known } from "../../site/completed.ts";
import type { UnitSystem } from "../../units/print.ts";
import { dumpChance, fillChance } from "./scenarios.ts";
import type { NextChance, PlannedVisit, StationVisit, SupplyStop } from "./types.ts";

export interface VisitContext {
  readonly stops: readonly SupplyStop[];
  /** Days since the start at which each stop ends. */
  readonly ends: readonly number[];
  readonly sizes: Readonly<Record<Store, number | null>>;
  /** At high use. */
  readonly rates: CaseRates;
  readonly blackShare: number;
  readonly units: UnitSystem;
}

type Kind = "dump" | "fill";

/** Stations that may serve, the surest first; the order of the record breaks a tie. */
function stationsOf(stop: SupplyStop, kind: Kind): readonly StationVisit[] {
  const order: readonly Known[] = ["yes", "unknown"];
  return stop.stations
    .filter((station) => station.kind === kind && order.includes(station.usable))
    .sort((one, other) => order.indexOf(one.usable) - order.indexOf(other.usable));
}

function chanceAt(context: VisitContext, at: number, kind: Kind): NextChance | null {
  const stop = context.stops[at];
  const day = context.ends[at];
  if (stop === undefined || day === undefined) return null;
  const own = kind === "dump" ? stop.hookups.sewer : stop.hookups.tankFill;
  const station = stationsOf(stop, kind)[0];
  const useOwn = own === "yes" || (own === "unknown" && station?.usable !== "yes");
  if (useOwn) {
    const what = kind === "dump" ? "sewer connection" : "tap";
    return { stop: stop.id, station: null, name: `${what} of ${stop.name}`, day, sure: own === "yes" };
  }
  if (station === undefined) return null;
  const sure = station.usable === "yes" && (kind === "dump" || station.drinkable === "yes");
  return { stop: stop.id, station: station.id, name: station.name, day, sure };
}

/** The first chance on leaving stop `from` or a later one. A sure one is not looked past. */
export function nextChance(context: VisitContext, from: number, kind: Kind): NextChance | null {
  for (let at = from; at < context.stops.length; at += 1) {
    const chance = chanceAt(context, at, kind);
    if (chance !== null) return chance;
  }
  return null;
}

/** Litres that a store loses or takes up from leaving stop `at` to the next sure chance, and whether there is one. */
function until(context: VisitContext, at: number, store: "fresh" | "grey" | "black") {
  const { rates } = context;
  let litres = 0;
  for (let next = at + 1; next < context.stops.length; next += 1) {
    const stop = context.stops[next]!;
    const served = store === "fresh" ? stop.hookups.water === "yes" : stop.hookups.sewer === "yes";
    const rate =
      store === "fresh" ? rates.toilet + rates.wash + rates.offBoard : store === "grey" ? rates.wash : rates.toilet;
    if (!served) litres += rate * stop.nights;
    const chance = store === "fresh" ? fillChance(stop) : dumpChance(stop);
    if (chance === "yes") return { litres, found: true };
  }
  return { litres, found: false };
}

interface Judged {
  readonly needed: boolean | null;
  readonly why: string;
}

function judgeDump(context: VisitContext, at: number, levels: Levels): Judged {
  const last = at === context.stops.length - 1;
  const waste = (["grey", "black"] as const).map((store) => {
    const size = context.sizes[store];
    const level = levels[store].high;
    const { litres, found } = until(context, at, store);
    return { store, size, level, over: size === null || level === null ? null : level + litres - size, litres, found };
  });
  const full = waste.find((one) => one.over !== null && one.over > 0);
  if (full !== undefined && !last) {
    const over = contentWords(full.store, full.over ?? 0, context.units, "up");
    return {
      needed: true,
      why: `Without it the ${STORE_WORDS[full.store]} is ${over} too small at high use before the next place to empty it.`,
    };
  }
  const anything = waste.some((one) => one.level === null || one.level > 0);
  if (anything && waste.some((one) => !one.found))
    return { needed: true, why: last ? table.givenBack : table.lastChance };
  const open = waste.find((one) => one.over === null);
  if (open !== undefined) {
    return {
      needed: null,
      why: `The size or content of the ${STORE_WORDS[open.store]} is not on record: do not pass it by.`,
    };
  }
  return {
    needed: false,
    why: "At high use the waste tanks last to the next place to empty them; reckoned with all the same.",
  };
}

function judgeFill(context: VisitContext, at: number, levels: Levels): Judged {
  const { litres } = until(context, at, "fresh");
  const level = levels.fresh.low;
  if (litres === 0) return { needed: false, why: "No water is drawn from the tank before the next tap." };
  if (level === null) {
    return {
      needed: null,
      why: "The size or content of the fresh tank is not on record: fill it while a tap is there.",
    };
  }
  const short = litres - level;
  return short > 0
    ? {
        needed: true,
        why: `Without it the fresh tank is ${contentWords("fresh", short, context.units, "up")} short at high use before the next tap.`,
      }
    : { needed: false, why: "At high use the fresh tank lasts to the next tap; reckoned with all the same." };
}

function dumpSteps(context: VisitContext, levels: Levels): readonly string[] {
  const { size, level } = { size: context.sizes.black, level: levels.black.expected ?? levels.black.high };
  const partFull = size !== null && level !== null && level > 0 && level < context.blackShare * size;
  return partFull ? [table.topUp, ...table.dumpSteps] : table.dumpSteps;
}

function remarks(station: StationVisit): string {
  const words = [
    station.usable === "unknown" ? "Whether it serves this rig is not known." : "",
    station.season === null ? "" : `Season: ${station.season}; ask whether it is open.`,
    station.hours === null ? "" : `Hours: ${station.hours}.`,
    station.fee === null ? "" : `Fee: ${station.fee}.`,
  ].filter((one) => one !== "");
  return words.length === 0 ? "" : ` ${words.join(" ")}`;
}

function placeOf(station: StationVisit): Pick<PlannedVisit, "station" | "name" | "kind" | "lane"> {
  const { id, name, kind, verdict, usable, inletSide, needed, available, margin, kit, checks, apart, unknowns } =
    station;
  const lane = { verdict, usable, inletSide, needed, available, margin, kit, checks, apart, unknowns };
  return { station: id, name, kind, lane };
}

/** Visits on leaving stop `at`: a dump station where the site has no sure sewer, a fill tap where it has no sure tap. */
export function visitsAt(context: VisitContext, at: number, levels: Levels): readonly PlannedVisit[] {
  const stop = context.stops[at];
  if (stop === undefined) return [];
  const visits: PlannedVisit[] = [];
  const dump = stop.hookups.sewer === "yes" ? undefined : stationsOf(stop, "dump")[0];
  if (dump !== undefined) {
    const { needed, why } = judgeDump(context, at, levels);
    visits.push({
      ...placeOf(dump),
      needed,
      why: `${why} ${dump.why}${remarks(dump)}`.replaceAll("  ", " "),
      steps: dumpSteps(context, levels),
    });
  }
  const fill = stop.hookups.tankFill === "yes" ? undefined : stationsOf(stop, "fill")[0];
  if (fill !== undefined) {
    const { needed, why } = judgeFill(context, at, levels);
    const drink = fill.drinkable === "yes" ? "" : ` ${table.notes["fill-not-sure"]}`;
    visits.push({
      ...placeOf(fill),
      needed,
      why: `${why} ${fill.why}${drink}${remarks(fill)}`.replaceAll("  ", " "),
      steps: table.fillSteps,
    });
  }
  return visits;
}
