import { GRAZE_TOLERANCE, TOUCH_TOLERANCE } from "./tolerance.ts";

/** The open convex set of the points with `nx x + ny y < offset` for every side; normals have length 1. */
export interface ConvexSet {
  readonly nx: Float64Array;
  readonly ny: Float64Array;
  readonly offset: Float64Array;
}

/** A convex polygon with its corners counter-clockwise; side k runs from corner k to corner k + 1. */
export interface ConvexPolygon extends ConvexSet {
  readonly xs: Float64Array;
  readonly ys: Float64Array;
}

interface Point {
  readonly x: number;
  readonly y: number;
}

/** An axis-aligned box, metres. */
export interface FlatBox {
  readonly xMin: number;
  readonly xMax: number;
  readonly yMin: number;
  readonly yMax: number;
}

/** Sides of a box. */
const AXES = 4;

/** Cosine above which two unit normals count as the same side. */
const SAME_DIRECTION = 1 - 1e-14;

/** A polygon from its corners in order; a clockwise outline is turned, repeated corners are dropped. */
export function convexPolygon(corners: readonly Point[]): ConvexPolygon {
  const kept: Point[] = [];
  for (let index = 0; index < corners.length; index++) {
    const corner = corners[index] as Point;
    const next = corners[index + 1 < corners.length ? index + 1 : 0] as Point;
    const dx = next.x - corner.x;
    const dy = next.y - corner.y;
    if (corners.length === 1 || dx * dx + dy * dy > TOUCH_TOLERANCE * TOUCH_TOLERANCE) kept.push(corner);
  }
  let doubleArea = 0;
  for (let index = 0; index < kept.length; index++) {
    const corner = kept[index] as Point;
    const next = kept[index + 1 < kept.length ? index + 1 : 0] as Point;
    doubleArea += corner.x * next.y - next.x * corner.y;
  }
  if (doubleArea < 0) kept.reverse();
  const count = kept.length;
  const polygon = emptyPolygon(count);
  for (let side = 0; side < count; side++) {
    const from = kept[side] as Point;
    const to = kept[side + 1 < count ? side + 1 : 0] as Point;
    const dx = to.x - from.x;
    const dy = to.y - from.y;
    const length = Math.sqrt(dx * dx + dy * dy);
    polygon.xs[side] = from.x;
    polygon.ys[side] = from.y;
    polygon.nx[side] = dy / length;
    polygon.ny[side] = -dx / length;
    polygon.offset[side] = (dy * from.x - dx * from.y) / length;
  }
  return polygon;
}

function emptyPolygon(count: number): ConvexPolygon {
  return { xs: new Float64Array(count), ys: new Float64Array(count), ...emptySet(count) };
}

/** The polygon in coordinates turned by the angle of the given cosine and sine; distances from the origin stay. */
export function turnedPolygon(polygon: ConvexPolygon, cos: number, sin: number): ConvexPolygon {
  const count = polygon.xs.length;
  const turned = emptyPolygon(count);
  for (let side = 0; side < count; side++) {
    const x = polygon.xs[side] as number;
    const y = polygon.ys[side] as number;
    const nx = polygon.nx[side] as number;
    const ny = polygon.ny[side] as number;
    turned.xs[side] = cos * x + sin * y;
    turned.ys[side] = cos * y - sin * x;
    turned.nx[side] = cos * nx + sin * ny;
    turned.ny[side] = cos * ny - sin * nx;
    turned.offset[side] = polygon.offset[side] as number;
  }
  return turned;
}

/** The polygon of an axis-aligned box. */
export function boxPolygon(xMin: number, xMax: number, yMin: number, yMax: number): ConvexPolygon {
  return convexPolygon([
    { x: xMin, y: yMin },
    { x: xMax, y: yMin },
    { x: xMax, y: yMax },
    { x: xMin, y: yMax },
  ]);
}

/** A set of so many sides, to be filled. */
export function emptySet(count: number): ConvexSet {
  return { nx: new Float64Array(count), ny: new Float64Array(count), offset: new Float64Array(count) };
}

const NO_SIDES = emptySet(0);

