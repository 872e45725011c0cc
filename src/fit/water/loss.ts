/** Pressure that a hose takes from the water that flows through it. */
import data from "../../../data/hose.json" with { type: "json" };
import { LITRES_PER_US_GALLON, METRES_PER_FOOT, METRES_PER_INCH, PASCALS_PER_PSI } from "../../units/factors.ts";

const SECONDS_PER_MINUTE = 60;

export interface HoseFlow {
  /** Litres per second. */
  readonly flow: number;
  /** Inside diameter, metres. */
  readonly diameter: number;
  /** Metres. */
  readonly length: number;
  /** Hazen-Williams C; 140 (assumed) when nothing is known of a hose. */
  readonly roughness?: number;
}

export interface HoseLoss {
  /** Metres of head over the whole length. */
  readonly head: number;
  /** Metres of head per metre of hose. */
  readonly perMetre: number;
  /** Pascals over the whole length. */
  readonly pressure: number;
}

/**
 * Hazen-Williams loss in the published form (Engineering Toolbox, read), constants set near 3 ft/s. Fittings,
 * regulator and filter are left out and usually cost more.
 */
export function hoseLoss({ flow, diameter, length, roughness }: HoseFlow): HoseLoss {
  const law = data.headLoss;
  const gallonsPerMinute = (flow / LITRES_PER_US_GALLON) * SECONDS_PER_MINUTE;
  const inches = diameter / METRES_PER_INCH;
  const c = roughness ?? law.roughness.value;
  const perHundred =
    (law.factor * (law.referenceRoughness / c) ** law.flowExponent * gallonsPerMinute ** law.flowExponent) /
    inches ** law.diameterExponent;
  const perMetre = perHundred / law.perFeet;
  const head = perMetre * length;
  return { head, perMetre, pressure: (head / METRES_PER_FOOT) * law.psiPerFoot.value * PASCALS_PER_PSI };
}
