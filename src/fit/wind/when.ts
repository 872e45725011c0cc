/**
 * When a fit is asked for: the days of a stay, a wind given by hand, or days with a forecast that the caller brings.
 * The schema reads the wire form; the fit is handed a `When`, whose forecast and present moment come from whoever asks,
 * because this room knows neither network nor clock.
 */
import * as z from "zod";
import { direction } from "../../geo/compass.ts";
import { quantity } from "../../units/schema.ts";
import type { Wind } from "../../wind/awning.ts";
import type { WindForecast, WindStretch } from "../../wind/forecast.ts";
import { daysBetween, isDate } from "../../wind/local-time.ts";
import { FASTEST_WIND, parseWind, WIND_FORM } from "../../wind/wind-text.ts";

const LONGEST_SOURCE = 200;
const LONGEST_HAZARD = 100;
const MOST_HAZARDS = 20;
const MILLISECONDS_PER_HOUR = 3_600_000;
/** Days of one stay that are told hour by hour. */
export const MOST_STAY_DAYS = 32;
/** Hours of one forecast that is handed in. */
export const MOST_FORECAST_HOURS = 800;
const INSTANT = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d{1,3})?)?(Z|[+-]\d{2}:\d{2})$/;
const INSTANT_FORM = "a moment with its offset, for instance 2026-07-04T14:00-06:00 or 2026-07-04T20:00Z";
const DATE_FORM = "a date such as 2026-07-03";

const date = (description: string) =>
  z
    .string()
    .refine(isDate, { error: `This must be ${DATE_FORM}.`, params: { expected: DATE_FORM } })
    .meta({
      description,
      format: "date",
      examples: ["2026-07-03"],
    });

/** Milliseconds since 1970. */
const instant = (description: string) =>
  z
    .string()
    .meta({ description, examples: ["2026-07-04T20:00Z"] })
    .transform((text, context): number => {
      const value = INSTANT.test(text) && isDate(text.slice(0, "YYYY-MM-DD".length)) ? Date.parse(text) : Number.NaN;
      if (!Number.isNaN(value)) return value;
      const params = { fault: "bad-form", expected: INSTANT_FORM };
      context.addIssue({ code: "custom", message: `This must be ${INSTANT_FORM}.`, params });
      return z.NEVER;
    })
    .pipe(z.number());

const speed = (description: string) => quantity("speed", { min: 0, max: FASTEST_WIND, description });

const windMembers = {
  gust: speed("Highest gust at 10 m over open country.").optional(),
  mean: speed("Mean over ten minutes at 10 m over open country.").optional(),
  from: direction("True direction that the wind comes from; left out, the worst of all is judged.").optional(),
  hazards: z
    .array(z.string().min(1).max(LONGEST_HAZARD))
    .max(MOST_HAZARDS)
    .optional()
    .meta({ description: "Words for thunderstorms and warnings of wind; any of them means retract." }),
};

const handWind = z
  .union(
    [
      z
        .string()
        .meta({ description: "In words.", examples: ["20 mph from SW", "gusting 30 mph", "8 m/s from 225 deg"] }),
      z.strictObject(windMembers),
    ],
    { error: `This must be ${WIND_FORM}.` },
  )
  .transform((input, context): Wind => {
    if (typeof input !== "string") return windOf(input);
    const read = parseWind(input);
    if (read.ok) return read.wind;
    context.addIssue({ code: "custom", message: read.message, params: { fault: read.code, expected: read.expected } });
    return z.NEVER;
  })
  .pipe(z.custom<Wind>());

const forecastHour = z
  .strictObject({ start: instant("The hour begins here; it lasts one hour."), ...windMembers })
  .meta({ id: "ForecastHour", description: "One hour of a forecast. What is left out is unknown." });

const givenForecast = z
  .strictObject({
    source: z.string().min(1).max(LONGEST_SOURCE).meta({ description: "Who made it." }),
    attribution: z.string().min(1).max(LONGEST_SOURCE).optional().meta({ description: "Words to show with it." }),
    issuedAt: instant("When it was made. Without it no hour can be cleared.").optional(),
    hours: z.array(forecastHour).max(MOST_FORECAST_HOURS).meta({ description: "In order of time; there may be gaps." }),
  })
  .meta({ id: "GivenForecast", description: "A forecast that the caller brings." });

