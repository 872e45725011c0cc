/** Stretches of time as ISO 8601 writes them: start/end, start/duration, duration/end. */
import { ForecastRefusal, quoted } from "./refusal.ts";

export interface Interval {
  /** Milliseconds since 1970, UTC. */
  readonly start: number;
  /** Not part of it. */
  readonly end: number;
}

const INSTANT = /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):(\d{2})(?::(\d{2})(?:\.\d+)?)?(Z|[+-]\d{2}:?\d{2})$/;
const DURATION = /^P(?:(\d+)Y)?(?:(\d+)M)?(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)S)?)?$/;
const LONGEST_TEXT = 100;

/** Milliseconds of an instant that says its offset from UTC; null for any other text. */
export function parseInstant(text: string): number | null {
  if (text.length > LONGEST_TEXT || !INSTANT.test(text)) return null;
  const value = Date.parse(text.replace(/([+-]\d{2})(\d{2})$/, "$1:$2"));
  return Number.isNaN(value) ? null : value;
}

/** Throws ForecastRefusal when it is none, or when it does not end after it starts. */
export function parseInterval(text: string): Interval {
  const parts = text.length > LONGEST_TEXT ? [] : text.split("/");
  const [first = "", second = ""] = parts;
  const start = parseInstant(first);
  const end = parseInstant(second);
  const found =
    parts.length === 2
      ? { start: start ?? moved(end, first, -1), end: end ?? moved(start, second, 1) }
      : { start: null, end: null };
  if (found.start === null || found.end === null || found.end <= found.start) {
    throw new ForecastRefusal(
      "unreadable",
      `The forecast holds a stretch of time that cannot be read: ${quoted(text)}.`,
    );
  }
  return { start: found.start, end: found.end };
}

/** The instant a duration after (1) or before (-1) another, by the calendar of UTC. */
function moved(from: number | null, duration: string, sign: 1 | -1): number | null {
  const parts = DURATION.exec(duration);
  if (from === null || parts === null || duration.endsWith("T") || duration === "P") return null;
  const [years, months, days, hours, minutes, seconds] = parts.slice(1).map((part) => sign * Number(part ?? 0));
  const date = new Date(from);
  date.setUTCFullYear(date.getUTCFullYear() + years!, date.getUTCMonth() + months!, date.getUTCDate() + days!);
  date.setUTCHours(date.getUTCHours() + hours!, date.getUTCMinutes() + minutes!, date.getUTCSeconds() + seconds!);
  const value = date.getTime();
  return Number.isNaN(value) ? null : value;
}
