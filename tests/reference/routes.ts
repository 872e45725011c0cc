/**
 * Shortest ground routes by a visibility graph, and a lower bound on them while the rig's place varies within a box.
 *
 * The nodes belong either to the rig (inlet, its point on the wall, corners of the body and of keep-outs) or to the
 * ground (corners of barriers, the target). The detour rule: a line uses rig nodes first, then ground nodes, and never
 * returns. No segment enters the body (unless the line may run beneath), a keep-out or a barrier; a barrier that
 * contains the target is no barrier for that line. The way from the inlet to its wall is free of all this; a
 * line that may run beneath starts at the inlet itself. Touching is
 * clear, except that a zone standing against a wall closes the seam between the two; the inner corner that the two make
 * is no node, for nothing bends there.
 */
import type { LineBarrier, LineTask, StanceProblem } from "../../src/fit/stance/problem.ts";
import {
  contains,
  cornersOf,
  enters,
  type FlatBox,
  insideOf,
  insideOfBox,
  type OpenConvex,
  turnedSet,
} from "./planar.ts";

/** One line's graph with the rig turned to a fixed direction; positions of rig nodes are relative to the rig origin. */
export interface RouteGraph {
  readonly line: LineTask;
  readonly rigX: readonly number[];
  readonly rigY: readonly number[];
  /** Length from the inlet to each rig node, barriers left out; Infinity when the node cannot be reached. */
  readonly fromInlet: readonly number[];
  /** Length to the nodes where the line can start (inlet, wall point); Infinity elsewhere. */
  readonly startCost: readonly number[];
  readonly rigSees: readonly (readonly boolean[])[];
  readonly rigShapes: readonly OpenConvex[];
  readonly barriers: readonly LineBarrier[];
  readonly barrierShapes: readonly OpenConvex[];
  /** Ground nodes; the target is the last. */
  readonly groundX: readonly number[];
  readonly groundY: readonly number[];
  readonly groundSees: readonly (readonly boolean[])[];
  /** The inlet relative to the rig origin: where the outlet's height over the ground is taken. */
  readonly inletX: number;
  readonly inletY: number;
}

/** Half the thickness of what closes the seam between a zone and the wall it stands against, metres. */
const SEAM = 1e-3;

/** Thin boxes that lie within body and zone together and close the seam where the two only touch. */
function seamsOf(zone: FlatBox, body: FlatBox): FlatBox[] {
  const fromRearMin = Math.max(zone.fromRearMin, body.fromRearMin);
  const fromRearMax = Math.min(zone.fromRearMax, body.fromRearMax);
  const leftMin = Math.max(zone.leftMin, body.leftMin);
  const leftMax = Math.min(zone.leftMax, body.leftMax);
  const touch = { fromRearMin, fromRearMax, leftMin, leftMax };
  if (leftMin === leftMax && fromRearMax > fromRearMin) {
    return [{ ...touch, leftMin: leftMin - SEAM, leftMax: leftMax + SEAM }];
  }
  if (fromRearMin === fromRearMax && leftMax > leftMin) {
    return [{ ...touch, fromRearMin: fromRearMin - SEAM, fromRearMax: fromRearMax + SEAM }];
  }
  return [];
}

function touches(box: FlatBox, [x, y]: readonly [number, number]): boolean {
  return x >= box.fromRearMin && x <= box.fromRearMax && y >= box.leftMin && y <= box.leftMax;
}

function wallPoint(problem: StanceProblem, line: LineTask): [number, number] {
  const half = problem.width / 2;
  if (line.wall === "left") return [line.inlet.fromRear, half];
  if (line.wall === "right") return [line.inlet.fromRear, -half];
  if (line.wall === "rear") return [0, line.inlet.left];
  return [problem.length, line.inlet.left];
}

function seesTable(xs: readonly number[], ys: readonly number[], shapes: readonly OpenConvex[]): boolean[][] {
  return xs.map((px, i) =>
    xs.map((qx, j) => shapes.every((shape) => !enters(shape, px, ys[i] as number, qx, ys[j] as number, 0, 0, 0, 0))),
  );
}

