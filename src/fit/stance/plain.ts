import { type FlatBox, segmentCrosses, segmentCrossesBox, segmentMissesBox } from "./convex.ts";
import type { Turn } from "./frame.ts";
import type { CompiledBarrier } from "./padside.ts";
import { holdsTarget } from "./padside.ts";
import type { PadPoint, RigPoint } from "./problem.ts";
import { type Departure, NO_WALL } from "./routes.ts";
import { GRAZE_TOLERANCE, TOUCH_TOLERANCE } from "./tolerance.ts";

const LEFT = 0;
const REAR = 1;
const RIGHT = 2;

/** The shortest route when neither barriers nor zones are looked at. */
export interface PlainWay {
  readonly departure: Departure;
  readonly run: number;
}

/** The shortest of a line's routes to a point of the rig frame; null when the point lies under the body. */
export function plainWay(
  departures: readonly Departure[],
  length: number,
  halfWidth: number,
  toX: number,
  toY: number,
): PlainWay | null {
  let found: Departure | null = null;
  let run = Infinity;
  for (const departure of departures) {
    const { wall } = departure;
    if (wall !== NO_WALL) {
      const beyond =
        wall === LEFT ? toY - halfWidth : wall === REAR ? -toX : wall === RIGHT ? -halfWidth - toY : toX - length;
      if (beyond < -GRAZE_TOLERANCE) continue;
    }
    const dx = toX - departure.x;
    const dy = toY - departure.y;
    const way = departure.length + Math.sqrt(dx * dx + dy * dy);
    if (!(way < run)) continue;
    run = way;
    found = departure;
  }
  return found === null ? null : { departure: found, run };
}

/** The points of a departure at which the ground route bends, from where it starts on the ground. */
function groundPoints({ path, setback }: Departure): readonly RigPoint[] {
  return setback > 0 ? path.slice(1) : path;
}

/** True when a route crosses none of the zones; one round the inlet itself does not count. Rig frame. */
export function clearOfZones(departure: Departure, toX: number, toY: number, zones: readonly FlatBox[]): boolean {
  if (zones.length === 0) return true;
  const points = groundPoints(departure);
  const start = points[0] as RigPoint;
  for (const zone of zones) {
    if (boxDepth(zone, start.fromRear, start.left) > TOUCH_TOLERANCE) continue;
    for (let leg = 0; leg < points.length; leg++) {
      const from = points[leg] as RigPoint;
      const to = points[leg + 1];
      const x = to === undefined ? toX : to.fromRear;
      const y = to === undefined ? toY : to.left;
      if (segmentCrossesBox(zone, from.fromRear, from.left, x, y)) return false;
    }
  }
  return true;
}

function boxDepth({ xMin, xMax, yMin, yMax }: FlatBox, x: number, y: number): number {
  return Math.min(x - xMin, xMax - x, y - yMin, yMax - y);
}

/** True when a route of the rig with its origin at (x, y), rig-aligned, crosses no barrier; one round the target does not count. */
export function clearOfBarriers(
  departure: Departure,
  target: PadPoint,
  barriers: readonly CompiledBarrier[],
  { cos, sin }: Turn,
  x: number,
  y: number,
): boolean {
  if (barriers.length === 0) return true;
  const points = groundPoints(departure);
  const along: number[] = [];
  const left: number[] = [];
  for (const point of points) {
    const px = x + point.fromRear;
    const py = y + point.left;
    along.push(cos * px - sin * py);
    left.push(sin * px + cos * py);
  }
  along.push(target.along);
  left.push(target.left);
  for (const barrier of barriers) {
    const { outline } = barrier;
    let counts = false;
    for (let leg = 1; leg < along.length; leg++) {
      const x1 = along[leg - 1] as number;
      const y1 = left[leg - 1] as number;
      const x2 = along[leg] as number;
      const y2 = left[leg] as number;
      if (segmentMissesBox(outline.box, x1, y1, x2, y2)) continue;
      if (!counts && holdsTarget(barrier, target)) break;
      counts = true;
      if (segmentCrosses(outline.polygon, x1, y1, x2, y2)) return false;
    }
  }
  return true;
}
