/** The wind asked about, at one awning: the wind by hand, or the hours of the stay with the worst of them. */
import type { UnitSystem } from "../../units/print.ts";
import { type AwningAtSite, type AwningWind, gustAtAwning, type Wind } from "../../wind/awning.ts";
import { AWNING_CAUTION, WIND_FLAG_TEXTS, WIND_NOT_MODELLED } from "../../wind/flags.ts";
import { knownGust } from "../../wind/gust.ts";
import { type AwningHour, awningHours, unknownHours, worstHour } from "../../wind/hours.ts";
import { type LocalZone, localDays, localText, localZone } from "../../wind/local-time.ts";
import type { Rose } from "../../wind/rose.ts";
import type { AwningHourAnswer, AwningWindAnswer, WindAnswer } from "./answer.ts";
import type { StayWhen, When } from "./when.ts";

export interface AwningJudged {
  readonly wind: AwningWindAnswer | null;
  /** Null when no stay was asked about. */
  readonly hours: readonly AwningHourAnswer[] | null;
}

export interface WindQuestion {
  readonly when: When;
  /** Null when the site's place on the earth is not known. */
  readonly rose: Rose | null;
  /** IANA name of the campground's record; null without one. */
  readonly timeZone: string | null;
  readonly units: UnitSystem;
}

const FALLBACK_ZONE = "UTC";
const NO_FORECAST = "There is no forecast for this hour.";
const NO_ROSE = "Where the pad lies on the earth is not on record, so the wind there is not known.";

/** The zone that days and hours are counted in. */
export function zoneOf(timeZone: string | null): { readonly zone: LocalZone; readonly given: boolean } {
  const zone = timeZone === null ? null : localZone(timeZone);
  return zone === null ? { zone: localZone(FALLBACK_ZONE)!, given: false } : { zone, given: true };
}

/** What is said once for all awnings. */
export function windAnswer({ when, timeZone, rose }: WindQuestion): WindAnswer {
  const common = { notModelled: WIND_NOT_MODELLED, caution: AWNING_CAUTION };
  if (when.kind === "wind") return { asked: "wind by hand", stay: null, forecast: null, problem: null, ...common };
  const { zone, given } = zoneOf(timeZone);
  const { start, end } = localDays(zone, when.from, when.to);
  const { forecast } = when;
  return {
    asked: "stay",
    stay: {
      from: when.from,
      to: when.to,
      timeZone: zone.name,
      timeZoneGiven: given,
      start: iso(start),
      end: iso(end),
      asOf: iso(when.now),
    },
    forecast:
      forecast === null
        ? null
        : {
            source: forecast.source,
            attribution: forecast.attribution,
            issuedAt: forecast.issuedAt === null ? null : iso(forecast.issuedAt),
            checkedAt: Number.isNaN(forecast.checkedAt) ? null : iso(forecast.checkedAt),
            notes: forecast.notes,
          },
    problem: when.problem ?? (rose === null ? { code: "no-place", text: NO_ROSE } : null),
    ...common,
  };
}

/** One awning. */
export function judgeAwning(question: WindQuestion, awning: AwningAtSite): AwningJudged {
  const { when, rose, units } = question;
  if (when.kind === "wind") {
    if (rose === null) return { wind: null, hours: null };
    const found = gustAtAwning(rose, when.wind, awning, { units });
    return { wind: windFacts(found, when.wind, awning, null), hours: null };
  }
  const { zone } = zoneOf(question.timeZone);
  const hours = hoursOf(when, zone, rose, awning, units);
  const worst = worstHour(hours);
  return {
    wind: worst === null ? null : windFacts(worst.wind!, worst.forecast!, awning, localText(zone, worst.start)),
    hours: hours.map((hour) => hourFacts(hour, zone)),
  };
}

function hoursOf(
  { forecast, from, to, now, problem }: StayWhen,
  zone: LocalZone,
  rose: Rose | null,
  awning: AwningAtSite,
  units: UnitSystem,
): readonly AwningHour[] {
  const { start, end } = localDays(zone, from, to);
  if (rose === null) return unknownHours(start, end, NO_ROSE);
  if (forecast === null) return unknownHours(start, end, problem?.text ?? NO_FORECAST);
  return awningHours({ rose, awning, forecast, from: start, to: end, now, units });
}

function windFacts(found: AwningWind, wind: Wind, awning: AwningAtSite, hour: string | null): AwningWindAnswer {
  const { level, speed, expectedSpeed, pressure, band, limit, utilisation, windClass, sector, shelterBy } = found;
  return {
    of: hour === null ? "wind by hand" : "worst hour",
    hour,
    level,
    gust: gustOf(wind),
    from: wind.directions ?? [],
    speed,
    expectedSpeed,
    pressure,
    band,
    limit,
    utilisation,
    windClass,
    classAssumed: awning.windClass === null,
    sector,
    shelterBy,
    confidence: found.confidence,
    flags: found.flags.map((id) => ({ id, text: WIND_FLAG_TEXTS[id] })),
    why: found.why,
  };
}

function hourFacts({ start, end, signal, level, forecast, wind, why }: AwningHour, zone: LocalZone): AwningHourAnswer {
  return {
    local: localText(zone, start),
    start: iso(start),
    end: iso(end),
    signal,
    level,
    gust: forecast === null ? null : gustOf(forecast),
    from: forecast?.directions ?? [],
    speed: wind?.speed ?? null,
    band: wind?.band ?? null,
    why,
  };
}

function gustOf({ gust = null, mean = null }: Wind): number | null {
  return knownGust(gust, mean)?.speed ?? null;
}

const iso = (instant: number): string => new Date(instant).toISOString();
