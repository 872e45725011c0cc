/** The wind in an answer: exposure of the site, the wind at each awning, the hours of a stay. SI; bearings in radians. */
import type { AwningLevel } from "../../wind/awning-class.ts";
import type { ExposureWord } from "../../wind/exposure.ts";
import type { HourSignal } from "../../wind/hours.ts";
import type { Rose, Sector, ShelteredBy } from "../../wind/rose.ts";
import type { Confidence } from "../../wind/sheltering.ts";

interface Flagged {
  readonly id: string;
  /** One sentence. */
  readonly text: string;
}

interface Exposed {
  readonly level: ExposureWord;
  /** Gust at the awning over the gust in open country: small is sheltered. */
  readonly ratio: number;
  readonly why: string;
}

/** How the site lies to the wind, without any forecast. */
export interface SiteExposure extends Exposed {
  /** To the prevailing wind that the campground's record states; null when it states none. */
  readonly prevailing: (Exposed & { readonly from: number }) | null;
}

/** The sixteen directions, north first, clockwise; `ratioLeast` and `ratioSound` are the ends of `ratio`. */
export interface ExposureRose extends Rose {
  readonly sectors: readonly (Sector & { readonly level: ExposureWord })[];
}

/** What was asked about the wind, and what the answer about it rests on. */
export interface WindAnswer {
  readonly asked: "wind by hand" | "stay";
  readonly stay: {
    readonly from: string;
    readonly to: string;
    /** IANA name that days and hours are counted in. */
    readonly timeZone: string;
    /** False when the record names no zone that is known: then UTC stands in. */
    readonly timeZoneGiven: boolean;
    /** First and last moment, ISO 8601 in UTC. */
    readonly start: string;
    readonly end: string;
    /** The moment from which the age of the forecast counts. */
    readonly asOf: string;
  } | null;
  readonly forecast: {
    readonly source: string;
    /** Words that must be shown with it. */
    readonly attribution: string;
    /** ISO 8601 in UTC; null when nobody says. */
    readonly issuedAt: string | null;
    readonly checkedAt: string | null;
    readonly notes: readonly string[];
  } | null;
  /** Why there is no forecast, or why it is not newer. */
  readonly problem: { readonly code: string; readonly text: string } | null;
  /** What the model leaves out. */
  readonly notModelled: readonly string[];
  readonly caution: string;
}

/** The wind given by hand, or that of the worst hour of the stay, at one awning. */
export interface AwningWindAnswer {
  readonly of: "wind by hand" | "worst hour";
  /** Local time of the hour, with its offset; null for a wind by hand. */
  readonly hour: string | null;
  readonly level: AwningLevel;
  /** Gust at 10 m over open country, metres per second; estimated from the mean when `flags` say so. */
  readonly gust: number | null;
  /** True bearings that it comes from, radians. */
  readonly from: readonly number[];
  /** Gust at the awning from the worst direction near `from`, and from the nearest alone. */
  readonly speed: number | null;
  readonly expectedSpeed: number | null;
  /** Newtons per square metre. */
  readonly pressure: number | null;
  readonly band: { readonly low: number; readonly high: number } | null;
  /** Pressure that the class is made for. */
  readonly limit: number;
  readonly utilisation: number | null;
  readonly windClass: number;
  readonly classAssumed: boolean;
  /** The direction judged, as a compass word. */
  readonly sector: string | null;
  readonly shelterBy: ShelteredBy | null;
  readonly confidence: Confidence | null;
  readonly flags: readonly Flagged[];
  readonly why: string;
}

/** One hour of a stay at one awning. `no retract signal` is the absence of a warning, never a permission. */
export interface AwningHourAnswer {
  /** Local time with its offset: `2026-07-04T14:00-06:00`. */
  readonly local: string;
  /** ISO 8601 in UTC. */
  readonly start: string;
  readonly end: string;
  readonly signal: HourSignal;
  readonly level: AwningLevel;
  /** Gust at 10 m over open country, and where it comes from. */
  readonly gust: number | null;
  readonly from: readonly number[];
  /** Gust at the awning, metres per second. */
  readonly speed: number | null;
  /** Ends of the pressure, newtons per square metre. */
  readonly band: { readonly low: number; readonly high: number } | null;
  readonly why: string;
}
