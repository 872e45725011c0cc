/**
 * Plans of invented campgrounds: value, bound, gap and processor time. Rounds and evaluations are fixed, so that a
 * seed always gives the same plan; the time says what they cost on this machine.
 * `npx tsx tests/bench/assign.ts [--write] [--only part-of-name]`
 */
import { loadavg } from "node:os";
import { compile } from "../../src/assign/compile.ts";
import { fillGreedily } from "../../src/assign/greedy.ts";
import { PlanState } from "../../src/assign/plan-state.ts";
import type { SolveEffort } from "../../src/assign/solve.ts";
import { solveAssignment } from "../../src/assign/solve.ts";
import { createExactSolver } from "../../src/node/exact-solver.ts";
import { type InstanceSpec, inventInstance } from "./assignment-instances.ts";

interface Case extends InstanceSpec {
  readonly effort: SolveEffort;
  readonly exact?: boolean;
}

const USUAL: SolveEffort = { rounds: 2_000_000, evaluations: 1200, repairs: 0 };
const LARGE: SolveEffort = { rounds: 400_000, evaluations: 900, repairs: 0 };
const SMALL: SolveEffort = { rounds: 200_000, evaluations: 800, repairs: 1 };

const medium = (demand: number, mix: InstanceSpec["mix"], seed: number): Case => ({
  sites: 150,
  nights: 30,
  demand,
  mix,
  seed,
  effort: USUAL,
});

const CASES: readonly Case[] = [
  ...[1, 2, 3].map(
    (seed): Case => ({ sites: 30, nights: 14, demand: 0.95, mix: "long", seed, effort: SMALL, exact: true }),
  ),
  ...[1, 2, 3].map((seed) => medium(0.85, "long", seed)),
  ...[1, 2, 3].map((seed) => medium(0.9, "long", seed)),
  ...[1, 2, 3].map((seed) => medium(0.95, "long", seed)),
  ...[1, 2].map((seed) => medium(0.98, "long", seed)),
  ...[1, 2].map((seed): Case => ({ ...medium(0.95, "long", seed), crowded: true })),
  medium(0.9, "short", 1),
  ...[1, 2].map((seed): Case => ({ sites: 600, nights: 90, demand: 0.9, mix: "season", seed, effort: LARGE })),
];

const nameOf = (spec: Case): string =>
  `${spec.sites} x ${spec.nights} ${spec.mix} ${spec.demand}${spec.crowded === true ? " crowded" : ""} (seed ${spec.seed})`;

const percent = (share: number | null): string => (share === null ? "-" : (100 * share).toFixed(2));

async function row(spec: Case, exact: ReturnType<typeof createExactSolver>): Promise<string> {
  const problem = inventInstance(spec);
  const start = new PlanState(compile(problem));
  const beforeGreedy = process.cpuUsage();
  fillGreedily(start);
  const greedy = process.cpuUsage(beforeGreedy).user / 1000;
  const greedyUnplaced = start.chosen.filter((option) => option < 0).length;
  const before = process.cpuUsage();
  const clock = performance.now();
  const solution = await solveAssignment(problem, {
    seed: 1,
    effort: spec.effort,
    ...(spec.exact === true ? { exact } : {}),
  });
  const seconds = process.cpuUsage(before).user / 1e6;
  const wall = (performance.now() - clock) / 1000;
  const { judgement, bound, gapShare, status, rounds, evaluations } = solution;
  return `| ${nameOf(spec)} | ${problem.stays.length} | ${greedyUnplaced}, ${greedy.toFixed(0)} ms | ${judgement.unplaced} | ${judgement.value.toFixed(0)} | ${bound?.toFixed(0) ?? "-"} | ${percent(gapShare)} | ${status} | ${rounds} / ${evaluations} | ${seconds.toFixed(1)} (${wall.toFixed(1)}) |`;
}

const HEAD = [
  "| campground, nights, mix, demand | stays | greedy: unplaced, time | unplaced | value | bound | gap, % of fit | status | rounds / evaluations | processor s (wall s) |",
  "| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |",
];

const only = process.argv.includes("--only") ? (process.argv[process.argv.indexOf("--only") + 1] ?? "") : "";
const exact = createExactSolver();
const rows: string[] = [];
for (const line of HEAD) console.log(line);
for (const spec of CASES) {
  if (!nameOf(spec).includes(only)) continue;
  const line = await row(spec, exact);
  rows.push(line);
  console.log(line, `load ${loadavg()[0]?.toFixed(1)}`);
}
exact.close();
