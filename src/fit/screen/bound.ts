/**
 * No stance on the pad does better than this: every line alone and every two together by the ways round the body, with
 * nothing standing about. Nominal, for level ground.
 */
import { NO_WALL, WALLS } from "../stance/routes.ts";
import { isAsked, serves } from "./columns-reading.ts";
import { type LineLaw, marginOf, readLaw } from "./law.ts";
import type { ScreenConnection, ScreenRig } from "./rig.ts";
import { beyond, isEmpty, nominalRoom, type Room, type Sign } from "./room.ts";
import type { ScreenSites } from "./sites.ts";

const room: Room = { alongMin: 0, alongMax: 0, leftMin: 0, leftMax: 0 };
const law: LineLaw = { budget: 0, fall: 0, cap: 0 };

const LEFT = WALLS.indexOf("left");
const RIGHT = WALLS.indexOf("right");
const REAR = WALLS.indexOf("rear");

/**
 * Upper bound of the largest worst margin over the required lines for one facing, metres; -Infinity when the body does
 * not fit the pad, NaN when a required line has no hookup whose place is known.
 */
export function marginBound(rig: ScreenRig, sites: ScreenSites, site: number, sign: Sign): number {
  nominalRoom(rig, sites, site, sign, false, room);
  if (isEmpty(room, 0)) return Number.NEGATIVE_INFINITY;
  let bound = Infinity;
  const flags = sites.flags[site] as number;
  const end = sites.hookupStart[site + 1] as number;
  for (const line of rig.lines) {
    if (!isAsked(line, flags)) continue;
    let best = Number.NaN;
    for (let hookup = sites.hookupStart[site] as number; hookup < end; hookup++) {
      if (!serves(line, sites.service[hookup] as number)) continue;
      if (Number.isNaN(sites.along[hookup] as number)) continue;
      for (const connection of line.connections) {
        if (!readLaw(line, connection, sites, site, hookup, law)) continue;
        const margin = marginOf(law, shortestRun(rig, connection, sites, hookup, sign));
        if (!(margin <= best)) best = margin;
      }
    }
    if (Number.isNaN(best)) return Number.NaN;
    if (best < bound) bound = best;
  }
  return bound;
}

/** Shortest run from any stance in the room to a hookup. */
function shortestRun(
  rig: ScreenRig,
  connection: ScreenConnection,
  sites: ScreenSites,
  hookup: number,
  sign: Sign,
): number {
  const along = sites.along[hookup] as number;
  const left = sites.left[hookup] as number;
  let least = Infinity;
  for (const { x, y, length, wall } of connection.departures) {
    // The straight leg lies outside its wall: that takes a strip off the room.
    let { alongMin, alongMax, leftMin, leftMax } = room;
    if (wall !== NO_WALL) {
      if (wall === LEFT || wall === RIGHT) {
        const outward = (wall === LEFT ? 1 : -1) * sign;
        if (outward > 0) leftMax = Math.min(leftMax, left - rig.halfWidth);
        else leftMin = Math.max(leftMin, left + rig.halfWidth);
      } else {
        const outward = (wall === REAR ? -1 : 1) * sign;
        const depth = wall === REAR ? 0 : rig.length;
        if (outward > 0) alongMax = Math.min(alongMax, along - depth);
        else alongMin = Math.max(alongMin, along + depth);
      }
      if (alongMin > alongMax || leftMin > leftMax) continue;
    }
    const dx = beyond(along - sign * x, alongMin, alongMax);
    const dy = beyond(left - sign * y, leftMin, leftMax);
    least = Math.min(least, length + Math.sqrt(dx * dx + dy * dy));
  }
  return least;
}
