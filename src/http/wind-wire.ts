/** The wind of an answer on the wire: bearings in degrees, the rose without what only the drawing needs. */
import type * as z from "zod";
import type { AwningAnswer, Fit } from "../fit/answer.ts";
import type { AwningHourAnswer, AwningWindAnswer, ExposureRose, SiteExposure } from "../fit/wind/answer.ts";
import { WIND_FLAG_TEXTS } from "../wind/flags.ts";
import { compassWord } from "../wind/sector.ts";
import { degreesOf } from "./degrees.ts";
import type { windReportSchema } from "./schemas/wind.ts";
import type { awningHourSchema, awningWindSchema, exposureRoseSchema, exposureSchema } from "./schemas/wind-parts.ts";
import type { SiteWind } from "./wind-case.ts";

export function windToWire(fit: Fit) {
  return {
    exposure: fit.exposure === null ? null : exposureToWire(fit.exposure),
    exposureRose: fit.exposureRose === null ? null : roseToWire(fit.exposureRose),
    awning: fit.awning.map(awningToWire),
  };
}

function awningToWire(awning: AwningAnswer) {
  return { ...awning, azimuth: awning.azimuth === null ? null : degreesOf(awning.azimuth), ...judgedToWire(awning) };
}

export function siteWindToWire(found: SiteWind): z.output<typeof windReportSchema> {
  const { exposure, exposureRose, azimuth, windClass, judged, ...rest } = found;
  return {
    ...rest,
    exposure: exposure === null ? null : exposureToWire(exposure),
    exposureRose: exposureRose === null ? null : roseToWire(exposureRose),
    awning: { azimuth: azimuth === null ? null : degreesOf(azimuth), windClass, ...judgedToWire(judged) },
  };
}

/** The wind and the hours of one awning. */
function judgedToWire({ wind, hours }: Pick<AwningAnswer, "wind" | "hours">) {
  return { wind: wind === null ? null : windOneToWire(wind), hours: hours?.map(hourToWire) ?? null };
}

/** Exposure with its bearing in degrees. */
export function exposureToWire({ prevailing, ...rest }: SiteExposure): z.output<typeof exposureSchema> {
  return { ...rest, prevailing: prevailing === null ? null : { ...prevailing, from: degreesOf(prevailing.from) } };
}

function roseToWire({ height, season, flags, sectors }: ExposureRose): z.output<typeof exposureRoseSchema> {
  return {
    height,
    season,
    flags: flags.map((id) => ({ id, text: WIND_FLAG_TEXTS[id] })),
    sectors: sectors.map((sector) => ({
      from: degreesOf(sector.from),
      word: compassWord(sector.from),
      category: sector.category,
      shelter: sector.shelter,
      ratio: sector.ratio,
      ratioLow: sector.ratioLeast,
      ratioHigh: sector.ratioSound,
      by: sector.by,
      confidence: sector.confidence,
      level: sector.level,
    })),
  };
}

function windOneToWire(wind: AwningWindAnswer): z.output<typeof awningWindSchema> {
  return { ...wind, from: wind.from.map(degreesOf) };
}

function hourToWire(hour: AwningHourAnswer): z.output<typeof awningHourSchema> {
  return { ...hour, from: hour.from.map(degreesOf) };
}
