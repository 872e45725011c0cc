/** What an outline on the earth says of a pad: its centre, the direction of its longer side and its two sizes. */
import { type PadPoint, planeToPad } from "../../geo/pad-frame.ts";
import { leastRectangle } from "../../geo/shapes.ts";
import { type LonLat, normaliseBearing, tangentPlane, turnBetween } from "../../geo/tangent-plane.ts";

export interface OutlineFacts {
  readonly centre: LonLat;
  /** Bearing of one of the four directions of its sides, radians. */
  readonly bearing: number;
  /** Metres along `bearing` and at right angles to it. */
  readonly first: number;
  readonly second: number;
}

/** The least rectangle round an outline; null when it has no area. */
export function outlineFacts(corners: readonly LonLat[]): OutlineFacts | null {
  const base = corners[0];
  if (base === undefined) return null;
  const plane = tangentPlane(base);
  // With heading 0 the pad frame is north and west.
  const points: PadPoint[] = corners.map((corner) => planeToPad(plane.toPlane(corner), 0));
  const found = leastRectangle(points);
  if (found === null) return null;
  return {
    centre: plane.toLonLat({ east: -found.centre.left, north: found.centre.along }),
    bearing: normaliseBearing(-found.angle),
    first: found.first,
    second: found.second,
  };
}

export interface OutlineAxis {
  readonly heading: number;
  readonly length: number;
  readonly width: number;
}

const QUARTERS = 4;
/** An outline less elongated than this does not show which way its pad runs. */
const LEAST_ELONGATION = 1.15;

/** The outline seen along the one of its four directions that is nearest to a stated heading. */
export function axisNear(facts: OutlineFacts, heading: number): OutlineAxis {
  let best: OutlineAxis | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (let quarter = 0; quarter < QUARTERS; quarter += 1) {
    const bearing = normaliseBearing(facts.bearing + (quarter * Math.PI) / 2);
    const off = Math.abs(turnBetween(bearing, heading));
    if (off >= least) continue;
    least = off;
    best = axis(facts, bearing, quarter % 2 === 0);
  }
  return best ?? axis(facts, facts.bearing, true);
}

/** The two directions of the longer sides; null when the outline is about square. */
export function longAxes(facts: OutlineFacts): readonly [OutlineAxis, OutlineAxis] | null {
  const longer = Math.max(facts.first, facts.second);
  if (longer < LEAST_ELONGATION * Math.min(facts.first, facts.second)) return null;
  const straight = facts.first >= facts.second;
  const bearing = straight ? facts.bearing : normaliseBearing(facts.bearing + Math.PI / 2);
  return [axis(facts, bearing, straight), axis(facts, normaliseBearing(bearing + Math.PI), straight)];
}

function axis({ first, second }: OutlineFacts, heading: number, straight: boolean): OutlineAxis {
  return { heading, length: straight ? first : second, width: straight ? second : first };
}
