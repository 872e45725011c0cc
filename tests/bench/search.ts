/**
 * A search over 500 sites by nominal values: processor time per search with sites, columns and rig at hand.
 * Run with: npx tsx tests/bench/search.ts; with --write the figures go into RESULTS.md.
 */
import { cpus, loadavg } from "node:os";
import { completeOptions } from "../../src/fit/options.ts";
import { nominalLooks, prepareSites } from "../../src/fit/screen/nominal.ts";
import type { CompletedSite } from "../../src/site/completed.ts";
import { hookup, obstacle, receptacle, rig, site } from "../fit/core/builders.ts";
import { seeded } from "./random-stances.ts";
import { writeSection } from "./results.ts";

const SEED = 20260726;
const SITES = 500;
const ROUNDS = 41;
const MICROSECONDS = 1000;
const DECIMALS = 1;

const random = seeded(SEED);
const from = (low: number, high: number): number => low + (high - low) * random();

/** A pad with three hookups on its left and things standing about, some of them at its very edge. */
function randomSite(obstacles: number): CompletedSite {
  const length = from(8, 16);
  const width = from(3.2, 5);
  const made = site({ length, width, hookups: [] });
  const left = width / 2 + from(0.4, 2);
  const hookups = [
    hookup({ service: "power", along: from(0, length), left, receptacles: [receptacle("r", "nema-14-50", 50)] }),
    hookup({ service: "water", along: from(0, length), left }),
    hookup({ service: "sewer", along: from(0, length), left: left - 0.3, height: null }),
  ];
  const things = Array.from({ length: obstacles }, (_, index) => {
    const along = from(-2, length + 2);
    const side = random() < 0.5 ? -1 : 1;
    const near = side * (width / 2 + from(-0.2, 4));
    return obstacle(`o${index}`, [along, along + from(0.2, 2)], side > 0 ? [near, near + 0.4] : [near - 0.4, near]);
  });
  return {
    ...made,
    hookups,
    obstacles: things,
    services: { ...made.services, power: "yes", water: "yes", sewer: "yes" },
  };
}

const coach = rig({
  length: 8.7,
  connections: [
    { service: "power", fromRear: 1.2, length: 7.62, plug: "nema-tt-30" },
    { service: "water", fromRear: 3.1, length: 7.62 },
    { service: "sewer", fromRear: 2.2, length: 4.5, height: null },
  ],
});
const options = completeOptions({
  detail: "summary",
  needs: { power: "required", water: "required", sewer: "required" },
  facings: ["out", "in"],
});

function row(name: string, obstacles: number): string {
  const prepared = prepareSites(Array.from({ length: SITES }, () => randomSite(obstacles)));
  const times: number[] = [];
  let looks = nominalLooks(coach, prepared, options);
  for (let round = 0; round < ROUNDS; round++) {
    const start = process.cpuUsage();
    looks = nominalLooks(coach, prepared, options);
    const { user, system } = process.cpuUsage(start);
    times.push((user + system) / MICROSECONDS);
  }
  times.sort((a, b) => a - b);
  const median = times[Math.floor(ROUNDS / 2)] as number;
  const worst = times[ROUNDS - 1] as number;
  const count = (state: string) => looks.filter((look) => look.state === state).length;
  return `| ${name} | ${median.toFixed(DECIMALS)} | ${worst.toFixed(DECIMALS)} | ${count("reaches")} | ${count("short")} | ${count("cannot")} |`;
}

const rows = [row("no obstacles", 0), row("10 obstacles each", 10)];
const text = [
  `${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model ?? "?"}, Node ${process.version}, load ${loadavg()[0]?.toFixed(1)}.`,
  `One rig, ${SITES} generated sites, three required lines, both facings, by nominal values; milliseconds of processor`,
  `time of a whole search over ${ROUNDS} rounds (\`npm run bench:search\`).`,
  "",
  "| sites | median | worst | reaches | short | cannot |",
  "| --- | --- | --- | --- | --- | --- |",
  ...rows,
].join("\n");
console.log(text);
if (process.argv.includes("--write")) await writeSection("Search by nominal values", text);
