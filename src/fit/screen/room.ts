/** Where the pad lets the rig's origin (the middle of its rear end) be, for one facing; metres. */
import type { ScreenRig } from "./rig.ts";
import { FLAG, type ScreenSites } from "./sites.ts";

/** +1 nose out, -1 nose in. */
export type Sign = 1 | -1;

/** Filled anew for every site and facing: one object for millions of sites. */
export interface Room {
  alongMin: number;
  alongMax: number;
  leftMin: number;
  leftMax: number;
}

/** The pad at its largest, the rig at its smallest, slides hanging over: for refusals. */
export function widestRoom(rig: ScreenRig, sites: ScreenSites, site: number, sign: Sign, room: Room): void {
  const length = sites.padLengthHigh[site] as number;
  const width = sites.padWidthHigh[site] as number;
  const unknown = ((sites.flags[site] as number) & FLAG.overhangUnknown) !== 0;
  const behind = unknown ? Math.max(0, rig.overhangMost) : (sites.rearHigh[site] as number);
  const half = Number.isNaN(width) ? Infinity : (width - rig.widthLow) / 2;
  const alongMax = Number.isNaN(length) ? Infinity : length;
  const alongMin = Number.isNaN(length) ? -Infinity : -behind;
  room.alongMin = sign === 1 ? alongMin : alongMin + rig.lengthLow;
  room.alongMax = sign === 1 ? alongMax - rig.lengthLow : alongMax;
  room.leftMin = -half;
  room.leftMax = half;
}

/** Nominal sizes; with `slides` they stay within the pad as well. */
export function nominalRoom(
  rig: ScreenRig,
  sites: ScreenSites,
  site: number,
  sign: Sign,
  slides: boolean,
  room: Room,
): void {
  const length = sites.padLength[site] as number;
  const half = (sites.padWidth[site] as number) / 2 - rig.halfWidth;
  const rear = sites.rear[site] as number;
  const behind = slides ? rig.slideRear : 0;
  const onLeft = slides ? (sign === 1 ? rig.slideLeft : rig.slideRight) : 0;
  const onRight = slides ? (sign === 1 ? rig.slideRight : rig.slideLeft) : 0;
  room.alongMin = sign === 1 ? behind - rear : rig.length - rear;
  room.alongMax = sign === 1 ? length - rig.length : length - behind;
  room.leftMin = onRight - half;
  room.leftMax = half - onLeft;
}

export function isEmpty(room: Room, by: number): boolean {
  return room.alongMax < room.alongMin - by || room.leftMax < room.leftMin - by;
}

/** Metres by which a value lies outside a range. */
export function beyond(value: number, low: number, high: number): number {
  return value < low ? low - value : value > high ? value - high : 0;
}
