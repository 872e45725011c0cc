/**
 * No stance on the pad does better than this: every line alone and every two together by the ways round the body, with
 * nothing standing about. Nominal, for level ground.
 */
import { NO_WALL, WALLS } from "../stance/routes.ts";
import { isAsked, serves } from "./columns-reading.ts";
import { type LineLaw, marginOf, readLaw } from "./law.ts";
import type { ScreenConnection, ScreenRig } from "./rig.ts";
import { beyond, isEmpty, nominalRoom, type Room, type Sign } from "./room.ts";
import { type ScreenSites, SERVICE_NUMBERS } from "./sites.ts";

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
  anchors.count = 0;
  let lines = 0;
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
        addAnchors(connection, sites, hookup, sign, lines);
        if (!(margin <= best)) best = margin;
      }
    }
    if (Number.isNaN(best)) return Number.NaN;
    if (best < bound) bound = best;
    lines++;
  }
  return bound < 0 || lines < 2 ? bound : Math.min(bound, pairBound(lines));
}

/** Every way that every line may take: where its straight leg is anchored and what is left for it. */
const MOST_ANCHORS = 256;
const anchors = {
  count: 0,
  along: new Float64Array(MOST_ANCHORS),
  left: new Float64Array(MOST_ANCHORS),
  rest: new Float64Array(MOST_ANCHORS),
  line: new Uint8Array(MOST_ANCHORS),
};

/** The origin's place at which the leg would have no length, and the length of line that is left for the leg. */
function addAnchors(connection: ScreenConnection, sites: ScreenSites, hookup: number, sign: Sign, line: number): void {
  const budget = Math.min(law.budget, law.cap);
  for (const { x, y, length } of connection.departures) {
    const place = anchors.count++;
    if (place >= MOST_ANCHORS) return;
    anchors.along[place] = (sites.along[hookup] as number) - sign * x;
    anchors.left[place] = (sites.left[hookup] as number) - sign * y;
    anchors.rest[place] = budget - length;
    anchors.line[place] = line;
  }
}

/** Two lines share one stance: what both have left together must span the distance of their anchors. */
function pairBound(lines: number): number {
  const { count, along, left, rest, line } = anchors;
  if (count > MOST_ANCHORS) return Infinity;
  const best = pairs.fill(Number.NEGATIVE_INFINITY, 0, lines * lines);
  for (let a = 0; a < count; a++) {
    const first = line[a] as number;
    for (let b = a + 1; b < count; b++) {
      const second = line[b] as number;
      if (second === first) continue;
      const spare = (rest[a] as number) + (rest[b] as number);
      const place = first * lines + second;
      if (spare / 2 <= (best[place] as number)) continue;
      const dx = (along[a] as number) - (along[b] as number);
      const dy = (left[a] as number) - (left[b] as number);
      const margin = (spare - Math.sqrt(dx * dx + dy * dy)) / 2;
      if (margin > (best[place] as number)) best[place] = margin;
    }
  }
  let least = Infinity;
  for (let first = 0; first < lines; first++) {
    for (let second = first + 1; second < lines; second++)
      least = Math.min(least, best[first * lines + second] as number);
  }
  return least;
}

/** Best of every two lines; a rig has at most as many lines as there are services. */
const pairs = new Float64Array(SERVICE_NUMBERS.length ** 2);

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
