/** Numbers of the supplies in words: days, temperatures and what stands in a store. */
import { plainNumber, type Rounding } from "../../units/number.ts";
import { formatVolume, type UnitSystem } from "../../units/print.ts";
import type { Band, Store } from "./types.ts";

const FAHRENHEIT_PER_CELSIUS = 1.8;
const FAHRENHEIT_AT_FREEZING = 32;

export const STORE_WORDS: Readonly<Record<Store, string>> = {
  fresh: "fresh tank",
  grey: "grey tank",
  black: "black tank",
  propane: "propane",
  battery: "battery",
  generatorFuel: "generator fuel",
};

/** "2.4 days"; what is left rounds down. */
export function daysWords(days: number, round: Rounding = "down"): string {
  const text = plainNumber(days, 1, round);
  return `${text} ${text === "1" ? "day" : "days"}`;
}

/** "between 1.2 and 4 days, 2.1 expected". */
export function daysBandWords(band: Band): string {
  const { low, expected, high } = band;
  if (low === null) return "not known";
  const middle = expected === null ? "" : `, ${daysWords(expected)} expected`;
  if (high === null) return `${daysWords(low)} at the earliest${middle}`;
  const ends = plainNumber(low, 1, "down") === plainNumber(high, 1, "down");
  return ends ? daysWords(low) : `${plainNumber(low, 1, "down")} to ${daysWords(high)}${middle}`;
}

/** Degrees Celsius in the caller's units, towards the colder or the hotter side. */
export function temperatureWords(celsius: number, units: UnitSystem, round: Rounding): string {
  return units === "us"
    ? `${plainNumber(celsius * FAHRENHEIT_PER_CELSIUS + FAHRENHEIT_AT_FREEZING, 0, round)} °F`
    : `${plainNumber(celsius, 0, round)} °C`;
}

/** Litres, or watt-hours for the battery. */
export function contentWords(store: Store, content: number, units: UnitSystem, round: Rounding): string {
  return store === "battery" ? `${plainNumber(content, 0, round)} Wh` : formatVolume(content, units, { round });
}
