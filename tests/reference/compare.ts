/** A solver's answer to a generated case, compared with the reference's bracket and judged by its evaluation. */
import type { LineRoute, PadPoint, StanceProblem, StanceSolution } from "../../src/fit/stance/problem.ts";
import type { CaseKind, ReferenceCase } from "./cases.ts";
import { evaluateByDefinition } from "./evaluate.ts";
import { type ReferenceOptimum, searchOptimum } from "./search.ts";

export type SolverAnswer = StanceSolution | { readonly feasible: false; readonly reason: string };
export type Solver = (problem: StanceProblem) => SolverAnswer;

/** What the comparison allows, metres. */
export const ALLOWED = { worst: 1e-3, margin: 1e-6, contact: 1e-6 } as const;

/** The reference's own answer, in the solver's terms: a stance, none within the limits, none clear, none with all routes. */
export type Outcome = "stance" | "no room" | "no stance" | "no route";

/** The solver's word for each way of having no stance. */
const REASONS: Readonly<Record<string, Outcome>> = { limits: "no room", obstacles: "no stance", lines: "no route" };

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

function outcomeOf(problem: StanceProblem, truth: ReferenceOptimum): Outcome {
  if (!truth.room) return "no room";
  // A search that drops every place for its lines may not have met one that stands.
  if (!truth.stands && !searchOptimum({ ...problem, lines: [] }).stands) return "no stance";
  return truth.upper === Number.NEGATIVE_INFINITY ? "no route" : "stance";
}

/** Metres by which a path misses its ends or its claimed length. */
function pathFault(problem: StanceProblem, claimed: LineRoute, inlet: PadPoint): number {
  const target = problem.lines.find((line) => line.id === claimed.id)?.target;
  const [first, last] = [claimed.path[0], claimed.path.at(-1)];
  if (!Number.isFinite(claimed.run)) return 0;
  if (first === undefined || last === undefined || target === undefined) return Number.POSITIVE_INFINITY;
  const apart = (p: PadPoint, q: PadPoint): number => Math.hypot(p.along - q.along, p.left - q.left);
  const length = claimed.path.slice(1).reduce((sum, point, i) => sum + apart(claimed.path[i] ?? point, point), 0);
  return Math.max(apart(first, inlet), apart(last, target), Math.abs(length - claimed.run));
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
  const outcome = outcomeOf(problem, truth);
  const base = { seed, kind, outcome, worst: 0, margin: 0, contact: 0, proven: true, faults };
  if (truth.stopped) faults.push("the reference stopped at its box limit");
  if (outcome === "stance" && truth.lower === Number.NEGATIVE_INFINITY) faults.push("the reference found no stance");
  if ("feasible" in answer) {
    if (outcome === "stance") faults.push(`reference ${truth.lower}, solver: ${answer.reason}`);
    else if (REASONS[answer.reason] !== outcome) faults.push(`reference: ${outcome}, solver: ${answer.reason}`);
    return base;
  }
  if (outcome !== "stance") faults.push(`reference: ${outcome}, solver ${answer.worst}`);
  const judged = evaluateByDefinition(problem, answer.stance);
  const margins = problem.lines.map((line, i) => {
    const claimed = answer.lines.find((route) => route.id === line.id);
    const own = judged.lines[i];
    if (claimed === undefined || own === undefined) return Number.POSITIVE_INFINITY;
    const path = pathFault(problem, claimed, own.path[0] as PadPoint);
    if (path > ALLOWED.margin) faults.push(`the path of ${line.id} is off by ${path}`);
    return Math.max(
      difference(claimed.margin, own.margin),
      difference(claimed.run, own.run),
      difference(claimed.fall, own.fall),
    );
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
  noRoom: number;
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
        noRoom: 0,
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
      else if (one.outcome === "no room") sum.noRoom += 1;
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
      "no room",
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
        `${s.noRoom}`,
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
