import type { TurnedPadSide } from "./courses.ts";
import { GRAZE_TOLERANCE, TOUCH_TOLERANCE } from "./tolerance.ts";

/** The half-plane `nx x + ny y <= limit`. */
export type Side = readonly [nx: number, ny: number, limit: number];

/**
 * Where a line that bends at a barrier's corner can come from when it is pulled tight: it must turn about the barrier,
 * so it comes from a wedge behind the corner. `corner` and `next` are nodes of the pad side, `next` the one after the
 * corner on the way to the target. Null when no line that bends there is tight; no sides when the corner is the target.
 */
export function tautWedge(turned: TurnedPadSide, corner: number, next: number): readonly Side[] | null {
  if (corner === 0) return [];
  const x = turned.xs[corner] as number;
  const y = turned.ys[corner] as number;
  const onX = (turned.xs[next] as number) - x;
  const onY = (turned.ys[next] as number) - y;
  const length = Math.hypot(onX, onY);
  const oneX = (turned.besideX[corner + corner] as number) - x;
  const oneY = (turned.besideY[corner + corner] as number) - y;
  const otherX = (turned.besideX[corner + corner + 1] as number) - x;
  const otherY = (turned.besideY[corner + corner + 1] as number) - y;
  const one = (onX * oneY - onY * oneX) / length;
  const other = (onX * otherY - onY * otherX) / length;
  const barrierLeft = one >= -TOUCH_TOLERANCE && other >= -TOUCH_TOLERANCE;
  const barrierRight = one <= TOUCH_TOLERANCE && other <= TOUCH_TOLERANCE;
  if (!barrierLeft && !barrierRight) return null;
  const turn = barrierLeft ? 1 : -1;
  return [
    turningSide(x, y, onX, onY, turn),
    turningSide(x, y, oneX, oneY, turn),
    turningSide(x, y, otherX, otherY, turn),
  ];
}

/** The places from which going to (x, y) and on along (dx, dy) is a turn to the left (1) or to the right (-1). */
function turningSide(x: number, y: number, dx: number, dy: number, turn: 1 | -1): Side {
  const length = turn * Math.hypot(dx, dy);
  return [dy / length, -dx / length, (x * dy - y * dx) / length];
}

/** True when a line from (x, y) that bends at the corner is tight, or all but straight. */
export function isTaut(turned: TurnedPadSide, corner: number, next: number, x: number, y: number): boolean {
  const wedge = tautWedge(turned, corner, next);
  if (wedge === null) return false;
  for (const [nx, ny, limit] of wedge) if (nx * x + ny * y > limit + GRAZE_TOLERANCE) return false;
  return true;
}
