import type { CompiledLaw } from "./law.ts";
import type { Reach } from "./reach.ts";
import type { Region } from "./region.ts";
import { type LeastTouch, leastTouch } from "./tangents.ts";
import { PARALLEL_TOLERANCE, TOUCH_TOLERANCE, VALUE_TOLERANCE } from "./tolerance.ts";

/** Metres of room given to a region without an edge on some side; no line is that long. */
const FAR = 1e4;
const NEWTON_STEPS = 100;

interface Line {
  readonly nx: number;
  readonly ny: number;
  readonly limit: number;
}

/** The greatest miss at a place, with its slopes: by x, by y, and by the mark s. */
interface Miss {
  value: number;
  byX: number;
  byY: number;
  byMark: number;
}

interface Least {
  readonly x: number;
  readonly y: number;
  readonly value: number;
  readonly markSlope: number;
}

/**
 * The general convex path, for sloping ground: the margin is then still concave where the rig stands (the norm of a
 * convex run and an affine fall, and a cap that is affine less convex), but its level sets are no circles. Tangents
 * find the least miss, along one axis within the other; when floors are asked, Newton's method on the mark s comes
 * down on the s at which the miss is nothing.
 */
export function solveSloping(reach: Reach, region: Region, line: Line | null, upper: number): boolean {
  bound(region);
  let floored = false;
  for (let i = 0; i < reach.count; i++) if (!Number.isNaN(reach.floor[i] as number)) floored = true;
  let s = floored ? Math.min(upper, FAR) : 0;
  for (let step = 0; ; step++) {
    const least = line === null ? leastInRegion(reach, region, s) : leastOnLine(reach, region, line, s);
    if (least === null) return false;
    const { value, markSlope } = least;
    reach.x = least.x;
    reach.y = least.y;
    reach.s = floored ? s : -value;
    if (!floored || value <= VALUE_TOLERANCE || step === NEWTON_STEPS) return !floored || value <= TOUCH_TOLERANCE;
    const next = s - value / markSlope;
    // A miss that hardly yields to the mark is a floor that cannot be kept.
    if (!(next > -FAR && next < s)) return value <= TOUCH_TOLERANCE;
    s = next;
  }
}

/** The most by which a line of the objective misses s, or a floored line its floor. */
function missAt(reach: Reach, s: number, x: number, y: number): Miss {
  const worst: Miss = { value: -Infinity, byX: 0, byY: 0, byMark: 0 };
  for (let i = 0; i < reach.count; i++) {
    const law = reach.laws[i] as CompiledLaw;
    const floor = reach.floor[i] as number;
    const objective = Number.isNaN(floor);
    const mark = objective ? s : floor;
    const dx = x - (reach.cones.dx[i] as number);
    const dy = y - (reach.cones.dy[i] as number);
    const leg = Math.sqrt(dx * dx + dy * dy);
    const run = (reach.fixed[i] as number) + leg;
    const runX = leg > 0 ? dx / leg : 0;
    const runY = leg > 0 ? dy / leg : 0;
    const fallX = law.sloping ? (reach.slopeX[i] as number) : 0;
    const fallY = law.sloping ? (reach.slopeY[i] as number) : 0;
    const fall = law.sloping
      ? law.fall + fallX * (x - (reach.outletX[i] as number)) + fallY * (y - (reach.outletY[i] as number))
      : law.fall;
    const hose = Math.sqrt(run * run + fall * fall);
    const byLength = mark + hose - law.budget;
    if (byLength > worst.value) {
      worst.value = byLength;
      worst.byX = hose > 0 ? (run * runX + fall * fallX) / hose : 0;
      worst.byY = hose > 0 ? (run * runY + fall * fallY) / hose : 0;
      worst.byMark = objective ? 1 : 0;
    }
    if (law.requiredSlope === 0) continue;
    const byFall = mark + run - fall / law.requiredSlope;
    if (byFall <= worst.value) continue;
    worst.value = byFall;
    worst.byX = runX - fallX / law.requiredSlope;
    worst.byY = runY - fallY / law.requiredSlope;
    worst.byMark = objective ? 1 : 0;
  }
  return worst;
}

function leastOnLine(reach: Reach, region: Region, line: Line, s: number): Least | null {
  const { nx, ny, limit } = line;
  const baseX = nx * limit;
  const baseY = ny * limit;
  if (!region.clipLine(baseX, baseY, -ny, nx)) return null;
  const least = leastTouch(region.start, region.end, (t) => {
    const miss = missAt(reach, s, baseX - ny * t, baseY + nx * t);
    return { value: miss.value, slope: nx * miss.byY - ny * miss.byX, sideSlope: 0, markSlope: miss.byMark };
  });
  return { x: baseX - ny * least.at, y: baseY + nx * least.at, value: least.value, markSlope: least.markSlope };
}

function leastInRegion(reach: Reach, region: Region, s: number): Least | null {
  const width = widthOf(region);
  if (width === null) return null;
  const least = leastTouch(width.low, width.high, (x) => {
    const { touch, range } = leastAcross(reach, region, s, x);
    // Where the least value lies on the region's edge, it moves with that edge.
    const edge = touch.endSlope > 0 ? range.startSlope : touch.endSlope < 0 ? range.endSlope : 0;
    return {
      value: touch.floor,
      slope: touch.sideSlope + touch.endSlope * edge,
      sideSlope: 0,
      markSlope: touch.markSlope,
    };
  });
  const { touch } = leastAcross(reach, region, s, least.at);
  return { x: least.at, y: touch.at, value: touch.value, markSlope: least.markSlope };
}

function leastAcross(
  reach: Reach,
  region: Region,
  s: number,
  x: number,
): { readonly touch: LeastTouch; readonly range: VerticalRange } {
  const range = verticalRange(region, x);
  const touch = leastTouch(range.start, range.end, (y) => {
    const miss = missAt(reach, s, x, y);
    return { value: miss.value, slope: miss.byY, sideSlope: miss.byX, markSlope: miss.byMark };
  });
  return { touch, range };
}

/** The part of the line x = constant in a region, and how its two ends move with x. */
interface VerticalRange {
  readonly start: number;
  readonly end: number;
  readonly startSlope: number;
  readonly endSlope: number;
}

function verticalRange(region: Region, x: number): VerticalRange {
  let start = region.yMin;
  let end = region.yMax;
  let startSlope = 0;
  let endSlope = 0;
  for (let plane = 0; plane < region.count; plane++) {
    const nx = region.px[plane] as number;
    const ny = region.py[plane] as number;
    if (Math.abs(ny) <= PARALLEL_TOLERANCE) continue;
    const y = ((region.limit[plane] as number) - nx * x) / ny;
    if (ny > 0 && y < end) {
      end = y;
      endSlope = -nx / ny;
    } else if (ny < 0 && y > start) {
      start = y;
      startSlope = -nx / ny;
    }
  }
  // At a corner rounding may leave a gap: its middle is the only candidate.
  return start <= end ? { start, end, startSlope, endSlope } : middleOf(start, end, startSlope, endSlope);
}

function middleOf(start: number, end: number, startSlope: number, endSlope: number): VerticalRange {
  const middle = (start + end) / 2;
  return { start: middle, end: middle, startSlope, endSlope };
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
