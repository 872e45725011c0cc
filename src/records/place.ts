/** Where a site or a campground lies on the earth, for searching; never an origin that a line is measured from. */
import distance from "@turf/distance";
import { padOutline } from "../site/far.ts";
import type { CampgroundFeature } from "../site/feature.ts";

export interface Place {
  readonly longitude: number;
  readonly latitude: number;
}

/** [west, south, east, north] in degrees; west above east crosses the antimeridian (RFC 7946 section 5.2). */
export type Box = readonly [west: number, south: number, east: number, north: number];

const HALF_TURN = 180;
const TURN = 360;

/** The middle of a site's outline, its point, or the origin of its pad; null for a record made by tape alone. */
export function placeOf(feature: CampgroundFeature): Place | null {
  const outline = padOutline(feature.geometry);
  const first = outline[0];
  if (first === undefined) return originOf(feature);
  // Longitudes are taken as offsets from the first corner, so that an outline across the antimeridian keeps together.
  const offsets = outline.map((corner) => wrapped(corner.longitude - first.longitude));
  return {
    longitude: wrapped(first.longitude + mean(offsets)),
    latitude: mean(outline.map((corner) => corner.latitude)),
  };
}

function originOf(feature: CampgroundFeature): Place | null {
  const pad = feature.properties["pad"];
  const origin: unknown = typeof pad === "object" && pad !== null && "origin" in pad ? pad.origin : undefined;
  const [longitude, latitude] = Array.isArray(origin) ? (origin as unknown[]) : [];
  return typeof longitude === "number" && typeof latitude === "number" ? { longitude, latitude } : null;
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** Degrees brought to [-180, 180). */
function wrapped(degrees: number): number {
  const within = (((degrees + HALF_TURN) % TURN) + TURN) % TURN;
  return within - HALF_TURN;
}

/** The smallest box round the places; null when there are none. */
export function boxOf(places: readonly Place[]): Box | null {
  if (places.length === 0) return null;
  const longitudes = places.map((place) => place.longitude).sort((a, b) => a - b);
  const latitudes = places.map((place) => place.latitude);
  // The box leaves out the widest gap between neighbours round the whole circle of longitude.
  let west = longitudes[0] as number;
  let east = longitudes.at(-1) as number;
  let widest = west + TURN - east;
  for (let index = 1; index < longitudes.length; index += 1) {
    const [before, after] = [longitudes[index - 1] as number, longitudes[index] as number];
    if (after - before > widest) {
      widest = after - before;
      [west, east] = [after, before];
    }
  }
  return [west, Math.min(...latitudes), east, Math.max(...latitudes)];
}

export function isInBox(place: Place, [west, south, east, north]: Box): boolean {
  if (place.latitude < south || place.latitude > north) return false;
  const { longitude } = place;
  return west <= east ? longitude >= west && longitude <= east : longitude >= west || longitude <= east;
}

/** Metres between two places on a sphere; good enough for a radius of search, never for a line. */
export function metresBetween(a: Place, b: Place): number {
  return distance([a.longitude, a.latitude], [b.longitude, b.latitude], { units: "meters" });
}
