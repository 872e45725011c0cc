/**
 * Processor time of the way in and out, one thread: every demo rig at every demo site where it stands.
 * Run with: npx tsx tests/bench/manoeuvre.ts
 */
import { fitRig } from "../../src/fit/fit.ts";
import { judgeManoeuvre } from "../../src/fit/manoeuvre/manoeuvre.ts";
import { DEFAULT_OPTIONS } from "../../src/fit/options.ts";
import { sayer } from "../../src/fit/say.ts";
import { rig, rigNames, sites } from "../demo/demo.ts";

const ROUNDS = 5;
const SHARES = [0.5, 0.9, 1] as const;
const say = sayer("metric");
/** One of each row: the others of a row ask the same question. */
const tried = sites.filter(({ id }) => /-(3|5|33)$/.test(id));

interface Timed {
  readonly kind: string;
  readonly milliseconds: number;
}

/** Processor milliseconds of the fastest round. */
function best(run: () => void): number {
  let least = Number.POSITIVE_INFINITY;
  for (let round = 0; round < ROUNDS; round += 1) {
    const before = process.cpuUsage();
    run();
    const { user, system } = process.cpuUsage(before);
    least = Math.min(least, (user + system) / 1000);
  }
  return least;
}

const timed = rigNames.flatMap((name) =>
  tried.flatMap((site): Timed[] => {
    const one = rig(name);
    const { stance } = fitRig({ rig: one, site, options: { ...DEFAULT_OPTIONS, detail: "summary" } });
    if (stance === null) return [];
    const input = { rig: one, site, stance, devices: "assumed", level: true } as const;
    const trailer = judgeManoeuvre(input, say)?.coupling.state === "uncouple on the pad" ? "trailer" : "motor vehicle";
    return [{ kind: `${trailer}, ${site.layout}`, milliseconds: best(() => judgeManoeuvre(input, say)) }];
  }),
);

console.log("| what | pairs | median ms | nine of ten | most |\n| --- | --- | --- | --- | --- |");
for (const kind of [...new Set(timed.map((one) => one.kind))].sort()) {
  const times = timed.filter((one) => one.kind === kind).map((one) => one.milliseconds);
  times.sort((a, b) => a - b);
  const at = SHARES.map((share) => times[Math.min(times.length - 1, Math.floor(share * times.length))]?.toFixed(1));
  console.log(`| ${kind} | ${times.length} | ${at.join(" | ")} |`);
}
