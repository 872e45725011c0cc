/**
 * The bound against a reference library: HiGHS (npm highs 1.15.3) solves the linear relaxation of the whole problem. With
 * holes that cost nothing every site's schedules are those of intervals, whose matrix is totally unimodular, so that
 * the best bound by prices is exactly the optimum of the relaxation (A. M. Geoffrion, "Lagrangean relaxation for integer
 * programming", 1974; from memory).
 */
import { afterAll, describe, expect, test } from "vitest";
import { Annealing } from "../../src/assign/anneal.ts";
import { BoundSearch, preparePricing } from "../../src/assign/bound.ts";
import { compile } from "../../src/assign/compile.ts";
import { exactPart } from "../../src/assign/exact-model.ts";
import { fillGreedily } from "../../src/assign/greedy.ts";
import { PlanState } from "../../src/assign/plan-state.ts";
import { seededRandom } from "../../src/assign/random.ts";
import { startingPrices } from "../../src/assign/starting-prices.ts";
import { createExactSolver } from "../../src/node/exact-solver.ts";
import { inventInstance } from "../bench/assignment-instances.ts";

const PLENTY = 60_000;
/** Share of the points of fit by which the prices found may stay above the best there are. */
const CLOSE = 0.002;

describe("the bound by prices and the linear relaxation", () => {
  const exact = createExactSolver();
  afterAll(() => exact.close());

  for (const spec of [
    { sites: 25, nights: 14, demand: 0.9, mix: "long", seed: 1 },
    { sites: 25, nights: 14, demand: 1, mix: "long", seed: 2, crowded: true },
    { sites: 20, nights: 14, demand: 0.95, mix: "short", seed: 3 },
  ] as const) {
    test(`${spec.sites} sites, ${spec.nights} nights, ${spec.mix}, seed ${spec.seed}`, async () => {
      const invented = inventInstance(spec);
      const compiled = compile({ ...invented, weights: { ...invented.weights, minimumStay: 1 } });
      const state = new PlanState(compiled);
      fillGreedily(state);
      const search = new Annealing(state, seededRandom(1), { from: 60, to: 1 }, 5000);
      search.advance(5000);
      const { model, constant } = exactPart(state, null);
      const relaxed = await exact.solve({ ...model, whole: new Uint8Array(model.columns), first: null }, PLENTY);
      expect(relaxed?.isOptimal).toBe(true);
      const optimum = relaxed!.bound! + constant;
      const bound = new BoundSearch(preparePricing(compiled), startingPrices(compiled, search.bestValue));
      for (let each = 0; each < 1500; each++) bound.advance(search.bestValue);
      const fit = search.best.reduce((sum, option) => sum + (option < 0 ? 0 : compiled.optionReward[option]!), 0);
      expect(bound.bound).toBeGreaterThanOrEqual(optimum - 1e-5);
      expect((bound.bound - optimum) / fit).toBeLessThan(CLOSE);
      expect(search.bestValue).toBeLessThanOrEqual(optimum + 1e-5);
    });
  }
});
