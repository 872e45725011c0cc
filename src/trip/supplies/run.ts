/**
 * The supplies of one trip in one case: exact rates between the moments at which something changes (a tank runs dry or
 * fills, the black tank is emptied, a day ends), so that no litre is lost to the length of a step.
 */
import { STORES, type Store } from "../../fit/stay/types.ts";
import type { CaseRates } from "../../fit/stay/use.ts";
import { daysToBound, flow, gives, hasRoom, levelOf, type Tank, tankAt } from "./tank.ts";
import type { EventKind, WaterLedger } from "./types.ts";

const WASTE: readonly Store[] = ["grey", "black"];
const HOURS_PER_DAY = 24;
/** Days below which two moments are one. */
const INSTANT = 1e-12;
/** Litres that nobody can tell from none. */
const TRACE = 1e-9;

/** A stop with every doubtful connection decided one way. */
export interface RunStop {
  readonly nights: number;
  readonly water: boolean;
  readonly sewer: boolean;
  readonly power: boolean;
  /** On leaving: waste tanks emptied at a station, fresh tank filled. */
  readonly dump: boolean;
  readonly fill: boolean;
}

export interface RunInput {
  readonly rates: CaseRates;
  readonly sizes: Readonly<Record<Store, number | null>>;
  readonly start: Readonly<Record<Store, number | null>>;
  /** Watts into the battery; null when unknown. */
  readonly charger: number | null;
  readonly black: { readonly share: number; readonly days: number | null };
  readonly stops: readonly RunStop[];
}

export type RunLevels = Readonly<Record<Store, number | null>>;

export interface RunEvent {
  readonly store: Store;
  readonly kind: EventKind;
  readonly stop: number;
  readonly day: number;
}

export interface Run {
  readonly stops: readonly {
    readonly days: readonly { readonly day: number; readonly levels: RunLevels }[];
    readonly after: RunLevels;
    /** Times that the black tank was emptied at the site's sewer during the stay. */
    readonly emptied: number;
  }[];
  readonly events: readonly RunEvent[];
  /** Day on which a want of water or of room is first not met; null when never. */
  readonly fails: number | null;
  readonly ledger: WaterLedger;
}

interface State {
  readonly tanks: Readonly<Record<Store, Tank>>;
  day: number;
  blackSince: number;
  fails: number | null;
  readonly ledger: { -readonly [K in keyof WaterLedger]: WaterLedger[K] };
  readonly events: RunEvent[];
}

interface Flows {
  readonly rates: Readonly<Record<Store, number>>;
  readonly toilet: number;
  readonly wash: number;
  readonly offBoard: number;
  readonly unmet: number;
}

/** Rates at this moment: what is wanted, as far as there is water and room for it. */
function flowsOf(state: State, stop: RunStop, input: RunInput): Flows {
  const { tanks } = state;
  const want = input.rates;
  const water = stop.water || gives(tanks.fresh);
  const toilet = water && hasRoom(tanks.black) ? want.toilet : 0;
  const wash = water && (stop.sewer || hasRoom(tanks.grey)) ? want.wash : 0;
  const offBoard = water ? want.offBoard : 0;
  const used = toilet + wash + offBoard;
  const running = !stop.power && want.generatorHours > 0 && gives(tanks.generatorFuel);
  const charge = running ? want.generatorHours * (input.charger ?? 0) : 0;
  const battery = stop.power ? HOURS_PER_DAY * (input.charger ?? 0) : charge - (want.battery ?? 0);
  const free = (store: Store, rate: number): number => {
    const open = rate < 0 ? gives(tanks[store]) : hasRoom(tanks[store]);
    return open ? rate : 0;
  };
  return {
    rates: {
      fresh: stop.water ? 0 : -used,
      grey: stop.sewer ? 0 : wash,
      black: toilet,
      propane: free("propane", -(want.propane ?? 0)),
      battery: free("battery", battery),
      generatorFuel: running ? free("generatorFuel", -want.generatorHours * (want.generatorFuel ?? 0)) : 0,
    },
    toilet,
    wash,
    offBoard,
    unmet: want.toilet + want.wash + want.offBoard - used,
  };
}

/** Stores whose use is not known are unknown from the first day on which they are used. */
function forget(state: State, stop: RunStop, input: RunInput): void {
  const { tanks } = state;
  const { rates } = input;
  if (stop.nights === 0) return;
  if (rates.propane === null) tanks.propane.known = false;
  if (!stop.power && rates.battery === null) tanks.battery.known = false;
  if (!stop.power && rates.generatorHours > 0 && rates.generatorFuel === null) tanks.generatorFuel.known = false;
}

function note(state: State, event: Omit<RunEvent, "day">): void {
  const known = state.events.some(
    (one) => one.store === event.store && one.kind === event.kind && one.stop === event.stop,
  );
  if (!known) state.events.push({ ...event, day: state.day });
}

function noteBounds(state: State, flows: Flows, stop: number, input: RunInput): void {
  for (const store of STORES) {
    const tank = state.tanks[store];
    const rate = flows.rates[store];
    if (rate < 0 && !gives(tank)) note(state, { store, kind: "empty", stop });
    if (rate > 0 && WASTE.includes(store) && !hasRoom(tank)) note(state, { store, kind: "full", stop });
  }
  const black = levelOf(state.tanks.black);
  const { size } = state.tanks.black;
  if (flows.rates.black > 0 && black !== null && size !== null && black >= input.black.share * size - TRACE) {
    note(state, { store: "black", kind: "two-thirds", stop });
  }
}

