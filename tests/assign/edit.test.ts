import { describe, expect, test } from "vitest";
import { judgePlan } from "../../src/assign/check.ts";
import { editPlan } from "../../src/assign/edit.ts";
import { explainPlaced, explainUnplaced, readyToExplain } from "../../src/assign/explain.ts";
import type { AssignmentProblem, AssignmentStay, Plan, SiteOption } from "../../src/assign/problem.ts";
import { solveAssignment } from "../../src/assign/solve.ts";
import { DEFAULT_WEIGHTS } from "../../src/assign/weights.ts";
import { smallProblem } from "./small.ts";

const FIRST = 20_300;

const stay = (id: string, from: number, nights: number, profile: number, more: Partial<AssignmentStay> = {}) => ({
  id,
  arrival: FIRST + from,
  departure: FIRST + from + nights,
  profile,
  priority: 0,
  inHouse: false,
  locked: null,
  accepted: null,
  party: null,
  ...more,
});

const way = (score: number, resources: readonly number[] = []) => ({ score, resources, terms: [] });
const only = (...scores: (number | null)[]): SiteOption[] =>
  scores.map((score) => (score === null ? { ways: [], rules: ["fit:length"] } : { ways: [way(score)], rules: [] }));

function problem(stays: AssignmentStay[], options: SiteOption[][], more: Partial<AssignmentProblem> = {}) {
  const count = options[0]!.length;
  return {
    firstNight: FIRST,
    sites: Array.from({ length: count }, (_, index) => ({
      id: `p${index}`,
      name: `${index}`,
      closures: [],
      resources: [],
      place: null,
    })),
    resources: [],
    stays,
    options,
    weights: DEFAULT_WEIGHTS,
    maxMoves: null,
    ...more,
  } satisfies AssignmentProblem;
}

describe("a walk-in", () => {
  test("is put on a free site without a move, the best first", () => {
    const asked = problem([stay("walk-in", 0, 2, 0)], [only(40, 70, null, 55)]);
    const { options, complete } = editPlan(asked, [null], [0]);
    expect(options.map(({ moved, plan }) => [moved, plan[0]?.site])).toEqual([
      [0, 1],
      [0, 3],
      [0, 0],
    ]);
    expect(complete).toBe(true);
  });

  test("needs a chain of two when the only site is held and its holder's other site is held too", () => {
    // The walk-in fits p0 alone; who is there may have p1; who is on p1 may have p2, which is free.
    const asked = problem(
      [stay("walk-in", 0, 2, 0), stay("one", 0, 3, 1, { accepted: 0 }), stay("two", 1, 4, 2, { accepted: 1 })],
      [only(50, null, null), only(60, 30, null), only(null, 80, 20)],
    );
    const plan: Plan = [null, { site: 0, way: 0 }, { site: 1, way: 0 }];
    const { options } = editPlan(asked, plan, [0]);
    expect(options).toHaveLength(1);
    expect(options[0]).toMatchObject({ moved: 2 });
    expect(options[0]!.plan.map((each) => each?.site)).toEqual([0, 1, 2]);
    expect(options[0]!.moves).toEqual([
      { stay: 0, from: null, to: 0 },
      { stay: 1, from: 0, to: 1 },
      { stay: 2, from: 1, to: 2 },
    ]);
  });

  test("never moves guests in house, nor a promised site", () => {
    const holders = [{ inHouse: true }, { locked: 0 }] as const;
    for (const holder of holders) {
      const asked = problem(
        [stay("walk-in", 0, 2, 0), stay("one", 0, 3, 1, { accepted: 0, ...holder })],
        [only(50, null), only(60, 30)],
      );
      const { options, unplaced } = editPlan(asked, [null, { site: 0, way: 0 }], [0]);
      expect(options).toEqual([]);
      expect(unplaced).toEqual([0]);
    }
  });
});

describe("a failed receptacle", () => {
  const resources = [
    {
      id: "post/a",
      kind: "receptacle" as const,
      name: "a",
      closures: [{ from: FIRST, until: FIRST + 9, why: "burnt" }],
    },
    { id: "post/b", kind: "receptacle" as const, name: "b", closures: [] },
  ];

  test("moves its user to the other way of the same site when there is one, and closes no site", () => {
    const both: SiteOption[] = [{ ways: [way(60, [0]), way(50, [1])], rules: [] }];
    const asked = problem([stay("guest", 0, 4, 0, { accepted: 0, inHouse: true })], [both], { resources });
    const plan: Plan = [{ site: 0, way: 0 }];
    expect(judgePlan(asked, plan).breaches.map(({ code, resource }) => [code, resource])).toEqual([
      ["resource-closed", "post/a"],
    ]);
    const { options } = editPlan(asked, plan, null);
    expect(options).toEqual([]);
    const kept = readyToExplain(asked, plan).state;
    expect(kept.plan()).toEqual([{ site: 0, way: 1 }]);
  });

  test("makes its user a stay to be placed, in house or not, when the site has no other", () => {
    const asked = problem(
      [stay("guest", -2, 5, 0, { accepted: 0, inHouse: true })],
      [
        [
          { ways: [way(60, [0])], rules: [] },
          { ways: [way(20)], rules: [] },
        ],
      ],
      { resources },
    );
    const { options } = editPlan(asked, [{ site: 0, way: 0 }], null);
    expect(options.map(({ plan, moved }) => [plan[0]?.site, moved])).toEqual([[1, 0]]);
  });
});

