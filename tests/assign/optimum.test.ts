import { afterAll, describe, expect, test } from "vitest";
import { judgePlan } from "../../src/assign/check.ts";
import { compile } from "../../src/assign/compile.ts";
import type { AssignmentProblem, Placement, Plan } from "../../src/assign/problem.ts";
import { solveAssignment } from "../../src/assign/solve.ts";
import { createExactSolver } from "../../src/node/exact-solver.ts";
import { allPlans, smallProblem } from "./small.ts";

const INSTANCES = 2000;
const EXACT_INSTANCES = 250;
const LARGEST = 1_000;
const CLOSE = 1e-6;

/** What a bound stay gets is settled before any choice; everyone else may have every pair, and no site. */
function choicesOf(problem: AssignmentProblem): (Placement | null)[][] {
  const { fixed, optionSite, optionWay } = compile(problem);
  const nowhere: (Placement | null)[] = problem.stays.map(() => null);
  return problem.stays.map((stay, index) => {
    const option = fixed[index]!;
    if (option >= 0) return [{ site: optionSite[option]!, way: optionWay[option]! }];
    const pairs = problem.options[stay.profile]!.flatMap(({ ways }, site) => ways.map((_, way) => ({ site, way })));
    const possible = pairs.filter((pair) => {
      const alone = judgePlan(problem, nowhere.with(index, pair)).breaches;
      return !alone.some((breach) => breach.stay === stay.id && breach.code !== "left-bound-site");
    });
    return [null, ...possible];
  });
}

/** The best value of all plans that the checker finds sound, by trying every one. */
function bruteForce(problem: AssignmentProblem, choices: (Placement | null)[][]): { value: number; plan: Plan } {
  let best: { value: number; plan: Plan } = { value: Number.NEGATIVE_INFINITY, plan: [] };
  for (const plan of allPlans(choices)) {
    const { isSound, value } = judgePlan(problem, plan);
    if (isSound && value > best.value) best = { value, plan: [...plan] };
  }
  return best;
}

function* instances(count: number) {
  let found = 0;
  for (let seed = 1; found < count; seed++) {
    const problem = smallProblem(seed, { sites: 4, stays: 6, nights: 9 });
    const choices = choicesOf(problem);
    if (choices.reduce((product, each) => product * each.length, 1) > LARGEST) continue;
    found++;
    yield { seed, problem, choices };
  }
}

describe("small problems, by trying every plan", () => {
  test(`value <= optimum <= bound on ${INSTANCES}`, { timeout: 300_000 }, async () => {
    const wrong: string[] = [];
    let reached = 0;
    let proven = 0;
    for (const { seed, problem, choices } of instances(INSTANCES)) {
      const best = bruteForce(problem, choices);
      const solution = await solveAssignment(problem, {
        seed,
        effort: { rounds: 400, evaluations: 60, repairs: 0 },
      });
      const { bound, judgement, status } = solution;
      if (!judgement.isSound) wrong.push(`${seed}: not sound`);
      if (judgement.value > best.value + CLOSE) wrong.push(`${seed}: ${judgement.value} > optimum ${best.value}`);
      if (bound === null || bound < best.value - CLOSE) wrong.push(`${seed}: bound ${bound} < optimum ${best.value}`);
      if (status === "optimal") {
        proven++;
        if (Math.abs(judgement.value - best.value) > 1e-3) wrong.push(`${seed}: called optimal and is not`);
      }
      if (judgement.value >= best.value - CLOSE) reached++;
    }
    expect(wrong).toEqual([]);
    // The search alone, with so few rounds, finds nearly every optimum; if it did not, it would be broken.
    expect(reached).toBeGreaterThan(0.97 * INSTANCES);
    expect(proven).toBeGreaterThan(0.5 * INSTANCES);
  });
});

describe("with the exact solver", () => {
  const exact = createExactSolver();
  afterAll(() => exact.close());

  test(`the optimum is reached on ${EXACT_INSTANCES} without parties`, { timeout: 300_000 }, async () => {
    const wrong: string[] = [];
    for (const { seed, problem, choices } of instances(EXACT_INSTANCES)) {
      if (problem.stays.some(({ party }) => party !== null)) continue;
      const best = bruteForce(problem, choices);
      const { judgement, bound, status } = await solveAssignment(problem, {
        seed,
        effort: { rounds: 1, evaluations: 2, repairs: 1 },
        exact,
      });
      if (Math.abs(judgement.value - best.value) > CLOSE) wrong.push(`${seed}: ${judgement.value}, not ${best.value}`);
      if (bound === null || bound < best.value - CLOSE) wrong.push(`${seed}: bound ${bound} below ${best.value}`);
      if (status !== "optimal") wrong.push(`${seed}: ${status}`);
    }
    expect(wrong).toEqual([]);
  });
});
