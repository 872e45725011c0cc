import { cpus, loadavg } from "node:os";
import { performance } from "node:perf_hooks";
import {
  bestMargin,
  type CompiledStance,
  compileStance,
  evaluateStance,
  type LineBarrier,
  moveTargets,
  type Stance,
  type StanceProblem,
  solveStance,
} from "../../src/fit/stance/index.ts";
import { gridMargin } from "./grid-baseline.ts";
import { type Mix, randomStance, seeded } from "./random-stances.ts";
import { writeSection } from "./results.ts";

/**
 * Speed of the exact stance solver, one thread, seeded sites. A fit is three services and both facings, straight.
 * Run with: npx tsx tests/bench/stance.ts; with --write the rows go into RESULTS.md, and the grid is left out.
 */
const SEED = 20260718;
const SITES = 400;
const ROUNDS = 7;
const MILLISECONDS = 1000;

const ROWS: readonly (readonly [string, Mix])[] = [
  ["no obstacles", { obstacles: 0, inside: 0, slideAndAwning: false, sewerFalls: false }],
  ["no obstacles, sewer with fall", { obstacles: 0, inside: 0, slideAndAwning: false, sewerFalls: true }],
  ["10 obstacles outside the pad", { obstacles: 10, inside: 0, slideAndAwning: false, sewerFalls: false }],
  ["10, up to 0.4 m inside, slide, awning", { obstacles: 10, inside: 0.4, slideAndAwning: true, sewerFalls: false }],
  ["the same, sewer with fall", { obstacles: 10, inside: 0.4, slideAndAwning: true, sewerFalls: true }],
  ["10, up to 1.2 m inside, slide, awning", { obstacles: 10, inside: 1.2, slideAndAwning: true, sewerFalls: false }],
];

/** Fits per second of processor time: the best of several rounds, because other work only ever slows a round. */
function rate(fits: number, run: () => void): number {
  let best = Infinity;
  for (let round = 0; round < ROUNDS; round++) {
    const start = process.cpuUsage();
    run();
    const { user, system } = process.cpuUsage(start);
    best = Math.min(best, user + system);
  }
  return (fits * MILLISECONDS * MILLISECONDS) / best;
}

function targetsOf(stance: CompiledStance, shift: number): Float64Array {
  return Float64Array.from(
    stance.compiled.problem.lines.flatMap((line) => [line.target.along + shift, line.target.left]),
  );
}

interface Row {
  readonly compiled: number;
  readonly moved: number;
  readonly whole: number;
  readonly nodes: number;
}

function measure(name: string, mix: Mix): Row {
  const random = seeded(SEED);
  const problems = Array.from({ length: SITES }, () => randomStance(random, mix));
  const stances = problems.map((problem) => compileStance(problem));
  const moves = stances.map((stance) => [targetsOf(stance, 0), targetsOf(stance, 0.001)] as const);
  const repeat = mix.obstacles === 0 ? 50 : 5;
  let sum = 0;
  const compiled = rate(SITES * repeat, () => {
    for (let turn = 0; turn < repeat; turn++) {
      for (const stance of stances) sum += Math.max(-1, bestMargin(stance));
    }
  });
  const moved = rate(SITES * repeat, () => {
    for (let turn = 0; turn < repeat; turn++) {
      stances.forEach((stance, index) => {
        moveTargets(stance, (moves[index] as readonly Float64Array[])[turn % 2] as Float64Array);
        sum += Math.max(-1, bestMargin(stance));
      });
    }
  });
  const whole = rate(SITES, () => {
    for (const problem of problems) solveStance(problem);
  });
  let nodes = 0;
  let most = 0;
  let unproven = 0;
  for (const stance of stances) {
    const outcome = stance.search.run(100_000);
    nodes += outcome.nodes;
    most = Math.max(most, outcome.nodes);
    if (outcome.bound > outcome.value) unproven++;
  }
  const show = (value: number): string => Math.round(value).toLocaleString("en-US").padStart(10);
  console.log(
    `${name.padEnd(40)}${show(compiled)}${show(moved)}${show(whole)}${(nodes / SITES).toFixed(1).padStart(9)}` +
      `${String(most).padStart(7)}${String(unproven).padStart(9)}${Number.isFinite(sum) ? "" : " not finite"}`,
  );
  return { compiled, moved, whole, nodes: nodes / SITES };
}

console.log(
  `Fits per second of processor time, best of ${ROUNDS} rounds over ${SITES} seeded sites; Node ${process.version}`,
);
console.log(`${"".padEnd(40)}  compiled     moved whole fit    nodes   most unproven`);
const rates = ROWS.map(([name, mix]) => [name, mix, measure(name, mix)] as const);

