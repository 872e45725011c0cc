/** The wind asked about in the words of a headline: when the awning is to be in. Never a permission. */
import { daysBetween, type LocalZone, localMoment } from "../../wind/local-time.ts";
import type { AwningHourAnswer, AwningWindAnswer, WindAnswer } from "./answer.ts";
import { zoneOf } from "./judge.ts";

interface Judged {
  readonly wind: AwningWindAnswer | null;
  readonly hours: readonly AwningHourAnswer[] | null;
}

const MONTHS = "January February March April May June July August September October November December".split(" ");
const MOST_STRETCHES = 3;
/** In a longer stay a weekday alone could be two days. */
const LONGEST_BY_WEEKDAY = 6;

/** Null when nothing was asked about the wind, or a wind by hand leaves the level low. */
export function windHeadline(asked: WindAnswer | null, awnings: readonly Judged[]): string | null {
  if (asked === null || awnings.length === 0) return null;
  return asked.stay === null ? byHand(awnings) : overStay(asked.stay, awnings);
}

function byHand(awnings: readonly Judged[]): string | null {
  const levels = awnings.map(({ wind }) => wind?.level ?? "unknown");
  if (levels.includes("retract")) return "In this wind the awning in";
  const worst = (["unknown", "high", "moderate"] as const).find((level) => levels.includes(level));
  return worst === undefined ? null : `Awning level in this wind ${worst}`;
}

function overStay(stay: NonNullable<WindAnswer["stay"]>, awnings: readonly Judged[]): string {
  const lists = awnings.map(({ hours }) => hours ?? []);
  const first = lists[0] ?? [];
  const has = (index: number, signal: AwningHourAnswer["signal"]) =>
    lists.some((list) => list[index]?.signal === signal);
  const unknown = first.filter((_, index) => has(index, "unknown") && !has(index, "retract")).length;
  const stretches = joined(first.filter((_, index) => has(index, "retract")));
  if (stretches.length === 0) {
    if (unknown === first.length) return "Awning hours unknown";
    return unknown > 0 ? doubt(unknown, first.length) : "No retract signal for the awning in the forecast";
  }
  const { zone } = zoneOf(stay.timeZoneGiven ? stay.timeZone : null);
  const dated = daysBetween(stay.from, stay.to) > LONGEST_BY_WEEKDAY;
  const shown = stretches.slice(0, MOST_STRETCHES).map((stretch) => words(stretch, zone, dated));
  const more = stretches.length - shown.length;
  const rest = more > 0 ? ` and ${more} more times` : "";
  return `Awning in ${shown.join(", ")}${rest}${unknown > 0 ? `; ${doubt(unknown, first.length)}` : ""}`;
}

const doubt = (unknown: number, all: number): string => `${unknown} of ${all} awning hours unknown`;

interface Stretch {
  readonly start: number;
  readonly end: number;
}

/** Hours that follow each other become one stretch. */
function joined(hours: readonly AwningHourAnswer[]): Stretch[] {
  const found: Stretch[] = [];
  for (const hour of hours) {
    const [start, end] = [Date.parse(hour.start), Date.parse(hour.end)];
    const last = found.at(-1);
    if (last?.end === start) found[found.length - 1] = { start: last.start, end };
    else found.push({ start, end });
  }
  return found;
}

/** `Saturday 14:00 to 19:00`, `Saturday 22:00 to Sunday 03:00`. */
function words({ start, end }: Stretch, zone: LocalZone, dated: boolean): string {
  const from = localMoment(zone, start);
  const to = localMoment(zone, end);
  const day = ({ weekday, date }: typeof from) => {
    const [, month = "", number = ""] = date.split("-");
    return dated ? `${weekday} ${Number(number)} ${MONTHS[Number(month) - 1]}` : weekday;
  };
  return `${day(from)} ${from.time} to ${from.date === to.date ? "" : `${day(to)} `}${to.time}`;
}
