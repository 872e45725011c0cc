/**
 * Pressure of a wind on an awning.
 *
 * q = density / 2 x v² with 1.25 kg/m³ (EN 1991-1-4). The share that an awning takes falls from 1 with the wind on its
 * open side to 0.65 with the wind along the rig or from behind it, because the body blocks the far side only in the
 * first case: the quotient 0.9 / 1.4 of a monopitch canopy of 10 degrees (EN 1991-1-4 table 7.6, from memory), the
 * cosine between them assumed. No credit for the wake of the rig.
 */
import table from "../../data/awning-wind-classes.json" with { type: "json" };

const { airDensity, orientation, uplift } = table;

/** Most that the net pressure can be over the dynamic one: the upper end of a band. */
export const UPLIFT_FACTOR = uplift.factor;

/**
 * Newtons per square metre of a wind.
 *
 * @param speed Metres per second.
 * @param altitude Metres above sea level by which the air is thinner; left out it is not, which is the cautious side.
 */
export function dynamicPressure(speed: number, altitude = 0): number {
  return (airDensity.value / 2) * Math.exp(-altitude / airDensity.scaleHeight) * speed * speed;
}

/** Share of the dynamic pressure on an awning; `angle` from its outward normal to where the wind comes from, radians. */
export function orientationFactor(angle: number): number {
  return orientation.least + (1 - orientation.least) * Math.max(0, Math.cos(angle));
}
