/**
 * Days that a party lasts on what is aboard with nothing connected, store by store and each as if the others held out:
 * content by use a day. Source of the formula: derived; worked figures in the tests.
 */
import { type Band, type Levels, type Remaining, STORES, type Store, type UseCase } from "./types.ts";
import { type CaseRates, USE_CASES } from "./use.ts";

const HOURS_PER_DAY = 24;
const UNKNOWN: Band = { low: null, expected: null, high: null };

/** What a store loses (negative) or takes up a day with nothing connected; null when that is not known. */
export function unservedRate(store: Store, rates: CaseRates, charger: number | null): number | null {
  switch (store) {
    case "fresh":
      return -(rates.toilet + rates.wash + rates.offBoard);
    case "grey":
      return rates.wash;
    case "black":
      return rates.toilet;
    case "propane":
      return rates.propane === null ? null : -rates.propane;
    case "battery":
      if (rates.battery === null) return null;
      return Math.min(0, Math.min(HOURS_PER_DAY, rates.generatorHours) * (charger ?? 0) - rates.battery);
    case "generatorFuel":
      if (rates.generatorHours === 0) return 0;
      return rates.generatorFuel === null ? null : -rates.generatorHours * rates.generatorFuel;
  }
}

/** Days until a content of `level` litres in a store of `size` litres meets its bound; null without a rate. */
export function daysOf(level: number, size: number, rate: number): number | null {
  if (rate === 0) return null;
  return rate < 0 ? level / -rate : Math.max(0, size - level) / rate;
}

export interface RemainingInput {
  readonly levels: Levels;
  readonly sizes: Readonly<Record<Store, number | null>>;
  readonly rates: Readonly<Record<UseCase, CaseRates>>;
  readonly charger: number | null;
}

function remainingOf(store: Store, input: RemainingInput): Remaining {
  const size = input.sizes[store];
  const level = input.levels[store];
  const rates = USE_CASES.map((use) => unservedRate(store, input.rates[use], input.charger));
  if (rates.every((rate) => rate === 0)) return { status: "endless", days: UNKNOWN };
  const [low, , high] = rates;
  if (size === null || level.low === null || level.high === null || rates.includes(null)) {
    return { status: "unknown", days: UNKNOWN };
  }
  const drawn = (low ?? 0) < 0 || (high ?? 0) < 0;
  const days = (at: number | null, rate: number | null | undefined): number | null =>
    at === null || rate === null || rate === undefined ? null : daysOf(at, size, rate);
  return {
    status: "known",
    days: {
      low: days(drawn ? level.low : level.high, high),
      expected: days(level.expected, rates[1]),
      high: days(drawn ? level.high : level.low, low),
    },
  };
}

/** For every store. A store that is not used at low use has no latest day. */
export function remaining(input: RemainingInput): Readonly<Record<Store, Remaining>> {
  const entries = STORES.map((store) => [store, remainingOf(store, input)] as const);
  return Object.fromEntries(entries) as Record<Store, Remaining>;
}
