/** Shapes made of sizes: rectangles, circles and lines with a width. Round things are drawn round, never smaller. */
import type { PadPoint } from "./pad-frame.ts";
import { convexHull, type Ring } from "./polygon.ts";

/** Sides of the polygon drawn round a circle: its corners lie 2 % outside. */
const CIRCLE_SIDES = 16;

/** A counter-clockwise polygon drawn round the circle, so that it holds all of it. */
export function circumscribedCircle(centre: PadPoint, radius: number, sides: number = CIRCLE_SIDES): Ring {
  const reach = radius / Math.cos(Math.PI / sides);
  return Array.from({ length: sides }, (_, index) => {
    const angle = ((2 * index + 1) * Math.PI) / sides;
    return { along: centre.along + reach * Math.cos(angle), left: centre.left + reach * Math.sin(angle) };
  });
}

/** The counter-clockwise rectangle between two corners. */
export function rectangle(alongMin: number, alongMax: number, leftMin: number, leftMax: number): Ring {
  return [
    { along: alongMin, left: leftMin },
    { along: alongMax, left: leftMin },
    { along: alongMax, left: leftMax },
    { along: alongMin, left: leftMax },
  ];
}

/**
 * One convex piece for each segment of a line with a width; the pieces overlap at the bends so that their union holds
 * every point within half the width of the line.
 */
export function bufferedLine(line: readonly PadPoint[], width: number): readonly Ring[] {
  const pieces: Ring[] = [];
  for (let index = 0; index + 1 < line.length; index += 1) {
    const a = line[index] as PadPoint;
    const b = line[index + 1] as PadPoint;
    pieces.push(convexHull([...circumscribedCircle(a, width / 2), ...circumscribedCircle(b, width / 2)]));
  }
  return pieces;
}

/** A rectangle at any angle: its centre, the unit vector of one pair of sides and the half sizes. */
export interface OrientedRectangle {
  readonly centre: PadPoint;
  /** Angle of the first axis from `along` towards `left`, radians in [0, pi / 2). */
  readonly angle: number;
  /** Size along the first axis and at right angles to it, metres. */
  readonly first: number;
  readonly second: number;
}

/** The rectangle of least area that holds all points; null when they have no area. */
export function leastRectangle(points: Ring): OrientedRectangle | null {
  const hull = convexHull(points);
  if (hull.length <= 2) return null;
  let best: OrientedRectangle | null = null;
  for (let index = 0; index < hull.length; index += 1) {
    const a = hull[index] as PadPoint;
    const b = hull[(index + 1) % hull.length] as PadPoint;
    const quarter = Math.PI / 2;
    const turned = Math.atan2(b.left - a.left, b.along - a.along) % quarter;
    const candidate = boundingRectangle(hull, turned < 0 ? turned + quarter : turned);
    if (best === null || candidate.first * candidate.second < best.first * best.second) best = candidate;
  }
  return best;
}

/** The rectangle that holds all points with its first axis at `angle` (from `along` towards `left`). */
export function boundingRectangle(points: Ring, angle: number): OrientedRectangle {
  const cosine = Math.cos(angle);
  const sine = Math.sin(angle);
  let firstMin = Number.POSITIVE_INFINITY;
  let firstMax = Number.NEGATIVE_INFINITY;
  let secondMin = Number.POSITIVE_INFINITY;
  let secondMax = Number.NEGATIVE_INFINITY;
  for (const point of points) {
    const first = point.along * cosine + point.left * sine;
    const second = -point.along * sine + point.left * cosine;
    firstMin = Math.min(firstMin, first);
    firstMax = Math.max(firstMax, first);
    secondMin = Math.min(secondMin, second);
    secondMax = Math.max(secondMax, second);
  }
  const first = (firstMin + firstMax) / 2;
  const second = (secondMin + secondMax) / 2;
  return {
    centre: { along: first * cosine - second * sine, left: first * sine + second * cosine },
    angle,
    first: firstMax - firstMin,
    second: secondMax - secondMin,
  };
}
