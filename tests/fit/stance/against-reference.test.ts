/** The exact solver against an independent search (visibility graph, separating axes, bisection of boxes). */
import { expect, it } from "vitest";
import { solveStance } from "../../../src/fit/stance/index.ts";
import type { StanceProblem } from "../../../src/fit/stance/problem.ts";
import { caseOf } from "../../reference/cases.ts";
import { compareCase, summarise, tableOf } from "../../reference/compare.ts";
import { HAND_CASES } from "../../reference/hand-cases.ts";
import onceWrong from "../../reference/once-wrong.json" with { type: "json" };

const CASES = 2000;
/** Figures printed with four decimals, and the reference's bracket. */
const PRINTED = 1.1e-4;

it("agrees with the reference on 2,000 cases to 1 mm, in whether a stance exists, and in every margin to 1e-6 m", () => {
  const comparisons = Array.from({ length: CASES }, (_, seed) => compareCase(caseOf(seed), solveStance));
  const summary = summarise(comparisons);
  console.log(tableOf(summary));
  const faulty = comparisons.filter((one) => one.faults.length > 0);
  expect(faulty.map((one) => `${one.seed} ${one.kind}: ${one.faults.join("; ")}`)).toEqual([]);
  // No case was dropped: half plain, three tenths with obstacles, one with barriers, one special.
  expect([...summary].map(([kind, s]) => [kind, s.cases]).sort()).toEqual([
    ["all", CASES],
    ["barriers", 200],
    ["keep-outs", 50],
    ["mixed", 50],
    ["obstacles", 600],
    ["plain", 1000],
    ["sewer", 50],
    ["yaw", 50],
  ]);
  // The solver proves every one of these answers within its node limit.
  expect(summary.get("all")?.unproven).toBe(0);
  // The comparison is worth something only while most cases have a stance and some have none.
  expect(summary.get("all")?.stance).toBeGreaterThan(CASES / 2);
  expect(summary.get("all")?.noStance).toBeGreaterThan(CASES / 50);
});

const SPECIAL_CASES = 200;

for (const kind of ["sewer", "keep-outs", "mixed"] as const) {
  it(`agrees on ${SPECIAL_CASES} more cases of the kind ${kind}`, () => {
    const comparisons = Array.from({ length: SPECIAL_CASES }, (_, seed) =>
      compareCase(caseOf(seed, kind), solveStance),
    );
    console.log(tableOf(summarise(comparisons)));
    expect(comparisons).toHaveLength(SPECIAL_CASES);
    const faulty = comparisons.filter((one) => one.faults.length > 0);
    expect(faulty.map((one) => `${one.seed} ${one.kind}: ${one.faults.join("; ")}`)).toEqual([]);
  });
}

for (const { title, problem } of onceWrong as readonly { readonly title: string; readonly problem: StanceProblem }[]) {
  it(`agrees where it once did not: ${title}`, () => {
    expect(compareCase({ seed: 0, kind: "mixed", problem }, solveStance).faults).toEqual([]);
  });
}

for (const known of HAND_CASES) {
  it(`case ${known.name} [${known.by}]`, () => {
    const answer = solveStance(known.problem);
    if (known.worst === undefined) {
      expect("feasible" in answer).toBe(true);
      return;
    }
    if ("feasible" in answer) throw new Error(answer.reason);
    expect(Math.abs(answer.worst - known.worst)).toBeLessThan(PRINTED);
  });
}
