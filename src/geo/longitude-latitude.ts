/**
 * Work on longitude and latitude themselves, with Turf: is a ring valid, which way does it run, is a hole inside its
 * shell, how far apart are two places roughly. Never the length of a line at a site: Turf measures on a sphere and is
 * up to 5.6 mm per metre wrong; `tangentPlane` measures that.
 */
import { area } from "@turf/area";
import { booleanPointInPolygon } from "@turf/boolean-point-in-polygon";
import { distance } from "@turf/distance";
import { polygon } from "@turf/helpers";
import { kinks } from "@turf/kinks";
import { rewind } from "@turf/rewind";
import type { PadPoint } from "./pad-frame.ts";
import { crossesItself, signedArea } from "./polygon.ts";
import type { LonLat } from "./tangent-plane.ts";

/** [longitude, latitude] or [longitude, latitude, height], degrees and metres. */
export type Position = readonly number[];
/** A closed ring: the last position repeats the first. */
export type ClosedRing = readonly Position[];

const METRES_PER_KILOMETRE = 1000;
const HALF_TURN_DEGREES = 180;
/** Share of the square of its size below which the area of a ring is rounding. */
const FLAT_SHARE = 1e-9;

/** The first two numbers of a position by name. */
export function lonLat(position: Position): LonLat {
  return { longitude: position[0] as number, latitude: position[1] as number };
}

/** Metres between two places on a sphere, good to 0.6 %: for search radii and plausibility only. */
export function roughDistance(a: LonLat, b: LonLat): number {
  return METRES_PER_KILOMETRE * distance([a.longitude, a.latitude], [b.longitude, b.latitude], { units: "kilometers" });
}

/** Square metres of a polygon on a sphere; for plausibility only. */
export function roughArea(rings: readonly ClosedRing[]): number {
  return area(polygon(mutable(rings)));
}

/**
 * True when a ring holds more than `least` square metres. Corners in one line of the longitude and latitude plane have
 * no area, although the sphere, on which such a line is curved, would find some.
 */
export function hasArea(ring: ClosedRing, least: number): boolean {
  const corners = ring.slice(0, -1).map(flat);
  const first = flat(ring[0] ?? [0, 0]);
  const longest = corners.reduce(
    (most, { along, left }) => Math.max(most, Math.hypot(along - first.along, left - first.left)),
    0,
  );
  return Math.abs(signedArea(corners)) > FLAT_SHARE * longest * longest && roughArea([ring]) >= least;
}

/**
 * True when a ring crosses or touches itself or another ring. Turf's kinks sees where rings cross each other; sides that
 * lie upon each other have no single crossing point, so that each ring alone is tried by our own test.
 */
export function crosses(rings: readonly ClosedRing[]): boolean {
  if (rings.some((ring) => crossesItself(ring.slice(0, -1).map(flat)))) return true;
  return rings.length > 1 && kinks(polygon(mutable(rings))).features.length > 0;
}

/** Degrees laid out as a plane: straight sides stay straight, which is all that a crossing test needs. */
function flat(position: Position): PadPoint {
  return { along: position[0] as number, left: position[1] as number };
}

/** True when the position lies inside the ring or on its edge. */
export function ringContains(ring: ClosedRing, position: Position): boolean {
  return booleanPointInPolygon([position[0] as number, position[1] as number], polygon(mutable([ring])));
}

/** Rings with the outer one counter-clockwise and holes clockwise, as RFC 7946 section 3.1.6 writes them. */
export function rightHanded(rings: readonly ClosedRing[]): readonly ClosedRing[] {
  const shape = { type: "Polygon" as const, coordinates: mutable(rings) };
  // Turf's rewind gives back the kind of object that it was handed; its type does not say so.
  return (rewind(shape, { reverse: false }) as typeof shape).coordinates;
}

/** True when two neighbouring positions are more than half a turn of longitude apart: not cut at the antimeridian. */
export function crossesAntimeridian(line: readonly Position[]): boolean {
  return line.some((position, index) => {
    const before = line[index - 1];
    return before !== undefined && Math.abs((position[0] as number) - (before[0] as number)) > HALF_TURN_DEGREES;
  });
}

function mutable(rings: readonly ClosedRing[]): number[][][] {
  return rings.map((ring) => ring.map((position) => [...position]));
}
