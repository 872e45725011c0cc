/**
 * The hours of a stay: does the forecast call for taking the awning in? `no retract signal` is the absence of a
 * warning, never a permission.
 */
import type { UnitSystem } from "../units/print.ts";
import { type AwningAtSite, type AwningWind, gustAtAwning } from "./awning.ts";
import type { AwningLevel } from "./awning-class.ts";
import type { WindForecast, WindStretch } from "./forecast.ts";
import type { Rose } from "./rose.ts";

export type HourSignal = "no retract signal" | "retract" | "unknown";

export interface AwningHour {
  /** Milliseconds since 1970, UTC. */
  readonly start: number;
  readonly end: number;
  readonly signal: HourSignal;
  readonly level: AwningLevel;
  /** The stretch of the forecast that decides; null where the forecast has none. */
  readonly forecast: WindStretch | null;
  /** That wind at the awning; null when unknown. */
  readonly wind: AwningWind | null;
  /** One sentence. */
  readonly why: string;
}

export interface HoursQuery {
  readonly rose: Rose;
  readonly awning: AwningAtSite;
  /** Null when there is none. */
  readonly forecast: WindForecast | null;
  /** First and last moment of the stay; hours are counted from `from`, which the caller puts on a local full hour. */
  readonly from: number;
  readonly to: number;
  /** The present moment: the age of the forecast counts from it. */
  readonly now: number;
  readonly units?: UnitSystem;
}

const MILLISECONDS_PER_HOUR = 3_600_000;
/** Hours after which a forecast is too old to clear an hour, and how far ahead it may look to do so. Assumed. */
export const FRESH_HOURS = 6;
export const HORIZON_HOURS = 72;
/** A stay has at most so many hours here: a year. */
export const MOST_HOURS = 8784;

const RANK: Readonly<Record<HourSignal, number>> = { "no retract signal": 0, unknown: 1, retract: 2 };

/** One answer for each hour that the stay touches. Throws RangeError for a stay that is no stretch of time. */
export function awningHours(query: HoursQuery): readonly AwningHour[] {
  return starts(query.from, query.to).map((start) => hour(query, start));
}

/** The hours of a stay at a place whose wind nobody can know. */
export function unknownHours(from: number, to: number, why: string): readonly AwningHour[] {
  return starts(from, to).map((start) => unknownHour(start, start + MILLISECONDS_PER_HOUR, why));
}

function starts(from: number, to: number): readonly number[] {
  const count = Math.ceil((to - from) / MILLISECONDS_PER_HOUR);
  if (!(count >= 0 && count <= MOST_HOURS)) throw new RangeError(`a stay cannot have ${count} hours`);
  return Array.from({ length: count }, (_, index) => from + index * MILLISECONDS_PER_HOUR);
}

function hour(query: HoursQuery, start: number): AwningHour {
  const end = start + MILLISECONDS_PER_HOUR;
  const { forecast } = query;
  if (forecast === null) return unknownHour(start, end, "There is no forecast for this hour.");
  const touched = forecast.stretches.filter((stretch) => stretch.start < end && stretch.end > start);
  const judged = touched.map((stretch) => judge(query, forecast, stretch, start, end));
  if (!covers(touched, start, end)) {
    judged.push(unknownHour(start, end, "The forecast does not cover this hour."));
  }
  return judged.reduce(worse);
}

/** The answer that warns more; of two like answers the one with the higher pressure. */
function worse(a: AwningHour, b: AwningHour): AwningHour {
  const order = RANK[b.signal] - RANK[a.signal];
  if (order !== 0) return order > 0 ? b : a;
  return highest(b) > highest(a) ? b : a;
}

function highest({ wind }: AwningHour): number {
  return wind?.band?.high ?? 0;
}

/** The hour that warns most, of like ones that with the highest pressure; null when no hour has a wind or a hazard. */
export function worstHour(hours: readonly AwningHour[]): AwningHour | null {
  const known = hours.filter(({ wind }) => wind !== null && wind.level !== "unknown");
  const [first, ...others] = known;
  if (first === undefined) return null;
  return others.reduce((a, b) => {
    if (isRetract(a) !== isRetract(b)) return isRetract(b) ? b : a;
    return highest(b) > highest(a) ? b : a;
  }, first);
}

const isRetract = ({ signal }: AwningHour): boolean => signal === "retract";

/** Stretches come in order and do not overlap. */
function covers(touched: readonly WindStretch[], start: number, end: number): boolean {
  let reached = start;
  for (const stretch of touched) {
    if (stretch.start > reached) return false;
    reached = Math.max(reached, stretch.end);
  }
  return reached >= end;
}

function judge(
  query: HoursQuery,
  forecast: WindForecast,
  stretch: WindStretch,
  start: number,
  end: number,
): AwningHour {
  const { rose, awning, units = "metric" } = query;
  const wind = gustAtAwning(rose, stretch, awning, { units });
  const facts = { start, end, level: wind.level, forecast: stretch, wind };
  if (wind.level === "retract") return { ...facts, signal: "retract", why: wind.why };
  const doubt = doubtOf(wind, forecast, start, query.now);
  if (doubt !== null) return { ...facts, signal: "unknown", why: `${wind.why} ${doubt}` };
  return { ...facts, signal: "no retract signal", why: wind.why };
}

/** Why an hour that does not call for retracting cannot be cleared either; null when it can. */
function doubtOf(wind: AwningWind, forecast: WindForecast, start: number, now: number): string | null {
  if (wind.band === null) return "So nothing is said about the awning.";
  if (wind.band.high >= wind.limit) return "With the forecast's error and uplift it may reach the limit.";
  const made = Math.min(forecast.issuedAt ?? forecast.checkedAt, forecast.checkedAt);
  if (Number.isNaN(made)) return "Nobody says when the forecast was made, so it cannot be relied on.";
  const age = now - made;
  if (!(age >= 0 && age <= FRESH_HOURS * MILLISECONDS_PER_HOUR)) return "The forecast is too old to rely on.";
  if (start - now > HORIZON_HOURS * MILLISECONDS_PER_HOUR) return "This hour is too far ahead to rely on the forecast.";
  return null;
}

function unknownHour(start: number, end: number, why: string): AwningHour {
  return { start, end, signal: "unknown", level: "unknown", forecast: null, wind: null, why };
}
