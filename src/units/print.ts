/**
 * Quantities in words. What is needed rounds up, what is available and what is left over round down: a rounded
 * display never hides a shortfall.
 */
import {
  INCHES_PER_FOOT,
  LITRES_PER_US_GALLON,
  METRES_PER_SECOND_PER_KMH,
  METRES_PER_SECOND_PER_MPH,
  PASCALS_PER_KILOPASCAL,
  PASCALS_PER_PSI,
  PERCENT,
  RADIANS_PER_DEGREE,
  TENTHS_OF_MILLIMETRE_PER_INCH,
  TENTHS_OF_MILLIMETRE_PER_METRE,
} from "./factors.ts";
import { plainNumber, type Rounding, roundToSteps } from "./number.ts";

export type UnitSystem = "us" | "metric";

export interface PrintOptions {
  /** Towards which side the last printed digit goes; default nearest. */
  readonly round?: Rounding;
}

const LENGTH_DECIMALS = 2;
const RATIO_DECIMALS = 1;
const ANGLE_DECIMALS = 1;
const VOLTAGE_DECIMALS = 1;
const CURRENT_DECIMALS = 1;

/**
 * Metres as `1 ft 4 in` (whole inches) or `0.42 m` (whole centimetres). A negative length, a margin that is missing,
 * carries one minus before the whole: `-1 ft 4 in`.
 */
export function formatLength(metres: number, units: UnitSystem, { round = "nearest" }: PrintOptions = {}): string {
  if (units === "metric") return `${plainFixed(metres, LENGTH_DECIMALS, round)} m`;
  const total = roundToSteps((metres * TENTHS_OF_MILLIMETRE_PER_METRE) / TENTHS_OF_MILLIMETRE_PER_INCH, 1, round);
  const sign = total < 0 ? "-" : "";
  const inches = Math.abs(total);
  const feet = Math.floor(inches / INCHES_PER_FOOT);
  const rest = inches - feet * INCHES_PER_FOOT;
  if (feet === 0) return `${sign}${rest} in`;
  return rest === 0 ? `${sign}${feet} ft` : `${sign}${feet} ft ${rest} in`;
}

/** Keeps the zeros, so that lengths in one list line up: 4.50 m beside 4.12 m. */
function plainFixed(value: number, decimals: number, round: Rounding): string {
  const text = plainNumber(value, decimals, round);
  return Number.isNaN(Number(text)) ? text : Number(text).toFixed(decimals);
}

/** Litres as United States gallons (`38 gal`) or litres (`144 L`), whole. */
export function formatVolume(litres: number, units: UnitSystem, { round = "nearest" }: PrintOptions = {}): string {
  return units === "us"
    ? `${plainNumber(litres / LITRES_PER_US_GALLON, 0, round)} gal`
    : `${plainNumber(litres, 0, round)} L`;
}

/** Pascals as `45 psi` or `310 kPa`, whole. */
export function formatPressure(pascals: number, units: UnitSystem, { round = "nearest" }: PrintOptions = {}): string {
  return units === "us"
    ? `${plainNumber(pascals / PASCALS_PER_PSI, 0, round)} psi`
    : `${plainNumber(pascals / PASCALS_PER_KILOPASCAL, 0, round)} kPa`;
}

/** Metres per second as `20 mph` or `32 km/h`, whole. */
export function formatSpeed(
  metresPerSecond: number,
  units: UnitSystem,
  { round = "nearest" }: PrintOptions = {},
): string {
  return units === "us"
    ? `${plainNumber(metresPerSecond / METRES_PER_SECOND_PER_MPH, 0, round)} mph`
    : `${plainNumber(metresPerSecond / METRES_PER_SECOND_PER_KMH, 0, round)} km/h`;
}

/** Watts, whole: `1500 W`. */
export function formatPower(watts: number, { round = "nearest" }: PrintOptions = {}): string {
  return `${plainNumber(watts, 0, round)} W`;
}

/** Amperes: `30 A`, `12.5 A`. */
export function formatCurrent(amperes: number, { round = "nearest" }: PrintOptions = {}): string {
  return `${plainNumber(amperes, CURRENT_DECIMALS, round)} A`;
}

/** Volts: `120 V`, `113.6 V`. */
export function formatVoltage(volts: number, { round = "nearest" }: PrintOptions = {}): string {
  return `${plainNumber(volts, VOLTAGE_DECIMALS, round)} V`;
}

/** A ratio as per cent: 0.0208 is `2.1 %`. */
export function formatPercent(ratio: number, { round = "nearest" }: PrintOptions = {}): string {
  return `${plainNumber(ratio * PERCENT, RATIO_DECIMALS, round)} %`;
}

/** Radians as degrees: `1.2°`. */
export function formatDegrees(radians: number, { round = "nearest" }: PrintOptions = {}): string {
  return `${plainNumber(radians / RADIANS_PER_DEGREE, ANGLE_DECIMALS, round)}°`;
}

/** A range as words, low end down and high end up: `2.44 m to 2.60 m`; one value when both ends print alike. */
export function formatLengthRange(low: number, high: number, units: UnitSystem): string {
  if (low === high) return formatLength(low, units);
  const from = formatLength(low, units, { round: "down" });
  const to = formatLength(high, units, { round: "up" });
  return from === to ? from : `${from} to ${to}`;
}