test("a late departure that meets the next arrival moves the next, not the guest in house", () => {
  const asked = problem(
    [stay("late", -1, 5, 0, { accepted: 0, inHouse: true }), stay("next", 3, 3, 1, { accepted: 0 })],
    [only(70, 40), only(65, 30)],
  );
  const { options } = editPlan(
    asked,
    [
      { site: 0, way: 0 },
      { site: 0, way: 0 },
    ],
    null,
  );
  expect(options.map(({ plan }) => plan.map((each) => each?.site))).toEqual([[0, 1]]);
});

const NONE: SiteOption = { ways: [], rules: ["fit:length"] };

describe("explanations", () => {
  test("of a placed stay: the next two sites and what they would cost, its holder's loss included", () => {
    const asked = problem([stay("one", 0, 7, 0), stay("two", 0, 7, 1)], [only(80, 75, 30, 65), only(20, 90, 85, null)]);
    const explained = readyToExplain(asked, [
      { site: 0, way: 0 },
      { site: 1, way: 0 },
    ]);
    const why = explainPlaced(explained, 0)!;
    expect(why.possible).toBe(4);
    expect(why.alternatives).toEqual([
      { site: 1, cost: 10, moves: [{ stay: 1, from: 1, to: 2 }] },
      { site: 3, cost: 15, moves: [] },
    ]);
  });

  test("of an unplaced stay: the rules that bar it and other nights that would do", () => {
    const asked = problem(
      [stay("one", 0, 2, 0, { accepted: 0, inHouse: true }), stay("two", 1, 3, 1)],
      [only(80, null, null), only(60, null, null)],
    );
    const why = explainUnplaced(readyToExplain(asked, [{ site: 0, way: 0 }, null]), 1);
    expect(why.eligible).toBe(1);
    expect(why.blocking).toEqual([
      { rule: "fit:length", sites: 2 },
      { rule: "held-for-good", sites: 1 },
    ]);
    expect(why.change).toEqual({ kind: "other-nights", arrival: FIRST + 2, departure: FIRST + 5, site: 0 });
  });

  test("waives a rule of the guests, never one of the fit", () => {
    const barred = (rule: "must-have" | "fit:length"): SiteOption[] => [{ ways: [], rules: [rule] }];
    const change = (rule: "must-have" | "fit:length") =>
      explainUnplaced(readyToExplain(problem([stay("one", 0, 2, 0)], [barred(rule)]), [null]), 0).change;
    expect(change("must-have")).toEqual({ kind: "waive-rule", rule: "must-have", site: 0 });
    expect(change("fit:length")).toEqual({ kind: "none" });
  });

  test("hold on random problems: a change that is told gives a plan without a hard breach", async () => {
    let told = 0;
    for (let seed = 1; seed <= 300; seed++) {
      const asked = smallProblem(seed, { sites: 4, stays: 9, nights: 8 });
      const last = asked.stays.length - 1;
      // The plan was made before the last stay came.
      const options = asked.options.map((row, profile) => row.map((one) => (profile === last ? NONE : one)));
      const stays = asked.stays.map((one, index) => (index === last ? { ...one, locked: null, inHouse: false } : one));
      const before = { ...asked, stays, options };
      const { plan } = await solveAssignment(before, { seed, effort: { rounds: 50, evaluations: 5, repairs: 0 } });
      const explained = readyToExplain({ ...asked, stays }, plan);
      const value = explained.state.value;
      for (const [index, placement] of plan.entries()) {
        if (placement !== null) {
          for (const { cost } of explainPlaced(explained, index)!.alternatives)
            expect(Number.isFinite(cost)).toBe(true);
          continue;
        }
        const { change } = explainUnplaced(explained, index);
        if (change.kind !== "move-others" && change.kind !== "place") continue;
        told++;
        expect(change.option.judgement.isSound, `seed ${seed}`).toBe(true);
        expect(change.option.plan[index]).not.toBeNull();
      }
      expect(explained.state.value).toBeCloseTo(value, 6);
    }
    expect(told).toBeGreaterThan(50);
  });
});
