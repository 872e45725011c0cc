/** The words beside a wind rose: what shelters from where, and the whole rose for those who do not see it. */
import { METRES_PER_FOOT } from "../units/factors.ts";
import { plainNumber } from "../units/number.ts";
import type { UnitSystem } from "../units/print.ts";
import { exposureLevel } from "../wind/exposure.ts";
import { WIND_FLAG_TEXTS } from "../wind/flags.ts";
import type { Rose, Sector } from "../wind/rose.ts";
import { barrierText } from "../wind/say.ts";
import { compassWord } from "../wind/sector.ts";
import { cleanText } from "./svg.ts";

const PERCENT = 100;
const NO_BREAK = "\u00a0";

/** What a wind from one direction leaves of a gust, whole per cent, rounded against the awning. */
export function shareText(sector: Sector): string {
  return `${Math.ceil(sector.ratio * PERCENT)}${sector.confidence === "low" ? " ?" : ""}`;
}

interface Group {
  readonly sectors: Sector[];
  best: Sector;
}

/** One sentence for each barrier: from where it shelters, how far it is, and how much it takes at most. */
function shelterNotes(rose: Rose, units: UnitSystem): readonly string[] {
  const groups = new Map<string, Group>();
  for (const sector of rose.sectors) {
    if (sector.by === null) continue;
    const group = groups.get(sector.by.id) ?? { sectors: [], best: sector };
    group.sectors.push(sector);
    if (sector.shelter > group.best.shelter) group.best = sector;
    groups.set(sector.by.id, group);
  }
  const ordered = [...groups.values()].sort((a, b) => b.best.shelter - a.best.shelter);
  return ordered.map(({ sectors, best }) => {
    const from = sectors.map((sector) => compassWord(sector.from)).join(", ");
    const doubt = best.confidence === "low" ? " (a guess)" : "";
    const taken = `${Math.floor(best.shelter * PERCENT)}${NO_BREAK}%`;
    const what = cleanText(barrierText(best.by!, units));
    return `From ${from}: ${what} takes up to ${taken}${doubt}.`;
  });
}

/** What the marks of the drawing mean. */
export const ROSE_KEY =
  "Petal: what is left at the awning of a gust in open country at 10 m, in per cent. Dashes beyond it: taken by a barrier. Dashed edge and ?: a guess. A and double arc: the awning's side. P, filled arrow: prevailing wind. F, hollow arrow: forecast wind.";

export interface RoseFacts {
  readonly awning: number | null;
  readonly prevailing: number | null;
  readonly forecast: readonly number[];
}

/** Where the awning looks and where the winds come from, in sentences. */
function markNotes({ awning, prevailing, forecast }: RoseFacts): readonly string[] {
  const notes: string[] = [];
  notes.push(
    awning === null ? "Where the awning opens is not known." : `The awning opens towards ${compassWord(awning)}.`,
  );
  if (prevailing !== null) notes.push(`The prevailing wind comes from ${compassWord(prevailing)}.`);
  if (forecast.length > 0) notes.push(`The forecast wind comes from ${forecast.map(compassWord).join(" to ")}.`);
  return notes;
}

function heightText(metres: number, units: UnitSystem): string {
  const [value, unit] = units === "us" ? [metres / METRES_PER_FOOT, "ft"] : [metres, "m"];
  return `Height judged: ${plainNumber(value, 1)} ${unit}.`;
}

/** The sentences that stand beside the drawing. */
export function roseNotes(rose: Rose, facts: RoseFacts, units: UnitSystem): readonly string[] {
  const flags = rose.flags.map((flag) => WIND_FLAG_TEXTS[flag]);
  return [...markNotes(facts), ...shelterNotes(rose, units), ...flags, heightText(rose.height, units)];
}

/** The rose in words. */
export function roseDescription(rose: Rose, facts: RoseFacts, units: UnitSystem): string {
  const options = facts.prevailing === null ? { units } : { units, prevailing: facts.prevailing };
  const shares = rose.sectors.map((sector) => `${compassWord(sector.from)} ${shareText(sector)}`).join(", ");
  return [
    "North is up. Each direction shows what is left at the awning of a gust in open country at 10 m, in per cent.",
    cleanText(exposureLevel(rose, options).why),
    `By direction: ${shares}.`,
    ...markNotes(facts),
    ...shelterNotes(rose, units),
    ...rose.flags.map((flag) => WIND_FLAG_TEXTS[flag]),
  ].join(" ");
}
