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
  let left = 0;
  let count = 0;
  for (const line of rig.lines) {
    if (!isAsked(line, flags)) continue;
    const connection = line.connections[0] as ScreenConnection;
    const hookup = firstHookup(line, connection, sites, site);
    if (hookup < 0) return Number.NEGATIVE_INFINITY;
    along += (sites.along[hookup] as number) - sign * connection.startX;
    left += (sites.left[hookup] as number) - sign * connection.startY;
    count++;
  }
  const middleAlong = (alongMin + alongMax) / 2;
  const middleLeft = (leftMin + leftMax) / 2;
  const toAlong = count === 0 ? middleAlong : clamp(along / count, alongMin, alongMax);
  const toLeft = count === 0 ? middleLeft : clamp(left / count, leftMin, leftMax);
  // Away from the hookups as well: right before a device there is no room for its solid.
  const farLeft = leftMin + leftMax - toLeft;
  const ats = [middleLeft, toLeft, farLeft, (middleLeft + farLeft) / 2];
  for (const at of ats) {
    const margin = marginAt(rig, sites, site, flags, sign, toAlong, at);
    if (margin >= wanted) return margin;
  }
  const margin = marginAt(rig, sites, site, flags, sign, middleAlong, middleLeft);
  return margin >= wanted ? margin : Number.NEGATIVE_INFINITY;
}

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

/** Takes the box about the line for the line: what is refused for it is left to the solver. */
function meetsZone(rig: ScreenRig, { startX, startY }: ScreenConnection, x: number, y: number): boolean {
  for (const zone of rig.keepOuts) {
    if (
      Math.min(x, startX) < zone.fromRearMax &&
      Math.max(x, startX) > zone.fromRearMin &&
      Math.min(y, startY) < zone.leftMax &&
      Math.max(y, startY) > zone.leftMin
    )
      return true;
  }
  return false;
}

function meetsBarrier(sites: ScreenSites, site: number, along: number, left: number, hookup: number): boolean {
  const toAlong = sites.along[hookup] as number;
  const toLeft = sites.left[hookup] as number;
  const end = sites.thingStart[site + 1] as number;
  for (let thing = sites.thingStart[site] as number; thing < end; thing++) {
    if (sites.thingBars[thing] === BARS.rig) continue;
    if (
      Math.min(along, toAlong) <= (sites.thingAlongMax[thing] as number) &&
      Math.max(along, toAlong) >= (sites.thingAlongMin[thing] as number) &&
      Math.min(left, toLeft) <= (sites.thingLeftMax[thing] as number) &&
      Math.max(left, toLeft) >= (sites.thingLeftMin[thing] as number)
    )
      return true;
  }
  return false;
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
