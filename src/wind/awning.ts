/**
 * A wind at the awning of one rig at one site: gust at awning height, pressure, and its share of the awning's class.
 * A warning, never a permission: the model knows neither hills nor gaps nor downbursts, and the class is a yardstick.
 */
import table from "../../data/awning-wind-classes.json" with { type: "json" };
import { turnBetween } from "../geo/tangent-plane.ts";
import type { UnitSystem } from "../units/print.ts";
import { type AwningLevel, awningClass, levelOf } from "./awning-class.ts";
import type { WindFlag } from "./flags.ts";
import { type KnownGust, knownGust } from "./gust.ts";
import { dynamicPressure, orientationFactor, UPLIFT_FACTOR } from "./pressure.ts";
import type { Rose, Sector, ShelteredBy } from "./rose.ts";
import { awningSentence } from "./say.ts";
import { compassWord, nearestSector, sectorsAround } from "./sector.ts";
import type { Confidence } from "./sheltering.ts";

/** A wind at 10 m over open country. Missing is unknown. */
export interface Wind {
  /** Metres per second. */
  readonly gust?: number | null;
  /** Mean over ten minutes, metres per second. */
  readonly mean?: number | null;
  /** True bearings that it may come from, radians; several when it turns within the time meant. */
  readonly directions?: readonly number[];
  /** Words for thunderstorms and warnings of wind; any of them means retract. */
  readonly hazards?: readonly string[];
}

export interface AwningAtSite {
  /** True bearing from the rig out over the open awning, radians; null when unknown. */
  readonly azimuth: number | null;
  /** EN 13561 class 0 to 6; null when unknown. */
  readonly windClass: number | null;
}

export interface AwningWind {
  readonly level: AwningLevel;
  /** Gust at the awning from the worst direction near the forecast's, metres per second; null when unknown. */
  readonly speed: number | null;
  /** The same from the nearest direction alone. */
  readonly expectedSpeed: number | null;
  /** Newtons per square metre. */
  readonly pressure: number | null;
  /** Pressure over the nominal pressure of the class. */
  readonly utilisation: number | null;
  /** Pressures with the gust a fifth lower and the optimistic shelter, and a fifth higher with uplift. */
  readonly band: { readonly low: number; readonly high: number } | null;
  /** Nominal pressure of the class, newtons per square metre. */
  readonly limit: number;
  readonly windClass: number;
  /** The direction judged, as a compass word; null when no wind is known. */
  readonly sector: string | null;
  readonly shelterBy: ShelteredBy | null;
  readonly confidence: Confidence | null;
  readonly flags: readonly WindFlag[];
  /** One sentence. */
  readonly why: string;
}

export interface AwningOptions {
  readonly units?: UnitSystem;
}

const GUST_ERROR = table.gustError.share;

/** Judges a wind at an awning; the rose is that of the awning's height. */
export function gustAtAwning(rose: Rose, wind: Wind, awning: AwningAtSite, options: AwningOptions = {}): AwningWind {
  const { units = "metric" } = options;
  const known = knownGust(wind.gust ?? null, wind.mean ?? null);
  const hazards = wind.hazards ?? [];
  const used = awningClass(awning.windClass);
  const directions = wind.directions ?? [];
  const flags = flagsOf(rose, known, awning, directions, hazards);
  if (used.unusual) flags.push("class-unusual");
  const base = { limit: used.limit, windClass: used.class };
  if (known === null) {
    const level: AwningLevel = hazards.length > 0 ? "retract" : "unknown";
    const why = awningSentence({ level, hazards, known, units, used });
    return { ...base, ...NOTHING_KNOWN, level, flags, why };
  }
  const sectors = candidates(rose, directions);
  const worst = sectors.reduce((a, b) => (b.ratio > a.ratio ? b : a));
  const orientation = orientationOf(awning.azimuth, directions);
  const speed = known.speed * worst.ratio;
  const pressure = dynamicPressure(speed) * orientation;
  const utilisation = pressure / used.limit;
  const soundRatio = Math.max(...sectors.map((sector) => sector.ratioSound));
  const least = dynamicPressure(known.speed * (1 - GUST_ERROR) * worst.ratioLeast) * orientation;
  const most = dynamicPressure(known.speed * (1 + GUST_ERROR) * soundRatio) * UPLIFT_FACTOR;
  const soundUtilisation = (dynamicPressure(known.speed * soundRatio) * orientation) / used.limit;
  const level = levelWith(utilisation, soundUtilisation, hazards);
  if (level === "moderate" && levelOf(utilisation) === "low") flags.push("shelter-uncertain");
  const why = awningSentence({ level, hazards, known, units, used, worst, speed, pressure, directions });
  return {
    ...base,
    level,
    speed,
    expectedSpeed: known.speed * expectedRatio(rose, directions, worst),
    pressure,
    utilisation,
    band: { low: Math.min(least, pressure), high: Math.max(most, pressure) },
    sector: compassWord(worst.from),
    shelterBy: worst.by,
    confidence: worst.confidence,
    flags,
    why,
  };
}

const NOTHING_KNOWN = {
  speed: null,
  expectedSpeed: null,
  pressure: null,
  utilisation: null,
  band: null,
  sector: null,
  shelterBy: null,
  confidence: null,
} as const;

function flagsOf(
  rose: Rose,
  known: KnownGust | null,
  awning: AwningAtSite,
  directions: readonly number[],
  hazards: readonly string[],
): WindFlag[] {
  const flags: WindFlag[] = [...rose.flags];
  if (hazards.length > 0) flags.push("hazard");
  if (known?.estimated === true) flags.push("gust-estimated");
  if (known !== null && directions.length === 0) flags.push("direction-unknown");
  if (awning.azimuth === null) flags.push("awning-side-unknown");
  if (awning.windClass === null) flags.push("class-assumed");
  return flags;
}

/** Directions within one step of the forecast's; all sixteen when it gives none. */
function candidates(rose: Rose, directions: readonly number[]): readonly Sector[] {
  if (directions.length === 0) return rose.sectors;
  const places = new Set(directions.flatMap(sectorsAround));
  return [...places].map((place) => rose.sectors[place]!);
}

function expectedRatio(rose: Rose, directions: readonly number[], worst: Sector): number {
  if (directions.length === 0) return worst.ratio;
  return Math.max(...directions.map((direction) => rose.sectors[nearestSector(direction)]!.ratio));
}

/** The share of the pressure that the awning takes; all of it when either direction is unknown. */
function orientationOf(azimuth: number | null, directions: readonly number[]): number {
  if (azimuth === null || directions.length === 0) return orientationFactor(0);
  return Math.max(...directions.map((direction) => orientationFactor(turnBetween(azimuth, direction))));
}

/** Shelter that is not to be trusted never brings a level below moderate. */
function levelWith(utilisation: number, soundUtilisation: number, hazards: readonly string[]): AwningLevel {
  if (hazards.length > 0) return "retract";
  const level = levelOf(utilisation);
  return level === "low" && levelOf(soundUtilisation) !== "low" ? "moderate" : level;
}
