/** Limits of a field, told in the unit in which the caller wrote the value. */
import { type Dimension, dimensions, type Unit } from "./dimension.ts";
import { plainNumber, type Rounding } from "./number.ts";
import type { QuantityError } from "./parse.ts";

export interface Limits {
  /** SI; the value itself is allowed. */
  readonly min?: number;
  /** SI; the value itself is allowed. */
  readonly max?: number;
  /** True when zero is impossible although `min` is 0. */
  readonly positive?: boolean;
}

/** Digits after the point by size, so that 0.003 m does not print as 0 m and 12.192 m not longer than anyone reads. */
const DIGITS: readonly { readonly from: number; readonly decimals: number }[] = [
  { from: 10, decimals: 1 },
  { from: 1, decimals: 2 },
  { from: 0, decimals: 3 },
];

/** An SI value in a unit, for a sentence: `7.62 m`, `25 ft`. */
export function inUnit(si: number, unit: Unit, round: Rounding = "nearest"): string {
  const value = unit.fromSi(si);
  const digits = DIGITS.find(({ from }) => Math.abs(value) >= from);
  return `${plainNumber(value, digits?.decimals ?? 0, round)} ${unit.name}`;
}

/** The error when a value lies beyond its limits, or null. The limit shown is rounded so that it is itself allowed. */
export function checkLimits(
  dimension: Dimension,
  value: number,
  unit: Unit,
  { min, max, positive = false }: Limits,
): QuantityError | null {
  const { noun } = dimensions[dimension];
  const written = inUnit(value, unit);
  const span = [
    positive ? "more than 0" : min === undefined ? null : `at least ${inUnit(min, unit, "up")}`,
    max === undefined ? null : `at most ${inUnit(max, unit, "down")}`,
  ].filter((part) => part !== null);
  const expected = `${noun} of ${span.join(" and ")}`;
  if (positive && value <= 0) {
    return {
      ok: false,
      code: "too-small",
      message: `${written} is impossible here: it must be more than 0.`,
      expected,
    };
  }
  if (min !== undefined && value < min) {
    const message = `${written} is too little: at least ${inUnit(min, unit, "up")} is possible here.`;
    return { ok: false, code: "too-small", message, expected };
  }
  if (max !== undefined && value > max) {
    const message = `${written} is too much: at most ${inUnit(max, unit, "down")} is possible here.`;
    return { ok: false, code: "too-large", message, expected };
  }
  return null;
}

/** Said after an error on a bare number, whose unit the caller may not have thought of. */
export function bareNumberHint(dimension: Dimension): string {
  const { bare, offered } = dimensions[dimension];
  const others = offered.filter((unit) => unit.name !== bare.name);
  const other = others[0] ?? bare;
  return `A bare number is in ${bare.name}; write the unit, for instance "11 ${other.name}", if another was meant.`;
}
