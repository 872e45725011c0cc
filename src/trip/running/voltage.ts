/** What a tester should read before plugging in, and what is left of it at the rig. */
import type { PowerAnswer } from "../../fit/answer.ts";
import { supplyLimits } from "../../fit/power/supply-limits.ts";
import { oneDecimal } from "../../fit/power/words.ts";
import type { VoltageAnswer } from "./types.ts";

const WORDS: Readonly<Record<VoltageAnswer["status"], string>> = {
  fine: "That is enough.",
  watch: "That is little: watch the reading when much runs.",
  low: "That is low: run less, motors suffer first.",
  stop: "That is too low for motors: no air conditioner, no compressor.",
  unknown: "Whether that is enough cannot be told before the cord's conductor is known.",
};

/** Volts of the supply by the campground's system, else by the volts of the receptacle; null when neither is known. */
export function voltageAnswer(power: PowerAnswer, electricalSystem: string | null): VoltageAnswer | null {
  if (power.voltsToNeutral === null) return null;
  const byName = electricalSystem === null ? null : supplyLimits(electricalSystem);
  const limits =
    byName?.voltsToNeutral === power.voltsToNeutral
      ? byName
      : supplyLimits("120/240")?.voltsToNeutral === power.voltsToNeutral
        ? supplyLimits("120/240")
        : supplyLimits("230");
  if (limits === null || limits === undefined || limits.voltsToNeutral !== power.voltsToNeutral) return null;
  const { drop } = power;
  const source = `${limits.source} (${limits.mark}); ${limits.thresholdSource}`;
  const reading = `Before plugging in a plug-in tester should show between ${limits.lowest} V and ${limits.highest} V; outside that do not connect, call the host.`;
  const supply = { low: limits.lowest, high: limits.highest };
  if (drop === null) {
    const why = `${reading} What the cord loses is not known: its conductor or length is not on record.`;
    return { supply, atRig: null, status: "unknown", why, source };
  }
  const { voltsAtRigFromNominal: fromNominal, voltsAtRigFromLowest: fromLowest, status } = drop;
  return {
    supply,
    atRig: { fromNominal, fromLowest },
    status,
    why: `${reading} With everything on that may run for hours, ${oneDecimal(fromNominal)} V reach the rig from ${limits.voltsToNeutral} V and ${oneDecimal(fromLowest)} V from the lowest lawful ${limits.lowest} V. ${WORDS[status]}`,
    source,
  };
}