/** A set from a list of sides `[nx, ny, offset]`. */
export function convexSet(sides: readonly (readonly [number, number, number])[]): ConvexSet {
  if (sides.length === 0) return NO_SIDES;
  const set = emptySet(sides.length);
  for (let place = 0; place < sides.length; place++) {
    const side = sides[place] as readonly [number, number, number];
    set.nx[place] = side[0];
    set.ny[place] = side[1];
    set.offset[place] = side[2];
  }
  return set;
}

/** Metres from the point out to the nearest side; negative outside. */
export function depthInside(set: ConvexSet, x: number, y: number): number {
  let depth = Infinity;
  const { nx, ny, offset } = set;
  for (let side = 0; side < nx.length; side++) {
    const slack = (offset[side] as number) - (nx[side] as number) * x - (ny[side] as number) * y;
    if (slack < depth) depth = slack;
  }
  return depth;
}

/** True when the segment enters the set deeper than a graze. */
export function segmentCrosses(set: ConvexSet, x1: number, y1: number, x2: number, y2: number): boolean {
  let start = 0;
  let end = 1;
  const { nx, ny, offset } = set;
  for (let side = 0; side < nx.length; side++) {
    const limit = (offset[side] as number) - GRAZE_TOLERANCE;
    const first = limit - (nx[side] as number) * x1 - (ny[side] as number) * y1;
    const last = limit - (nx[side] as number) * x2 - (ny[side] as number) * y2;
    if (first <= 0 && last <= 0) return false;
    if (first <= 0) start = Math.max(start, first / (first - last));
    else if (last <= 0) end = Math.min(end, first / (first - last));
    if (start >= end) return false;
  }
  return true;
}

function support(polygon: ConvexPolygon, nx: number, ny: number): number {
  let most = -Infinity;
  for (let corner = 0; corner < polygon.xs.length; corner++) {
    const value = nx * (polygon.xs[corner] as number) + ny * (polygon.ys[corner] as number);
    if (value > most) most = value;
  }
  return most;
}

/**
 * The translations w that make `w + moving` overlap `fixed`: the interior of fixed (+) (-moving).
 * Its sides are parallel to the sides of the two, so no polygon has to be built. A segment is a polygon of two corners.
 */
export function overlapSet(fixed: ConvexPolygon, moving: ConvexPolygon): ConvexSet {
  const sides: [number, number, number][] = [];
  const add = (nx: number, ny: number): void => {
    if (sides.some((side) => side[0] * nx + side[1] * ny > SAME_DIRECTION)) return;
    sides.push([nx, ny, support(fixed, nx, ny) + support(moving, -nx, -ny)]);
  };
  for (let side = 0; side < moving.nx.length; side++) add(-(moving.nx[side] as number), -(moving.ny[side] as number));
  for (let side = 0; side < fixed.nx.length; side++) add(fixed.nx[side] as number, fixed.ny[side] as number);
  return convexSet(sides);
}

/** `overlapSet` for an axis-aligned box, without building its polygon. */
export function overlapWithBox(
  fixed: ConvexPolygon,
  xMin: number,
  xMax: number,
  yMin: number,
  yMax: number,
): ConvexSet {
  const { xs } = fixed;
  const round = boxRound(fixed);
  let slanted = 0;
  for (let side = 0; side < xs.length; side++) if (isSlanted(fixed, side)) slanted++;
  const set = emptySet(AXES + slanted);
  const put = (place: number, nx: number, ny: number, offset: number): void => {
    set.nx[place] = nx;
    set.ny[place] = ny;
    set.offset[place] = offset;
  };
  let place = 0;
  put(place++, 0, 1, round.yMax - yMin);
  put(place++, -1, 0, xMax - round.xMin);
  put(place++, 0, -1, yMax - round.yMin);
  put(place++, 1, 0, round.xMax - xMin);
  for (let side = 0; side < xs.length; side++) {
    if (!isSlanted(fixed, side)) continue;
    const nx = fixed.nx[side] as number;
    const ny = fixed.ny[side] as number;
    put(place++, nx, ny, (fixed.offset[side] as number) - nx * (nx > 0 ? xMin : xMax) - ny * (ny > 0 ? yMin : yMax));
  }
  return set;
}

