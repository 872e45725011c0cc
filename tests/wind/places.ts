/** Surroundings drawn in metres about a place, for the tests: east and north of the centre. */
import { tangentPlane } from "../../src/geo/tangent-plane.ts";
import type { CampgroundFeature, WireGeometry } from "../../src/site/feature.ts";
import { compileSurroundings, type Surroundings } from "../../src/wind/surroundings.ts";

export const CENTRE = { longitude: -105.27, latitude: 40.02 };
export const HERE = { east: 0, north: 0 };
const plane = tangentPlane(CENTRE);

export type Spot = readonly [east: number, north: number];
export type Properties = Readonly<Record<string, unknown>>;

function position([east, north]: Spot): readonly number[] {
  const { longitude, latitude } = plane.toLonLat({ east, north });
  return [longitude, latitude];
}

function ring(corners: readonly Spot[]): readonly (readonly number[])[] {
  return [...corners, corners[0]!].map(position);
}

function feature(id: string, geometry: WireGeometry, properties: Properties): CampgroundFeature {
  return { type: "Feature", id, geometry, properties };
}

export function line(id: string, spots: readonly Spot[], properties: Properties): CampgroundFeature {
  return feature(id, { type: "LineString", coordinates: spots.map(position) }, properties);
}

export function area(id: string, rings: readonly (readonly Spot[])[], properties: Properties): CampgroundFeature {
  return feature(id, { type: "Polygon", coordinates: rings.map(ring) }, properties);
}

export function areas(
  id: string,
  polygons: readonly (readonly (readonly Spot[])[])[],
  properties: Properties,
): CampgroundFeature {
  return feature(id, { type: "MultiPolygon", coordinates: polygons.map((rings) => rings.map(ring)) }, properties);
}

export function spot(id: string, at: Spot, properties: Properties): CampgroundFeature {
  return feature(id, { type: "Point", coordinates: position(at) }, properties);
}

/** An axis-parallel box. */
export function box(west: number, east: number, south: number, north: number): readonly Spot[] {
  return [
    [west, south],
    [east, south],
    [east, north],
    [west, north],
  ];
}

/** Everything turned clockwise about the centre. */
export function turned([east, north]: Spot, angle: number): Spot {
  const sine = Math.sin(angle);
  const cosine = Math.cos(angle);
  return [east * cosine + north * sine, north * cosine - east * sine];
}

export function compiled(...features: readonly CampgroundFeature[]): Surroundings {
  return compileSurroundings(features, CENTRE);
}
