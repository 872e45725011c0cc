/**
 * A route found the crudest way: every order of a few nodes, every segment walked in small steps. It can only be
 * trusted where no segment passes within a step's width of touching, so such cases answer undefined.
 */
import type { LineTask, PadPoint, RigKeepOut, StanceProblem } from "../../src/fit/stance/problem.ts";
import type { RigPlace } from "./evaluate.ts";

const STEPS = 400;
const MOST_RIG_NODES = 5;
const MOST_GROUND_NODES = 5;
/** A point is inside when deeper than this, metres; a deepest point between the two depths is too close to call. */
const DEEP = 1e-4;
const CLEAR = 1e-9;

type Flat = readonly [number, number];

function depthInPolygon(outline: readonly PadPoint[], x: number, y: number): number {
  let depth = Number.POSITIVE_INFINITY;
  outline.forEach((p, i) => {
    const q = outline[(i + 1) % outline.length] as PadPoint;
    const cross = (q.along - p.along) * (y - p.left) - (q.left - p.left) * (x - p.along);
    depth = Math.min(depth, cross / Math.hypot(q.along - p.along, q.left - p.left));
  });
  return depth;
}

function depthInBox(box: Omit<RigKeepOut, "id">, place: RigPlace, x: number, y: number): number {
  const [cos, sin] = [Math.cos(place.theta), Math.sin(place.theta)];
  const fromRear = cos * (x - place.x) + sin * (y - place.y);
  const left = cos * (y - place.y) - sin * (x - place.x);
  return Math.min(fromRear - box.fromRearMin, box.fromRearMax - fromRear, left - box.leftMin, box.leftMax - left);
}

/** A zone that only touches a wall, drawn into the body by so little that no route changes by more than that. */
function throughWall(zone: RigKeepOut, problem: StanceProblem): RigKeepOut {
  const half = problem.width / 2;
  const { fromRearMin, fromRearMax, leftMin, leftMax } = zone;
  return {
    id: zone.id,
    fromRearMin: fromRearMin === problem.length ? fromRearMin - 2 * DEEP : fromRearMin,
    fromRearMax: fromRearMax === 0 ? 2 * DEEP : fromRearMax,
    leftMin: leftMin === half ? leftMin - 2 * DEEP : leftMin,
    leftMax: leftMax === -half ? leftMax + 2 * DEEP : leftMax,
  };
}

/** Length of the shortest route with at most five rig nodes and five ground nodes; undefined when too close to call. */
export function crudeRun(problem: StanceProblem, line: LineTask, place: RigPlace): number | undefined {
  const half = problem.width / 2;
  const body = { fromRearMin: 0, fromRearMax: problem.length, leftMin: -half, leftMax: half };
  // No line runs in the seam between a zone and its wall, unless it may run beneath.
  const zones = problem.keepOuts.map((zone) => (line.mayRunBeneath ? zone : throughWall(zone, problem)));
  const boxes = [...(line.mayRunBeneath ? [] : [body]), ...zones];
  const [tx, ty] = [line.target.along, line.target.left];
  const barriers = problem.barriers.filter((barrier) => depthInPolygon(barrier.outline, tx, ty) <= 0);
  const onPad = (fromRear: number, left: number): Flat => [
    place.x + Math.cos(place.theta) * fromRear - Math.sin(place.theta) * left,
    place.y + Math.sin(place.theta) * fromRear + Math.cos(place.theta) * left,
  ];
  const rigNodes = [body, ...zones].flatMap((box) => [
    onPad(box.fromRearMin, box.leftMin),
    onPad(box.fromRearMax, box.leftMin),
    onPad(box.fromRearMax, box.leftMax),
    onPad(box.fromRearMin, box.leftMax),
  ]);
  const groundNodes = barriers.flatMap((barrier) => barrier.outline.map((p): Flat => [p.along, p.left]));
  const wallAt = {
    left: [line.inlet.fromRear, half],
    right: [line.inlet.fromRear, -half],
    rear: [0, line.inlet.left],
    front: [problem.length, line.inlet.left],
  }[line.wall] as unknown as Flat;
  let unsure = false;
  const known = new Map<string, boolean>();
  const walk = (p: Flat, q: Flat): boolean => {
    const key = `${p}|${q}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    let deepest = Number.NEGATIVE_INFINITY;
    for (let k = 0; k <= STEPS; k++) {
      const x = p[0] + ((q[0] - p[0]) * k) / STEPS;
      const y = p[1] + ((q[1] - p[1]) * k) / STEPS;
      for (const box of boxes) deepest = Math.max(deepest, depthInBox(box, place, x, y));
      for (const barrier of barriers) deepest = Math.max(deepest, depthInPolygon(barrier.outline, x, y));
    }
    if (deepest > CLEAR && deepest < DEEP) unsure = true;
    known.set(key, deepest <= CLEAR);
    return deepest <= CLEAR;
  };
  let best = Number.POSITIVE_INFINITY;
  const go = (at: Flat, length: number, rigLeft: number, groundLeft: number): void => {
    if (length + Math.hypot(tx - at[0], ty - at[1]) >= best) return;
    if (walk(at, [tx, ty])) {
      best = length + Math.hypot(tx - at[0], ty - at[1]);
      return;
    }
    const nodes: readonly (readonly [readonly Flat[], boolean])[] = [
      [rigLeft > 0 ? rigNodes : [], true],
      [groundLeft > 0 ? groundNodes : [], false],
    ];
    for (const [list, onRig] of nodes) {
      for (const node of list) {
        const next = length + Math.hypot(node[0] - at[0], node[1] - at[1]);
        if (next >= best || !walk(at, node)) continue;
        go(node, next, onRig ? rigLeft - 1 : 0, onRig ? groundLeft : groundLeft - 1);
      }
    }
  };
  const setback = Math.hypot(wallAt[0] - line.inlet.fromRear, wallAt[1] - line.inlet.left);
  if (line.mayRunBeneath) go(onPad(line.inlet.fromRear, line.inlet.left), 0, MOST_RIG_NODES, MOST_GROUND_NODES);
  else go(onPad(wallAt[0], wallAt[1]), setback, MOST_RIG_NODES, MOST_GROUND_NODES);
  return unsure ? undefined : best;
}
