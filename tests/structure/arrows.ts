/** Runs the arrow rules and refuses a run that saw no module: a wrong set-up must not look green. */
import { cruise } from "dependency-cruiser";
import extractOptions from "dependency-cruiser/config-utl/extract-depcruise-options";

/** Fewer modules than this means that the tree was not read. */
const LEAST_MODULES = 20;

const options = await extractOptions("./tests/structure/arrow-rules.cjs");
const { output } = await cruise(["src"], options);
if (typeof output === "string") throw new Error("The report came as text.");
const { summary } = output;
for (const violation of summary.violations) {
  console.error(`${violation.rule.name}: ${violation.from} -> ${violation.to}`);
}
console.log(`${summary.totalCruised} modules, ${summary.violations.length} violations of the arrows.`);
if (summary.totalCruised < LEAST_MODULES || summary.error > 0) process.exit(1);
