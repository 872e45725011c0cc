/**
 * The depot's stock over time: what every trip takes out, what is left, and where it runs short. Days are counted
 * exactly: a thing is out from the day of departure until the unit is turned round, that day not included.
 */
import { dateOf } from "../dates.ts";

export interface Taking {
  readonly trip: string;
  /** Day numbers: out from `from` on, back on the shelf on `free`. */
  readonly from: number;
  readonly free: number;
  /** Index of the stock entry. */
  readonly stock: number;
  readonly count: number;
}

export interface StockPeriod {
  /** Local dates, both included. */
  readonly from: string;
  readonly to: string;
  readonly out: number;
  readonly left: number;
  /** How many are missing; 0 when the stock is enough. */
  readonly short: number;
  readonly trips: readonly string[];
}

/** Periods in which anything is out, in order; neighbouring ones differ. */
export function stockPeriods(count: number, takings: readonly Taking[]): readonly StockPeriod[] {
  const days = [...new Set(takings.flatMap(({ from, free }) => [from, free]))].sort((a, b) => a - b);
  return days.flatMap((from, index): StockPeriod[] => {
    const end = days[index + 1];
    if (end === undefined) return [];
    const there = takings.filter((taking) => taking.from <= from && from < taking.free);
    const out = there.reduce((sum, taking) => sum + taking.count, 0);
    if (out === 0) return [];
    const trips = [...new Set(there.map((taking) => taking.trip))];
    const left = Math.max(0, count - out);
    return [{ from: dateOf(from), to: dateOf(end - 1), out, left, short: Math.max(0, out - count), trips }];
  });
}
