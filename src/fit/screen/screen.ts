/**
 * A first look at many sites: `cannot`, `can`, or undecided, in tens of nanoseconds each. A refusal is sound whatever
 * stands on the pad, because a line is never shorter than the straight way and a stance never leaves the pad: no site
 * refused here is ever a yes of the whole fit. `can` is claimed only where nothing but pad and hookups is on record,
 * all without error, and means that a stance with every required line laid was found; it is nominal for the rig.
 */
import { isAsked, isTried, longest, serves } from "./columns-reading.ts";
import type { ScreenConnection, ScreenLine, ScreenRig } from "./rig.ts";
import { FLAG, type ScreenSites } from "./sites.ts";

export const UNDECIDED = 0;
export const CANNOT = 1;
export const CAN = 2;

/** Metres by which a bound must be missed or kept before it decides: beyond the rounding of the columns. */
const GUARD = 0.001;

/** Range of the rig's origin (middle of its rear end) for one facing, metres. */
interface Room {
  alongMin: number;
  alongMax: number;
  leftMax: number;
  leftMin: number;
}

const room: Room = { alongMin: 0, alongMax: 0, leftMin: 0, leftMax: 0 };

/** Writes one of UNDECIDED, CANNOT, CAN per site into `out` and returns it. */
export function screen(rig: ScreenRig, sites: ScreenSites, out = new Uint8Array(sites.count)): Uint8Array {
  if (!rig.applies) return out.fill(UNDECIDED);
  for (let site = 0; site < sites.count; site++) out[site] = screenOne(rig, sites, site);
  return out;
}

function screenOne(rig: ScreenRig, sites: ScreenSites, site: number): number {
  const flags = sites.flags[site] as number;
  if ((flags & FLAG.closed) !== 0) return CANNOT;
  if ((sites.lengthLimit[site] as number) < rig.lengthLow - GUARD) return CANNOT;
  if ((sites.heightLimit[site] as number) < rig.heightLow - GUARD) return CANNOT;
  for (const line of rig.lines) if (!canBeJoined(line, sites, site, flags)) return CANNOT;
  let open = false;
  for (let sign: 1 | -1 = 1; ; sign = -1) {
    if (isTried(rig, flags, sign) && mayReach(rig, sites, site, flags, sign)) {
      if (rig.mayClaim && (flags & FLAG.plain) !== 0 && reaches(rig, sites, site, flags, sign)) return CAN;
      open = true;
    }
    if (sign === -1) break;
  }
  return open ? UNDECIDED : CANNOT;
}

/** False when the record says that the service is absent, or every hookup of it is barred to this rig. */
function canBeJoined(line: ScreenLine, sites: ScreenSites, site: number, flags: number): boolean {
  if (!isAsked(line, flags)) return true;
  if (line.connections.length === 0) return false;
  if (((sites.absent[site] as number) & (1 << line.number)) !== 0) return false;
  const end = sites.hookupStart[site + 1] as number;
  let listed = false;
  for (let hookup = sites.hookupStart[site] as number; hookup < end; hookup++) {
    if (!serves(line, sites.service[hookup] as number)) continue;
    listed = true;
    for (const connection of line.connections) {
      if (longest(line, connection.farthest, sites, hookup, Infinity) >= 0) return true;
    }
  }
  return !listed;
}

/** Widest room of the origin for refusals: the pad at its largest, the rig at its smallest, slides hanging over. */
function widestRoom(rig: ScreenRig, sites: ScreenSites, site: number, flags: number, sign: 1 | -1): void {
  const length = sites.padLengthHigh[site] as number;
  const width = sites.padWidthHigh[site] as number;
  const unknown = (flags & FLAG.overhangUnknown) !== 0;
  const behind = unknown ? Math.max(0, rig.overhangMost) : (sites.rearHigh[site] as number);
  const half = Number.isNaN(width) ? Infinity : (width - rig.widthLow) / 2;
  const alongMax = Number.isNaN(length) ? Infinity : length;
  const alongMin = Number.isNaN(length) ? -Infinity : -behind;
  room.alongMin = sign === 1 ? alongMin : alongMin + rig.lengthLow;
  room.alongMax = sign === 1 ? alongMax - rig.lengthLow : alongMax;
  room.leftMin = -half;
  room.leftMax = half;
}

function beyond(value: number, low: number, high: number): number {
  return value < low ? low - value : value > high ? value - high : 0;
}

/** False when some required line is too short for every stance of this facing. */
function mayReach(rig: ScreenRig, sites: ScreenSites, site: number, flags: number, sign: 1 | -1): boolean {
  widestRoom(rig, sites, site, flags, sign);
  if (room.alongMax < room.alongMin - GUARD || room.leftMax < room.leftMin - GUARD) return false;
  const end = sites.hookupStart[site + 1] as number;
  for (const line of rig.lines) {
    if (!isAsked(line, flags)) continue;
    let listed = false;
    let near = false;
    for (let hookup = sites.hookupStart[site] as number; hookup < end && !near; hookup++) {
      if (!serves(line, sites.service[hookup] as number)) continue;
      listed = true;
      for (const connection of line.connections) {
        const reach = longest(line, connection.farthest, sites, hookup, Infinity);
        if (reach >= 0 && isNear(connection, reach, sites, hookup, sign)) {
          near = true;
          break;
        }
      }
    }
    if (listed && !near) return false;
  }
  return true;
}

