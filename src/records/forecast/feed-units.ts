/** Units as the feeds write them. An unknown one is refused: a guess could halve a gust. */
import {
  METRES_PER_SECOND_PER_KMH,
  METRES_PER_SECOND_PER_KNOT,
  METRES_PER_SECOND_PER_MPH,
} from "../../units/factors.ts";
import { bearingOfDegrees } from "../../wind/sector.ts";
import { ForecastRefusal, quoted } from "./refusal.ts";

/** Namespaces that the weather service's own description allows before a unit. */
const NAMESPACE = /^(?:wmo|uc|wmoUnit|nwsUnit):/;
const SPEEDS: Readonly<Record<string, number>> = {
  "km_h-1": METRES_PER_SECOND_PER_KMH,
  "km/h": METRES_PER_SECOND_PER_KMH,
  "m_s-1": 1,
  "m/s": 1,
  kn: METRES_PER_SECOND_PER_KNOT,
  "mp/h": METRES_PER_SECOND_PER_MPH,
};
const DEGREES = new Set(["degree_(angle)", "deg", "°"]);
/** Faster than any wind measured near the ground (113 m/s, Barrow Island 1996, from memory). */
const FASTEST = 120;
const FULL_TURN = 360;

/** Reads a value of the feed in SI. */
export type ReadValue = (value: number) => number;

function plainUnit(unit: string | undefined): string {
  return (unit ?? "").replace(NAMESPACE, "");
}

function refuse(unit: string | undefined, what: string): never {
  const said = unit === undefined ? "no unit" : `the unit ${quoted(unit)}`;
  throw new ForecastRefusal("unknown-unit", `The forecast gives the ${what} in ${said}, which is not known here.`);
}

/** Metres per second from a unit of speed. */
export function speedReader(unit: string | undefined): ReadValue {
  const factor = Object.hasOwn(SPEEDS, plainUnit(unit)) ? SPEEDS[plainUnit(unit)]! : refuse(unit, "wind speed");
  return (value) => {
    const speed = value * factor;
    if (speed >= 0 && speed <= FASTEST) return speed;
    throw new ForecastRefusal("implausible", `The forecast gives a wind of ${Math.round(speed)} m/s.`);
  };
}

/** A bearing in radians from degrees that the wind comes from. */
export function bearingReader(unit: string | undefined): ReadValue {
  if (!DEGREES.has(plainUnit(unit))) refuse(unit, "wind direction");
  return (value) => {
    if (value >= 0 && value <= FULL_TURN) return bearingOfDegrees(value);
    throw new ForecastRefusal("implausible", `The forecast gives a wind direction of ${Math.round(value)} degrees.`);
  };
}
