/** Replies of the United States National Weather Service: where the grid of a place is, and what the grid says. */
import { z } from "zod";
import table from "../../../data/weather-service.json" with { type: "json" };
import type { WindForecast, WindStretch } from "../../wind/forecast.ts";
import { bearingReader, type ReadValue, speedReader } from "./feed-units.ts";
import { HourGrid, MILLISECONDS_PER_HOUR } from "./hour-grid.ts";
import { parseInstant, parseInterval } from "./interval.ts";
import { ForecastRefusal } from "./refusal.ts";

export const WEATHER_SERVICE_ORIGIN = "https://api.weather.gov";
const GRID_PATH = /^\/gridpoints\/[A-Z]{3}\/\d{1,4},\d{1,4}$/;
const MOST_VALUES = 2000;
const MOST_WORDS = 50;

const numbers = z.object({
  uom: z.string().optional(),
  values: z.array(z.object({ validTime: z.string(), value: z.number().nullable() })).max(MOST_VALUES),
});
const hazard = z.object({ phenomenon: z.string().nullish(), significance: z.string().nullish() });
const weather = z.object({
  coverage: z.string().nullish(),
  weather: z.string().nullish(),
  attributes: z.array(z.string()).max(MOST_WORDS).nullish(),
});

function words<Item extends z.ZodType>(item: Item) {
  const values = z.array(z.object({ validTime: z.string(), value: z.array(item).max(MOST_WORDS).nullable() }));
  return z.object({ values: values.max(MOST_VALUES) });
}

const gridpoint = z.object({
  properties: z.object({
    updateTime: z.string().optional(),
    windSpeed: numbers.optional(),
    windGust: numbers.optional(),
    windDirection: numbers.optional(),
    hazards: words(hazard).optional(),
    weather: words(weather).optional(),
  }),
});
const pointReply = z.object({ properties: z.object({ forecastGridData: z.string() }) });

/** The path of the grid that a place belongs to. An address of another host or form is refused. */
export function readPoint(reply: unknown): string {
  const read = pointReply.safeParse(reply);
  if (!read.success) throw new ForecastRefusal("unreadable", "The weather service's reply names no forecast grid.");
  const address = read.data.properties.forecastGridData;
  const path = address.startsWith(`${WEATHER_SERVICE_ORIGIN}/`) ? address.slice(WEATHER_SERVICE_ORIGIN.length) : "";
  if (!GRID_PATH.test(path)) {
    throw new ForecastRefusal("unreadable", "The weather service's reply names a forecast grid at a strange address.");
  }
  return path;
}

type Reading = Pick<WindForecast, "issuedAt" | "stretches" | "notes">;

/** The wind of a grid reply, hour by hour. Throws ForecastRefusal. */
export function readGridpoint(reply: unknown): Reading {
  const read = gridpoint.safeParse(reply);
  if (!read.success) throw new ForecastRefusal("unreadable", "The weather service's reply is no forecast grid.");
  const { windSpeed, windGust, windDirection, hazards, weather: conditions, updateTime } = read.data.properties;
  if (windSpeed === undefined && windGust === undefined) {
    throw new ForecastRefusal("unreadable", "The weather service's grid holds no wind.");
  }
  const notes = ["Short warnings of thunderstorms are not all in the forecast grid."];
  if (windGust === undefined) notes.push("The forecast grid holds no gusts.");
  if (hazards === undefined) notes.push("The forecast grid holds no warnings.");
  const gusts = laid(windGust, speedReader);
  const means = laid(windSpeed, speedReader);
  const directions = laid(windDirection, bearingReader);
  const warnings = new HourGrid<string>();
  for (const { validTime, value } of hazards?.values ?? [])
    addAll(warnings, validTime, (value ?? []).flatMap(hazardWord));
  for (const { validTime, value } of conditions?.values ?? []) {
    addAll(warnings, validTime, (value ?? []).flatMap(weatherWords));
  }
  const starts = new Set([...gusts.starts(), ...means.starts(), ...warnings.starts()]);
  const stretches = [...starts]
    .sort((a, b) => a - b)
    .map(
      (start): WindStretch => ({
        start,
        end: start + MILLISECONDS_PER_HOUR,
        gust: highest(gusts.at(start)),
        mean: highest(means.at(start)),
        directions: [...new Set(directions.at(start))],
        hazards: [...new Set(warnings.at(start))],
      }),
    );
  return { issuedAt: updateTime === undefined ? null : parseInstant(updateTime), stretches, notes };
}

/** Nulls are left out: missing is missing. */
function laid(layer: z.output<typeof numbers> | undefined, reader: (unit: string | undefined) => ReadValue) {
  const grid = new HourGrid<number>();
  if (layer === undefined) return grid;
  const si = reader(layer.uom);
  for (const { validTime, value } of layer.values) {
    const interval = parseInterval(validTime);
    if (value !== null) grid.add(interval, si(value));
  }
  return grid;
}

function addAll(grid: HourGrid<string>, validTime: string, found: readonly string[]): void {
  const interval = parseInterval(validTime);
  for (const word of found) grid.add(interval, word);
}

function highest(values: readonly number[]): number | null {
  return values.length === 0 ? null : Math.max(...values);
}

function lookUp(words: object, key: string | null | undefined): string | undefined {
  return key && Object.hasOwn(words, key) ? (words as Readonly<Record<string, string>>)[key] : undefined;
}

/** "gale warning"; nothing for what is no wind. */
function hazardWord({ phenomenon, significance }: z.output<typeof hazard>): readonly string[] {
  const what = lookUp(table.phenomena.codes, phenomenon);
  if (what === undefined) return [];
  return [[what, lookUp(table.phenomena.significance, significance)].filter(Boolean).join(" ")];
}

/** "thunderstorm (slight chance)", "damaging wind". */
function weatherWords({ coverage, weather: type, attributes }: z.output<typeof weather>): readonly string[] {
  const found = (attributes ?? []).flatMap((word) => lookUp(table.weather.attributes, word) ?? []);
  const what = lookUp(table.weather.types, type);
  if (what === undefined) return found;
  const how = /^[a-z_]{1,20}$/.test(coverage ?? "") ? ` (${(coverage as string).replaceAll("_", " ")})` : "";
  return [`${what}${how}`, ...found];
}
