/** The rig's own generator: what it gives at this height, how it reaches the rig, and when it may run. */
import table from "../../../data/generator.json" with { type: "json" };
import { deviceOf } from "../../fit/power/devices.ts";
import type { LoadSupply } from "../../fit/power/load.ts";
import { supplyLimits } from "../../fit/power/supply-limits.ts";
import { grouped } from "../../fit/power/words.ts";
import type { CompletedRig } from "../../rig/completed.ts";
import { formatLength, type UnitSystem } from "../../units/print.ts";
import type { GeneratorHours, TransferAnswer } from "./types.ts";

const ALTITUDE = table.altitude;
/** Cords of rigs without a known plug are taken for one of 120 V. */
const USUAL_SYSTEM = "120/240";

/** Watts that a generator still gives so many metres above the sea. Source: data/generator.json. */
export function wattsAtHeight(watts: number, elevation: number): number {
  const lost = (Math.max(0, elevation) / ALTITUDE.metresPerStep) * ALTITUDE.lossPerStep;
  return watts * Math.max(0, 1 - lost);
}

export interface GeneratorSupply {
  readonly supply: LoadSupply;
  readonly watts: number;
  readonly continuousWatts: number;
  readonly why: string;
  readonly notes: readonly { readonly text: string; readonly source: string }[];
}

/**
 * The generator as a supply: its continuous watts at this height, but no more than the rig's own main breaker passes,
 * of which four fifths for three hours or more.
 */
export function generatorSupply(
  rig: Pick<CompletedRig, "generator" | "connections">,
  elevation: number | null,
  units: UnitSystem,
): GeneratorSupply | null {
  const { generator } = rig;
  if (generator === null) return null;
  const plug = rig.connections.find((one) => one.service === "power")?.plug ?? null;
  const device = plug === null ? null : deviceOf(plug);
  const limits = supplyLimits(device?.system ?? USUAL_SYSTEM)!;
  const rated = elevation === null ? generator.watts : wattsAtHeight(generator.watts, elevation);
  const main = device === null ? Number.POSITIVE_INFINITY : device.amps * device.hots * limits.voltsToNeutral;
  const watts = Math.min(rated, main);
  const continuousWatts = Math.min(rated, main * limits.continuousRatio);
  const notes = [
    { text: table.legs, source: "common practice, no source" },
    { text: `${capital(table.starting.inWords)}.`, source: `${table.starting.source} (${table.starting.mark})` },
  ];
  if (elevation === null) {
    const text = `The site's height above the sea is not on record: the generator loses ${ALTITUDE.inWords}, and nothing was taken off. ${table.warmth}`;
    notes.push({ text, source: `${ALTITUDE.source} (${ALTITUDE.mark})` });
  } else if (elevation > 0) {
    const height = formatLength(elevation, units, { round: "nearest" });
    const text = `At ${height} above the sea ${grouped(Math.floor(rated))} W of ${grouped(generator.watts)} W are left: ${ALTITUDE.inWords}. ${table.warmth}`;
    notes.push({ text, source: `${ALTITUDE.source} (${ALTITUDE.mark})` });
  }
  const capped = main < rated ? ` The rig's main breaker passes no more than ${grouped(main)} W.` : "";
  return {
    supply: {
      legs: 1,
      amps: watts / limits.voltsToNeutral,
      continuousAmps: continuousWatts / limits.voltsToNeutral,
      voltsToNeutral: limits.voltsToNeutral,
    },
    watts,
    continuousWatts,
    why: `The generator gives ${grouped(Math.floor(watts))} W, ${grouped(Math.floor(continuousWatts))} W for three hours or more.${capped}`,
    notes,
  };
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** How the generator reaches the coach, in the order of what is done. */
export function transferAnswer(generator: NonNullable<CompletedRig["generator"]>): TransferAnswer {
  const { why, steps, source } = table.transfer[generator.suppliesThrough];
  return { through: generator.suppliesThrough, why, steps, source };
}

const HOURS_PER_DAY = 24;
const MINUTES_PER_HOUR = 60;
const NOON = 12;
const RANGE = /(\d{1,2})(?:[:.](\d{2}))?\s*(am|pm)?\s*(?:-|–|to|until)\s*(\d{1,2})(?:[:.](\d{2}))?\s*(am|pm)?/gi;
const NEVER = /\b(no|none|never|not allowed|forbidden)\b/i;

function hourOf(hour: string, minutes: string | undefined, half: string | undefined): number {
  const whole = Number(hour) % (half === undefined ? HOURS_PER_DAY + 1 : NOON);
  const later = half?.toLowerCase() === "pm" ? NOON : 0;
  return whole + later + Number(minutes ?? 0) / MINUTES_PER_HOUR;
}

/** Hours in a host's words: "08:00-10:00, 17:00-19:30", "8 am to 8 pm"; null when they cannot be read for sure. */
export function readHours(words: string): readonly { readonly from: number; readonly to: number }[] | null {
  const found: { from: number; to: number }[] = [];
  for (const [, from, fromMinutes, fromHalf, to, toMinutes, toHalf] of words.matchAll(RANGE)) {
    // "8-10" may mean morning or evening: only minutes or a half of the day make it sure.
    const sure = (fromMinutes !== undefined && toMinutes !== undefined) || toHalf !== undefined;
    const start = hourOf(from!, fromMinutes, fromHalf ?? (fromMinutes === undefined ? toHalf : undefined));
    const end = hourOf(to!, toMinutes, toHalf);
    if (!sure || start >= end || end > HOURS_PER_DAY) return null;
    found.push({ from: start, to: end });
  }
  if (found.length > 0) return found;
  return NEVER.test(words) ? [] : null;
}

/** When the generator may run: the host's words as they stand, with the hours where they can be read. */
export function generatorHours(words: string | null, atSite: boolean): GeneratorHours {
  if (words === null) return { words, allowed: null, why: atSite ? table.hours.none : table.hours.offGrid };
  const allowed = readHours(words);
  const rule = `The host's hours for generators: ${words}.`;
  return {
    words,
    allowed,
    why: allowed?.length === 0 ? `${rule} It may not run here.` : `${rule} It never runs while anybody sleeps.`,
  };
}

export const EXHAUST_CAUTION = table.exhaust;