/** The axis-aligned box round a polygon. */
export function boxRound({ xs, ys }: ConvexPolygon): FlatBox {
  let xMin = Infinity;
  let xMax = -Infinity;
  let yMin = Infinity;
  let yMax = -Infinity;
  for (let corner = 0; corner < xs.length; corner++) {
    const x = xs[corner] as number;
    const y = ys[corner] as number;
    if (x < xMin) xMin = x;
    if (x > xMax) xMax = x;
    if (y < yMin) yMin = y;
    if (y > yMax) yMax = y;
  }
  return { xMin, xMax, yMin, yMax };
}

/** True when a segment stays clear of a box, or only touches it. */
export function segmentMissesBox(box: FlatBox, x1: number, y1: number, x2: number, y2: number): boolean {
  return (
    (x1 <= box.xMin && x2 <= box.xMin) ||
    (x1 >= box.xMax && x2 >= box.xMax) ||
    (y1 <= box.yMin && y2 <= box.yMin) ||
    (y1 >= box.yMax && y2 >= box.yMax)
  );
}

/** True when a side is parallel to neither axis: the sides of a box do not say the same already. */
function isSlanted(polygon: ConvexPolygon, side: number): boolean {
  const nx = Math.abs(polygon.nx[side] as number);
  return nx <= SAME_DIRECTION && Math.abs(polygon.ny[side] as number) <= SAME_DIRECTION;
}

/** True when the segment enters an axis-aligned box deeper than a graze. */
export function segmentCrossesBox(box: FlatBox, x1: number, y1: number, x2: number, y2: number): boolean {
  const xMin = box.xMin + GRAZE_TOLERANCE;
  const xMax = box.xMax - GRAZE_TOLERANCE;
  const yMin = box.yMin + GRAZE_TOLERANCE;
  const yMax = box.yMax - GRAZE_TOLERANCE;
  if (Math.max(x1, x2) <= xMin || Math.min(x1, x2) >= xMax || Math.max(y1, y2) <= yMin || Math.min(y1, y2) >= yMax) {
    return false;
  }
  let start = 0;
  let end = 1;
  const dx = x2 - x1;
  const dy = y2 - y1;
  if (dx !== 0) {
    const one = (xMin - x1) / dx;
    const two = (xMax - x1) / dx;
    start = Math.max(start, Math.min(one, two));
    end = Math.min(end, Math.max(one, two));
  }
  if (dy !== 0) {
    const one = (yMin - y1) / dy;
    const two = (yMax - y1) / dy;
    start = Math.max(start, Math.min(one, two));
    end = Math.min(end, Math.max(one, two));
  }
  return start < end;
}

/**
 * The points that cannot be seen from (x, y) because the polygon is in the way: the open shadow, a convex set bounded
 * by the sides that face the eye and by the two tangents. An eye on the outline has no tangents of its own: the sides
 * through it are enough. Null when the eye is inside the polygon, where nothing is seen.
 */
export function shadow(polygon: ConvexPolygon, x: number, y: number): ConvexSet | null {
  const sides: [number, number, number][] = [];
  let outside = false;
  for (let side = 0; side < polygon.nx.length; side++) {
    const nx = polygon.nx[side] as number;
    const ny = polygon.ny[side] as number;
    const offset = polygon.offset[side] as number;
    const beyond = nx * x + ny * y - offset;
    if (beyond >= -TOUCH_TOLERANCE) sides.push([nx, ny, offset]);
    if (beyond > TOUCH_TOLERANCE) outside = true;
  }
  if (sides.length === 0) return null;
  if (outside) sides.push(tangent(polygon, x, y, 1), tangent(polygon, x, y, -1));
  return convexSet(sides);
}

/** The tangent through the eye that keeps the polygon to its right (turn 1) or left (turn -1), pointing outwards. */
function tangent(polygon: ConvexPolygon, x: number, y: number, turn: 1 | -1): [number, number, number] {
  let bestX = 0;
  let bestY = 0;
  for (let corner = 0; corner < polygon.xs.length; corner++) {
    const dx = (polygon.xs[corner] as number) - x;
    const dy = (polygon.ys[corner] as number) - y;
    if ((bestX === 0 && bestY === 0) || turn * (bestX * dy - bestY * dx) > 0) {
      bestX = dx;
      bestY = dy;
    }
  }
  const length = Math.hypot(bestX, bestY);
  const nx = (-turn * bestY) / length;
  const ny = (turn * bestX) / length;
  return [nx, ny, nx * x + ny * y];
}