export const whenSchema = z
  .strictObject({
    from: date("Day of arrival in the campground's time zone.").optional(),
    to: date("Day of departure, itself counted; the same day for a visit.").optional(),
    wind: handWind.optional().meta({ description: "One wind instead of days." }),
    forecast: givenForecast.optional(),
    asOf: instant(
      "The moment from which the age of the forecast handed in counts, to replay a day. Default: now.",
    ).optional(),
  })
  .superRefine((when, context) => {
    const fault = (message: string, expected: string, path: (string | number)[]) =>
      context.addIssue({ code: "custom", message, path, params: { fault: "conflict", expected } });
    const { from, to, wind, forecast, asOf } = when;
    if (wind !== undefined) {
      for (const key of ["from", "to", "forecast", "asOf"] as const) {
        if (when[key] !== undefined) fault("A wind by hand stands alone.", "wind, or from and to", [key]);
      }
      return;
    }
    for (const key of ["from", "to"] as const) {
      if (when[key] === undefined) {
        const params = { fault: "missing", expected: DATE_FORM };
        context.addIssue({ code: "custom", message: `This is missing: write ${DATE_FORM}.`, path: [key], params });
      }
    }
    if (asOf !== undefined && forecast === undefined)
      fault("Only a forecast handed in can be replayed.", "forecast", ["asOf"]);
    if (from !== undefined && to !== undefined && isDate(from) && isDate(to)) {
      const days = daysBetween(from, to);
      if (days < 0) fault("The stay ends before it begins.", `${from} or later`, ["to"]);
      if (days >= MOST_STAY_DAYS)
        fault(`A stay is told for at most ${MOST_STAY_DAYS} days.`, `at most ${MOST_STAY_DAYS} days`, ["to"]);
    }
    forecast?.hours.forEach(({ start }, index) => {
      const before = forecast.hours[index - 1];
      if (before !== undefined && start < before.start + MILLISECONDS_PER_HOUR) {
        fault("This hour begins before the one above it is over.", "hours in order, each one hour long", [
          ...["forecast", "hours", index],
          "start",
        ]);
      }
    });
  })
  .meta({
    id: "When",
    description:
      "Exactly one of: `from` and `to` (the days of a stay; the forecast is fetched), `wind` (by hand), or `forecast` with `from` and `to` (a forecast that the caller brings).",
  });

type WhenInput = z.output<typeof whenSchema>;

/** A `when` as asked for, before anybody fetched a forecast. */
export type WhenAsked =
  | { readonly kind: "wind"; readonly wind: Wind }
  | { readonly kind: "stay"; readonly from: string; readonly to: string }
  | {
      readonly kind: "forecast";
      readonly from: string;
      readonly to: string;
      readonly forecast: WindForecast;
      /** Milliseconds since 1970; null for the present. */
      readonly asOf: number | null;
    };

/** A stay with what is known of its weather. */
export interface StayWhen {
  readonly kind: "stay";
  /** Local dates of arrival and departure, both counted. */
  readonly from: string;
  readonly to: string;
  /** Null when there is none; then `problem` says why. */
  readonly forecast: WindForecast | null;
  /** Why there is no forecast, or why it is not newer; null when all is well. */
  readonly problem: { readonly code: string; readonly text: string } | null;
  /** The moment from which the age of the forecast counts, milliseconds since 1970. */
  readonly now: number;
}

/** What the fit reads. */
export type When = { readonly kind: "wind"; readonly wind: Wind } | StayWhen;

function windOf({ gust, mean, from, hazards }: Omit<z.output<typeof forecastHour>, "start">): Wind {
  return {
    gust: gust ?? null,
    mean: mean ?? null,
    directions: from === undefined ? [] : [from],
    hazards: hazards ?? [],
  };
}

function stretchOf(hour: z.output<typeof forecastHour>): WindStretch {
  const { gust = null, mean = null, directions = [], hazards = [] } = windOf(hour);
  return { start: hour.start, end: hour.start + MILLISECONDS_PER_HOUR, gust, mean, directions, hazards };
}

/** Tells the three forms apart; the schema has made sure that it is exactly one. */
export function whenAsked(read: WhenInput): WhenAsked {
  if (read.wind !== undefined) return { kind: "wind", wind: read.wind };
  const { from = "", to = "", forecast, asOf } = read;
  if (forecast === undefined) return { kind: "stay", from, to };
  const { source, attribution, issuedAt, hours } = forecast;
  const made: WindForecast = {
    source,
    attribution: attribution ?? `Forecast handed in: ${source}`,
    issuedAt: issuedAt ?? null,
    checkedAt: issuedAt ?? Number.NaN,
    stretches: hours.map(stretchOf),
    notes: [],
  };
  return { kind: "forecast", from, to, forecast: made, asOf: asOf ?? null };
}
