/** A wind as people say it: "20 mph from SW", "gusting 30 mph", "8 m/s gusting 14 m/s from 225°". */
import { DIRECTION_FORM, readDirection } from "../geo/compass.ts";
import type { InputFault } from "../units/input-error.ts";
import { readQuantity } from "../units/schema.ts";
import { tidyText } from "../units/tidy.ts";
import type { Wind } from "./awning.ts";

export interface WindTextError {
  readonly ok: false;
  readonly code: InputFault;
  readonly message: string;
  readonly expected: string;
}

export type WindTextResult = { readonly ok: true; readonly wind: Wind } | WindTextError;

/** Fastest wind that anybody may mean, metres per second; the strongest gust on record was 113 (from memory). */
export const FASTEST_WIND = 120;
export const WIND_FORM = 'a wind such as "20 mph from SW", "gusting 30 mph" or "8 m/s gusting 14 m/s from 225 deg"';
const LONGEST_TEXT = 100;

const FROM = /^(.*?),? (?:from|out of)(?: the)? (.+)$/i;
/** Words after the unit of the last speed, without "from". */
const TRAILING = /^(.*\d *[^\d\s]+) ([a-z][a-z -]*)$/i;
const LEADING = /^([a-z][a-z -]*?),? (?:wind )?(?:at )?(\d.*|gust.*)$/i;
const GUST_WORD = "(?:gusts?|gusting)(?: up)?(?: to| of| at)?";
const GUST_ALONE = new RegExp(`^${GUST_WORD} (.+)$`, "i");
const MEAN_AND_GUST = new RegExp(`^(.+?),? (?:with |and )?${GUST_WORD} (.+)$`, "i");
const BARE_NUMBER = /^\d+(?:\.\d+)?$/;
const UNIT_AT_END = /^\d+(?:\.\d+)? ?-? ?(.+)$/;

function fault(code: InputFault, message: string, expected: string = WIND_FORM): WindTextError {
  return { ok: false, code, message, expected };
}

/** Reads a wind. Without a direction it has none: then the worst of all is judged. Never throws. */
export function parseWind(written: string): WindTextResult {
  const text = tidyText(written).replace(/^winds? /i, "");
  if (text === "") return fault("empty", `An empty text is no wind: write ${WIND_FORM}.`);
  if (text.length > LONGEST_TEXT) return fault("too-long", `A text of ${text.length} characters is no wind.`);
  const parts = splitDirection(text);
  if ("ok" in parts) return parts;
  const { speeds, directions } = parts;
  const alone = GUST_ALONE.exec(speeds);
  if (alone !== null) {
    const gust = speed(alone[1]!, null);
    return typeof gust === "number" ? { ok: true, wind: { gust, directions } } : gust;
  }
  const both = MEAN_AND_GUST.exec(speeds);
  if (both === null) {
    const mean = speed(speeds, null);
    return typeof mean === "number" ? { ok: true, wind: { mean, directions } } : mean;
  }
  const [, meanText = "", gustText = ""] = both;
  // In "20 gusting 30 mph" the unit stands once for both.
  const mean = speed(meanText, gustText);
  if (typeof mean !== "number") return mean;
  const gust = speed(gustText, meanText);
  if (typeof gust !== "number") return gust;
  if (gust < mean) return fault("conflict", `A gust is never below the mean wind, and "${speeds}" has it so.`);
  return { ok: true, wind: { gust, mean, directions } };
}

type Split = { readonly speeds: string; readonly directions: readonly number[] };

function splitDirection(text: string): Split | WindTextError {
  const from = FROM.exec(text);
  if (from !== null) {
    const [, speeds = "", where = ""] = from;
    const bearing = readDirection(where);
    if (bearing !== null) return { speeds, directions: [bearing] };
    return fault("bad-form", `"${where}" is no direction: write ${DIRECTION_FORM}.`, DIRECTION_FORM);
  }
  const trailing = TRAILING.exec(text);
  const last = trailing === null ? null : readDirection(trailing[2]!);
  if (trailing !== null && last !== null) return { speeds: trailing[1]!, directions: [last] };
  const leading = LEADING.exec(text);
  const first = leading === null ? null : readDirection(leading[1]!);
  if (leading !== null && first !== null) return { speeds: leading[2]!, directions: [first] };
  return { speeds: text, directions: [] };
}

/** Metres per second; a bare number takes the unit of `other`. */
function speed(text: string, other: string | null): number | WindTextError {
  const unit = BARE_NUMBER.test(text) && other !== null ? UNIT_AT_END.exec(other)?.[1] : undefined;
  const read = readQuantity("speed", unit === undefined ? text : `${text} ${unit}`, { min: 0, max: FASTEST_WIND });
  return "value" in read ? read.value : fault(read.code, read.message, WIND_FORM);
}
