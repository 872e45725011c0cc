/**
 * A few likely stances tried on the columns alone, every line straight out. What passes is a true stance with its true
 * margins; what does not pass says nothing.
 */
import { isAsked, serves } from "./columns-reading.ts";
import { type LineLaw, marginOf, readLaw } from "./law.ts";
import type { ScreenConnection, ScreenLine, ScreenRig } from "./rig.ts";
import { isEmpty, nominalRoom, type Room, type Sign } from "./room.ts";
import { BARS, FLAG, type ScreenSites } from "./sites.ts";

/** Metres by which everything must be kept: beyond the rounding of the columns. */
const GUARD = 0.001;

const room: Room = { alongMin: 0, alongMax: 0, leftMin: 0, leftMax: 0 };
const law: LineLaw = { budget: 0, fall: 0, cap: 0 };

const clamp = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high);

/** Least margin over the required lines at the first stance that keeps `wanted`; -Infinity when none does. */
export function trialMargin(rig: ScreenRig, sites: ScreenSites, site: number, sign: Sign, wanted: number): number {
  const flags = sites.flags[site] as number;
  if ((flags & FLAG.tryable) === 0 || !rig.mayClaim) return Number.NEGATIVE_INFINITY;
  nominalRoom(rig, sites, site, sign, true, room);
  if (isEmpty(room, -GUARD)) return Number.NEGATIVE_INFINITY;
  const { alongMin, alongMax, leftMin, leftMax } = room;
  let along = 0;
  let count = 0;
  for (const line of rig.lines) {
    if (!isAsked(line, flags)) continue;
    const connection = line.connections[0] as ScreenConnection;
    const hookup = firstHookup(line, connection, sites, site);
    if (hookup < 0) return Number.NEGATIVE_INFINITY;
    along += (sites.along[hookup] as number) - sign * connection.startX;
    count++;
  }
  const toAlong = count === 0 ? (alongMin + alongMax) / 2 : along / count;
  for (const shift of ALONG_SHIFTS) {
    const at = clamp(toAlong + shift, alongMin, alongMax);
    for (const share of LEFT_SHARES) {
      const margin = marginAt(rig, sites, site, flags, sign, at, leftMin + share * (leftMax - leftMin));
      if (margin >= wanted) return margin;
    }
  }
  const margin = marginAt(rig, sites, site, flags, sign, (alongMin + alongMax) / 2, (leftMin + leftMax) / 2);
  return margin >= wanted ? margin : Number.NEGATIVE_INFINITY;
}

/** Places tried: metres along from where the lines are shortest, and shares of the room across. */
const ALONG_SHIFTS = [0, -0.8, 0.8] as const;
const LEFT_SHARES = [0.5, 0.2, 0.8, 0, 1] as const;

/** The first hookup that the connection may be joined to, by its nominal line. */
function firstHookup(line: ScreenLine, connection: ScreenConnection, sites: ScreenSites, site: number): number {
  const end = sites.hookupStart[site + 1] as number;
  for (let hookup = sites.hookupStart[site] as number; hookup < end; hookup++) {
    if (!serves(line, sites.service[hookup] as number) || Number.isNaN(sites.along[hookup] as number)) continue;
    if (readLaw(line, connection, sites, site, hookup, law)) return hookup;
  }
  return -1;
}

function marginAt(
  rig: ScreenRig,
  sites: ScreenSites,
  site: number,
  flags: number,
  sign: Sign,
  along: number,
  left: number,
): number {
  let least = Infinity;
  for (const line of rig.lines) {
    if (!isAsked(line, flags)) continue;
    const connection = line.connections[0] as ScreenConnection;
    const hookup = firstHookup(line, connection, sites, site);
    readLaw(line, connection, sites, site, hookup, law);
    const x = sign * ((sites.along[hookup] as number) - along);
    const y = sign * ((sites.left[hookup] as number) - left);
    if (!isOutside(rig, connection, x, y) || meetsZone(rig, connection, x, y)) return Number.NEGATIVE_INFINITY;
    const dx = x - connection.startX;
    const dy = y - connection.startY;
    const margin = marginOf(law, connection.setback + Math.sqrt(dx * dx + dy * dy)) - GUARD;
    if (margin < least) least = margin;
    const startAlong = along + sign * connection.startX;
    const startLeft = left + sign * connection.startY;
    if (meetsBarrier(sites, site, startAlong, startLeft, hookup)) return Number.NEGATIVE_INFINITY;
  }
  return standsClear(rig, sites, site, sign, along, left) ? least : Number.NEGATIVE_INFINITY;
}

