/** The sixteen directions that a wind comes from. */
import { COMPASS_WORDS } from "../geo/compass.ts";
import { normaliseBearing, radians, turnBetween } from "../geo/tangent-plane.ts";

export const SECTOR_COUNT = COMPASS_WORDS.length;
/** Radians from one direction to the next. */
export const SECTOR_STEP = (2 * Math.PI) / SECTOR_COUNT;

/** A direction that lies a rounding error beyond a whole step counts as on it. */
const ANGLE_SLACK = 1e-9;

/** Compass word of a bearing in radians: "SW". */
export function compassWord(bearing: number): string {
  return COMPASS_WORDS[nearestSector(bearing)]!;
}

/** Place of the nearest direction, north 0, clockwise. */
export function nearestSector(bearing: number): number {
  return Math.round(normaliseBearing(bearing) / SECTOR_STEP) % SECTOR_COUNT;
}

/** Places of all directions within one step of a bearing: a forecast direction may be off by as much. */
export function sectorsAround(bearing: number): readonly number[] {
  const near = nearestSector(bearing);
  return [near - 1, near, near + 1]
    .map((index) => (index + SECTOR_COUNT) % SECTOR_COUNT)
    .filter((index) => Math.abs(turnBetween(bearing, index * SECTOR_STEP)) <= SECTOR_STEP + ANGLE_SLACK);
}

/** Radians of degrees, brought into one turn. */
export function bearingOfDegrees(value: number): number {
  return normaliseBearing(radians(value));
}
