/** Brings a stay and its forecast together, within a small budget of time; without a forecast the hours are unknown. */
import { type When, type WhenAsked, whenAsked } from "../fit/wind/when.ts";
import type { ForecastAnswer, ForecastService } from "../records/forecast/service.ts";
import { type Place, placeOf } from "../records/place.ts";
import type { CampgroundFeature } from "../site/feature.ts";

export interface Weather {
  /** Null when no feed is set up. */
  readonly forecasts: ForecastService | null;
  /** Milliseconds since 1970. */
  readonly now: () => number;
  /** Milliseconds that a question may wait for a forecast. */
  readonly patience: number;
}

/** Forecasts are for cells of some kilometres: places this near, in degrees, share one. */
const STEPS_PER_DEGREE = 100;

/** Null when nothing was asked. Never throws, and takes no longer than the patience. */
export async function whenOf(
  asked: Parameters<typeof whenAsked>[0] | undefined,
  feature: CampgroundFeature,
  weather: Weather,
): Promise<When | null> {
  if (asked === undefined) return null;
  const read: WhenAsked = whenAsked(asked);
  if (read.kind === "wind") return read;
  const { from, to } = read;
  if (read.kind === "forecast") {
    return { kind: "stay", from, to, forecast: read.forecast, problem: null, now: read.asOf ?? weather.now() };
  }
  const found = await forecastAt(placeOf(feature), weather);
  const now = weather.now();
  if (!found.ok)
    return { kind: "stay", from, to, forecast: null, problem: { code: found.code, text: found.text }, now };
  const problem = found.warning === null ? null : { code: "stale", text: found.warning };
  return { kind: "stay", from, to, forecast: found.forecast, problem, now };
}

async function forecastAt(place: Place | null, { forecasts, patience }: Weather): Promise<ForecastAnswer> {
  if (forecasts === null) {
    return { ok: false, code: "no-provider", text: "No forecast is set up here, so the hours are unknown." };
  }
  if (place === null) {
    return { ok: false, code: "bad-place", text: "Where the site lies is not on record, so no forecast can be had." };
  }
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<ForecastAnswer>((resolve) => {
    const text = "The forecast did not come in time, so the hours are unknown.";
    timer = setTimeout(() => resolve({ ok: false, code: "timed-out", text }), patience);
  });
  try {
    return await Promise.race([late, forecasts.wind(rounded(place))]);
  } finally {
    clearTimeout(timer);
  }
}

function rounded({ longitude, latitude }: Place): Place {
  const round = (degrees: number) => Math.round(degrees * STEPS_PER_DEGREE) / STEPS_PER_DEGREE;
  return { longitude: round(longitude), latitude: round(latitude) };
}