/** True when the straight line from the wall to (x, y) of the rig frame does not pass beneath the rig. */
function isOutside(rig: ScreenRig, connection: ScreenConnection, x: number, y: number): boolean {
  switch (connection.wall) {
    case "left":
      return y >= rig.halfWidth + GUARD;
    case "right":
      return y <= -rig.halfWidth - GUARD;
    case "rear":
      return x <= -GUARD;
    case "front":
      return x >= rig.length + GUARD;
    case null:
      return true;
  }
}

/** True when the straight line from the wall to (x, y) of the rig frame crosses or touches a zone of the rig. */
function meetsZone(rig: ScreenRig, { startX, startY }: ScreenConnection, x: number, y: number): boolean {
  for (const { fromRearMin, fromRearMax, leftMin, leftMax } of rig.keepOuts) {
    if (meetsBox(startX, startY, x, y, fromRearMin, fromRearMax, leftMin, leftMax)) return true;
  }
  return false;
}

/** Takes the box about a thing for the thing: what is refused for it is left to the solver. */
function meetsBarrier(sites: ScreenSites, site: number, along: number, left: number, hookup: number): boolean {
  const toAlong = sites.along[hookup] as number;
  const toLeft = sites.left[hookup] as number;
  const end = sites.thingStart[site + 1] as number;
  for (let thing = sites.thingStart[site] as number; thing < end; thing++) {
    if (sites.thingBars[thing] === BARS.rig) continue;
    const alongMin = (sites.thingAlongMin[thing] as number) - GUARD;
    const alongMax = (sites.thingAlongMax[thing] as number) + GUARD;
    const leftMin = (sites.thingLeftMin[thing] as number) - GUARD;
    const leftMax = (sites.thingLeftMax[thing] as number) + GUARD;
    if (meetsBox(along, left, toAlong, toLeft, alongMin, alongMax, leftMin, leftMax)) return true;
  }
  return false;
}

/** True when a segment meets a box: they overlap on both axes and on the segment's own normal. */
function meetsBox(
  x1: number,
  y1: number,
  x2: number,
  y2: number,
  xMin: number,
  xMax: number,
  yMin: number,
  yMax: number,
): boolean {
  if (Math.max(x1, x2) < xMin || Math.min(x1, x2) > xMax) return false;
  if (Math.max(y1, y2) < yMin || Math.min(y1, y2) > yMax) return false;
  const dx = x2 - x1;
  const dy = y2 - y1;
  const apart = Math.abs(dx * ((yMin + yMax) / 2 - y1) - dy * ((xMin + xMax) / 2 - x1));
  return apart <= (Math.abs(dx) * (yMax - yMin) + Math.abs(dy) * (xMax - xMin)) / 2;
}

/** True when no device and nothing on record stands within the box of the rig with its slides, whatever the heights. */
function standsClear(
  rig: ScreenRig,
  sites: ScreenSites,
  site: number,
  sign: Sign,
  along: number,
  left: number,
): boolean {
  const aside = rig.clearance + GUARD;
  const onLeft = rig.halfWidth + (sign === 1 ? rig.slideLeft : rig.slideRight) + aside;
  const onRight = rig.halfWidth + (sign === 1 ? rig.slideRight : rig.slideLeft) + aside;
  const rear = along - sign * (rig.slideRear + aside);
  const nose = along + sign * (rig.length + aside);
  const alongMin = Math.min(rear, nose);
  const alongMax = Math.max(rear, nose);
  const leftMin = left - onRight;
  const leftMax = left + onLeft;
  const lastThing = sites.thingStart[site + 1] as number;
  for (let thing = sites.thingStart[site] as number; thing < lastThing; thing++) {
    if (sites.thingBars[thing] === BARS.line) continue;
    if (
      (sites.thingAlongMin[thing] as number) < alongMax &&
      (sites.thingAlongMax[thing] as number) > alongMin &&
      (sites.thingLeftMin[thing] as number) < leftMax &&
      (sites.thingLeftMax[thing] as number) > leftMin
    )
      return false;
  }
  if (!rig.solidDevices) return true;
  const last = sites.hookupStart[site + 1] as number;
  for (let hookup = sites.hookupStart[site] as number; hookup < last; hookup++) {
    const depth = sites.halfDepth[hookup] as number;
    const width = sites.halfWidth[hookup] as number;
    if (depth === 0 && width === 0) continue;
    const atAlong = sites.along[hookup] as number;
    const atLeft = sites.left[hookup] as number;
    if (
      atAlong - depth < alongMax &&
      atAlong + depth > alongMin &&
      atLeft - width < leftMax &&
      atLeft + width > leftMin
    )
      return false;
  }
  return true;
}