/** Repeated relaxation until nothing changes: the graph is tiny. */
function lengthsFrom(
  start: readonly number[],
  xs: readonly number[],
  ys: readonly number[],
  sees: readonly (readonly boolean[])[],
): number[] {
  const length = [...start];
  for (let changed = true; changed; ) {
    changed = false;
    for (let i = 0; i < xs.length; i++) {
      for (let j = 0; j < xs.length; j++) {
        if (!sees[i]?.[j]) continue;
        const via =
          (length[i] as number) +
          Math.hypot((xs[j] as number) - (xs[i] as number), (ys[j] as number) - (ys[i] as number));
        if (via < (length[j] as number) - 1e-12) {
          length[j] = via;
          changed = true;
        }
      }
    }
  }
  return length;
}

/** The graph of a line for the rig turned to `theta`. */
export function routeGraph(problem: StanceProblem, line: LineTask, theta: number): RouteGraph {
  const cos = Math.cos(theta);
  const sin = Math.sin(theta);
  const body = {
    fromRearMin: 0,
    fromRearMax: problem.length,
    leftMin: -problem.width / 2,
    leftMax: problem.width / 2,
  };
  const wall = wallPoint(problem, line);
  const zones = problem.keepOuts;
  const zoneCorners = zones.flatMap(cornersOf).filter((corner) => line.mayRunBeneath || !touches(body, corner));
  const nodes: [number, number][] = [wall, ...cornersOf(body), ...zoneCorners];
  const startCost = nodes.map(() => Number.POSITIVE_INFINITY);
  if (line.mayRunBeneath) {
    nodes.push([line.inlet.fromRear, line.inlet.left]);
    startCost.push(0);
  } else startCost[0] = Math.hypot(wall[0] - line.inlet.fromRear, wall[1] - line.inlet.left);
  const solid: FlatBox[] = line.mayRunBeneath
    ? [...zones]
    : [body, ...zones, ...zones.flatMap((zone) => seamsOf(zone, body))];
  const shapes = solid.map((box) => turnedSet(insideOfBox(box), cos, sin));
  const rigX = nodes.map(([x, y]) => cos * x - sin * y);
  const rigY = nodes.map(([x, y]) => sin * x + cos * y);
  const rigSees = seesTable(rigX, rigY, shapes);
  const barriers = problem.barriers.filter(
    (barrier) => !contains(insideOf(barrier.outline), line.target.along, line.target.left),
  );
  const barrierShapes = barriers.map((barrier) => insideOf(barrier.outline));
  const ground = [...barriers.flatMap((barrier) => barrier.outline), line.target];
  const groundX = ground.map((point) => point.along);
  const groundY = ground.map((point) => point.left);
  return {
    line,
    rigX,
    rigY,
    startCost,
    fromInlet: lengthsFrom(startCost, rigX, rigY, rigSees),
    rigSees,
    rigShapes: shapes,
    barriers,
    barrierShapes,
    groundX,
    groundY,
    groundSees: seesTable(groundX, groundY, barrierShapes),
    inletX: cos * line.inlet.fromRear - sin * line.inlet.left,
    inletY: sin * line.inlet.fromRear + cos * line.inlet.left,
  };
}

/** True when a segment surely enters one of the shapes; see `enters` for the play. */
function blocked(
  shapes: readonly OpenConvex[],
  px: number,
  py: number,
  qx: number,
  qy: number,
  a: number,
  b: number,
  atP: number,
  atQ: number,
): boolean {
  for (const shape of shapes) if (enters(shape, px, py, qx, qy, a, b, atP, atQ)) return true;
  return false;
}

function gap(dx: number, dy: number, a: number, b: number): number {
  const x = Math.max(0, Math.abs(dx) - a);
  const y = Math.max(0, Math.abs(dy) - b);
  return Math.sqrt(x * x + y * y);
}

/**
 * Shortest route while barriers are left out. With a = b = 0 exact for the rig origin at (x, y); otherwise no route of
 * any origin within +-a, +-b of it is shorter.
 */
