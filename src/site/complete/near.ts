/** A cheap first look at which features may lie near a place. */
import { type LonLat, radians } from "../../geo/tangent-plane.ts";
import type { WireGeometry } from "../feature.ts";

/** Degrees; west to east without regard to the antimeridian: a geometry cut there comes out as wide as the earth. */
export interface Box {
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
}

/** Metres in a degree of latitude, rounded down: the search comes out a little too wide. */
const METRES_PER_DEGREE = 110_000;
const HALF_TURN = 180;
const FULL_TURN = 360;
const QUARTER_TURN = 90;
/** Cosine of latitude so close to a pole that longitude says nothing. */
const LEAST_COSINE = 1e-3;

/** The box round a geometry; null without one, the whole earth for a collection. */
export function boxOf(geometry: WireGeometry | null): Box | null {
  if (geometry === null) return null;
  if (geometry.type === "GeometryCollection") {
    return { west: -HALF_TURN, south: -QUARTER_TURN, east: HALF_TURN, north: QUARTER_TURN };
  }
  let west = HALF_TURN;
  let south = QUARTER_TURN;
  let east = -HALF_TURN;
  let north = -QUARTER_TURN;
  const see = (node: readonly unknown[]): void => {
    if (typeof node[0] !== "number") {
      for (const part of node) see(part as readonly unknown[]);
      return;
    }
    const [longitude, latitude] = node as readonly number[] as [number, number];
    west = Math.min(west, longitude);
    east = Math.max(east, longitude);
    south = Math.min(south, latitude);
    north = Math.max(north, latitude);
  };
  see(geometry.coordinates);
  return { west, south, east, north };
}

/** A test that is true for every box with a part within `reach` metres of the origin, and for few others. */
export function nearBox(origin: LonLat, reach: number): (box: Box) => boolean {
  const up = reach / METRES_PER_DEGREE;
  const cosine = Math.cos(radians(origin.latitude));
  const across = cosine < LEAST_COSINE ? FULL_TURN : up / cosine;
  return ({ west, south, east, north }) => {
    if (south > origin.latitude + up || north < origin.latitude - up) return false;
    const half = (east - west) / 2;
    const turned = Math.abs(west + half - origin.longitude) % FULL_TURN;
    return Math.min(turned, FULL_TURN - turned) <= half + across;
  };
}
