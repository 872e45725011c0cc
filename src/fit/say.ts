/**
 * Numbers in sentences, in the caller's units. What is needed rounds up and what is there rounds down, so that a
 * printed "7.6 needed, 7.6 available" cannot hide a shortfall.
 */
import { CENTIMETRES_PER_METRE, INCHES_PER_FOOT, METRES_PER_INCH } from "../units/factors.ts";
import { plainNumber, type Rounding } from "../units/number.ts";
import { formatLength, formatPercent, formatPressure, type UnitSystem } from "../units/print.ts";

export interface Say {
  readonly units: UnitSystem;
  /** "12 ft 6 in" or "3.81 m"; below one foot in inches; "no end" when infinite. */
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

/** Digits behind the point. */
const FALL_DECIMALS = 2;
const FINE_DECIMALS = 1;

/** A sayer for a system of units. */
export function sayer(units: UnitSystem): Say {
  const us = units === "us";
  const length = (metres: number, round: Rounding = "nearest"): string =>
    Number.isFinite(metres) ? formatLength(metres, units, { round }) : "no end";
  return {
    units,
    length,
    needed: (metres) => length(metres, "up"),
    available: (metres) => length(metres, "down"),
    fine: (metres, round = "nearest") =>
      us
        ? `${plainNumber(metres / METRES_PER_INCH, FINE_DECIMALS, round)} in`
        : `${plainNumber(metres * CENTIMETRES_PER_METRE, FINE_DECIMALS, round)} cm`,
    fall: (ratio, round = "nearest") =>
      us
        ? `${plainNumber(ratio * INCHES_PER_FOOT, FALL_DECIMALS, round)} in per ft`
        : `${plainNumber(ratio * CENTIMETRES_PER_METRE, FINE_DECIMALS, round)} cm per m`,
    slope: (ratio, round = "nearest") => formatPercent(ratio, { round }),
    pressure: (pascals, round = "nearest") => formatPressure(pascals, units, { round }),
  };
}
