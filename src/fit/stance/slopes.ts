import { goldenSection } from "./cones.ts";
import { type CompiledLaw, marginOf } from "./law.ts";
import type { Reach } from "./reach.ts";
import type { Region } from "./region.ts";
import { TOUCH_TOLERANCE } from "./tolerance.ts";

/** Metres of room given to a region without an edge on some side; no line is that long. */
const FAR = 1e4;
const ROOT_STEPS = 120;

interface Line {
  readonly nx: number;
  readonly ny: number;
  readonly limit: number;
}

interface Least {
  readonly x: number;
  readonly y: number;
  readonly value: number;
}

/** The margin of line i with the rig's origin at (x, y): the fall follows the ground under the outlet. */
function marginAt(reach: Reach, i: number, x: number, y: number): number {
  const law = reach.laws[i] as CompiledLaw;
  const run =
    (reach.fixed[i] as number) + Math.hypot(x - (reach.cones.dx[i] as number), y - (reach.cones.dy[i] as number));
  const fall = law.sloping
    ? law.fall +
      (reach.slopeX[i] as number) * (x - (reach.outletX[i] as number)) +
      (reach.slopeY[i] as number) * (y - (reach.outletY[i] as number))
    : law.fall;
  return marginOf(law.budget, fall, law.requiredSlope, run);
}

/** The most by which a line of the objective misses s, or a floored line its floor. */
function miss(reach: Reach, s: number, x: number, y: number): number {
  let worst = -Infinity;
  for (let i = 0; i < reach.count; i++) {
    const floor = reach.floor[i] as number;
    const value = (Number.isNaN(floor) ? s : floor) - marginAt(reach, i, x, y);
    if (value > worst) worst = value;
  }
  return worst;
}

/**
 * The general convex path, for sloping ground: the margin is then still concave where the rig stands (the norm of a
 * convex run and an affine fall, and a cap that is affine less convex), but its level sets are no circles. Nested golden
 * sections find the least miss; with floors a safeguarded false position finds the s at which it is nothing.
 */
export function solveSloping(reach: Reach, region: Region, line: Line | null): boolean {
  bound(region);
  let floored = false;
  for (let i = 0; i < reach.count; i++) if (!Number.isNaN(reach.floor[i] as number)) floored = true;
  const least = (s: number): Least | null =>
    line === null
      ? leastInRegion(region, (x, y) => miss(reach, s, x, y))
      : leastOnLine(region, line, (x, y) => miss(reach, s, x, y));
  const accept = (s: number, at: Least): boolean => {
    reach.s = s;
    reach.x = at.x;
    reach.y = at.y;
    return true;
  };
  const first = least(0);
  if (first === null) return false;
  if (!floored) return accept(-first.value, first);
  // The miss of a floor does not depend on s, so far below every margin only the floors are left.
  let low = -FAR;
  let atLow = least(low) as Least;
  if (atLow.value > TOUCH_TOLERANCE) return false;
  let high = FAR;
  for (let step = 0; step < ROOT_STEPS && high - low > TOUCH_TOLERANCE / 2; step++) {
    // The miss grows by at most 1 per metre of s: stepping by what is left to spare never passes the root.
    const climbed = low - atLow.value;
    const climb = step % 2 === 0 && climbed < high && climbed > low ? climbed : (low + high) / 2;
    const at = least(climb) as Least;
    if (at.value <= 0) {
      low = climb;
      atLow = at;
    } else high = climb;
  }
  return accept(low, atLow);
}

function leastOnLine(region: Region, line: Line, value: (x: number, y: number) => number): Least | null {
  const { nx, ny, limit } = line;
  const baseX = nx * limit;
  const baseY = ny * limit;
  if (!region.clipLine(baseX, baseY, -ny, nx)) return null;
  const best = goldenSection((t) => value(baseX - ny * t, baseY + nx * t), region.start, region.end);
  return { x: baseX - ny * best.at, y: baseY + nx * best.at, value: best.value };
}

function leastInRegion(region: Region, value: (x: number, y: number) => number): Least | null {
  const range = widthOf(region);
  if (range === null) return null;
  const across = (x: number): Least => {
    // Just inside an end of the range rounding may leave no room; the middle of the gap is the only candidate then.
    if (!region.clipLine(x, 0, 0, 1)) return { x, y: (region.start + region.end) / 2, value: Infinity };
    const best = goldenSection((y) => value(x, y), region.start, region.end);
    return { x, y: best.at, value: best.value };
  };
  const best = goldenSection((x) => across(x).value, range.low, range.high);
  const at = across(best.at);
  return Number.isFinite(at.value) ? at : null;
}

/** The least and the greatest x of the region, from the corners at which two of its sides meet; null when it is empty. */
function widthOf(region: Region): { readonly low: number; readonly high: number } | null {
  let low = Infinity;
  let high = -Infinity;
  const look = (nx: number, ny: number, limit: number): void => {
    if (!region.clipLine(nx * limit, ny * limit, -ny, nx)) return;
    const one = nx * limit - ny * region.start;
    const two = nx * limit - ny * region.end;
    low = Math.min(low, one, two);
    high = Math.max(high, one, two);
  };
  look(-1, 0, -region.xMin);
  look(1, 0, region.xMax);
  look(0, -1, -region.yMin);
  look(0, 1, region.yMax);
  for (let plane = 0; plane < region.count; plane++) {
    look(region.px[plane] as number, region.py[plane] as number, region.limit[plane] as number);
  }
  return low <= high ? { low, high } : null;
}

/** Gives the region an edge far out on every side, so that every line through it has two ends. */
function bound(region: Region): void {
  region.xMin = Math.max(region.xMin, -FAR);
  region.xMax = Math.min(region.xMax, FAR);
  region.yMin = Math.max(region.yMin, -FAR);
  region.yMax = Math.min(region.yMax, FAR);
}
