/** Sentences about wind, in the caller's units. Speeds and pressures are rounded up: against the awning. */
import { METRES_PER_FOOT } from "../units/factors.ts";
import { plainNumber, roundToSteps } from "../units/number.ts";
import { formatPercent, formatSpeed, type UnitSystem } from "../units/print.ts";
import type { AwningClass, AwningLevel } from "./awning-class.ts";
import type { KnownGust } from "./gust.ts";
import type { Sector, ShelteredBy } from "./rose.ts";
import { compassWord } from "./sector.ts";
import { terrain } from "./terrain.ts";

/** Pressures are no better known than to this many newtons per square metre. */
const PRESSURE_STEP = 5;

/** "55 N/m²", to 5 and up. */
export function windPressureText(pascals: number): string {
  return `${roundToSteps(pascals, PRESSURE_STEP, "up") * PRESSURE_STEP} N/m²`;
}

const KIND_WORDS: Readonly<Record<ShelteredBy["kind"], string>> = {
  trees: "trees",
  wood: "the wood",
  hedge: "a hedge",
  wall: "a wall",
  fence: "a fence",
  building: "a building",
};

/** The barrier by its name or id: `trees "north belt" 40 m upwind`. */
export function barrierText(by: ShelteredBy, units: UnitSystem): string {
  const where = by.distance > 0 ? `${farText(by.distance, units)} upwind` : "all round";
  return `${KIND_WORDS[by.kind]} "${by.name ?? by.id}" ${where}`;
}

/** Whole metres or feet, up: a barrier farther off shelters less. */
function farText(metres: number, units: UnitSystem): string {
  const [value, unit] = units === "us" ? [metres / METRES_PER_FOOT, "ft"] : [metres, "m"];
  return `${plainNumber(value, 0, "up")} ${unit}`;
}

/** What lies upwind of a direction: the ground, and what shelters. */
export function upwindText(sector: Sector, units: UnitSystem): string {
  const ground = `${terrain(sector.category).words} upwind`;
  if (sector.by === null) return `${ground}, nothing recorded that shelters`;
  const share = formatPercent(sector.shelter, { round: "down" });
  const doubt = sector.confidence === "low" ? " at a guess" : "";
  return `${ground}, ${barrierText(sector.by, units)} takes ${share}${doubt}`;
}

interface AwningFacts {
  readonly level: AwningLevel;
  readonly hazards: readonly string[];
  readonly known: KnownGust | null;
  readonly units: UnitSystem;
  readonly used: AwningClass;
  readonly worst?: Sector;
  readonly speed?: number;
  readonly pressure?: number;
  readonly directions?: readonly number[];
}

/** The one sentence that explains a level. */
export function awningSentence(facts: AwningFacts): string {
  const { hazards, known, units, used, worst, speed, pressure, directions = [] } = facts;
  const warned = hazards.length > 0 ? `Forecast hazard: ${hazards.join(", ")}; retract the awning. ` : "";
  if (known === null || worst === undefined || speed === undefined || pressure === undefined) {
    return `${warned}No wind is known for this time.`;
  }
  const words = [...new Set(directions.map(compassWord))];
  const from = words.length === 0 ? "an unknown direction" : words.join(" to ");
  const gust = `${known.estimated ? "estimated gust" : "gust"} ${formatSpeed(known.speed, units, { round: "up" })}`;
  const there = `${formatSpeed(speed, units, { round: "up" })} at the awning`;
  const judged = compassWord(worst.from) === from ? "" : ` judged from ${compassWord(worst.from)},`;
  const className = `class ${used.class}${used.assumed ? " (assumed)" : ""}`;
  const says = `${gust} from ${from},${judged} about ${there} (${upwindText(worst, units)})`;
  const limit = windPressureLimit(used.limit);
  return `${warned}${capital(says)}: ${windPressureText(pressure)} against ${limit} of ${className}.`;
}

/** A limit is rounded down: 18.2 N/m² is no 20. */
function windPressureLimit(pascals: number): string {
  return `${Math.floor(pascals)} N/m²`;
}

function capital(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}
