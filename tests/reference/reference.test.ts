/** The reference tested by itself: against known answers, and against cruder checks than its own. */
import { describe, expect, it } from "vitest";
import type { Stance, StanceProblem } from "../../src/fit/stance/problem.ts";
import { caseOf } from "./cases.ts";
import { crudeRun } from "./crude.ts";
import { contactsAt, evaluateByDefinition, placeOf, stanceOf } from "./evaluate.ts";
import { HAND_CASES } from "./hand-cases.ts";
import { seeded } from "./random.ts";
import { routeGraph, runOf } from "./routes.ts";
import { searchOptimum } from "./search.ts";

/** The earlier figures have four decimals. */
const PRINTED = 6e-5;
/** Places are printed with four decimals, and the value is flat to the second order about the best place. */
const AT_PLACE = 2e-4;

describe("known answers", () => {
  for (const known of HAND_CASES) {
    it(`${known.name} [${known.by}]`, () => {
      const found = searchOptimum(known.problem);
      if (known.worst === undefined) {
        expect(found.stands).toBe(false);
        expect(found.upper).toBe(Number.NEGATIVE_INFINITY);
        return;
      }
      expect(found.lower).toBeGreaterThan(known.worst - PRINTED - 5e-5);
      expect(found.upper).toBeLessThan(known.worst + PRINTED + 5e-5);
      const judged = evaluateByDefinition(known.problem, known.stance as Stance);
      expect(Math.max(0, ...judged.contacts.map((contact) => contact.depth))).toBeLessThan(AT_PLACE);
      expect(Math.abs(judged.worst - known.worst)).toBeLessThan(AT_PLACE);
      known.margins?.forEach((margin, i) => {
        expect(Math.abs((judged.lines[i]?.margin as number) - margin)).toBeLessThan(AT_PLACE);
      });
    });
  }

  it("a hose that falls: its length is the slope of the run, and the required slope caps the run", () => {
    const base = HAND_CASES[0]?.problem as StanceProblem;
    const line = base.lines[0];
    if (line === undefined) throw new Error("the first case has a line");
    // By hand: run 3, fall 0.4 + 0.02 (8 - 8) + 0.05 (inlet 3 m to the pad's left of the target: 0.15) = 0.55.
    const law = { budget: 5, fallAtLevel: 0.4, slopeAlong: 0.02, slopeLeft: 0.05, requiredSlope: 0.15 };
    const judged = evaluateByDefinition(
      { ...base, lines: [{ ...line, law }] },
      { facing: "in", along: 0, left: 0, yaw: 0 },
    );
    expect(judged.lines[0]?.fall).toBeCloseTo(0.55, 12);
    expect(judged.worst).toBeCloseTo(0.55 / 0.15 - 3, 12);
    const longer = evaluateByDefinition(
      { ...base, lines: [{ ...line, law: { ...law, requiredSlope: 0.02 } }] },
      { facing: "in", along: 0, left: 0, yaw: 0 },
    );
    expect(longer.worst).toBeCloseTo(5 - Math.sqrt(9 + 0.55 ** 2), 12);
  });
});

/** Some stance near the generated pad, whether or not it stands clear. */
function anyStance(problem: StanceProblem, seed: number): Stance {
  const random = seeded(seed);
  const facing = random.pick(["out", "in"] as const);
  const yaw = random.between(-0.2, 0.2);
  const x = facing === "out" ? random.between(-1, 6) : problem.length + random.between(-1, 6);
  return stanceOf(problem, facing, yaw, x, random.between(-2, 2));
}

describe("cruder checks", () => {
  it("routes agree with trying all short orders of nodes and walking along every segment", () => {
    let compared = 0;
    let worst = 0;
    for (let seed = 8; seed < 1500; seed += 40) {
      for (const kind of ["barriers", "keep-outs", "plain"] as const) {
        const { problem } = caseOf(seed, kind);
        const stance = anyStance(problem, seed);
        const judged = evaluateByDefinition(problem, stance);
        problem.lines.slice(0, 2).forEach((line, i) => {
          const crude = crudeRun(problem, line, placeOf(problem, stance));
          const exact = judged.lines[i]?.run as number;
          if (crude === undefined) return;
          compared += 1;
          if (crude !== exact) worst = Math.max(worst, Math.abs(crude - exact));
        });
      }
    }
    expect(compared).toBeGreaterThan(150);
    expect(worst).toBeLessThan(1e-6);
  });

  it("no place of a box has a shorter route than the bound of the box", () => {
    let finite = 0;
    for (let seed = 0; seed < 600; seed++) {
      const { problem } = caseOf(seed, (["barriers", "keep-outs", "plain", "mixed"] as const)[seed % 4]);
      const random = seeded(seed + 77);
      const stance = anyStance(problem, seed);
      const place = placeOf(problem, stance);
      const a = 10 ** random.between(-4, 0.3);
      const b = a * random.between(0.5, 1);
      for (const line of problem.lines) {
        const graph = routeGraph(problem, line, place.theta);
        const bound = runOf(graph, place.x, place.y, a, b);
        for (let k = 0; k < 20; k++) {
          const x = place.x + random.between(-a, a);
          const y = place.y + random.between(-b, b);
          const run = runOf(graph, x, y, 0, 0);
          if (run < Number.POSITIVE_INFINITY) finite += 1;
          expect(run).toBeGreaterThanOrEqual(bound - 1e-6);
        }
      }
    }
    expect(finite).toBeGreaterThan(10_000);
  });

  it("no clear place on a fine grid is better than the upper end of the bracket", () => {
    let clear = 0;
    for (let seed = 0; seed < 60; seed++) {
      const { problem } = caseOf(seed * 7 + 1);
      const found = searchOptimum(problem);
      for (const facing of problem.facings) {
        for (const yaw of problem.yaws) {
          for (let k = 0; k < 300; k++) {
            const random = seeded(1000 * seed + k);
            const rear = random.between(0, 9) + (facing === "in" ? problem.length : 0);
            const stance = stanceOf(problem, facing, yaw, rear, random.between(-2.5, 2.5));
            if (contactsAt(problem, placeOf(problem, stance)).length > 0) continue;
            clear += 1;
            expect(found.stands).toBe(true);
            expect(evaluateByDefinition(problem, stance).worst).toBeLessThanOrEqual(found.upper + 1e-9);
          }
        }
      }
    }
    expect(clear).toBeGreaterThan(1000);
  });
});
