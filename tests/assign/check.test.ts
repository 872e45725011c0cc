import { describe, expect, test } from "vitest";
import { type BreachCode, judgePlan } from "../../src/assign/check.ts";
import { compile } from "../../src/assign/compile.ts";
import { fillGreedily } from "../../src/assign/greedy.ts";
import { PlanState } from "../../src/assign/plan-state.ts";
import type { AssignmentProblem, Placement, Plan } from "../../src/assign/problem.ts";
import { type Random, seededRandom } from "../../src/assign/random.ts";
import { smallProblem } from "./small.ts";

/** The long form: CHECKED_PLANS=10000 npx vitest run tests/assign/check.test.ts */
const PLANS = Number(process.env["CHECKED_PLANS"] ?? 1500);

/** A sound plan with random holes, made by the search's own tables. */
function randomPlan(problem: AssignmentProblem, random: Random): { plan: Plan; value: number } {
  const state = new PlanState(compile(problem));
  fillGreedily(state);
  for (let stay = 0; stay < problem.stays.length; stay++) {
    if (state.compiled.fixed[stay]! < 0 && state.chosen[stay]! >= 0 && random.next() < 0.3) state.remove(stay);
  }
  return { plan: state.plan(), value: state.value };
}

type Corruption = (problem: AssignmentProblem, plan: Plan, random: Random) => { plan: Plan; code: BreachCode } | null;

const nightsOf = (problem: AssignmentProblem, index: number) => ({
  from: Math.max(problem.stays[index]!.arrival, problem.firstNight),
  until: problem.stays[index]!.departure,
});

const isBound = (problem: AssignmentProblem, index: number): boolean => {
  const { locked, inHouse, accepted } = problem.stays[index]!;
  return (locked ?? (inHouse ? accepted : null)) !== null;
};

/** Each breaks one rule on purpose, or says that this plan gives no occasion. */
const CORRUPTIONS: Readonly<Record<string, Corruption>> = {
  "two stays on one site for one night": (problem, plan) => {
    for (const [one, placement] of plan.entries()) {
      if (placement === null) continue;
      for (const [other, second] of plan.entries()) {
        if (other === one || second?.site === placement.site) continue;
        const spans = [nightsOf(problem, one), nightsOf(problem, other)] as const;
        const meet = Math.max(spans[0].from, spans[1].from) < Math.min(spans[0].until, spans[1].until);
        const ways = problem.options[problem.stays[other]!.profile]![placement.site]!.ways;
        if (meet && ways.length > 0)
          return { plan: plan.with(other, { site: placement.site, way: 0 }), code: "site-held" };
      }
    }
    return null;
  },
  "a stay where the fit says no": (problem, plan) => {
    for (const [index, stay] of problem.stays.entries()) {
      const bound = stay.locked ?? (stay.inHouse ? stay.accepted : null);
      const site = problem.options[stay.profile]!.findIndex(({ ways }, at) => ways.length === 0 && at !== bound);
      if (site >= 0) return { plan: plan.with(index, { site, way: 0 }), code: "not-eligible" };
    }
    return null;
  },
  "a stay on a closed site": (problem, plan) => {
    for (const [index, stay] of problem.stays.entries()) {
      const { from, until } = nightsOf(problem, index);
      const site = problem.sites.findIndex(
        ({ closures }, at) =>
          closures.some((closure) => closure.from < until && from < closure.until) &&
          problem.options[stay.profile]![at]!.ways.length > 0,
      );
      if (site >= 0) return { plan: plan.with(index, { site, way: 0 }), code: "site-closed" };
    }
    return null;
  },
  "a receptacle held twice": (problem, plan) => {
    for (const [one, placement] of plan.entries()) {
      const held = placement && problem.options[problem.stays[one]!.profile]![placement.site]!.ways[placement.way];
      if (!placement || !held || held.resources.length === 0) continue;
      for (const other of problem.stays.keys()) {
        const spans = [nightsOf(problem, one), nightsOf(problem, other)] as const;
        if (other === one || Math.max(spans[0].from, spans[1].from) >= Math.min(spans[0].until, spans[1].until))
          continue;
        for (const [site, option] of problem.options[problem.stays[other]!.profile]!.entries()) {
          if (site === placement.site || [one, other].every((each) => isBound(problem, each))) continue;
          const way = option.ways.findIndex(({ resources }) => resources.some((each) => held.resources.includes(each)));
          if (way >= 0) return { plan: plan.with(other, { site, way }), code: "resource-held" };
        }
      }
    }
    return null;
  },
  "a bound stay taken from its site": (problem, plan) => {
    const { fixed, released } = compile(problem);
    if (released.length > 0) return null;
    const index = fixed.findIndex((option) => option >= 0);
    return index < 0 ? null : { plan: plan.with(index, null), code: "left-bound-site" };
  },
  "a site that is none": (problem, plan, random) => ({
    plan: plan.with(random.whole(plan.length), { site: problem.sites.length, way: 0 }),
    code: "no-such-site",
  }),
  "a way that is none": (problem, plan) => {
    const index = plan.findIndex(
      (each, stay) => each !== null && problem.options[problem.stays[stay]!.profile]![each.site]!.ways.length > 0,
    );
    const placement = plan[index] as Placement | undefined;
    return placement === undefined ? null : { plan: plan.with(index, { ...placement, way: 99 }), code: "no-such-way" };
  },
  "a stay that is missing": (_, plan) => ({ plan: plan.slice(1), code: "wrong-length" }),
};

describe("the checker", () => {
  test(`finds ${PLANS} sound plans sound and values them as the search does`, { timeout: 300_000 }, () => {
    for (let seed = 1; seed <= PLANS; seed++) {
      const problem = smallProblem(seed, { sites: 6, stays: 12, nights: 12 });
      const { plan, value } = randomPlan(problem, seededRandom(seed));
      const judgement = judgePlan(problem, plan);
      const hard = judgement.breaches.filter(({ isHard, code }) => isHard && code !== "left-bound-site");
      expect(hard, `seed ${seed}`).toEqual([]);
      expect(judgement.value, `seed ${seed}`).toBeCloseTo(value, 6);
    }
  });

  for (const [name, corrupt] of Object.entries(CORRUPTIONS)) {
    test(`refuses ${name}`, () => {
      let seen = 0;
      for (let seed = 1; seed <= PLANS / 5; seed++) {
        const problem = smallProblem(seed, { sites: 6, stays: 12, nights: 12 });
        const random = seededRandom(seed);
        const corrupted = corrupt(problem, randomPlan(problem, random).plan, random);
        if (corrupted === null) continue;
        seen++;
        const { isSound, breaches } = judgePlan(problem, corrupted.plan);
        expect(isSound, `seed ${seed}`).toBe(false);
        expect(breaches.filter(({ isHard }) => isHard).map(({ code }) => code)).toContain(corrupted.code);
      }
      expect(seen).toBeGreaterThan(PLANS / 100);
    });
  }

  test("counts moves against the cap", () => {
    const problem = { ...smallProblem(3, { sites: 6, stays: 12, nights: 12 }), maxMoves: 0 };
    const stays = problem.stays.map((stay) => ({ ...stay, locked: null, inHouse: false, accepted: 0 }));
    const nobody = stays.map(() => null);
    expect(judgePlan({ ...problem, stays }, nobody).breaches.map(({ code }) => code)).toEqual(["too-many-moves"]);
    expect(judgePlan({ ...problem, stays, maxMoves: stays.length }, nobody).breaches).toEqual([]);
  });
});
