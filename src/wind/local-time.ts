/** Local days and hours of an IANA time zone, summer time included. Knows the zone's rules and no clock. */

export interface LocalZone {
  /** IANA name. */
  readonly name: string;
  /** Milliseconds that local time is ahead of UTC at an instant. */
  offsetAt(instant: number): number;
}

const MILLISECONDS_PER_MINUTE = 60_000;
const MINUTES_PER_HOUR = 60;
const MILLISECONDS_PER_DAY = 86_400_000;
/** Local time is never further from UTC than this. */
const WIDEST_OFFSET = 2 * MILLISECONDS_PER_DAY;
const SECOND = 1000;
const DATE = /^(\d{4})-(\d{2})-(\d{2})$/;
const DATE_LENGTH = "YYYY-MM-DD".length;
const MINUTE_LENGTH = "YYYY-MM-DDTHH:MM".length;
const WEEKDAYS = ["Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"] as const;

/** The zone of an IANA name; null when the name is none that is known. */
export function localZone(name: string): LocalZone | null {
  let format: Intl.DateTimeFormat;
  try {
    format = new Intl.DateTimeFormat("en-US", {
      timeZone: name,
      calendar: "gregory",
      numberingSystem: "latn",
      hourCycle: "h23",
      year: "numeric",
      month: "numeric",
      day: "numeric",
      hour: "numeric",
      minute: "numeric",
      second: "numeric",
    });
  } catch {
    return null;
  }
  return {
    name,
    offsetAt(instant) {
      const parts = new Map(format.formatToParts(instant).map(({ type, value }) => [type, Number(value)]));
      const [year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0] = (
        ["year", "month", "day", "hour", "minute", "second"] as const
      ).map((type) => parts.get(type));
      return Date.UTC(year, month - 1, day, hour, minute, second) - Math.floor(instant / SECOND) * SECOND;
    },
  };
}

/** True for a calendar date that exists, written YYYY-MM-DD. */
export function isDate(text: string): boolean {
  return DATE.test(text) && !Number.isNaN(Date.parse(text)) && new Date(text).toISOString().startsWith(text);
}

/** Days from one date to another; both must exist. */
export function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(to) - Date.parse(from)) / MILLISECONDS_PER_DAY);
}

/** The date one day later. */
function nextDate(date: string): string {
  return new Date(Date.parse(date) + MILLISECONDS_PER_DAY).toISOString().slice(0, DATE_LENGTH);
}

/** Local wall time as if it were UTC, in ISO form. */
function wallText(zone: LocalZone, instant: number): string {
  return new Date(instant + zone.offsetAt(instant)).toISOString();
}

/** `2026-07-04T14:00-06:00`. */
export function localText(zone: LocalZone, instant: number): string {
  const minutes = Math.round(zone.offsetAt(instant) / MILLISECONDS_PER_MINUTE);
  const two = (value: number) => String(Math.floor(value)).padStart(2, "0");
  const size = Math.abs(minutes);
  const offset = `${minutes < 0 ? "-" : "+"}${two(size / MINUTES_PER_HOUR)}:${two(size % MINUTES_PER_HOUR)}`;
  return `${wallText(zone, instant).slice(0, MINUTE_LENGTH)}${offset}`;
}

/** The first instant of a local date, also where no midnight exists because the clock is put on then. */
function startOfDate(zone: LocalZone, date: string): number {
  const about = Date.parse(date);
  let before = about - WIDEST_OFFSET;
  let after = about + WIDEST_OFFSET;
  while (after - before > SECOND) {
    const middle = Math.floor((before + after) / 2 / SECOND) * SECOND;
    if (wallText(zone, middle).slice(0, DATE_LENGTH) >= date) after = middle;
    else before = middle;
  }
  return after;
}

/** From the first instant of `from` to the last of `to`, milliseconds since 1970. */
export function localDays(zone: LocalZone, from: string, to: string): { readonly start: number; readonly end: number } {
  return { start: startOfDate(zone, from), end: startOfDate(zone, nextDate(to)) };
}

export interface LocalMoment {
  readonly weekday: string;
  /** YYYY-MM-DD. */
  readonly date: string;
  /** HH:MM. */
  readonly time: string;
}

/** An instant in words of its local day. */
export function localMoment(zone: LocalZone, instant: number): LocalMoment {
  const wall = wallText(zone, instant);
  const weekday = WEEKDAYS[new Date(wall).getUTCDay()]!;
  return { weekday, date: wall.slice(0, DATE_LENGTH), time: wall.slice(DATE_LENGTH + 1, MINUTE_LENGTH) };
}
