import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import type { ExactModel, ExactSolver } from "../../src/assign/exact.ts";
import { EFFORTS, solveAssignment } from "../../src/assign/solve.ts";
import { createExactSolver } from "../../src/node/exact-solver.ts";
import { inventInstance } from "../bench/assignment-instances.ts";

const broken = (name: string) => fileURLToPath(new URL(`solvers/${name}.cjs`, import.meta.url));

/** Maximise 3a + 5b + 4c with at most one of a and b, at most one of b and c: a and c, 7. */
const MODEL: ExactModel = {
  columns: 3,
  rows: 2,
  points: Float64Array.from([3, 5, 4]),
  rowUpper: Float64Array.from([1, 1]),
  start: Int32Array.from([0, 1, 3, 4]),
  row: Int32Array.from([0, 0, 1, 1]),
  factor: Float64Array.from([1, 1, 1, 1]),
  whole: Uint8Array.from([1, 1, 1]),
  first: Float64Array.from([0, 1, 0]),
};

const PLENTY = 20_000;

describe("the exact solver in its thread", () => {
  test("solves a model, again and again", async () => {
    const exact = createExactSolver();
    for (let each = 0; each < 3; each++) {
      const answer = await exact.solve(MODEL, PLENTY);
      expect(answer?.isOptimal).toBe(true);
      expect([...answer!.values].map(Math.round)).toEqual([1, 0, 1]);
      expect(answer!.bound).toBeCloseTo(7, 6);
    }
    exact.close();
  });

  test("is killed when it overshoots its time, and starts anew", async () => {
    const faults: string[] = [];
    const exact = createExactSolver({ module: broken("hangs"), report: (fault) => faults.push(fault) });
    expect(await exact.solve(MODEL, 50)).toBeNull();
    expect(await exact.solve(MODEL, 50)).toBeNull();
    exact.close();
  });

  test("is killed at once by a wish to stop", async () => {
    const exact = createExactSolver({ module: broken("hangs") });
    const controller = new AbortController();
    setTimeout(() => controller.abort(), 100);
    expect(await exact.solve(MODEL, PLENTY, controller.signal)).toBeNull();
    expect(await exact.solve(MODEL, PLENTY, controller.signal)).toBeNull();
    exact.close();
  });

  for (const name of ["throws", "exits", "gives-nan", "missing"]) {
    test(`gives nothing when the solver ${name}`, async () => {
      const exact = createExactSolver({ module: broken(name) });
      expect(await exact.solve(MODEL, PLENTY)).toBeNull();
      exact.close();
    });
  }

  test("takes one solve at a time", async () => {
    const exact = createExactSolver();
    const [one, other] = await Promise.all([exact.solve(MODEL, PLENTY), exact.solve(MODEL, PLENTY)]);
    expect([one === null, other === null].filter((isNull) => isNull).length).toBeLessThanOrEqual(1);
    expect(one ?? other).not.toBeNull();
    exact.close();
  });
});

describe("a search whose exact solver is of no use", () => {
  const problem = inventInstance({ sites: 12, nights: 14, demand: 1, mix: "long", seed: 5, crowded: true });
  const effort = { ...EFFORTS.quick, rounds: 3000, repairs: 5 };
  const useless: Readonly<Record<string, ExactSolver["solve"]>> = {
    "gives nothing": async () => null,
    "gives a plan that does not hold": async (model) => ({
      isOptimal: true,
      values: new Float64Array(model.columns).fill(1),
      bound: null,
    }),
    "gives no numbers": async (model) => ({
      isOptimal: true,
      values: new Float64Array(model.columns).fill(Number.NaN),
      bound: null,
    }),
  };

  for (const [name, solve] of Object.entries(useless)) {
    test(`${name}: the plan is that of the search, with its bound`, async () => {
      const alone = await solveAssignment(problem, { seed: 3, effort });
      const { judgement, bound, status } = await solveAssignment(problem, {
        seed: 3,
        effort,
        exact: { name: "useless", solve },
      });
      expect(judgement.isSound).toBe(true);
      expect(judgement.value).toBe(alone.judgement.value);
      expect(bound).toBe(alone.bound);
      expect(status).toBe(alone.status);
    });
  }

  test("a time that is over gives the plan so far with a bound, and says so", async () => {
    let now = 0;
    const solution = await solveAssignment(problem, {
      seed: 3,
      effort: EFFORTS.thorough,
      clock: () => (now += 10),
      milliseconds: 100,
    });
    expect(solution.cutShort).toBe(true);
    expect(solution.judgement.isSound).toBe(true);
    expect(solution.bound).not.toBeNull();
    expect(solution.rounds).toBeLessThan(EFFORTS.thorough.rounds);
  });

  test("a wish to stop ends it at the next turn", async () => {
    const controller = new AbortController();
    let told = 0;
    const solution = await solveAssignment(problem, {
      seed: 3,
      effort: EFFORTS.thorough,
      stop: controller.signal,
      progress: () => {
        if (++told === 3) controller.abort();
      },
    });
    expect(solution.cutShort).toBe(true);
    expect(told).toBeLessThan(10);
    expect(solution.judgement.isSound).toBe(true);
  });
});
