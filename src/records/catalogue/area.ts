/** Areas that a catalogue is asked for: a box, a circle, or a strip along a route. Degrees and metres. */
import { type Box, metresBetween, type Place } from "../place.ts";

export type Area =
  | { readonly box: Box }
  | { readonly middle: Place; readonly radius: number }
  | { readonly route: readonly Place[]; readonly aside: number };

const RADIANS = Math.PI / 180;
const HALF_TURN = 180;
const TURN = 360;
const QUARTER_TURN = 90;
/** Metres per degree of latitude, taken small so that a box about a circle is never too small. */
const LEAST_METRES_PER_DEGREE = 110_500;
/** Cosine below which every longitude is near: within a few kilometres of a pole. */
const POLAR = 1e-3;

/** Boxes that together hold the area, none across the antimeridian. */
export function boxesOf(area: Area): Box[] {
  if ("box" in area) return split(area.box);
  if ("middle" in area) return split(boxAround(area.middle, area.radius));
  const { route, aside } = area;
  return route.slice(1).flatMap((to, index) => split(boxAlong(route[index] as Place, to, aside)));
}

function boxAround({ longitude, latitude }: Place, radius: number): Box {
  const up = radius / LEAST_METRES_PER_DEGREE;
  const widest = Math.min(QUARTER_TURN, Math.abs(latitude) + up);
  const narrowing = Math.cos(widest * RADIANS);
  const aside = narrowing < POLAR ? HALF_TURN : Math.min(HALF_TURN, up / narrowing);
  return [
    longitude - aside,
    Math.max(-QUARTER_TURN, latitude - up),
    longitude + aside,
    Math.min(QUARTER_TURN, latitude + up),
  ];
}

function boxAlong(from: Place, to: Place, aside: number): Box {
  const [west, south, east, north] = boxAround(from, aside);
  const step = wrapped(to.longitude - from.longitude);
  const [westTo, southTo, eastTo, northTo] = boxAround({ ...to, longitude: from.longitude + step }, aside);
  return [Math.min(west, westTo), Math.min(south, southTo), Math.max(east, eastTo), Math.max(north, northTo)];
}

/** A box with any longitudes as one or two boxes within [-180, 180]. */
function split([west, south, east, north]: Box): Box[] {
  const width = east >= west ? east - west : east + TURN - west;
  if (width >= TURN) return [[-HALF_TURN, south, HALF_TURN, north]];
  const start = wrapped(west);
  const end = start + width;
  if (end <= HALF_TURN) return [[start, south, end, north]];
  return [
    [start, south, HALF_TURN, north],
    [-HALF_TURN, south, end - TURN, north],
  ];
}

/** Degrees brought to [-180, 180). */
function wrapped(degrees: number): number {
  return ((((degrees + HALF_TURN) % TURN) + TURN) % TURN) - HALF_TURN;
}

/** Metres from a place to the nearest point of a route: straight in the plane about the place, good for a strip. */
export function metresToRoute(place: Place, route: readonly Place[]): number {
  const narrowing = Math.cos(place.latitude * RADIANS);
  const flat = (at: Place) => ({
    x: wrapped(at.longitude - place.longitude) * narrowing,
    y: at.latitude - place.latitude,
  });
  let least = Infinity;
  for (let index = 1; index < route.length; index++) {
    const a = flat(route[index - 1] as Place);
    const b = flat(route[index] as Place);
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    const square = dx * dx + dy * dy;
    const share = square === 0 ? 0 : Math.min(1, Math.max(0, -(a.x * dx + a.y * dy) / square));
    const nearest = { longitude: (a.x + share * dx) / narrowing, latitude: a.y + share * dy };
    const at = { longitude: place.longitude + nearest.longitude, latitude: place.latitude + nearest.latitude };
    least = Math.min(least, metresBetween(place, at));
  }
  return least;
}
