import { describe, expect, test } from "vitest";
import type { AssignmentProblem, SiteOption } from "../../src/assign/problem.ts";
import { solveAssignment } from "../../src/assign/solve.ts";
import { DEFAULT_WEIGHTS } from "../../src/assign/weights.ts";

const EFFORT = { rounds: 500, evaluations: 50, repairs: 0 };
const FIRST = 21_000;
const NO: SiteOption = { ways: [], rules: ["fit:length"] };
const yes = (score: number): SiteOption => ({ ways: [{ score, resources: [], terms: [] }], rules: [] });

function park(sites: number, stays: number, option: SiteOption, more: object = {}): AssignmentProblem {
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
    stays: Array.from({ length: stays }, (_, at) => ({
      id: `s${at}`,
      arrival: FIRST,
      departure: FIRST + 3,
      profile: 0,
      priority: 0,
      inHouse: false,
      locked: null,
      accepted: null,
      party: null,
      ...more,
    })),
    options: [Array.from({ length: sites }, () => option)],
    weights: DEFAULT_WEIGHTS,
    maxMoves: null,
  };
}

const solve = (problem: AssignmentProblem) => solveAssignment(problem, { seed: 1, effort: EFFORT });

describe("strange problems", () => {
  test("nobody fits anywhere: nobody is placed, and that is the best there is", async () => {
    const { judgement, status, bound } = await solve(park(5, 7, NO));
    expect(judgement.unplaced).toBe(7);
    expect(status).toBe("optimal");
    expect(bound).toBe(-7 * (1000 + 3 * 20));
  });

  test("no site at all, and no stay at all", async () => {
    expect((await solve(park(0, 3, NO))).judgement.unplaced).toBe(3);
    expect((await solve(park(3, 0, NO))).status).toBe("optimal");
  });

  test("all are promised one site: one keeps it, the others are told of and placed elsewhere", async () => {
    const { judgement, released, plan } = await solve(park(4, 4, yes(50), { locked: 2 }));
    expect(judgement.isSound).toBe(true);
    expect(judgement.unplaced).toBe(0);
    expect(plan.filter((placement) => placement?.site === 2)).toHaveLength(1);
    expect(released.map(({ why }) => why)).toEqual(["held", "held", "held"]);
  });

  test("a promise binds where the fit says no, and is told as a breach that is not hard", async () => {
    const { judgement, plan } = await solve(park(2, 1, NO, { locked: 1 }));
    expect(plan).toEqual([{ site: 1, way: -1 }]);
    expect(judgement.isSound).toBe(true);
    expect(judgement.breaches).toMatchObject([{ code: "not-eligible", isHard: false, rules: ["fit:length"] }]);
  });

  test("a score that is no number, and a stay without a night, are refused", async () => {
    await expect(solve(park(2, 1, yes(Number.NaN)))).rejects.toThrow(RangeError);
    await expect(solve(park(2, 1, yes(1), { departure: FIRST }))).rejects.toThrow(RangeError);
  });

  test("no more may move than the cap, and who stays put costs nothing", async () => {
    // Each is on a site worth little while a better one is free.
    const problem = park(8, 4, yes(0));
    const stays = problem.stays.map((stay, at) => ({ ...stay, accepted: at }));
    const options = [Array.from({ length: 8 }, (_, at) => yes(at < 4 ? 10 : 90))];
    for (const [maxMoves, moved] of [
      [0, 0],
      [2, 2],
      [null, 4],
    ] as const) {
      const { judgement } = await solve({ ...problem, stays, options, maxMoves });
      expect(judgement.moved).toBe(moved);
      expect(judgement.parts.moves).toBe(25 * moved);
      expect(judgement.isSound).toBe(true);
    }
  });

  test("a party is put on sites that are near each other when nothing speaks against it", async () => {
    const base = park(6, 2, yes(50), { party: "one" });
    const sites = base.sites.map((site, at) => ({
      ...site,
      place: { east: [0, 500, 900, 30, 1400, 2000][at]!, north: 0 },
    }));
    const { plan, judgement } = await solve({ ...base, sites });
    expect(plan.map((placement) => placement?.site).sort()).toEqual([0, 3]);
    expect(judgement.parts.apart).toBeCloseTo((30 * 30) / 120, 9);
  });
});
