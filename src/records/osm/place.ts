/** Middles, extents and distances of elements on the earth. */
import { crosses, hasArea, lonLat, ringContains } from "../../geo/longitude-latitude.ts";
import type { PadPoint } from "../../geo/pad-frame.ts";
import { centroid, distanceToRing } from "../../geo/polygon.ts";
import { type LonLat, type TangentPlane, tangentPlane } from "../../geo/tangent-plane.ts";
import { CAMPGROUND_LIMITS } from "../geojson-limits.ts";
import { asArea, type OsmElement, type OsmGeometry, type Position, positionsOf } from "./element.ts";

export interface Middle {
  readonly position: Position;
  /** Metres from it to the farthest corner; 0 for a point. */
  readonly reach: number;
}

/** Square metres below which an outline has no area: smaller than a hand. */
const LEAST_AREA = 0.01;

/** The centre of the area of a shape's largest ring, or the mean of the corners of a line or a faulty outline. */
export function middleOf(element: OsmElement): Middle | null {
  const { geometry } = element;
  if (geometry === null) return null;
  if (geometry.type === "Point") return { position: geometry.coordinates as Position, reach: 0 };
  const area = asArea(element);
  const corners = ringOf(area ?? geometry);
  const first = corners[0];
  if (first === undefined) return null;
  const plane = tangentPlane(lonLat(first));
  const local = corners.map((corner) => onPlane(plane, corner));
  const centre = area === null ? mean(local) : inside(centroid(local.slice(0, -1)), local);
  const { longitude, latitude } = plane.toLonLat({ east: -centre.left, north: centre.along });
  const reach = local.reduce(
    (most, { along, left }) => Math.max(most, Math.hypot(along - centre.along, left - centre.left)),
    0,
  );
  return { position: [rounded(longitude), rounded(latitude)], reach };
}

/** Decimals of a degree that are written: a hundredth of a metre. */
const DEGREE_STEPS = 1e7;

function rounded(degrees: number): number {
  return Math.round(degrees * DEGREE_STEPS) / DEGREE_STEPS;
}

/** The outer ring of the part with most corners, or the line. */
function ringOf(geometry: OsmGeometry): readonly (readonly number[])[] {
  if (geometry.type !== "MultiPolygon")
    return geometry.type === "Polygon" ? (geometry.coordinates[0] ?? []) : positionsOf(geometry);
  const rings = geometry.coordinates.map((rings) => rings[0] ?? []);
  return rings.reduce((most, ring) => (ring.length > most.length ? ring : most), []);
}

/** The centre, unless a crossing outline throws it out among nowhere: then the mean of the corners. */
function inside(centre: PadPoint, corners: readonly PadPoint[]): PadPoint {
  const middle = mean(corners);
  const reach = (from: PadPoint): number =>
    corners.reduce((most, { along, left }) => Math.max(most, Math.hypot(along - from.along, left - from.left)), 0);
  return reach(centre) <= 2 * reach(middle) ? centre : middle;
}

function mean(points: readonly PadPoint[]): PadPoint {
  const sum = points.reduce((a, b) => ({ along: a.along + b.along, left: a.left + b.left }), { along: 0, left: 0 });
  return { along: sum.along / points.length, left: sum.left / points.length };
}

function onPlane(plane: TangentPlane, position: readonly number[]): PadPoint {
  const { east, north } = plane.toPlane(lonLat(position));
  return { along: north, left: -east };
}

/** True for rings with an area that do not cross themselves. */
export function isSound(rings: readonly (readonly (readonly number[])[])[]): boolean {
  const small = rings.every((ring) => ring.length <= CAMPGROUND_LIMITS.ringPositions);
  return small && rings.every((ring) => hasArea(ring, LEAST_AREA)) && !crosses(rings);
}

/** Metres from a place to an element; 0 inside its area. Infinity without a place. */
export function metresTo(from: Position, element: OsmElement): number {
  const { geometry } = element;
  if (geometry === null) return Number.POSITIVE_INFINITY;
  const plane = tangentPlane(lonLat(from));
  const origin = { along: 0, left: 0 };
  const area = asArea(element);
  if (area !== null)
    return distanceToRing(
      origin,
      ringOf(area).map((corner) => onPlane(plane, corner)),
    );
  const corners = positionsOf(geometry).map((corner) => onPlane(plane, corner));
  // A line is walked there and back, so that its ends are not joined.
  return corners.length < 2
    ? Math.hypot(corners[0]?.along ?? Number.POSITIVE_INFINITY, corners[0]?.left ?? 0)
    : distanceToRing(origin, [...corners, ...corners.slice(1, -1).reverse()]);
}

/** True when the element's area holds the place. */
export function areaHolds(element: OsmElement, position: Position): boolean {
  const area = asArea(element);
  if (area === null) return false;
  const shells = area.type === "MultiPolygon" ? area.coordinates.map((rings) => rings[0] ?? []) : [ringOf(area)];
  return shells.some((shell) => shell.length > 0 && ringContains(shell, position));
}

/** [west, south, east, north] of an element, widened by metres; null without a place or across the antimeridian. */
export function boxRound({ geometry }: OsmElement, metres: number): readonly [number, number, number, number] | null {
  if (geometry === null) return null;
  const places = positionsOf(geometry).map(lonLat);
  const bounds = (values: readonly number[]): [number, number] => [
    values.reduce((least, value) => Math.min(least, value), Number.POSITIVE_INFINITY),
    values.reduce((most, value) => Math.max(most, value), Number.NEGATIVE_INFINITY),
  ];
  const [south, north] = bounds(places.map(({ latitude }) => latitude));
  const [west, east] = bounds(places.map(({ longitude }) => longitude));
  if (![west, south, east, north].every(Number.isFinite)) return null;
  if (metres === 0) return [west, south, east, north];
  const corner = (longitude: number, latitude: number, east: number, north: number): LonLat =>
    tangentPlane({ longitude, latitude }).toLonLat({ east, north });
  const low = corner(west, south, -metres, -metres);
  const high = corner(east, north, metres, metres);
  return [low.longitude, low.latitude, high.longitude, high.latitude];
}
