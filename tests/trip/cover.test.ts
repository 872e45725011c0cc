/** The cheapest cover and the smallest grid points, against trying everything. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type CoverProblem,
  type CoverThing,
  cheapestCover,
  compareCosts,
  costOf,
  serves,
} from "../../src/trip/kit/cover.ts";
import { minimalPoints } from "../../src/trip/kit/minimal-points.ts";

const GROUPS = ["hose", "cord", "adapter"];
const SUMS = new Set(["hose"]);

const thing = fc.record({
  group: fc.constantFrom(...GROUPS),
  amount: fc.integer({ min: 1, max: 6 }),
  stop: fc.option(fc.integer({ min: 0, max: 2 }), { freq: 3 }),
  buy: fc.integer({ min: 0, max: 1 }),
});
const wish = fc.record({ group: fc.constantFrom(...GROUPS), least: fc.integer({ min: 1, max: 9 }) });
const target = fc.record({
  stop: fc.integer({ min: 0, max: 2 }),
  options: fc.array(fc.array(wish, { maxLength: 3 }), { minLength: 1, maxLength: 3 }),
});
const problems = fc
  .record({ things: fc.array(thing, { maxLength: 9 }), targets: fc.array(target, { maxLength: 5 }) })
  .map(({ things, targets }): CoverProblem => {
    const made = things.map(
      ({ group, amount, stop, buy }, index): CoverThing => ({
        id: `t${index}`,
        group,
        amount,
        stop,
        cost: [buy, 1, amount],
      }),
    );
    return { things: made, targets, sums: SUMS };
  });

function subsets<T>(all: readonly T[]): T[][] {
  return Array.from({ length: 2 ** all.length }, (_, mask) => all.filter((_, index) => (mask >> index) % 2 === 1));
}

describe("the cheapest cover", () => {
  it("costs what the cheapest of all subsets costs, and each of its things is needed", () => {
    fc.assert(
      fc.property(problems, (problem) => {
        const working = subsets(problem.things).filter((set) =>
          problem.targets.every((one) => serves(problem, set, one)),
        );
        const costs = working.map((set) => costOf(set)).sort(compareCosts);
        const found = cheapestCover(problem);
        expect(found === null).toBe(costs[0] === undefined);
        if (costs[0] === undefined) return;
        expect(found?.proven).toBe(true);
        const chosen = found?.chosen ?? [];
        expect(problem.targets.every((one) => serves(problem, chosen, one))).toBe(true);
        expect(compareCosts(costOf(chosen), costs[0])).toBe(0);
        for (const left of chosen) {
          const rest = chosen.filter((one) => one !== left);
          expect(problem.targets.every((one) => serves(problem, rest, one))).toBe(false);
        }
      }),
      { numRuns: 300 },
    );
  });

  it("never costs more when there is one thing more to choose from", () => {
    fc.assert(
      fc.property(problems, (problem) => {
        const [, ...fewer] = problem.things;
        const less = cheapestCover({ ...problem, things: fewer });
        if (less === null) return;
        const more = cheapestCover(problem);
        expect(compareCosts(costOf(more?.chosen ?? []), costOf(less.chosen))).toBeLessThanOrEqual(0);
      }),
    );
  });

  it("prefers two things from the depot to one that must be bought, and one to two of a kind", () => {
    const hose = (id: string, amount: number, buy: number): CoverThing => {
      return { id, group: "hose", amount, stop: null, cost: [buy, 1, amount] };
    };
    const targets = [{ stop: 0, options: [[{ group: "hose", least: 5 }]] }];
    const ids = (things: CoverThing[]) => cheapestCover({ things, targets, sums: SUMS })?.chosen.map((one) => one.id);
    expect(ids([hose("long", 7, 1), hose("a", 3, 0), hose("b", 3, 0)])?.sort()).toEqual(["a", "b"]);
    expect(ids([hose("a", 3, 0), hose("long", 7, 0), hose("b", 3, 0)])).toEqual(["long"]);
  });

  it("lends only at the stop that lends", () => {
    const lent: CoverThing = { id: "lent", group: "cord", amount: 9, stop: 1, cost: [0, 0, 1, 9] };
    const targetAt = (stop: number) => ({ stop, options: [[{ group: "cord", least: 8 }]] });
    expect(cheapestCover({ things: [lent], targets: [targetAt(1)], sums: SUMS })?.chosen).toEqual([lent]);
    expect(cheapestCover({ things: [lent], targets: [targetAt(2)], sums: SUMS })).toBeNull();
  });
});

describe("the smallest points of a grid", () => {
  const sizes = fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 1, maxLength: 4 });
  const grids = sizes.chain((size) =>
    fc.tuple(
      fc.constant(size),
      fc.array(fc.tuple(...size.map((one) => fc.integer({ min: 0, max: one - 1 }))), { minLength: 1, maxLength: 4 }),
    ),
  );
  const below = (a: readonly number[], b: readonly number[]) => a.every((value, index) => value <= (b[index] ?? 0));
  const text = (points: readonly (readonly number[])[]) => points.map(String).sort();

  it("are all that generate the question, and few questions find them", () => {
    fc.assert(
      fc.property(grids, ([size, generators]) => {
        let asked = 0;
        const holds = (point: readonly number[]) => {
          asked += 1;
          return generators.some((one) => below(one, point));
        };
        const found = minimalPoints(size, holds, 10_000);
        const smallest = generators.filter(
          (one) => !generators.some((other) => other !== one && below(other, one) && !below(one, other)),
        );
        expect(found.complete).toBe(true);
        expect(text(found.points)).toEqual([...new Set(text(smallest))]);
        expect(asked).toBeLessThanOrEqual(size.reduce((product, one) => product * one, 1));
      }),
      { numRuns: 300 },
    );
  });

  it("say so when questions ran out", () => {
    const found = minimalPoints([9, 9, 9], (point) => point.reduce((sum, one) => sum + one, 0) >= 8, 5);
    expect(found.complete).toBe(false);
  });

  it("are none when not even the largest point holds", () => {
    expect(minimalPoints([3, 3], () => false, 100)).toEqual({ points: [], complete: true });
  });
});
