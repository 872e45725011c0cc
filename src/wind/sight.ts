/** A barrier as the wind from one direction sees it: how far upwind it stands and what it covers crosswind. */
import type { PlanePoint } from "../geo/tangent-plane.ts";
import type { LocalShape } from "./shapes.ts";

/** Upwind x and crosswind y about the place of interest, metres. */
export interface Sight {
  /** Distance at which the barrier crosses the line straight upwind; null when it does not. */
  readonly ahead: number | null;
  /** Of what lies upwind: the nearest distance, the farthest, and that of the part least off the line. */
  readonly nearest: number;
  readonly farthest: number;
  readonly leastAside: number;
  /** Metres of the barrier along the line straight upwind, up to its first way out; 0 for a line. */
  readonly depth: number;
  /** Crosswind stretches that it covers, in order, apart from each other: start and end in turn. */
  readonly cover: readonly number[];
}

/** Metres within which two parts are equally far aside: a round crown has such pairs, and rounding must not choose. */
const ASIDE_SLACK = 1e-6;

interface Collected {
  nearest: number;
  farthest: number;
  leastAside: number;
  aside: number;
  readonly crossings: number[];
  readonly stretches: [number, number][];
}

/**
 * What of a shape lies upwind of the point within `reach`; null when nothing does.
 *
 * @param sine Of the bearing from which the wind comes.
 * @param cosine Of the same bearing.
 */
export function sightOf(
  shape: LocalShape,
  point: PlanePoint,
  { sine, cosine }: { readonly sine: number; readonly cosine: number },
  reach: number,
): Sight | null {
  const found: Collected = {
    nearest: Number.POSITIVE_INFINITY,
    farthest: 0,
    leastAside: 0,
    aside: Number.POSITIVE_INFINITY,
    crossings: [],
    stretches: [],
  };
  for (const path of shape.paths) {
    let fromX = 0;
    let fromY = 0;
    for (let index = 0; index + 1 < path.length; index += 2) {
      const east = (path[index] as number) - point.east;
      const north = (path[index + 1] as number) - point.north;
      const x = east * sine + north * cosine;
      const y = north * sine - east * cosine;
      if (index > 0 && Math.max(fromX, x) > 0 && Math.min(fromX, x) < reach) take(found, fromX, fromY, x, y, reach);
      fromX = x;
      fromY = y;
    }
  }
  return found.stretches.length === 0 ? null : finish(found, shape.area, reach);
}

/** Clips one edge to what lies upwind within reach and adds it. */
function take(found: Collected, fromX: number, fromY: number, toX: number, toY: number, reach: number): void {
  const along = toX - fromX;
  let start = 0;
  let end = 1;
  if (along !== 0) {
    const first = Math.min(-fromX / along, (reach - fromX) / along);
    const last = Math.max(-fromX / along, (reach - fromX) / along);
    start = Math.max(0, first);
    end = Math.min(1, last);
    if (start >= end) return;
  }
  // Clipping leaves rounding errors on either side of zero.
  const startX = Math.max(0, fromX + start * along);
  const endX = Math.max(0, fromX + end * along);
  const startY = fromY + start * (toY - fromY);
  const endY = fromY + end * (toY - fromY);
  found.nearest = Math.min(found.nearest, startX, endX);
  found.farthest = Math.max(found.farthest, startX, endX);
  if (startY > 0 !== endY > 0) {
    const ahead = Math.max(0, startX - (startY * (endX - startX)) / (endY - startY));
    found.crossings.push(ahead);
    noteAside(found, 0, ahead);
  } else {
    noteAside(found, Math.abs(startY), startX);
    noteAside(found, Math.abs(endY), endX);
  }
  addStretch(found.stretches, Math.min(startY, endY), Math.max(startY, endY));
}

/** Of two parts equally far aside the farther one upwind counts, which shelters less. */
function noteAside(found: Collected, aside: number, x: number): void {
  if (aside > found.aside + ASIDE_SLACK) return;
  const equal = aside > found.aside - ASIDE_SLACK;
  found.leastAside = equal ? Math.max(found.leastAside, x) : x;
  found.aside = Math.min(found.aside, aside);
}

/** Neighbouring edges share a corner, so most stretches grow the one before them. */
function addStretch(stretches: [number, number][], from: number, to: number): void {
  const last = stretches[stretches.length - 1];
  if (last === undefined || from > last[1] || to < last[0]) {
    stretches.push([from, to]);
    return;
  }
  last[0] = Math.min(last[0], from);
  last[1] = Math.max(last[1], to);
}

function finish(found: Collected, area: boolean, reach: number): Sight {
  const crossings = found.crossings.sort((a, b) => a - b);
  const ahead = crossings[0] ?? null;
  const depth = area && ahead !== null ? (crossings[1] ?? reach) - ahead : 0;
  const { nearest, farthest, leastAside } = found;
  return { ahead, nearest, farthest, leastAside, depth, cover: joined(found.stretches) };
}

function joined(stretches: [number, number][]): readonly number[] {
  if (stretches.length > 1) stretches.sort((a, b) => a[0] - b[0]);
  const cover: number[] = [];
  for (const [from, to] of stretches) {
    const end = cover.length - 1;
    if (cover.length > 0 && from <= (cover[end] as number)) cover[end] = Math.max(cover[end] as number, to);
    else cover.push(from, to);
  }
  return cover;
}
