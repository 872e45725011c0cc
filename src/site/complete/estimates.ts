/** From a value on the wire and how it was come by to an estimate with its spread. */
import type { Basis, Estimate } from "../../units/estimate.ts";
import type { QuantityRange } from "../quantities.ts";
import { metres, type Notes } from "./notes.ts";

/** How a value was come by, as far as the record says. */
export interface Provenance {
  readonly basis?: Basis | undefined;
  readonly accuracy?: number | undefined;
  readonly accuracyShared?: number | undefined;
  readonly survey?: string | undefined;
  readonly observedAt?: string | undefined;
  readonly source?: string | undefined;
}

/** Standard deviation per axis when the record states none, metres: a tape, an aerial image, a phone. */
export const ASSUMED_ACCURACY: Readonly<Record<"measured" | "mapped" | "gps", number>> = {
  measured: 0.05,
  mapped: 1,
  gps: 5,
};
/** Metres of standard deviation that a year adds: posts are moved, pads are laid anew. */
export const AGE_GROWTH = 0.02;
/** Share of a single number by which words, a code or a class may be off when no range is given. */
const LOOSE_SHARE = 0.1;
/** Standard deviations that a stated accuracy spans when a basis without probability is turned into a range. */
const SPAN = 2;
const MILLISECONDS_PER_YEAR = 31_557_600_000;

export type PointBasis = keyof typeof ASSUMED_ACCURACY;

export function isPointBasis(basis: Basis): basis is PointBasis {
  return basis === "measured" || basis === "mapped" || basis === "gps";
}

export interface EstimateContext {
  readonly notes: Notes;
  /** Date to which the record's age is counted; null when age is left out. */
  readonly asOf: string | null;
}

/** An exact value: a rule that the host states, not a measurement. */
export function exact(value: number, path: string): Estimate {
  return { value, low: value, high: value, sigma: 0, sigmaShared: 0, basis: "measured", path };
}

export function range(low: number, high: number, basis: Basis, path: string, source?: string): Estimate {
  const value = (low + high) / 2;
  return { value, low, high, sigma: 0, sigmaShared: 0, basis, path, ...(source === undefined ? {} : { source }) };
}

/**
 * A length or a place along one axis.
 *
 * @param fallback Basis when the record names none.
 * @param moves True for a place, which age widens; a size does not move.
 */
export function estimate(
  given: QuantityRange,
  from: Provenance,
  fallback: PointBasis,
  path: string,
  { notes, asOf }: EstimateContext,
  moves = false,
): Estimate {
  const basis = from.basis ?? (given.low === given.high ? fallback : "described");
  const source = from.source;
  if (given.low !== given.high)
    return range(given.low, given.high, isPointBasis(basis) ? "described" : basis, path, source);
  const value = given.low;
  if (!isPointBasis(basis)) {
    const spread = from.accuracy === undefined ? LOOSE_SHARE * Math.abs(value) : SPAN * from.accuracy;
    notes.assume(path, `${metres(value - spread)} to ${metres(value + spread)}, from one number that is ${basis}`);
    return range(value - spread, value + spread, basis, path, source);
  }
  const own = accuracyOf(from, basis, path, notes);
  const sigma = moves ? Math.hypot(own, ageSigma(from.observedAt, asOf, path, notes)) : own;
  return {
    value,
    low: value,
    high: value,
    sigma,
    sigmaShared: moves ? (from.accuracyShared ?? 0) : 0,
    ...(from.survey === undefined ? {} : { survey: from.survey }),
    basis,
    path,
    ...(source === undefined ? {} : { source }),
  };
}

/** The stated accuracy, or the assumed one of the basis with a note. */
export function accuracyOf(from: Provenance, basis: PointBasis, path: string, notes: Notes): number {
  if (from.accuracy !== undefined) return from.accuracy;
  const accuracy = ASSUMED_ACCURACY[basis];
  const unnamed = from.basis === undefined ? `basis ${basis}, ` : "";
  notes.assume(path, `${unnamed}accuracy ${metres(accuracy)} (standard deviation per axis)`);
  return accuracy;
}

/** Metres of standard deviation that age adds; 0 without a date to count to or a date of observation. */
export function ageSigma(observedAt: string | undefined, asOf: string | null, path: string, notes: Notes): number {
  if (observedAt === undefined || asOf === null) return 0;
  const years = (Date.parse(asOf) - Date.parse(observedAt)) / MILLISECONDS_PER_YEAR;
  if (!(years > 0)) return 0;
  const sigma = AGE_GROWTH * years;
  notes.assume(path, `${metres(sigma)} more standard deviation for the age of the observation`);
  return sigma;
}
