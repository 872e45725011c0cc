/** Values of tags as numbers: lengths with OpenStreetMap's own habits, counts, amperes, slopes, dates. */
import table from "../../../data/osm-tags.json" with { type: "json" };
import type { Dimension } from "../../units/dimension.ts";
import { parseQuantity } from "../../units/parse.ts";
import { quoted } from "./notes.ts";
import type { TagReader } from "./tags.ts";

const PLAIN_NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)$/;
const LIMIT_WORDS: ReadonlySet<string> = new Set(table.limitWords.words);
const LONGEST_LENGTH = 200;
const MOST_AMPERES = 1000;
const MOST_VOLTS = 1000;
const STEEPEST = 1;

/** A quantity; a bare number is in the unit that OpenStreetMap gives the key. Null when it is none. */
function quantity(dimension: Dimension, text: string, bareUnit: string): number | null {
  const read = parseQuantity(dimension, PLAIN_NUMBER.test(text) ? `${text} ${bareUnit}` : text);
  return read.ok ? read.value : null;
}

function bad(reader: TagReader, key: string, value: string, wanted: string): undefined {
  reader.unread(key);
  reader.warn("bad-value", key, `${key}=${quoted(value)} cannot be read as ${wanted}; it is kept and has no effect.`);
  return undefined;
}

/** Metres above zero, also from feet and inches; undefined with a warning when it is none. */
export function lengthOf(reader: TagReader, key: string, most = LONGEST_LENGTH): number | undefined {
  const value = reader.get(key);
  if (value === undefined) return undefined;
  const metres = quantity("length", value, "m");
  return metres !== null && metres > 0 && metres <= most ? metres : bad(reader, key, value, "a length");
}

/** A stated limit in metres. `none`, `default` and the like state no number: nothing is known then. */
export function limitOf(reader: TagReader, keys: readonly string[], most = LONGEST_LENGTH): number | undefined {
  for (const key of keys) {
    const value = reader.get(key);
    if (value === undefined) continue;
    if (!LIMIT_WORDS.has(value.toLowerCase())) return lengthOf(reader, key, most);
    reader.unread(key);
    reader.remarks.push(`${key}=${value} states no number.`);
  }
  return undefined;
}

/** One value in amperes; a list names several supplies and gives none. */
export function amperesOf(reader: TagReader, key: string): readonly number[] {
  return listed(reader, key, "current", "A", MOST_AMPERES, "a current in amperes");
}

export function voltsOf(reader: TagReader, key: string): readonly number[] {
  return listed(reader, key, "voltage", "V", MOST_VOLTS, "a voltage");
}

/** Numbers of a list such as `16;32`; empty with a warning when one of them cannot be read. */
function listed(
  reader: TagReader,
  key: string,
  dimension: Dimension,
  unit: string,
  most: number,
  wanted: string,
): readonly number[] {
  const value = reader.get(key);
  if (value === undefined) return [];
  const numbers = listOf(value).map((part) => quantity(dimension, part, unit));
  if (numbers.length > 0 && numbers.every((one) => one !== null && one > 0 && one <= most)) return numbers as number[];
  bad(reader, key, value, wanted);
  return [];
}

/** The parts of a list divided by semicolons. */
export function listOf(value: string): string[] {
  return value
    .split(";")
    .map((part) => part.trim())
    .filter((part) => part !== "");
}

/** The output of a socket in watts; kilowatts when no unit is written (OpenStreetMap wiki Key:socket). */
export function outputOf(reader: TagReader, key: string): number | undefined {
  const value = reader.get(key);
  if (value === undefined) return undefined;
  const watts = quantity("power", value, "kW");
  return watts !== null && watts > 0 ? watts : bad(reader, key, value, "a power");
}

/** Rise per metre, positive uphill in the direction of the way; undefined for `up`, `down` and what cannot be read. */
export function inclineOf(reader: TagReader): number | undefined {
  const value = reader.get("incline");
  if (value === undefined) return undefined;
  if (/^(up|down)$/i.test(value)) {
    reader.unread("incline");
    reader.remarks.push(`incline=${value} gives no number.`);
    return undefined;
  }
  const slope = quantity("slope", value, "%");
  return slope !== null && Math.abs(slope) <= STEEPEST ? slope : bad(reader, "incline", value, "a slope");
}

/** A day of observation, when it is a date of the form that a record takes. */
export function dayOf(reader: TagReader, keys: readonly string[]): string | undefined {
  const found = reader.first(keys);
  if (found === undefined) return undefined;
  const day = /^(\d{4}-\d{2}-\d{2})/.exec(found.value)?.[1];
  if (day === undefined || !isDay(day)) return bad(reader, found.key, found.value, "a date such as 2026-05-04");
  return day;
}

/** Rejects days that a calendar does not have: Date.parse would carry 31 February over into March. */
function isDay(day: string): boolean {
  const time = Date.parse(`${day}T00:00:00Z`);
  return !Number.isNaN(time) && new Date(time).toISOString().startsWith(day);
}
