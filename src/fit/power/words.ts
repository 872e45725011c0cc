/** Numbers in words for the power sentences. Display rounds down what is available, never up. */

const METRES_PER_FOOT = 0.3048;
const TEN = 10;
const HUNDRED = 100;
/** Guards a value such as 15.239999 m, which is 50 ft, against being cut to the step below. */
const HAIR = 1e-9;

export type UnitSystem = "us" | "metric";

/** A length in the caller's units: "25.0 ft" or "7.6 m"; rounded down to a tenth. */
export function lengthWords(metres: number, units: UnitSystem): string {
  const value = units === "us" ? metres / METRES_PER_FOOT : metres;
  const tenths = Math.floor(value * TEN + HAIR) / TEN;
  return `${tenths.toFixed(1)} ${units === "us" ? "ft" : "m"}`;
}

/** An amount with thousands set apart: "12,000". */
export function grouped(amount: number): string {
  return Math.round(amount)
    .toString()
    .replace(/\B(?=(\d{3})+$)/g, ",");
}

/** One decimal, dropped when it is zero: "24" or "4.5"; rounded down. */
export function oneDecimal(value: number): string {
  return (Math.floor(value * TEN + HAIR) / TEN).toString();
}

/** Two decimals, rounded up: for what is lost. */
export function twoDecimals(value: number): string {
  return (Math.ceil(value * HUNDRED - HAIR) / HUNDRED).toFixed(2);
}

/** "a", "a and b", "a, b and c". */
export function listWords(words: readonly string[]): string {
  if (words.length <= 1) return words.join("");
  return `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}
