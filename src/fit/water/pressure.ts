/** Bands of water pressure at the tap and what they ask of a regulator. */
import data from "../../../data/pressure-bands.json" with { type: "json" };
import { TOUCH_TOLERANCE } from "../stance/tolerance.ts";

type Regulator = "advised" | "needed" | "mandatory";

export interface PressureBand {
  /** Null when the pressure is unknown. */
  readonly band: "low" | "weak" | "good" | "high" | "too high" | null;
  readonly regulator: Regulator;
  readonly inWords: string;
}

/** The band of a pressure in pascals; null is unknown, and a regulator is advised then as always. */
export function pressureBand(pressure: number | null): PressureBand {
  if (pressure === null) {
    return { band: null, regulator: data.unknown.regulator as Regulator, inWords: data.unknown.inWords };
  }
  // A pressure given as 60 psi may differ from the band's edge in its last bit.
  const band = data.bands.find((one) => one.below === null || pressure < one.below - TOUCH_TOLERANCE * one.below);
  const { id, regulator, inWords } = band as (typeof data.bands)[number];
  return { band: id as PressureBand["band"], regulator: regulator as Regulator, inWords };
}

/** Where the bands come from, in one line. */
export const PRESSURE_SOURCE = data.sources.map((one) => `${one.figure}: ${one.source} (${one.mark})`).join("; ");
export const REGULATOR_PLACE = data.regulatorPlace.inWords;