function daysToTwoThirds(tank: Tank, rate: number, share: number): number {
  const level = levelOf(tank);
  if (level === null || tank.size === null || rate <= 0) return Number.POSITIVE_INFINITY;
  const left = share * tank.size - level;
  return left > TRACE ? left / rate : Number.POSITIVE_INFINITY;
}

/** Empties the black tank into the site's sewer when it is due; true when it was emptied. */
function emptyBlack(state: State, stop: RunStop, input: RunInput): boolean {
  const tank = state.tanks.black;
  if (!stop.sewer || tank.content <= TRACE) return false;
  const level = levelOf(tank);
  const full = level !== null && tank.size !== null && level >= input.black.share * tank.size - TRACE;
  const late = input.black.days !== null && state.day - state.blackSince >= input.black.days - INSTANT;
  if (!full && !late) return false;
  dump(state, "black");
  return true;
}

function dump(state: State, store: "grey" | "black"): void {
  const tank = state.tanks[store];
  state.ledger[store === "grey" ? "dumpedGrey" : "dumpedBlack"] += tank.content;
  tank.content = 0;
  tank.known = true;
  if (store === "black") state.blackSince = state.day;
}

function addToLedger(state: State, stop: RunStop, flows: Flows, days: number): void {
  const { ledger } = state;
  const used = (flows.toilet + flows.wash + flows.offBoard) * days;
  if (stop.water) ledger.fromSite += used;
  else ledger.fromTank += used;
  ledger.toBlack += flows.toilet * days;
  if (stop.sewer) ledger.toSewer += flows.wash * days;
  else ledger.toGrey += flows.wash * days;
  ledger.offBoard += flows.offBoard * days;
  ledger.unmet += flows.unmet * days;
}

/** One day of a stay, from change to change; gives the times that the black tank was emptied. */
function passDay(state: State, stop: RunStop, at: number, input: RunInput): number {
  const end = state.day + 1;
  let emptied = 0;
  while (end - state.day > INSTANT) {
    if (emptyBlack(state, stop, input)) emptied += 1;
    const flows = flowsOf(state, stop, input);
    if (flows.unmet > 0) state.fails ??= state.day;
    const { black } = state.tanks;
    const due =
      stop.sewer && input.black.days !== null && flows.toilet > 0
        ? state.blackSince + input.black.days - state.day
        : Number.POSITIVE_INFINITY;
    const days = Math.min(
      end - state.day,
      due > INSTANT ? due : Number.POSITIVE_INFINITY,
      daysToTwoThirds(black, flows.rates.black, input.black.share),
      ...STORES.map((store) => daysToBound(state.tanks[store], flows.rates[store])),
    );
    for (const store of STORES) flow(state.tanks[store], flows.rates[store], days);
    addToLedger(state, stop, flows, days);
    state.day += days;
    noteBounds(state, flows, at, input);
  }
  state.day = end;
  return emptied;
}

function levels(state: State): RunLevels {
  const { tanks } = state;
  return {
    fresh: levelOf(tanks.fresh),
    grey: levelOf(tanks.grey),
    black: levelOf(tanks.black),
    propane: levelOf(tanks.propane),
    battery: levelOf(tanks.battery),
    generatorFuel: levelOf(tanks.generatorFuel),
  };
}

/** A night on power fills the battery where nobody knows how strong the charger is. */
function chargeOvernight(state: State, stop: RunStop, input: RunInput): void {
  const { battery } = state.tanks;
  if (!stop.power || battery.size === null || input.charger !== null) return;
  battery.content = battery.size;
  battery.known = true;
}

function leave(state: State, stop: RunStop): void {
  if (stop.sewer || stop.dump) {
    dump(state, "black");
    dump(state, "grey");
  }
  if (!stop.fill) return;
  const { fresh } = state.tanks;
  const level = levelOf(fresh);
  if (level === null || fresh.size === null || state.ledger.filled === null) state.ledger.filled = null;
  else state.ledger.filled += fresh.size - level;
  if (fresh.size === null) return;
  fresh.content = fresh.size;
  fresh.known = true;
}

function begin(input: RunInput): State {
  const tank = (store: Store): Tank => tankAt(input.sizes[store], input.start[store]);
  return {
    tanks: {
      fresh: tank("fresh"),
      grey: tank("grey"),
      black: tank("black"),
      propane: tank("propane"),
      battery: tank("battery"),
      generatorFuel: tank("generatorFuel"),
    },
    day: 0,
    blackSince: 0,
    fails: null,
    ledger: {
      fromTank: 0,
      fromSite: 0,
      filled: 0,
      toGrey: 0,
      toBlack: 0,
      toSewer: 0,
      offBoard: 0,
      dumpedGrey: 0,
      dumpedBlack: 0,
      unmet: 0,
    },
    events: [],
  };
}

/** Runs the trip in one case. */
export function runCase(input: RunInput): Run {
  const state = begin(input);
  const stops = input.stops.map((stop, at) => {
    const days = [{ day: state.day, levels: levels(state) }];
    let emptied = 0;
    forget(state, stop, input);
    // The day rule counts from the arrival: only what is in the tanks is carried from stop to stop.
    state.blackSince = state.day;
    // Joined to a sewer the grey valve is opened on arrival; the black one stays shut until it is due.
    if (stop.sewer && stop.nights > 0) dump(state, "grey");
    for (let night = 0; night < stop.nights; night += 1) {
      emptied += passDay(state, stop, at, input);
      chargeOvernight(state, stop, input);
      days.push({ day: state.day, levels: levels(state) });
    }
    leave(state, stop);
    return { days, after: levels(state), emptied };
  });
  return { stops, events: state.events, fails: state.fails, ledger: state.ledger };
}
