/**
 * Plans of invented campgrounds: value, bound, gap and processor time. Rounds and evaluations are fixed, so that a
 * seed always gives the same plan; the time says what they cost on this machine.
 * `npx tsx tests/bench/assign.ts [--write] [--only part-of-name]`
 */
import { availableParallelism, cpus, loadavg } from "node:os";
import { compile } from "../../src/assign/compile.ts";
import { editPlan } from "../../src/assign/edit.ts";
import { fillGreedily } from "../../src/assign/greedy.ts";
import { PlanState } from "../../src/assign/plan-state.ts";
import type { SolveEffort } from "../../src/assign/solve.ts";
import { solveAssignment } from "../../src/assign/solve.ts";
import { createExactSolver } from "../../src/node/exact-solver.ts";
import { type InstanceSpec, inventInstance } from "./assignment-instances.ts";
import { writeSection } from "./results.ts";

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

const HIDDEN = 20;

/** Walk-ins into a plan that was made without them; guests of the first night are in house. */
async function walkIns(spec: InstanceSpec, effort: SolveEffort): Promise<string> {
  const problem = inventInstance(spec);
  const count = problem.stays.length;
  const nowhere = problem.sites.map(() => ({ ways: [], rules: ["fit:length" as const] }));
  const early = problem.options.map((row, profile) => (profile < count - HIDDEN ? row : nowhere));
  const { plan } = await solveAssignment({ ...problem, options: early }, { seed: 1, effort });
  const stays = problem.stays.map((stay, index) => ({
    ...stay,
    accepted: plan[index]?.site ?? null,
    inHouse: stay.arrival === 0 && plan[index] !== null,
  }));
  const times: number[] = [];
  const fewest = new Map<string, number>();
  for (let stay = count - HIDDEN; stay < count; stay++) {
    const before = process.cpuUsage();
    const { options } = editPlan({ ...problem, stays }, plan, [stay]);
    const used = process.cpuUsage(before);
    times.push((used.user + used.system) / 1000);
    const moves = options.length === 0 ? "none" : String(options[0]?.moved);
    fewest.set(moves, (fewest.get(moves) ?? 0) + 1);
  }
  times.sort((one, other) => one - other);
  const by = ["0", "1", "2", "3", "none"].map((moves) => fewest.get(moves) ?? 0).join(" / ");
  return `| ${spec.sites} x ${spec.nights} ${spec.mix} ${spec.demand} (seed ${spec.seed}) | ${count} | ${by} | ${times[HIDDEN / 2]?.toFixed(0)} | ${times.at(-1)?.toFixed(0)} |`;
}

const EDIT_HEAD = [
  "| campground, nights, mix, demand | stays | walk-ins by fewest moves: 0 / 1 / 2 / 3 / no answer | median ms | longest ms |",
  "| --- | --- | --- | --- | --- |",
];
const edits: string[] = [];
for (const line of EDIT_HEAD) console.log(line);
for (const [spec, effort] of [
  [{ sites: 150, nights: 30, demand: 0.95, mix: "long", seed: 1 }, SMALL],
  [{ sites: 150, nights: 30, demand: 0.98, mix: "long", seed: 2 }, SMALL],
  [
    { sites: 600, nights: 90, demand: 0.9, mix: "season", seed: 1 },
    { rounds: 20_000, evaluations: 50, repairs: 0 },
  ],
] as const) {
  if (!`edits ${spec.sites}`.includes(only)) continue;
  const line = await walkIns(spec, effort);
  edits.push(line);
  console.log(line);
}
if (process.argv.includes("--write")) {
  const machine = `${availableParallelism()} cores ${cpus()[0]?.model ?? "unknown"}, Node ${process.version}`;
  const text = [
    "Invented campgrounds and stays (`tests/bench/assignment-instances.ts`); demand is what is asked for as a share of",
    "all nights of all sites, on no night more than there are sites unless it says crowded. The gap is the distance",
    "from value to bound in points, as a share of the points of fit: a stay without a site alone weighs 1,000 and more.",
    "Bound and plan are worked out in one thread without the exact solver, but for the campgrounds of 30 sites.",
    "`npx tsx tests/bench/assign.ts --write`",
    "",
    ...HEAD,
    ...rows,
    "",
    `Walk-ins into a finished plan, guests of the first night in house; processor time of one answer with all its options:`,
    "",
    ...EDIT_HEAD,
    ...edits,
    "",
    `${new Date().toISOString().slice(0, 10)}, ${machine}; load average ${loadavg()[0]?.toFixed(1)}: other work was going on.`,
  ].join("\n");
  await writeSection("Assignment of stays to sites", text);
}