export function runWithoutBarriers(graph: RouteGraph, x: number, y: number, a: number, b: number): number {
  const target = graph.groundX.length - 1;
  // Seen from the rig, the target moves and the rig nodes stand still.
  const qx = (graph.groundX[target] as number) - x;
  const qy = (graph.groundY[target] as number) - y;
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i < graph.rigX.length; i++) {
    const px = graph.rigX[i] as number;
    const py = graph.rigY[i] as number;
    const length = (graph.fromInlet[i] as number) + gap(qx - px, qy - py, a, b);
    if (length < best && !blocked(graph.rigShapes, px, py, qx, qy, a, b, 0, 1)) best = length;
  }
  return best;
}

/** A route found: its length from the inlet and the nodes it bends at, in the pad frame. */
export interface Route {
  readonly run: number;
  readonly path: readonly { readonly along: number; readonly left: number }[];
}

/**
 * Shortest route with barriers, by best-first search; exact for a = b = 0, otherwise a lower bound as in
 * `runWithoutBarriers`: an edge is dropped only when it is blocked for every origin of the box.
 */
export function routeOf(graph: RouteGraph, x: number, y: number, a: number, b: number): Route {
  const rigCount = graph.rigX.length;
  const count = rigCount + graph.groundX.length;
  const target = count - 1;
  const px = (i: number): number =>
    i < rigCount ? x + (graph.rigX[i] as number) : (graph.groundX[i - rigCount] as number);
  const py = (i: number): number =>
    i < rigCount ? y + (graph.rigY[i] as number) : (graph.groundY[i - rigCount] as number);
  const length = new Float64Array(count).fill(Number.POSITIVE_INFINITY);
  graph.startCost.forEach((cost, i) => {
    length[i] = cost;
  });
  const rest = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const play = i < rigCount ? 1 : 0;
    rest[i] = gap(px(target) - px(i), py(target) - py(i), play * a, play * b);
  }
  const before = new Int32Array(count).fill(-1);
  const settled = new Uint8Array(count);
  const free = (i: number, j: number): boolean => {
    if (j < rigCount) {
      return graph.rigSees[i]?.[j] === true && !blocked(graph.barrierShapes, px(i), py(i), px(j), py(j), a, b, 1, 1);
    }
    if (i >= rigCount && !graph.groundSees[i - rigCount]?.[j - rigCount]) return false;
    const moving = i < rigCount ? 1 : 0;
    if (moving === 1 && blocked(graph.barrierShapes, px(i), py(i), px(j), py(j), a, b, 1, 0)) return false;
    return !blocked(graph.rigShapes, px(i) - x, py(i) - y, px(j) - x, py(j) - y, a, b, 1 - moving, 1);
  };
  for (;;) {
    let i = -1;
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < count; k++) {
      const total = (length[k] as number) + (rest[k] as number);
      if (settled[k] === 0 && total < least) {
        least = total;
        i = k;
      }
    }
    if (i < 0) return { run: Number.POSITIVE_INFINITY, path: [] };
    if (i === target) break;
    settled[i] = 1;
    const play = i < rigCount ? 1 : 0;
    for (let j = i < rigCount ? 0 : rigCount; j < count; j++) {
      if (settled[j] === 1) continue;
      const loose = j < rigCount ? 0 : play;
      const via = (length[i] as number) + gap(px(j) - px(i), py(j) - py(i), loose * a, loose * b);
      if (via < (length[j] as number) && free(i, j)) {
        length[j] = via;
        before[j] = i;
      }
    }
  }
  const path = [];
  for (let i = target; i >= 0; i = before[i] as number) path.unshift({ along: px(i), left: py(i) });
  return { run: length[target] as number, path };
}

/** Lower bound on (or, for a = b = 0, the exact) ground length from the inlet, with barriers. */
export function runOf(graph: RouteGraph, x: number, y: number, a: number, b: number): number {
  return graph.barriers.length === 0 ? runWithoutBarriers(graph, x, y, a, b) : routeOf(graph, x, y, a, b).run;
}
