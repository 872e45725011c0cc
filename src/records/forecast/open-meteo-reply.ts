/**
 * Replies of Open-Meteo. Speeds and directions are those of the moment, a gust is the highest of the hour before its
 * stamp: an hour takes the gust stamped at its end, and the means and directions of both its ends.
 */
import { z } from "zod";
import { roughDistance } from "../../geo/longitude-latitude.ts";
import type { LonLat } from "../../geo/tangent-plane.ts";
import type { WindForecast, WindStretch } from "../../wind/forecast.ts";
import { bearingReader, type ReadValue, speedReader } from "./feed-units.ts";
import { MILLISECONDS_PER_HOUR } from "./hour-grid.ts";
import { parseInstant } from "./interval.ts";
import { ForecastRefusal } from "./refusal.ts";

const MOST_HOURS = 480;
/** WMO weather code from which on a thunderstorm is meant (95 to 99, from memory). */
const THUNDERSTORM_FROM = 95;
/** Metres between a place and the middle of its grid cell; the coarsest grids have cells of half a degree. */
const FARTHEST_CELL = 60_000;
const values = z.array(z.number().nullable()).max(MOST_HOURS);

const hourlyReply = z.object({
  latitude: z.number(),
  longitude: z.number(),
  utc_offset_seconds: z.literal(0),
  hourly_units: z.record(z.string(), z.string()),
  hourly: z.object({
    time: z.array(z.string()).max(MOST_HOURS),
    wind_speed_10m: values,
    wind_gusts_10m: values.optional(),
    wind_direction_10m: values.optional(),
    weather_code: values.optional(),
  }),
});

type Reading = Pick<WindForecast, "issuedAt" | "stretches" | "notes">;
type Column = readonly (number | null)[];

/**
 * The wind of a reply, hour by hour. Throws ForecastRefusal; also for a reply about several places or, when `place` is
 * given, about another one.
 */
export function readHourly(reply: unknown, place: LonLat | null = null): Reading {
  const read = hourlyReply.safeParse(reply);
  if (!read.success) throw new ForecastRefusal("unreadable", "The forecast's reply is not the hourly form asked for.");
  const { hourly, hourly_units: units, latitude, longitude } = read.data;
  if (place !== null && roughDistance(place, { latitude, longitude }) > FARTHEST_CELL) {
    throw new ForecastRefusal("implausible", "The forecast's reply is about another place.");
  }
  const times = hourly.time.map(utcHour);
  const none: Column = times.map(() => null);
  const column = (name: keyof typeof hourly, reader: (unit: string | undefined) => ReadValue): Column => {
    const given = hourly[name] as Column | undefined;
    if (given === undefined) return none;
    if (given.length !== times.length) throw unevenColumns();
    const si = reader(units[name]);
    return given.map((value) => (value === null ? null : si(value)));
  };
  const means = column("wind_speed_10m", speedReader);
  const gusts = column("wind_gusts_10m", speedReader);
  const bearings = column("wind_direction_10m", bearingReader);
  const codes = column("weather_code", () => (value) => value);
  const stretches: WindStretch[] = [];
  for (let index = 1; index < times.length; index += 1) {
    const start = times[index - 1]!;
    const end = times[index]!;
    if (end - start !== MILLISECONDS_PER_HOUR) throw unevenColumns();
    const ends = [index - 1, index];
    stretches.push({
      start,
      end,
      gust: gusts[index]!,
      mean: highest(ends.map((at) => means[at]!)),
      directions: [...new Set(ends.flatMap((at) => bearings[at] ?? []))],
      hazards: ends.some((at) => (codes[at] ?? 0) >= THUNDERSTORM_FROM) ? ["thunderstorm"] : [],
    });
  }
  const notes = hourly.weather_code === undefined ? ["The forecast holds no thunderstorms."] : [];
  if (hourly.wind_gusts_10m === undefined) notes.push("The forecast holds no gusts.");
  return { issuedAt: null, stretches, notes };
}

function highest(found: readonly (number | null)[]): number | null {
  const known = found.filter((value) => value !== null);
  return known.length === 0 ? null : Math.max(...known);
}

/** Times come without a zone, in the zone asked for: UTC. */
function utcHour(text: string): number {
  const value = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/.test(text) ? parseInstant(`${text}Z`) : null;
  if (value === null) throw new ForecastRefusal("unreadable", "The forecast's reply holds a time that cannot be read.");
  return value;
}

function unevenColumns(): ForecastRefusal {
  return new ForecastRefusal("unreadable", "The forecast's columns do not run hour by hour side by side.");
}
