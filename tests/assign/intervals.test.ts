/**
 * Special cases with known optima. Sites that are all alike: the stays are intervals, their conflict graph is an
 * interval graph, so that all can be placed exactly when no night has more stays than there are sites, and the greatest
 * weight that fits is that of a k-colourable subgraph. (Classical: Arkin and Silverberg 1987; Kolen, Lenstra,
 * Papadimitriou, Spieksma, "Interval scheduling: a survey", Naval Research Logistics 2007; from memory.)
 */
import { afterAll, describe, expect, test } from "vitest";
import { judgePlan } from "../../src/assign/check.ts";
import type { AssignmentProblem } from "../../src/assign/problem.ts";
import { seededRandom } from "../../src/assign/random.ts";
import { solveAssignment } from "../../src/assign/solve.ts";
import { DEFAULT_WEIGHTS } from "../../src/assign/weights.ts";
import { createExactSolver } from "../../src/node/exact-solver.ts";

const FIRST = 19_000;

/** Identical sites, equal points; the holes cost nothing. */
function alike(seed: number, sites: number, nights: number, most: number): AssignmentProblem {
  const random = seededRandom(seed);
  const load = new Array<number>(nights).fill(0);
  const stays: AssignmentProblem["stays"][number][] = [];
  for (let tried = 0; tried < 40 * sites; tried++) {
    const arrival = random.whole(nights);
    const departure = Math.min(nights, arrival + 1 + random.whole(7));
    if (load.slice(arrival, departure).some((each) => each >= most)) continue;
    for (let night = arrival; night < departure; night++) load[night] = load[night]! + 1;
    stays.push({
      id: `s${stays.length}`,
      arrival: FIRST + arrival,
      departure: FIRST + departure,
      profile: 0,
      priority: 0,
      inHouse: false,
      locked: null,
      accepted: null,
      party: null,
    });
  }
  return {
    firstNight: FIRST,
    sites: Array.from({ length: sites }, (_, at) => ({
      id: `p${at}`,
      name: `${at}`,
      closures: [],
      resources: [],
      place: null,
    })),
    resources: [],
    stays,
    options: [Array.from({ length: sites }, () => ({ ways: [{ score: 50, resources: [], terms: [] }], rules: [] }))],
    weights: { ...DEFAULT_WEIGHTS, minimumStay: 1 },
    maxMoves: null,
  };
}

describe("sites that are all alike", () => {
  const exact = createExactSolver();
  afterAll(() => exact.close());

  test("all stays are placed when no night has more of them than sites, and it is proven", async () => {
    for (let seed = 1; seed <= 12; seed++) {
      const problem = alike(seed, 10, 21, 10);
      const { judgement, status } = await solveAssignment(problem, {
        seed,
        effort: { rounds: 4000, evaluations: 400, repairs: 1 },
        exact,
      });
      expect(judgement.unplaced, `seed ${seed}`).toBe(0);
      expect(status).toBe("optimal");
      expect(judgement.value).toBe(50 * problem.stays.length);
    }
  });

  test("with one site too few the night with most stays says how many are left out, at least", async () => {
    for (let seed = 1; seed <= 6; seed++) {
      const full = alike(seed, 10, 21, 10);
      const problem = { ...full, sites: full.sites.slice(1), options: full.options.map((row) => row.slice(1)) };
      const peak = Math.max(
        ...Array.from(
          { length: 21 },
          (_, night) =>
            problem.stays.filter((stay) => stay.arrival <= FIRST + night && FIRST + night < stay.departure).length,
        ),
      );
      const { judgement, bound } = await solveAssignment(problem, {
        seed,
        effort: { rounds: 4000, evaluations: 300, repairs: 0 },
      });
      expect(peak).toBe(10);
      expect(judgement.unplaced).toBeGreaterThanOrEqual(peak - 9);
      expect(bound!).toBeGreaterThanOrEqual(judgement.value);
    }
  });
});

test("one site: the heaviest set of intervals that do not meet, by the classical recursion", async () => {
  for (let seed = 1; seed <= 40; seed++) {
    const random = seededRandom(seed);
    const base = alike(seed, 1, 15, 5);
    const stays = base.stays.slice(0, 12).map((stay, index) => ({ ...stay, profile: index }));
    const scores = stays.map(() => random.whole(200));
    const problem = {
      ...base,
      stays,
      options: scores.map((score) => [{ ways: [{ score, resources: [], terms: [] }], rules: [] }]),
    };
    const worth = (index: number) => scores[index]! + 1000 + 20 * (stays[index]!.departure - stays[index]!.arrival);
    // Best weight of what ends by a night.
    const best = new Array<number>(16).fill(0);
    for (let night = 1; night <= 15; night++) {
      best[night] = best[night - 1]!;
      stays.forEach((stay, index) => {
        if (stay.departure - FIRST === night) {
          best[night] = Math.max(best[night]!, best[stay.arrival - FIRST]! + worth(index));
        }
      });
    }
    const penalties = stays.reduce((sum, stay) => sum + 1000 + 20 * (stay.departure - stay.arrival), 0);
    const solution = await solveAssignment(problem, {
      seed,
      effort: { rounds: 1500, evaluations: 300, repairs: 0 },
    });
    expect(solution.judgement.value, `seed ${seed}`).toBe(best[15]! - penalties);
    expect(solution.status).toBe("optimal");
  }
});

test("the demand for a seed is the same plan twice", async () => {
  const problem = alike(5, 6, 21, 7);
  const settings = { seed: 42, effort: { rounds: 2000, evaluations: 50, repairs: 0 } };
  const [one, two] = [await solveAssignment(problem, settings), await solveAssignment(problem, settings)];
  expect(two.plan).toEqual(one.plan);
  expect(judgePlan(problem, one.plan)).toEqual(one.judgement);
});
