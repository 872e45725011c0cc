/**
 * Are the product's probabilities true? 500 invented sites near their limits, 200 truths each. In every tenth the share
 * that came true must lie within three points of what was said. Run with: npx tsx tests/bench/calibration.ts
 */
import { cpus } from "node:os";
import { byTenth, judgeSites, type Tenth } from "./calibrate.ts";
import { writeSection } from "./results.ts";

const SITES = 500;
const TRUTHS = 200;
/** Largest difference allowed in a tenth, in probability. */
const ALLOWED = 0.03;
/** A tenth with fewer sites than this says nothing. */
const FEWEST_SITES = 20;
const PERCENT = 100;

function percent(value: number): string {
  return (value * PERCENT).toFixed(1);
}

function row({ tenth, sites, truths, said, came, worstSite }: Tenth): string {
  const range = `${tenth / 10} to ${(tenth + 1) / 10}`;
  return `| ${range} | ${sites} | ${truths} | ${percent(said)} | ${percent(came)} | ${percent(came - said)} | ${percent(worstSite)} |`;
}

const started = performance.now();
const judged = judgeSites(SITES, TRUTHS);
const seconds = Math.round((performance.now() - started) / 1000);
const tenths = byTenth(judged);
const undecided = judged.reduce((sum, one) => sum + one.undecided, 0);
const failing = tenths.filter((one) => one.sites < FEWEST_SITES || !(Math.abs(one.came - one.said) <= ALLOWED));
const verdict =
  failing.length === 0
    ? `Every tenth lies within ${ALLOWED * PERCENT} points.`
    : `NOT within ${ALLOWED * PERCENT} points, or too few sites: ${failing.map(({ tenth }) => tenth / 10).join(", ")}.`;
const text = [
  `${SITES} invented sites near their limits (standard deviations 0.05 to 3 m, some shared by one survey, some pads of`,
  "uncertain size, one to three required lines, some with posts and solid pedestals), " +
    `${TRUTHS} truths each, drawn`,
  "from the stated errors by their own generator and decided by the independent reference search.",
  "`npx tsx tests/bench/calibration.ts`",
  "",
  "| P said | sites | truths | mean P said, % | came true, % | difference, points | worst single site, points |",
  "| --- | --- | --- | --- | --- | --- | --- |",
  ...tenths.map(row),
  "",
  `${verdict} ${undecided} of ${SITES * TRUTHS} truths lay too near the limit to decide. A single site with ${TRUTHS}`,
  "truths is itself uncertain by 3.5 points (standard deviation) at P = 0.5.",
  `${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model ?? "unknown machine"}, Node ${process.version}, ${seconds} s.`,
].join("\n");
console.log(text);
await writeSection("Calibration of the probabilities", text);
process.exitCode = failing.length === 0 ? 0 : 1;
