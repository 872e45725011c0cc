/** Numbers in words for the power sentences. Display rounds down what is available, never up. */
import { plainNumber } from "../../units/number.ts";
import { formatLength, type UnitSystem } from "../../units/print.ts";

/** A length that is there, in the caller's units, rounded down. */
export function lengthWords(metres: number, units: UnitSystem): string {
  return formatLength(metres, units, { round: "down" });
}

/** An amount with thousands set apart: "12,000". */
export function grouped(amount: number): string {
  return Math.round(amount)
    .toString()
    .replace(/\B(?=(\d{3})+$)/g, ",");
}

/** One decimal, dropped when it is zero: "24" or "4.5"; rounded down. */
export function oneDecimal(value: number): string {
  return plainNumber(value, 1, "down");
}

/** Two decimals, rounded up: for what is lost. */
export function twoDecimals(value: number): string {
  return plainNumber(value, 2, "up");
}

/** "a", "a and b", "a, b and c". */
export function listWords(words: readonly string[]): string {
  if (words.length <= 1) return words.join("");
  return `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}
