/** Days, people and places of kit in the words that every part of the desk uses. */
import type { SiteVerdict } from "../../fit/answer.ts";
import type { Works } from "../../trip/settle.ts";
import type { Units } from "../state/store.ts";

export const WORKS_WORDS: Readonly<Record<Works, string>> = {
  yes: "works",
  tight: "tight",
  unknown: "unknown",
  no: "does not work",
};

/** The mark that stands for it: shape, letter and colour as of a site. */
export const WORKS_MARK: Readonly<Record<Works, SiteVerdict>> = {
  yes: "fits",
  tight: "tight",
  unknown: "unknown",
  no: "does not fit",
};

/** "Thu, Jul 3" or "Thu 3 Jul"; the text itself when it is no date. */
export function dayText(date: string, units: Units): string {
  const day = new Date(`${date}T00:00:00Z`);
  if (Number.isNaN(day.getTime())) return date;
  const form = { weekday: "short", day: "numeric", month: "short", timeZone: "UTC" } as const;
  return new Intl.DateTimeFormat(units === "us" ? "en-US" : "en-GB", form).format(day);
}

const YEAR_MONTH_DAY = 10;

/** The local date of this device now, YYYY-MM-DD. */
export function today(now = new Date()): string {
  const local = new Date(now.getTime() - now.getTimezoneOffset() * 60_000);
  return local.toISOString().slice(0, YEAR_MONTH_DAY);
}

export function addDays(date: string, days: number): string {
  const day = new Date(`${date}T00:00:00Z`);
  day.setUTCDate(day.getUTCDate() + days);
  return day.toISOString().slice(0, YEAR_MONTH_DAY);
}

export function peopleText({
  adults,
  children = 0,
}: {
  readonly adults: number;
  readonly children?: number | undefined;
}): string {
  const of = (count: number, one: string, more: string) => `${count} ${count === 1 ? one : more}`;
  const grown = of(adults, "adult", "adults");
  return children === 0 ? grown : `${grown}, ${of(children, "child", "children")}`;
}

/** "Heron" of "Heron: Bramblewick 25 coach": room in a table is dear. */
export const shortName = (name: string): string => name.split(":")[0] ?? name;
