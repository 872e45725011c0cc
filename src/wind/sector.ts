/** The sixteen directions that a wind comes from. */
import { normaliseBearing, radians, turnBetween } from "../geo/tangent-plane.ts";

export const SECTOR_COUNT = 16;
/** Radians from one direction to the next. */
export const SECTOR_STEP = (2 * Math.PI) / SECTOR_COUNT;

const NAMES = "N NNE NE ENE E ESE SE SSE S SSW SW WSW W WNW NW NNW".split(" ");
/** A direction that lies a rounding error beyond a whole step counts as on it. */
const ANGLE_SLACK = 1e-9;

/** Compass word of a bearing in radians: "SW". */
export function compassWord(bearing: number): string {
  return NAMES[nearestSector(bearing)]!;
}

/** Bearing of a compass word, radians; null for another word. */
export function bearingOfWord(word: string): number | null {
  const index = NAMES.indexOf(word.trim().toUpperCase());
  return index < 0 ? null : index * SECTOR_STEP;
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
