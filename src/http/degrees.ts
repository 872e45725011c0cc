/** Angles on the wire. */
import { degrees } from "../geo/tangent-plane.ts";

/** Angles are given to a billionth of a degree, so that 12 degrees in does not come out as 11.999999999999998. */
const ANGLE_STEPS_PER_DEGREE = 1e9;

/** Degrees of radians. */
export function degreesOf(radians: number): number {
  return Math.round(degrees(radians) * ANGLE_STEPS_PER_DEGREE) / ANGLE_STEPS_PER_DEGREE;
}
