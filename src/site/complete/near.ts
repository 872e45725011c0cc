/** A cheap first look at which features may lie near a place. */
import type { LonLat } from "../../geo/tangent-plane.ts";
import type { CampgroundFeature, WirePosition } from "../feature.ts";

/** Metres in a degree of latitude, rounded down: the box comes out a little too large. */
const METRES_PER_DEGREE = 110_000;
const HALF_TURN = 180;
const FULL_TURN = 360;
/** Degrees from a pole within which longitude says nothing. */
const LEAST_COSINE = 1e-3;

/** A test that is true for every feature with a part within `reach` metres, and for few others. */
export function nearBox(origin: LonLat, reach: number): (feature: CampgroundFeature) => boolean {
  const up = reach / METRES_PER_DEGREE;
  const cosine = Math.cos((origin.latitude * Math.PI) / HALF_TURN);
  const across = cosine < LEAST_COSINE ? FULL_TURN : up / cosine;
  return ({ geometry }) => {
    if (geometry === null || geometry.type === "GeometryCollection") return geometry !== null;
    let [west, south, east, north] = [HALF_TURN, HALF_TURN, -HALF_TURN, -HALF_TURN] as [number, number, number, number];
    const see = (node: unknown): void => {
      const list = node as readonly unknown[];
      if (typeof list[0] !== "number") {
        for (const part of list) see(part);
        return;
      }
      const [longitude, latitude] = list as WirePosition as [number, number];
      // Seen from the origin, so that the antimeridian is no border.
      const turned = ((((longitude - origin.longitude + HALF_TURN) % FULL_TURN) + FULL_TURN) % FULL_TURN) - HALF_TURN;
      west = Math.min(west, turned);
      east = Math.max(east, turned);
      south = Math.min(south, latitude);
      north = Math.max(north, latitude);
    };
    see(geometry.coordinates);
    return west <= across && east >= -across && south <= origin.latitude + up && north >= origin.latitude - up;
  };
}
