/** Allotment of units and stock over time, against trying everything and counting day by day. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dateOf, dayNumber } from "../../src/trip/dates.ts";
import { type AllotTrip, allot, overlap } from "../../src/trip/desk/allot.ts";
import { stockPeriods, type Taking } from "../../src/trip/desk/reserve.ts";

const UNITS = ["u1", "u2", "u3"];
const trips = fc
  .array(
    fc.record({
      from: fc.integer({ min: 0, max: 8 }),
      days: fc.integer({ min: 1, max: 5 }),
      given: fc.option(fc.constantFrom(...UNITS), { freq: 6 }),
      units: fc.shuffledSubarray(UNITS),
    }),
    { maxLength: 5 },
  )
  .map((list) =>
    list.map(
      ({ from, days, given, units }, index): AllotTrip => ({ id: `t${index}`, from, free: from + days, given, units }),
    ),
  );

/** Every way to give each open trip one of its units or none. */
function ways(all: readonly AllotTrip[]): Map<string, string>[] {
  return all.reduce<Map<string, string>[]>(
    (known, trip) =>
      known.flatMap((way) => {
        if (trip.given !== null) return [new Map(way).set(trip.id, trip.given)];
        return [way, ...trip.units.map((unit) => new Map(way).set(trip.id, unit))];
      }),
    [new Map()],
  );
}

const clashes = (all: readonly AllotTrip[], way: ReadonlyMap<string, string>): boolean =>
  all.some((a) =>
    all.some(
      (b) =>
        a !== b &&
        (a.given === null || b.given === null) &&
        way.has(a.id) &&
        way.get(a.id) === way.get(b.id) &&
        overlap(a, b),
    ),
  );

function worth(all: readonly AllotTrip[], way: ReadonlyMap<string, string>): [number, number] {
  const open = all.filter((trip) => trip.given === null && way.has(trip.id));
  return [open.length, open.reduce((sum, trip) => sum + trip.units.indexOf(way.get(trip.id) ?? ""), 0)];
}

describe("allotment", () => {
  it("serves as many trips, with as good units, as the best of all ways, and never doubles a unit", () => {
    fc.assert(
      fc.property(trips, (all) => {
        const found = allot(all);
        const best = ways(all)
          .filter((way) => !clashes(all, way))
          .map((way) => worth(all, way))
          .sort(([a, x], [b, y]) => b - a || x - y)[0];
        expect(clashes(all, found.units)).toBe(false);
        expect(found.proven).toBe(true);
        expect(worth(all, found.units)).toEqual(best);
      }),
      { numRuns: 200 },
    );
  });
});

describe("stock over time", () => {
  const start = dayNumber("2025-06-28") ?? 0;
  const takings = fc.array(
    fc.record({
      trip: fc.constantFrom("a", "b", "c"),
      from: fc.integer({ min: 0, max: 12 }),
      days: fc.integer({ min: 1, max: 6 }),
      count: fc.integer({ min: 1, max: 2 }),
    }),
    { maxLength: 6 },
  );

  it("is what counting day by day gives", () => {
    fc.assert(
      fc.property(takings, fc.integer({ min: 0, max: 4 }), (list, count) => {
        const all = list.map(({ trip, from, days, count: taken }): Taking => {
          return { trip, from: start + from, free: start + from + days, stock: 0, count: taken };
        });
        const periods = stockPeriods(count, all);
        for (let day = start; day < start + 20; day++) {
          const out = all.reduce((sum, one) => sum + (one.from <= day && day < one.free ? one.count : 0), 0);
          const date = dateOf(day);
          const there = periods.filter((period) => period.from <= date && date <= period.to);
          expect(there.map((period) => [period.out, period.left, period.short])).toEqual(
            out === 0 ? [] : [[out, Math.max(0, count - out), Math.max(0, out - count)]],
          );
        }
      }),
    );
  });

  it("is back on the day after the return and short in between", () => {
    const one = { trip: "a", from: start, free: start + 3, stock: 0, count: 1 };
    const other = { trip: "b", from: start + 2, free: start + 5, stock: 0, count: 1 };
    expect(stockPeriods(1, [one, other])).toEqual([
      { from: "2025-06-28", to: "2025-06-29", out: 1, left: 0, short: 0, trips: ["a"] },
      { from: "2025-06-30", to: "2025-06-30", out: 2, left: 0, short: 1, trips: ["a", "b"] },
      { from: "2025-07-01", to: "2025-07-02", out: 1, left: 0, short: 0, trips: ["b"] },
    ]);
  });
});
