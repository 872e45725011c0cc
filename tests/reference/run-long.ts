/**
 * The comparison of solver and reference at length: `tsx tests/reference/run-long.ts [cases] [first seed]`.
 * Progress and disagreements go to stderr, the table to stdout; the exit code is 1 when anything disagrees.
 */
import { solveStance } from "../../src/fit/stance/index.ts";
import { caseOf } from "./cases.ts";
import { type Comparison, compareCase, summarise, tableOf } from "./compare.ts";

const CASES = 20_000;
const FIRST = 1_000_000;
const REPORT_EVERY = 1000;

const cases = Number(process.argv[2] ?? CASES);
const first = Number(process.argv[3] ?? FIRST);
const comparisons: Comparison[] = [];
for (let seed = first; seed < first + cases; seed++) {
  const comparison = compareCase(caseOf(seed), solveStance);
  comparisons.push(comparison);
  if (comparison.faults.length > 0) console.error(`${seed} ${comparison.kind}: ${comparison.faults.join("; ")}`);
  if (comparisons.length % REPORT_EVERY === 0) console.error(`${comparisons.length} of ${cases}`);
}
console.log(tableOf(summarise(comparisons)));
process.exitCode = comparisons.some((comparison) => comparison.faults.length > 0) ? 1 : 0;