/** True when the straight way from some stance in the room is short enough. */
function isNear(
  connection: ScreenConnection,
  reach: number,
  sites: ScreenSites,
  hookup: number,
  sign: 1 | -1,
): boolean {
  const most = reach + connection.spread + (sites.spread[hookup] as number) + GUARD;
  if (!(most < Infinity)) return true;
  const along = (sites.along[hookup] as number) - sign * connection.fromRear;
  const left = (sites.left[hookup] as number) - sign * connection.left;
  const dx = beyond(along, room.alongMin, room.alongMax);
  const dy = beyond(left, room.leftMin, room.leftMax);
  return dx * dx + dy * dy <= most * most;
}

/** Room for `can`: nominal sizes, slides within the pad. False when there is none. */
function nominalRoom(rig: ScreenRig, sites: ScreenSites, site: number, sign: 1 | -1): boolean {
  const length = sites.padLength[site] as number;
  const half = (sites.padWidth[site] as number) / 2;
  const onLeft = half - rig.halfWidth - (sign === 1 ? rig.slideLeft : rig.slideRight);
  const onRight = half - rig.halfWidth - (sign === 1 ? rig.slideRight : rig.slideLeft);
  const rear = sites.rear[site] as number;
  room.alongMin = sign === 1 ? rig.slideRear - rear : rig.length - rear;
  room.alongMax = sign === 1 ? length - rig.length : length - rig.slideRear;
  room.leftMax = onLeft;
  room.leftMin = -onRight;
  return room.alongMax > room.alongMin + GUARD && room.leftMax > room.leftMin + GUARD;
}

const clamp = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high);

/** True when one of two stances lays every required line straight, clear of zones and devices. */
function reaches(rig: ScreenRig, sites: ScreenSites, site: number, flags: number, sign: 1 | -1): boolean {
  if (!nominalRoom(rig, sites, site, sign)) return false;
  let along = 0;
  let left = 0;
  let count = 0;
  for (const line of rig.lines) {
    if (!isAsked(line, flags)) continue;
    const connection = line.connections[0] as ScreenConnection;
    const hookup = firstHookup(line, connection, sites, site);
    if (hookup < 0) return false;
    along += (sites.along[hookup] as number) - sign * connection.startX;
    left += (sites.left[hookup] as number) - sign * connection.startY;
    count++;
  }
  const middleAlong = (room.alongMin + room.alongMax) / 2;
  const middleLeft = (room.leftMin + room.leftMax) / 2;
  const towardsAlong = count === 0 ? middleAlong : clamp(along / count, room.alongMin, room.alongMax);
  const towardsLeft = count === 0 ? middleLeft : clamp(left / count, room.leftMin, room.leftMax);
  return (
    isGood(rig, sites, site, flags, sign, middleAlong, middleLeft) ||
    isGood(rig, sites, site, flags, sign, towardsAlong, middleLeft) ||
    isGood(rig, sites, site, flags, sign, towardsAlong, towardsLeft)
  );
}

/** The first hookup that the connection may be joined to, by its nominal line. */
function firstHookup(line: ScreenLine, connection: ScreenConnection, sites: ScreenSites, site: number): number {
  const end = sites.hookupStart[site + 1] as number;
  for (let hookup = sites.hookupStart[site] as number; hookup < end; hookup++) {
    if (!serves(line, sites.service[hookup] as number)) continue;
    if (longest(line, connection.laid, sites, hookup, -1) >= 0) return hookup;
  }
  return -1;
}

function isGood(
  rig: ScreenRig,
  sites: ScreenSites,
  site: number,
  flags: number,
  sign: 1 | -1,
  along: number,
  left: number,
): boolean {
  for (const line of rig.lines) {
    if (!isAsked(line, flags)) continue;
    const connection = line.connections[0] as ScreenConnection;
    const hookup = firstHookup(line, connection, sites, site);
    const x = sign * ((sites.along[hookup] as number) - along);
    const y = sign * ((sites.left[hookup] as number) - left);
    if (!isOutside(rig, connection, x, y)) return false;
    const recorded = sites.height[hookup] as number;
    const drain = line.service === "sewer";
    const height = drain ? 0 : Number.isNaN(recorded) ? line.usualHeight : recorded;
    // A drain with known heights has to fall as well: that is for the whole fit.
    if (drain && !Number.isNaN(recorded)) return false;
    const run = connection.setback + Math.hypot(x - connection.startX, y - connection.startY);
    const least = longest(line, connection.laid, sites, hookup, -1) - height - GUARD;
    if (!(least >= 0) || run * run + connection.fall * connection.fall > least * least) return false;
    if (meetsZone(rig, connection, x, y)) return false;
  }
  return !rig.solidDevices || clearOfDevices(rig, sites, site, sign, along, left);
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

/** Takes the box about the line for the line: what is refused for it is left to the whole fit. */
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

/** True when no device stands within the rig with its slides, whatever their heights. */
function clearOfDevices(
  rig: ScreenRig,
  sites: ScreenSites,
  site: number,
  sign: 1 | -1,
  along: number,
  left: number,
): boolean {
  const end = sites.hookupStart[site + 1] as number;
  for (let hookup = sites.hookupStart[site] as number; hookup < end; hookup++) {
    const depth = sites.halfDepth[hookup] as number;
    const width = sites.halfWidth[hookup] as number;
    if (depth === 0 && width === 0) continue;
    const x = sign * ((sites.along[hookup] as number) - along);
    const y = sign * ((sites.left[hookup] as number) - left);
    const aside = rig.clearance + GUARD;
    if (
      x > -rig.slideRear - depth - aside &&
      x < rig.length + depth + aside &&
      y < rig.halfWidth + rig.slideLeft + width + aside &&
      y > -rig.halfWidth - rig.slideRight - width - aside
    )
      return false;
  }
  return true;
}
