/**
 * The trip run at every use, and with every doubtful connection once holding and once failing. What differs between
 * those runs is what nobody can tell.
 */
import type { Band, UseCase } from "../../fit/stay/types.ts";
import { type CaseRates, USE_CASES } from "../../fit/stay/use.ts";
import type { Known } from "../../site/completed.ts";
import { type Run, type RunInput, type RunStop, runCase } from "./run.ts";
import type { SupplyStop } from "./types.ts";

/** How doubtful connections turn out, by what they would give. */
interface Turn {
  readonly water: boolean;
  readonly drain: boolean;
  readonly power: boolean;
}

export interface Scenario {
  readonly use: UseCase;
  /** True when every doubtful connection fails. */
  readonly worst: boolean;
  readonly run: Run;
}

const decided = (known: Known, turn: boolean): boolean => known === "yes" || (known === "unknown" && turn);
const anyOf = (all: readonly Known[]): Known =>
  all.includes("yes") ? "yes" : all.includes("unknown") ? "unknown" : "no";

/** Whether the waste tanks can be emptied on leaving a stop, or the fresh tank filled. */
export function dumpChance(stop: SupplyStop): Known {
  return anyOf([stop.hookups.sewer, stationChance(stop, "dump")]);
}

export function fillChance(stop: SupplyStop): Known {
  return anyOf([stop.hookups.tankFill, stationChance(stop, "fill")]);
}

/** A fill tap whose water nobody calls drinkable is not counted before somebody has asked. */
function stationChance(stop: SupplyStop, kind: "dump" | "fill"): Known {
  return anyOf(
    stop.stations
      .filter((station) => station.kind === kind && (kind === "dump" || station.drinkable === "yes"))
      .map((station) => station.usable),
  );
}

function runStop(stop: SupplyStop, turn: Turn): RunStop {
  return {
    nights: stop.nights,
    water: decided(stop.hookups.water, turn.water),
    sewer: decided(stop.hookups.sewer, turn.drain),
    power: decided(stop.hookups.power, turn.power),
    dump: decided(stationChance(stop, "dump"), turn.drain),
    fill: decided(fillChance(stop), turn.water),
  };
}

const BOTH = [false, true] as const;
const ONLY = [false] as const;

function turnsOf(stops: readonly SupplyStop[]): Turn[] {
  const doubtful = (read: (stop: SupplyStop) => readonly Known[]): readonly boolean[] =>
    stops.some((stop) => read(stop).includes("unknown")) ? BOTH : ONLY;
  const waters = doubtful((stop) => [stop.hookups.water, fillChance(stop)]);
  const drains = doubtful((stop) => [stop.hookups.sewer, stationChance(stop, "dump")]);
  const powers = doubtful((stop) => [stop.hookups.power]);
  return waters.flatMap((water) => drains.flatMap((drain) => powers.map((power) => ({ water, drain, power }))));
}

/** Every run; the first of each use is that in which all that is doubtful fails. */
export function runScenarios(
  stops: readonly SupplyStop[],
  rates: Readonly<Record<UseCase, CaseRates>>,
  shared: Omit<RunInput, "rates" | "stops">,
): readonly Scenario[] {
  const turns = turnsOf(stops);
  return USE_CASES.flatMap((use) =>
    turns.map((turn) => ({
      use,
      worst: !turn.water && !turn.drain && !turn.power,
      run: runCase({ ...shared, rates: rates[use], stops: stops.map((stop) => runStop(stop, turn)) }),
    })),
  );
}

/** Numbers this near to each other are one: far below a drop of water or a second. */
const SAME = 1e-6;

function commonValue(values: readonly (number | null)[]): number | null {
  const first = values[0] ?? null;
  return first !== null && values.every((value) => value !== null && Math.abs(value - first) <= SAME) ? first : null;
}

/** A value over all runs; nothing is claimed when any run cannot tell it. */
export function bandOver(scenarios: readonly Scenario[], read: (run: Run) => number | null): Band {
  const values = scenarios.map((one) => read(one.run));
  const known = values.filter((value) => value !== null);
  if (known.length < values.length) return { low: null, expected: null, high: null };
  const expected = scenarios.filter((one) => one.use === "expected").map((one) => read(one.run));
  return { low: Math.min(...known), expected: commonValue(expected), high: Math.max(...known) };
}

/** A moment that some runs do not come to: the latest is null where one of them never does. */
export function momentOver(
  scenarios: readonly Scenario[],
  read: (run: Run) => number | null,
): { readonly day: Band; readonly certain: boolean } {
  const values = scenarios.map((one) => read(one.run));
  const known = values.filter((value) => value !== null);
  const certain = known.length === values.length;
  const expected = scenarios.filter((one) => one.use === "expected").map((one) => read(one.run));
  return {
    certain,
    day: {
      low: known.length === 0 ? null : Math.min(...known),
      expected: commonValue(expected),
      high: certain ? Math.max(...known) : null,
    },
  };
}
