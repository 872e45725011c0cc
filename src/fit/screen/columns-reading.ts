/** How the columns of rig and sites are read: which lines are asked for, which hookups serve, what they take. */
import type { ScreenLine, ScreenRig } from "./rig.ts";
import type { Sign } from "./room.ts";
import { FLAG, type ScreenSites } from "./sites.ts";

/** The facings tried at a site: +1 nose out, -1 nose in. */
export function isTried(rig: ScreenRig, flags: number, sign: Sign): boolean {
  if (rig.facings !== null) return rig.facings.includes(sign === 1 ? "out" : "in");
  return (flags & (sign === 1 ? FLAG.out : FLAG.in)) !== 0;
}

export function isAsked(line: ScreenLine, flags: number): boolean {
  return !line.ifPower || (flags & FLAG.hasPower) !== 0;
}

/** A fill line also takes water from the water tap. */
export function serves(line: ScreenLine, number: number): boolean {
  return number === line.number || (line.service === "fill" && number === WATER);
}
const WATER = 1;

/** Longest line that a hookup takes; `unnamed` for a power hookup of which no receptacle is on record. */
export function longest(
  line: ScreenLine,
  lengths: Float64Array,
  sites: ScreenSites,
  hookup: number,
  unnamed: number,
): number {
  if (line.service !== "power") return lengths[0] as number;
  const start = sites.receptacleStart[hookup] as number;
  const end = sites.receptacleStart[hookup + 1] as number;
  if (start === end) return unnamed;
  let most = -1;
  for (let place = start; place < end; place++) {
    const length = lengths[sites.receptacle[place] as number] as number;
    if (length > most) most = length;
  }
  return most;
}
