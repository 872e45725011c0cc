/** Numbers in sentences: plain digits, no exponent, no trailing zeros, no minus before zero. */
export type Rounding = "up" | "down" | "nearest";

const DECIMALS_IN_WORDS = 2;
const TEN = 10;
/**
 * A value that lies this close to a step of the display is that step: 25 ft is 7.62 m and must not print as 24 ft
 * 11 in because of the last bit of a product.
 */
const SNAP = 1e-9;

/** Rounds to a whole number of steps: up towards plus infinity, down towards minus infinity. */
export function roundToSteps(value: number, step: number, round: Rounding): number {
  const steps = value / step;
  const nearest = Math.round(steps);
  if (round === "nearest" || Math.abs(steps - nearest) <= SNAP * Math.max(1, Math.abs(steps))) return nearest + 0;
  return (round === "up" ? Math.ceil(steps) : Math.floor(steps)) + 0;
}

/** A number with at most `decimals` digits after the point. */
export function plainNumber(value: number, decimals: number = DECIMALS_IN_WORDS, round: Rounding = "nearest"): string {
  if (!Number.isFinite(value)) return "not a number";
  const scale = TEN ** decimals;
  const digits = (roundToSteps(value * scale, 1, round) / scale).toFixed(decimals);
  const trimmed = digits.includes(".") ? digits.replace(/0+$/, "").replace(/\.$/, "") : digits;
  return trimmed === "-0" ? "0" : trimmed;
}
