/** Hours of a stay as a strip shows them: local times, days, and how many there are of each signal. */
import type { AwningHourAnswer } from "../../fit/wind/answer.ts";
import type { HourSignal } from "../../wind/hours.ts";
import type { Units } from "../state/store.ts";

type Hour = Pick<AwningHourAnswer, "local" | "signal">;

interface SignalLook {
  readonly letter: string;
  readonly className: string;
}

/** Each signal by its own letter and pattern; the words stand beside them. The one that warns comes first. */
export const SIGNALS: Readonly<Record<HourSignal, SignalLook>> = {
  retract: { letter: "R", className: "hour-retract" },
  unknown: { letter: "?", className: "hour-unknown" },
  "no retract signal": { letter: "–", className: "hour-none" },
};

const LOCAL = /^(\d{4}-\d{2}-\d{2})T(\d{2}):(\d{2})/;
const NOON = 12;

/** "2 pm" or "14:00" of a local time such as `2026-07-04T14:00-06:00`. */
export function hourText(local: string, units: Units): string {
  const [, , hours = "", minutes = ""] = LOCAL.exec(local) ?? [];
  if (units === "metric") return `${hours}:${minutes}`;
  const hour = Number(hours);
  const past = minutes === "00" ? "" : `:${minutes}`;
  return `${hour % NOON === 0 ? NOON : hour % NOON}${past} ${hour < NOON ? "am" : "pm"}`;
}

const DAY_FORMAT = { weekday: "long", month: "long", day: "numeric", timeZone: "UTC" } as const;

/** "Saturday, July 4". */
export function dayText(local: string): string {
  const [, date = ""] = LOCAL.exec(local) ?? [];
  return new Intl.DateTimeFormat("en-US", DAY_FORMAT).format(Date.parse(date));
}

interface DayOfHours<One> {
  readonly day: string;
  readonly hours: readonly One[];
}

/** Hours in their order, by local day. */
export function byDay<One extends Hour>(hours: readonly One[]): readonly DayOfHours<One>[] {
  const days: { day: string; hours: One[] }[] = [];
  for (const hour of hours) {
    const day = dayText(hour.local);
    const last = days.at(-1);
    if (last?.day === day) last.hours.push(hour);
    else days.push({ day, hours: [hour] });
  }
  return days;
}

/** Hours that follow each other and have the same to say, as one. */
export function stretches<One extends Hour & Pick<AwningHourAnswer, "why">>(
  hours: readonly One[],
): readonly { readonly first: One; readonly last: One }[] {
  const found: { first: One; last: One }[] = [];
  for (const hour of hours) {
    const before = found.at(-1);
    if (before?.first.signal === hour.signal && before.first.why === hour.why) before.last = hour;
    else found.push({ first: hour, last: hour });
  }
  return found;
}

/** How many hours have each signal, the one that warns first. */
export function counted(hours: readonly Hour[]): readonly { readonly signal: HourSignal; readonly count: number }[] {
  return (Object.keys(SIGNALS) as HourSignal[]).map((signal) => ({
    signal,
    count: hours.filter((hour) => hour.signal === signal).length,
  }));
}
