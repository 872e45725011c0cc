/** Laws that the supplies keep whatever the trip. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { UseGiven } from "../../../src/fit/stay/types.ts";
import type { SupplyStop } from "../../../src/trip/supplies/types.ts";
import { coach, plan, station, stop } from "./stops.ts";

const RUNS = { numRuns: 150 };
const known = fc.constantFrom("yes" as const, "no" as const);
const maybe = fc.constantFrom("yes" as const, "no" as const, "unknown" as const);

function stopOf(word: fc.Arbitrary<"yes" | "no" | "unknown">): fc.Arbitrary<SupplyStop> {
  return fc
    .record({
      nights: fc.integer({ min: 0, max: 5 }),
      water: word,
      sewer: word,
      power: word,
      tankFill: word,
      dump: fc.boolean(),
      fill: fc.boolean(),
      usable: word,
    })
    .map(({ nights, dump, fill, usable, ...hookups }) => ({
      ...stop("s", nights, hookups),
      stations: [...(dump ? [station("dump", { usable })] : []), ...(fill ? [station("fill", { usable })] : [])],
    }));
}

const stops = (word: fc.Arbitrary<"yes" | "no" | "unknown">) =>
  fc.array(stopOf(word), { minLength: 1, maxLength: 4 }).map((all) => all.map((one, at) => ({ ...one, id: `s${at}` })));

const rate = (most: number) =>
  fc
    .tuple(
      fc.double({ min: 0, max: most, noNaN: true }),
      fc.double({ min: 0, max: most, noNaN: true }),
      fc.double({ min: 0, max: most, noNaN: true }),
    )
    .map((all) => {
      const [low, expected, high] = [...all].sort((one, other) => one - other) as [number, number, number];
      return { low, expected, high };
    });
const use: fc.Arbitrary<UseGiven> = fc.record({
  water: rate(130),
  toilet: rate(20),
  offBoard: fc.double({ min: 0, max: 0.4, noNaN: true }),
  battery: rate(900),
  propane: rate(5),
  generatorHours: rate(6),
  generatorFuel: rate(2),
});
const people = fc.integer({ min: 0, max: 6 });
const stores = { battery: 1200, charger: 250, generatorFuel: 25 };
const CASES = ["low", "expected", "high"] as const;

describe("litres", () => {
  it("are kept: what enters the fresh tank is drawn or left, and what is used ends somewhere", () => {
    fc.assert(
      fc.property(stops(known), use, people, (all, given, n) => {
        const answer = plan(all, { use: given, people: n });
        const last = answer.stops[answer.stops.length - 1]!.after;
        for (const one of CASES) {
          const ledger = answer.ledger[one];
          const used = ledger.fromTank + ledger.fromSite;
          expect(ledger.toGrey + ledger.toBlack + ledger.toSewer + ledger.offBoard).toBeCloseTo(used, 6);
          const wanted = n * given.water![one as never] * all.reduce((sum, each) => sum + each.nights, 0);
          expect(used + ledger.unmet).toBeCloseTo(wanted, 6);
          expect(ledger.offBoard).toBeLessThanOrEqual(given.offBoard! * wanted + 1e-6);
          // Where nothing was wanting, the stated share of what did not go down the toilet leaves the rig.
          if (ledger.unmet === 0) expect(ledger.offBoard).toBeCloseTo(given.offBoard! * (used - ledger.toBlack), 6);
        }
        const { expected } = answer.ledger;
        expect(coach.tanks.fresh! + expected.filled! - expected.fromTank).toBeCloseTo(last.fresh.expected!, 6);
        expect(expected.toGrey - expected.dumpedGrey).toBeCloseTo(last.grey.expected!, 6);
        expect(expected.toBlack - expected.dumpedBlack).toBeCloseTo(last.black.expected!, 6);
      }),
      RUNS,
    );
  });

  it("never fall below nothing nor rise above the size, and the band holds the expectation", () => {
    const sizes = { fresh: 150, grey: 118, black: 97, propane: 36, battery: 1200, generatorFuel: 25 };
    fc.assert(
      fc.property(stops(maybe), use, people, (all, given, n) => {
        for (const one of plan(all, { use: given, people: n, stores }).stops) {
          for (const levels of [...one.days.map((day) => day.levels), one.after]) {
            for (const [store, band] of Object.entries(levels)) {
              expect(band.low).toBeGreaterThanOrEqual(0);
              expect(band.high).toBeLessThanOrEqual(sizes[store as keyof typeof sizes]);
              expect(band.low! <= band.high!).toBe(true);
              if (band.expected !== null) {
                expect(band.expected).toBeGreaterThanOrEqual(band.low!);
                expect(band.expected).toBeLessThanOrEqual(band.high!);
              }
            }
          }
        }
      }),
      RUNS,
    );
  });
});

describe("people", () => {
  const later = (one: number | null, other: number | null): boolean =>
    (one ?? Number.POSITIVE_INFINITY) >= (other ?? Number.POSITIVE_INFINITY) - 1e-6;

  it("more of them never last longer", () => {
    fc.assert(
      fc.property(stops(known), use, people, fc.integer({ min: 1, max: 3 }), (all, given, n, extra) => {
        const few = plan(all, { use: given, people: n });
        const many = plan(all, { use: given, people: n + extra });
        for (const one of CASES) expect(later(few.lasts.day[one], many.lasts.day[one])).toBe(true);
        for (const store of ["fresh", "grey", "black"] as const) {
          const less = few.stops[0]!.remaining[store].days;
          const more = many.stops[0]!.remaining[store].days;
          for (const one of CASES) expect(later(less[one], more[one])).toBe(true);
        }
      }),
      RUNS,
    );
  });
});

describe("the order of stops", () => {
  it("matters only through what is carried over: a trip is its first stop and then the rest from what that leaves", () => {
    const sizes = { fresh: 150, grey: 118, black: 97, battery: 1200, generatorFuel: 25, propane: 36 };
    fc.assert(
      fc.property(stops(known), use, (all, given) => {
        fc.pre(all.length > 1);
        const single = (r: unknown) => {
          const { expected } = r as { expected: number };
          return { low: expected, expected, high: expected };
        };
        const steady: UseGiven = {
          water: single(given.water),
          toilet: single(given.toilet),
          battery: single(given.battery),
          propane: single(given.propane),
          generatorHours: single(given.generatorHours),
          generatorFuel: single(given.generatorFuel),
        };
        const whole = plan(all, { use: steady, stores });
        const carried = whole.stops[0]!.after;
        const start = Object.fromEntries(
          Object.entries(sizes).map(([store, size]) => [store, carried[store as keyof typeof sizes].expected! / size]),
        );
        const rest = plan(all.slice(1), { use: steady, stores, start });
        rest.stops.forEach((part, at) => {
          for (const store of Object.keys(sizes) as (keyof typeof sizes)[]) {
            expect(part.after[store].expected).toBeCloseTo(whole.stops[at + 1]!.after[store].expected!, 5);
          }
        });
      }),
      RUNS,
    );
  });
});
