import type { ConvexSet, FlatBox } from "./convex.ts";
import type { Region } from "./region.ts";
import { GRAZE_TOLERANCE, TOUCH_TOLERANCE } from "./tolerance.ts";

/** Metres that stand for no end of a region; no line is that long. */
const FAR = 1e4;

/** A convex patch of places of the rig's origin by its corners in order; it may be as thin as a line or a point. */
export interface Place {
  readonly xs: readonly number[];
  readonly ys: readonly number[];
}

/** The patch that a region leaves, let out by a touch; null when it leaves none. */
export function placeOf(region: Region): Place | null {
  const xMin = Math.max(region.xMin, -FAR) - TOUCH_TOLERANCE;
  const xMax = Math.min(region.xMax, FAR) + TOUCH_TOLERANCE;
  const yMin = Math.max(region.yMin, -FAR) - TOUCH_TOLERANCE;
  const yMax = Math.min(region.yMax, FAR) + TOUCH_TOLERANCE;
  if (xMin > xMax || yMin > yMax) return null;
  let place: Place | null = { xs: [xMin, xMax, xMax, xMin], ys: [yMin, yMin, yMax, yMax] };
  for (let plane = 0; plane < region.count && place !== null; plane++) {
    place = cut(place, region.px[plane] as number, region.py[plane] as number, region.limit[plane] as number);
  }
  return place;
}

/** The box round a patch. */
export function extentOf({ xs, ys }: Place): FlatBox {
  return { xMin: Math.min(...xs), xMax: Math.max(...xs), yMin: Math.min(...ys), yMax: Math.max(...ys) };
}

/** The part of a patch within a set. */
export function placeWithin(place: Place, set: ConvexSet): Place | null {
  let rest: Place | null = place;
  for (let side = 0; side < set.nx.length && rest !== null; side++) {
    rest = cut(rest, set.nx[side] as number, set.ny[side] as number, set.offset[side] as number);
  }
  return rest;
}

function cut(place: Place, nx: number, ny: number, limit: number): Place | null {
  const { xs, ys } = place;
  const room = (corner: number): number =>
    limit + TOUCH_TOLERANCE - nx * (xs[corner] as number) - ny * (ys[corner] as number);
  let cuts = false;
  for (let corner = 0; corner < xs.length; corner++) if (room(corner) < 0) cuts = true;
  if (!cuts) return place;
  const keptX: number[] = [];
  const keptY: number[] = [];
  for (let corner = 0; corner < xs.length; corner++) {
    const next = corner + 1 < xs.length ? corner + 1 : 0;
    const here = room(corner);
    const there = room(next);
    const x = xs[corner] as number;
    const y = ys[corner] as number;
    if (here >= 0) {
      keptX.push(x);
      keptY.push(y);
    }
    if (here >= 0 === there >= 0) continue;
    const part = here / (here - there);
    keptX.push(x + part * ((xs[next] as number) - x));
    keptY.push(y + part * ((ys[next] as number) - y));
  }
  return keptX.length === 0 ? null : { xs: keptX, ys: keptY };
}

/** True when the whole patch lies in the open set, deeper than a graze. */
export function liesWithin(place: Place, set: ConvexSet): boolean {
  for (let side = 0; side < set.nx.length; side++) {
    const nx = set.nx[side] as number;
    const ny = set.ny[side] as number;
    const limit = (set.offset[side] as number) - GRAZE_TOLERANCE - TOUCH_TOLERANCE;
    for (let corner = 0; corner < place.xs.length; corner++) {
      if (nx * (place.xs[corner] as number) + ny * (place.ys[corner] as number) >= limit) return false;
    }
  }
  return true;
}

/** True when one side of the open set has the whole patch on it or beyond. */
export function liesOutside(place: Place, set: ConvexSet): boolean {
  for (let side = 0; side < set.nx.length; side++) {
    const nx = set.nx[side] as number;
    const ny = set.ny[side] as number;
    const limit = set.offset[side] as number;
    let beyond = true;
    for (let corner = 0; beyond && corner < place.xs.length; corner++) {
      beyond = nx * (place.xs[corner] as number) + ny * (place.ys[corner] as number) >= limit;
    }
    if (beyond) return true;
  }
  return false;
}
