/**
 * Nights by their local date "YYYY-MM-DD" in the campground's calendar. The night of a date begins on the evening of
 * that date. Nothing here counts hours: a night with a change of the clock is one night.
 */
import { dateOfNight, nightOfDate } from "../assign/nights.ts";

/** Longest stay, hold or import row, in nights: a year and a day. */
export const MOST_NIGHTS = 367;

/** The dates of the nights from `arrival` up to, and without, `departure`. Both must be dates that exist. */
export function nightsOf(arrival: string, departure: string): string[] {
  const first = numberOfDate(arrival);
  return Array.from({ length: numberOfDate(departure) - first }, (_, index) => dateOfNight(first + index));
}

export const countNights = (arrival: string, departure: string): number =>
  numberOfDate(departure) - numberOfDate(arrival);

function numberOfDate(date: string): number {
  const night = nightOfDate(date);
  if (night === null) throw new Error(`${date} is no date.`);
  return night;
}

/** The zone in which a date begins last: what is over there is over everywhere. */
const LAST_ZONE = "Etc/GMT+12";

/**
 * Today's date in a time zone (IANA name). A campground whose zone is not known, or is no zone, gets the date of the
 * last place on earth, so that nothing is taken for over that may still run.
 *
 * @param now Milliseconds since 1970 UTC.
 */
export function localDate(now: number, timeZone: string | null): string {
  const parts = formatOf(timeZone ?? LAST_ZONE).formatToParts(now);
  const part = (type: Intl.DateTimeFormatPartTypes) => parts.find((one) => one.type === type)?.value ?? "";
  return `${part("year")}-${part("month")}-${part("day")}`;
}

function formatOf(timeZone: string): Intl.DateTimeFormat {
  const shape = { calendar: "iso8601", numberingSystem: "latn", year: "numeric", month: "2-digit", day: "2-digit" };
  try {
    return new Intl.DateTimeFormat("en", { ...shape, timeZone } as Intl.DateTimeFormatOptions);
  } catch {
    return new Intl.DateTimeFormat("en", { ...shape, timeZone: LAST_ZONE } as Intl.DateTimeFormatOptions);
  }
}