/** Walls far enough off to be in the way of no line. */
const WALLS: readonly LineBarrier[] = Array.from({ length: 5 }, (_, place) => ({
  id: `wall-${place + 1}`,
  what: "wall",
  outline: [
    { along: 20 + 3 * place, left: 12 },
    { along: 21 + 3 * place, left: 12 },
    { along: 21 + 3 * place, left: 13 },
    { along: 20 + 3 * place, left: 13.5 },
  ],
}));

/** Microseconds of processor time of whole calls, as a fit makes them: numbers move a little, outlines stay the same. */
function wholeCalls(): { readonly solve: number; readonly evaluate: number } {
  const random = seeded(SEED);
  const base = Array.from({ length: SITES }, () =>
    randomStance(random, { obstacles: 10, inside: 0, slideAndAwning: false, sewerFalls: false }),
  );
  const turns = Array.from({ length: 4 }, (_, turn) =>
    base.map(
      (problem): StanceProblem => ({
        ...problem,
        facings: ["out"],
        barriers: WALLS,
        lines: problem.lines.map((line) => ({
          ...line,
          law: { ...line.law, budget: line.law.budget + turn * 0.0001 },
        })),
      }),
    ),
  );
  const stances = base.map((problem): Stance => {
    const found = solveStance(problem);
    return "feasible" in found ? { facing: "out", along: 0, left: 0, yaw: 0 } : found.stance;
  });
  const calls = SITES * turns.length;
  const solve = rate(calls, () => {
    for (const problems of turns) for (const problem of problems) solveStance(problem);
  });
  const evaluate = rate(calls, () => {
    for (const problems of turns) {
      problems.forEach((problem, place) => {
        evaluateStance(problem, stances[place] as Stance);
      });
    }
  });
  const microseconds = (perSecond: number): number => (MILLISECONDS * MILLISECONDS) / perSecond;
  return { solve: microseconds(solve), evaluate: microseconds(evaluate) };
}

const calls = wholeCalls();
console.log(
  `\n3 lines, 10 obstacles, 5 barriers in the way of none, one facing: solveStance ${calls.solve.toFixed(1)} us, ` +
    `evaluateStance ${calls.evaluate.toFixed(1)} us a call`,
);

if (process.argv.includes("--write")) {
  const whole = (value: number): string => Math.round(value).toLocaleString("en-US");
  const machine = `${cpus().length} cores ${cpus()[0]?.model ?? ""}, Node ${process.version}`;
  await writeSection(
    "Speed of the stance solver",
    [
      `Fits (three services, both facings, straight) per second of processor time, one thread, the best of ${ROUNDS}`,
      `rounds over ${SITES} seeded sites. "Whole" makes the problem ready, solves it and lays out every line.`,
      "`npx tsx tests/bench/stance.ts --write`",
      "",
      "| sites | made ready before | targets moved | whole | nodes a fit |",
      "| --- | --- | --- | --- | --- |",
      ...rates.map(
        ([name, , row]) =>
          `| ${name} | ${whole(row.compiled)} | ${whole(row.moved)} | ${whole(row.whole)} | ${row.nodes.toFixed(1)} |`,
      ),
      "",
      "Three lines, ten obstacles and five barriers that are in the way of none, one facing, the outlines the same from call",
      `to call: \`solveStance\` ${calls.solve.toFixed(1)} us, \`evaluateStance\` ${calls.evaluate.toFixed(1)} us of processor time a call.`,
      "",
      `${new Date().toISOString().slice(0, 10)}, ${machine}; load average ${loadavg()[0]?.toFixed(1)}: other work was going on.`,
    ].join("\n"),
  );
  process.exit(0);
}

console.log("\nA grid of stances 0.1 m apart with Turf's distances and booleans, the same sites:");
for (const [name, mix, exact] of rates.filter((_, row) => row === 0 || row === 3)) {
  const random = seeded(SEED);
  const problems = Array.from({ length: 3 }, () => randomStance(random, mix));
  const start = performance.now();
  const found = problems.map((problem) => gridMargin(problem));
  const grid = (problems.length * MILLISECONDS) / (performance.now() - start);
  const behind = problems.map((problem, index) => bestMargin(compileStance(problem)) - (found[index] as number));
  console.log(
    `${name.padEnd(40)}${grid.toFixed(2)} fits a second: the exact solver is ${Math.round(exact.compiled / grid).toLocaleString("en-US")} times as fast compiled, ` +
      `${Math.round(exact.whole / grid).toLocaleString("en-US")} times with stance and paths; the grid's margin is ` +
      `${behind.map((gap) => (Number.isFinite(gap) ? `${(gap * MILLISECONDS).toFixed(0)} mm` : "none found")).join(", ")} below`,
  );
}
