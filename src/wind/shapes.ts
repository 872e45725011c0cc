/** Map shapes in local metres: rings and open lines as flat lists of east and north. */
import { circumscribedCircle } from "../geo/shapes.ts";
import type { LonLat, PlanePoint, TangentPlane } from "../geo/tangent-plane.ts";
import { wrapLongitude } from "../geo/tangent-plane.ts";
import type { WireGeometry, WirePosition } from "../site/feature.ts";

/** East and north in turn, metres. A ring ends where it began. */
export type Path = Float64Array;

export interface LocalShape {
  /** True when the paths are rings that bound an area, holes among them. */
  readonly area: boolean;
  readonly paths: readonly Path[];
}

export interface LocalBox {
  readonly east: readonly [number, number];
  readonly north: readonly [number, number];
}

/**
 * Degrees from the centre beyond which a position is not projected: the tangent plane folds what lies beyond a
 * quarter turn back onto the near side.
 */
const FARTHEST_DEGREES = 20;

/** A shape about the plane's origin; null when it is empty or reaches too far for the plane. */
export function localShape(geometry: WireGeometry, plane: TangentPlane, radius: number): LocalShape | null {
  const paths: Path[] = [];
  let area = true;
  if (geometry.type === "Point") {
    const centre = project(geometry.coordinates, plane);
    if (centre === null) return null;
    const ring = circumscribedCircle({ along: centre.north, left: centre.east }, radius);
    paths.push(closed(ring.map((corner) => ({ east: corner.left, north: corner.along }))));
  } else if (geometry.type === "LineString") {
    area = false;
    if (!pushPath(paths, geometry.coordinates, plane)) return null;
  } else if (geometry.type === "Polygon") {
    for (const ring of geometry.coordinates) if (!pushPath(paths, ring as readonly WirePosition[], plane)) return null;
  } else if (geometry.type === "MultiPolygon") {
    for (const ring of geometry.coordinates.flat()) if (!pushPath(paths, ring, plane)) return null;
  }
  return paths.length === 0 ? null : { area, paths };
}

function pushPath(paths: Path[], positions: readonly WirePosition[], plane: TangentPlane): boolean {
  const points: PlanePoint[] = [];
  for (const position of positions) {
    const point = project(position, plane);
    if (point === null) return false;
    points.push(point);
  }
  if (points.length > 1) paths.push(flat(points));
  return true;
}

function project([longitude, latitude]: WirePosition, plane: TangentPlane): PlanePoint | null {
  const position: LonLat = { longitude: longitude as number, latitude: latitude as number };
  const { origin } = plane;
  const across = wrapLongitude(position.longitude - origin.longitude);
  const near =
    Math.abs(across) <= FARTHEST_DEGREES && Math.abs(position.latitude - origin.latitude) <= FARTHEST_DEGREES;
  const point = plane.toPlane(position);
  // Near a pole the longitude says little; the distance in the plane decides as well.
  return near && Number.isFinite(point.east) && Number.isFinite(point.north) ? point : null;
}

function closed(points: readonly PlanePoint[]): Path {
  return flat([...points, points[0]!]);
}

function flat(points: readonly PlanePoint[]): Path {
  const path = new Float64Array(2 * points.length);
  points.forEach((point, index) => {
    path[2 * index] = point.east;
    path[2 * index + 1] = point.north;
  });
  return path;
}

export function boxOfShape({ paths }: LocalShape): LocalBox {
  const east: [number, number] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const north: [number, number] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const path of paths) {
    for (let index = 0; index < path.length; index += 2) {
      widen(east, path[index] as number);
      widen(north, path[index + 1] as number);
    }
  }
  return { east, north };
}

function widen(range: [number, number], value: number): void {
  if (value < range[0]) range[0] = value;
  if (value > range[1]) range[1] = value;
}

/** True when the point is inside the area (even-odd over all rings, so holes are outside). */
export function shapeContains(shape: LocalShape, { east, north }: PlanePoint): boolean {
  if (!shape.area) return false;
  let inside = false;
  for (const path of shape.paths) {
    for (let index = 0; index + 3 < path.length; index += 2) {
      const fromNorth = (path[index + 1] as number) - north;
      const toNorth = (path[index + 3] as number) - north;
      if (fromNorth > 0 === toNorth > 0) continue;
      const fromEast = (path[index] as number) - east;
      const toEast = (path[index + 2] as number) - east;
      if (fromEast - (fromNorth * (toEast - fromEast)) / (toNorth - fromNorth) > 0) inside = !inside;
    }
  }
  return inside;
}

/** Metres from the point to the nearest drawn line of the shape. */
export function distanceToPaths({ paths }: LocalShape, { east, north }: PlanePoint): number {
  let least = Number.POSITIVE_INFINITY;
  for (const path of paths) {
    for (let index = 0; index + 3 < path.length; index += 2) {
      const e = (path[index] as number) - east;
      const n = (path[index + 1] as number) - north;
      const de = (path[index + 2] as number) - east - e;
      const dn = (path[index + 3] as number) - north - n;
      const squared = de * de + dn * dn;
      const part = squared === 0 ? 0 : Math.min(1, Math.max(0, -(e * de + n * dn) / squared));
      least = Math.min(least, Math.hypot(e + part * de, n + part * dn));
    }
  }
  return least;
}
