/**
 * The long form of the faults: `campaign.ts [kill|race|disk] [scale]`. Writes its figures to stdout as the lines of the
 * table in tests/bench/RESULTS.md, and ends with 1 when anything was lost, half done or unclear.
 */
import { cpus } from "node:os";
import { fullDiskCampaign } from "./full-disk.ts";
import { killCampaign } from "./kill.ts";
import { raceCampaign } from "./race.ts";

const CYCLES = 1000;
const RACES = 10_000;
const CLIENTS = 50;
const DISK_SIZES = 120;
const SEED = 2027;
const PARTS = ["kill", "race", "disk"];

const [, , asked = "all", scaleText = "1"] = process.argv;
const scale = Number(scaleText);
if (!(["all", ...PARTS].includes(asked) && scale > 0)) throw new Error("campaign.ts [kill|race|disk] [scale]");
const say = (line: string) => console.error(`${new Date().toISOString()} ${line}`);
const whole = (count: number) => count.toLocaleString("en-US");
const times = (count: number) => Math.max(1, Math.round(count * scale));
const isAsked = (part: string) => asked === "all" || asked === part;
const faults: string[] = [];
/** Said at once: a part that breaks must not take the figures of the others with it. */
const rows = { push: (row: string) => console.log(row) };

console.log("| fault | thrown | came out | time |\n| --- | --- | --- | --- |");
if (isAsked("kill")) {
  const started = performance.now();
  const report = await killCampaign(times(CYCLES), SEED, say);
  faults.push(...report.lost, ...report.breaches);
  rows.push(
    `| kill -9 during writes, 4 clients | ${whole(report.cycles)} cycles, ${whole(report.acknowledged)} acknowledged writes looked up by id | ${report.lost.length} lost, ${report.breaches.length} breaches; ${whole(report.unanswered)} unanswered at a kill and sent again under their keys, ${whole(report.committedUnanswered)} of them had had their effect; start to first answer: median ${Math.round(report.medianStart)} ms, slowest ${Math.round(report.slowestStart)} ms; file ${(report.bytes / 1e6).toFixed(0)} MB | ${seconds(started)} s |`,
  );
}
if (isAsked("race")) {
  const report = await raceCampaign(times(RACES), CLIENTS, say);
  faults.push(...report.wrong, ...report.odd, ...report.breaches);
  rows.push(
    `| ${report.clients} hosts race for one site and night, ${report.servers} processes on one file | ${whole(report.races)} races | ${report.wrong.length} without exactly one winner, ${whole(report.conflicts)} conflicts that name the winner, ${report.odd.length} other answers, ${report.breaches.length} breaches; wins by process ${report.wins.map(whole).join(" and ")} | ${Math.round(report.seconds)} s |`,
  );
}
if (isAsked("disk")) {
  for (const force of [undefined, "limit"] as const) {
    const started = performance.now();
    const report = await fullDiskCampaign(times(DISK_SIZES), force);
    faults.push(...report.lost, ...report.odd, ...report.breaches);
    const sizes = force === undefined ? `0 to ${report.sizes - 1} pages left free, one after the other` : "one limit";
    rows.push(
      `| disk full (${report.way}) | ${sizes}, ${whole(report.acknowledged)} acknowledged writes | ${report.lost.length} lost, ${report.breaches.length} breaches, ${whole(report.refused)} refused with 507, ${report.odd.length} other answers; reading went on | ${seconds(started)} s |`,
    );
  }
}

console.log(`${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model ?? "?"}, Node ${process.version}.`);
for (const fault of faults.slice(0, 50)) console.error(fault);
process.exitCode = faults.length === 0 ? 0 : 1;

function seconds(started: number): number {
  return Math.round((performance.now() - started) / 1000);
}
