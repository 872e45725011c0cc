/** Words and lengths as every view writes them. */
import type { LineVerdict, SiteVerdict } from "../../fit/answer.ts";
import type { Service } from "../../rig/completed.ts";
import { formatLength } from "../../units/print.ts";
import type { Units } from "../state/store.ts";

export const SERVICE_WORDS: Readonly<Record<Service, string>> = {
  power: "Power",
  water: "Water",
  fill: "Fill",
  sewer: "Sewer",
  cable: "Cable",
};

/** What is needed rounds up. */
export const neededText = (metres: number, units: Units): string => formatLength(metres, units, { round: "up" });
/** What is there, and what is left over, rounds down. */
export const availableText = (metres: number, units: Units): string => formatLength(metres, units, { round: "down" });

/** "0.42 m to spare" or "1 ft 4 in short"; a margin rounds against us either way. */
export function marginText(metres: number, units: Units): string {
  return metres < 0 ? `${neededText(-metres, units)} short` : `${availableText(metres, units)} to spare`;
}

export const VERDICT_WORDS: Readonly<Record<SiteVerdict, string>> = {
  fits: "Fits",
  "fits with kit": "Fits with kit",
  tight: "Tight",
  unknown: "Unknown",
  "does not fit": "Does not fit",
};

export const LINE_WORDS: Readonly<Record<LineVerdict, string>> = {
  reaches: "reaches",
  tight: "tight",
  short: "short",
  unknown: "unknown",
  "not needed": "not needed",
  absent: "not there",
};

export function plural(count: number, one: string, more = `${one}s`): string {
  return `${count} ${count === 1 ? one : more}`;
}
