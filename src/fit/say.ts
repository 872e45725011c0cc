/**
 * Numbers in sentences, in the caller's units. What is needed rounds up and what is there rounds down, so that a
 * printed "7.6 needed, 7.6 available" cannot hide a shortfall.
 */
import {
  INCHES_PER_FOOT,
  METRES_PER_FOOT,
  METRES_PER_INCH,
  PASCALS_PER_KILOPASCAL,
  PASCALS_PER_PSI,
  PERCENT,
} from "../units/factors.ts";
import { plainNumber, type Rounding, roundToSteps } from "../units/number.ts";

export interface Say {
  readonly units: "us" | "metric";
  /** "12 ft 6 in" or "3.81 m"; below one foot in inches. */
  readonly length: (metres: number, round?: Rounding) => string;
  readonly needed: (metres: number) => string;
  readonly available: (metres: number) => string;
  /** Small lengths with a decimal: "2.9 in" or "7.3 cm". */
  readonly fine: (metres: number, round?: Rounding) => string;
  /** Fall of a drain: "0.28 in per ft" or "2.3 cm per m". */
  readonly fall: (ratio: number, round?: Rounding) => string;
  /** Slope of ground in percent. */
  readonly slope: (ratio: number, round?: Rounding) => string;
  readonly pressure: (pascals: number, round?: Rounding) => string;
}

const CENTIMETRES = 100;
/** Digits behind the point. */
const METRE_DECIMALS = 2;
const FINE_DECIMALS = 1;
const PSI_DECIMALS = 0;

function feetAndInches(metres: number, round: Rounding): string {
  const sign = metres < 0 ? "-" : "";
  const steps = Math.abs(roundToSteps(metres, METRES_PER_INCH, round));
  const feet = Math.floor(steps / INCHES_PER_FOOT);
  const inches = steps - feet * INCHES_PER_FOOT;
  if (steps === 0) return "0 in";
  if (feet === 0) return `${sign}${inches} in`;
  return inches === 0 ? `${sign}${feet} ft` : `${sign}${feet} ft ${inches} in`;
}

/** A sayer for a system of units. */
export function sayer(units: "us" | "metric"): Say {
  const us = units === "us";
  const length = (metres: number, round: Rounding = "nearest"): string => {
    if (!Number.isFinite(metres)) return "no end";
    return us ? feetAndInches(metres, round) : `${plainNumber(metres, METRE_DECIMALS, round)} m`;
  };
  return {
    units,
    length,
    needed: (metres) => length(metres, "up"),
    available: (metres) => length(metres, "down"),
    fine: (metres, round = "nearest") =>
      us
        ? `${plainNumber(metres / METRES_PER_INCH, FINE_DECIMALS, round)} in`
        : `${plainNumber(metres * CENTIMETRES, FINE_DECIMALS, round)} cm`,
    fall: (ratio, round = "nearest") =>
      us
        ? `${plainNumber((ratio * METRES_PER_FOOT) / METRES_PER_INCH, METRE_DECIMALS, round)} in per ft`
        : `${plainNumber(ratio * CENTIMETRES, FINE_DECIMALS, round)} cm per m`,
    slope: (ratio, round = "nearest") => `${plainNumber(ratio * PERCENT, FINE_DECIMALS, round)} %`,
    pressure: (pascals, round = "nearest") =>
      us
        ? `${plainNumber(pascals / PASCALS_PER_PSI, PSI_DECIMALS, round)} psi`
        : `${plainNumber(pascals / PASCALS_PER_KILOPASCAL, PSI_DECIMALS, round)} kPa`,
  };
}
