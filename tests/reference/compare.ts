/** A solver's answer to a generated case, compared with the reference's bracket and judged by its evaluation. */
import type { StanceProblem, StanceSolution } from "../../src/fit/stance/problem.ts";
import type { CaseKind, ReferenceCase } from "./cases.ts";
import { evaluateByDefinition } from "./evaluate.ts";
import { searchOptimum } from "./search.ts";

export type SolverAnswer = StanceSolution | { readonly feasible: false; readonly reason: string };
export type Solver = (problem: StanceProblem) => SolverAnswer;

/** What the comparison allows, metres. */
export const ALLOWED = { worst: 1e-3, margin: 1e-6, contact: 1e-6 } as const;

/** The reference's own answer, in the solver's terms: a stance, none that stands, or none with a route for all lines. */
export type Outcome = "stance" | "no stance" | "no route";

export interface Comparison {
  readonly seed: number;
  readonly kind: CaseKind;
  readonly outcome: Outcome;
  /** Metres by which the solver's worst margin lies outside the reference's bracket. */
  readonly worst: number;
  /** Largest difference of a claimed margin, the worst one included, from the reference's evaluation of the stance. */
  readonly margin: number;
  /** Deepest contact of the returned stance by the reference's evaluation. */
  readonly contact: number;
  readonly proven: boolean;
  /** Every way in which the two disagree; empty when they agree. */
  readonly faults: readonly string[];
}

function difference(one: number, other: number): number {
  return one === other ? 0 : Math.abs(one - other);
}

/** Solves the case both ways. */
export function compareCase(given: ReferenceCase, solve: Solver): Comparison {
  const { seed, kind, problem } = given;
  const truth = searchOptimum(problem);
  const answer = solve(problem);
  const faults: string[] = [];
  const outcome: Outcome = !truth.stands
    ? "no stance"
    : truth.upper === Number.NEGATIVE_INFINITY
      ? "no route"
      : "stance";
  const base = { seed, kind, outcome, worst: 0, margin: 0, contact: 0, proven: true, faults };
  if (truth.stopped) faults.push("the reference stopped at its box limit");
  if (outcome === "stance" && truth.lower === Number.NEGATIVE_INFINITY) faults.push("the reference found no stance");
  if ("feasible" in answer) {
    if (outcome === "stance") faults.push(`reference ${truth.lower}, solver: ${answer.reason}`);
    return base;
  }
  if (outcome === "no stance") faults.push(`reference: no stance, solver ${answer.worst}`);
  if (outcome === "no route" && answer.worst > Number.NEGATIVE_INFINITY) {
    faults.push(`reference: no route, solver ${answer.worst}`);
  }
  const judged = evaluateByDefinition(problem, answer.stance);
  const margins = problem.lines.map((line, i) => {
    const claimed = answer.lines.find((route) => route.id === line.id);
    return claimed ? difference(claimed.margin, judged.lines[i]?.margin as number) : Number.POSITIVE_INFINITY;
  });
  const margin = Math.max(0, difference(answer.worst, judged.worst), ...margins);
  const contact = Math.max(0, ...judged.contacts.map((one) => one.depth));
  const worst = outcome === "stance" ? Math.max(0, truth.lower - answer.worst, answer.worst - truth.upper) : 0;
  if (margin > ALLOWED.margin) faults.push(`claimed margins are off by ${margin}`);
  if (contact > ALLOWED.contact) faults.push(`the stance overlaps by ${contact}`);
  if (answer.proven && !(difference(answer.bound, answer.worst) <= ALLOWED.margin)) {
    faults.push(`proven, but the bound ${answer.bound} is not the worst margin ${answer.worst}`);
  }
  if (answer.bound < truth.lower - ALLOWED.worst) faults.push(`bound ${answer.bound} below reference ${truth.lower}`);
  if (worst > ALLOWED.worst) {
    faults.push(
      `reference [${truth.lower}, ${truth.upper}], solver ${answer.worst}${answer.proven ? "" : " (unproven)"}`,
    );
  }
  return { ...base, worst, margin, contact, proven: answer.proven };
}

export interface KindSummary {
  cases: number;
  stance: number;
  noStance: number;
  noRoute: number;
  unproven: number;
  worst: number;
  margin: number;
  contact: number;
  faulty: number;
}

/** Figures by kind and in all. */
export function summarise(comparisons: readonly Comparison[]): Map<CaseKind | "all", KindSummary> {
  const table = new Map<CaseKind | "all", KindSummary>();
  for (const one of comparisons) {
    for (const key of [one.kind, "all"] as const) {
      const sum = table.get(key) ?? {
        cases: 0,
        stance: 0,
        noStance: 0,
        noRoute: 0,
        unproven: 0,
        worst: 0,
        margin: 0,
        contact: 0,
        faulty: 0,
      };
      sum.cases += 1;
      if (one.outcome === "stance") sum.stance += 1;
      else if (one.outcome === "no stance") sum.noStance += 1;
      else sum.noRoute += 1;
      if (!one.proven) sum.unproven += 1;
      sum.worst = Math.max(sum.worst, one.worst);
      sum.margin = Math.max(sum.margin, one.margin);
      sum.contact = Math.max(sum.contact, one.contact);
      if (one.faults.length > 0) sum.faulty += 1;
      table.set(key, sum);
    }
  }
  return table;
}

/** The summary as lines of text; differences in millimetres. */
export function tableOf(summary: ReadonlyMap<string, KindSummary>): string {
  const row = (cells: readonly string[]): string => cells.map((cell, i) => cell.padStart(i === 0 ? 10 : 11)).join("");
  const millimetres = (metres: number): string => (metres * 1000).toExponential(1);
  return [
    row([
      "kind",
      "cases",
      "stance",
      "no stance",
      "no route",
      "unproven",
      "worst mm",
      "margin mm",
      "contact mm",
      "faulty",
    ]),
    ...[...summary].map(([kind, s]) =>
      row([
        kind,
        `${s.cases}`,
        `${s.stance}`,
        `${s.noStance}`,
        `${s.noRoute}`,
        `${s.unproven}`,
        millimetres(s.worst),
        millimetres(s.margin),
        millimetres(s.contact),
        `${s.faulty}`,
      ]),
    ),
  ].join("\n");
}
