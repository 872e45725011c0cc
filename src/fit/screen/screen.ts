/**
 * A first look at many sites: `cannot`, `can`, or undecided, in tens of nanoseconds each. A refusal is sound whatever
 * stands on the pad, because a line is never shorter than the straight way and a stance never leaves the pad: no site
 * refused here is ever a yes of the whole fit. `can` is claimed only where nothing but pad and hookups is on record,
 * all without error, and means that a stance with every required line laid was found; it is nominal for the rig.
 */
import { marginBound } from "./bound.ts";
import { isAsked, isTried, longest, serves } from "./columns-reading.ts";
import type { ScreenConnection, ScreenLine, ScreenRig } from "./rig.ts";
import { beyond, isEmpty, type Room, type Sign, widestRoom } from "./room.ts";
import { FLAG, type ScreenSites } from "./sites.ts";
import { trialMargin } from "./trial.ts";

export const UNDECIDED = 0;
export const CANNOT = 1;
export const CAN = 2;
export const SHORT = 3;

/** Metres by which a bound must be missed or kept before it decides: beyond the rounding of the columns. */
const GUARD = 0.001;

const room: Room = { alongMin: 0, alongMax: 0, leftMin: 0, leftMax: 0 };

/** Writes one of UNDECIDED, CANNOT, CAN per site into `out` and returns it. */
export function screen(rig: ScreenRig, sites: ScreenSites, out = new Uint8Array(sites.count)): Uint8Array {
  if (!rig.applies) return out.fill(UNDECIDED);
  for (let site = 0; site < sites.count; site++) out[site] = screenOne(rig, sites, site);
  return out;
}

/** True when a stated limit, a closure or a service that cannot be joined refuses the site before any geometry. */
function isBarred(rig: ScreenRig, sites: ScreenSites, site: number, flags: number): boolean {
  if ((flags & FLAG.closed) !== 0) return true;
  if ((sites.lengthLimit[site] as number) < rig.lengthLow - GUARD) return true;
  if ((sites.heightLimit[site] as number) < rig.heightLow - GUARD) return true;
  for (const line of rig.lines) if (!canBeJoined(line, sites, site, flags)) return true;
  return false;
}

function screenOne(rig: ScreenRig, sites: ScreenSites, site: number): number {
  const flags = sites.flags[site] as number;
  if (isBarred(rig, sites, site, flags)) return CANNOT;
  let open = false;
  for (let sign: Sign = 1; ; sign = -1) {
    if (isTried(rig, flags, sign) && mayReach(rig, sites, site, flags, sign)) {
      if ((flags & FLAG.plain) !== 0 && mayClaim(rig, sites, site, sign)) return CAN;
      open = true;
    }
    if (sign === -1) break;
  }
  return open ? UNDECIDED : CANNOT;
}

/** True when a stance was found; the bound is asked first, because it costs less than trying. */
function mayClaim(rig: ScreenRig, sites: ScreenSites, site: number, sign: Sign): boolean {
  return marginBound(rig, sites, site, sign) >= 0 && trialMargin(rig, sites, site, sign, 0) >= 0;
}

/**
 * The same question by nominal values alone: CANNOT, or SHORT where the nominal lines cannot be laid at any stance
 * (with other values of what is uncertain they might), CAN where a stance was found, else UNDECIDED.
 */
export function screenNominal(rig: ScreenRig, sites: ScreenSites, out = new Uint8Array(sites.count)): Uint8Array {
  if (!rig.applies) return out.fill(UNDECIDED);
  for (let site = 0; site < sites.count; site++) out[site] = nominalOne(rig, sites, site);
  return out;
}

function nominalOne(rig: ScreenRig, sites: ScreenSites, site: number): number {
  const flags = sites.flags[site] as number;
  if (isBarred(rig, sites, site, flags)) return CANNOT;
  if ((flags & FLAG.tryable) === 0) return UNDECIDED;
  let open = false;
  for (let sign: Sign = 1; ; sign = -1) {
    if (isTried(rig, flags, sign)) {
      const bound = marginBound(rig, sites, site, sign);
      if (bound >= 0 && trialMargin(rig, sites, site, sign, 0) >= 0) return CAN;
      if (!(bound < -GUARD)) open = true;
    }
    if (sign === -1) break;
  }
  return open ? UNDECIDED : SHORT;
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

/** False when some required line is too short for every stance of this facing. */
function mayReach(rig: ScreenRig, sites: ScreenSites, site: number, flags: number, sign: Sign): boolean {
  widestRoom(rig, sites, site, sign, room);
  if (isEmpty(room, GUARD)) return false;
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
function isNear(connection: ScreenConnection, reach: number, sites: ScreenSites, hookup: number, sign: Sign): boolean {
  const most = reach + connection.spread + (sites.spread[hookup] as number) + GUARD;
  if (!(most < Infinity)) return true;
  const along = (sites.along[hookup] as number) - sign * connection.fromRear;
  const left = (sites.left[hookup] as number) - sign * connection.left;
  const dx = beyond(along, room.alongMin, room.alongMax);
  const dy = beyond(left, room.leftMin, room.leftMax);
  return dx * dx + dy * dy <= most * most;
}
