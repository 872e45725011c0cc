import { type ConvexPolygon, convexPolygon, segmentCrosses } from "./convex.ts";
import { type ShortestTree, wayTo } from "./graph.ts";
import { compileBarriers, holdsTarget, type PadSide, padSide, padTree } from "./padside.ts";
import type { LineTask, PadPoint, RigPoint, StanceProblem } from "./problem.ts";
import { type RigSide, rigSides, rigTree } from "./rigside.ts";

/** A nose direction; the object itself is the key under which turned outlines are kept. */
export interface Turn {
  readonly cos: number;
  readonly sin: number;
}

/** The pad side of a line turned into the rig's direction. */
export interface TurnedPadSide {
  readonly xs: Float64Array;
  readonly ys: Float64Array;
  readonly barriers: readonly ConvexPolygon[];
}

/** The way along the rig, as far as the point where the line leaves it. */
export interface CourseDeparture {
  readonly side: RigSide;
  readonly node: number;
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly way: readonly number[];
  readonly bans: ReadonlySet<string>;
}

/** The way among the barriers, from the anchor of the straight leg to the target. */
export interface CourseTail {
  readonly node: number;
  readonly length: number;
  readonly way: readonly number[];
  readonly bans: ReadonlySet<string>;
}

/** A line held to one way: along the rig, straight to an anchor (rig-aligned coordinates), on among the barriers. */
export interface Course {
  readonly departure: CourseDeparture;
  readonly anchorX: number;
  readonly anchorY: number;
  readonly tail: CourseTail;
}

/** The shortest way of a line at one stance. */
export interface GroundWay {
  readonly run: number;
  readonly side: RigSide;
  readonly rigWay: readonly number[];
  readonly padWay: readonly number[];
}

/**
 * The ground routes of lines that have to go round barriers or zones. A way is: along the rig, one straight leg, then
 * among the barriers; once it has left the rig's side it does not come back to it. It crosses no barrier, no zone and,
 * unless it may run beneath, not the body; touching is allowed.
 */
export class GroundCourses {
  private readonly problem: StanceProblem;
  private readonly lines: readonly { readonly task: LineTask; readonly target: PadPoint }[];
  private readonly barriers: ReturnType<typeof compileBarriers>;
  private readonly rig: (readonly RigSide[])[] = [];
  private pad: PadSide[] = [];
  private turnedSides = new WeakMap<Turn, TurnedPadSide[]>();
  private inTheWay: (readonly ConvexPolygon[])[] = [];

  constructor(problem: StanceProblem, lines: readonly { readonly task: LineTask; readonly target: PadPoint }[]) {
    this.problem = problem;
    this.lines = lines;
    this.barriers = compileBarriers(problem.barriers);
  }

  /** Drops what depends on the targets, after they were moved. */
  forget(): void {
    this.pad = [];
    this.inTheWay = [];
    this.turnedSides = new WeakMap();
  }

  rigSidesOf(line: number): readonly RigSide[] {
    const known = this.rig[line];
    if (known !== undefined) return known;
    const sides = rigSides((this.lines[line] as { task: LineTask }).task, this.problem);
    this.rig[line] = sides;
    return sides;
  }

  padSideOf(line: number): PadSide {
    const known = this.pad[line];
    if (known !== undefined) return known;
    const side = padSide((this.lines[line] as { target: PadPoint }).target, this.barriers);
    this.pad[line] = side;
    return side;
  }

  turnedOf(line: number, turn: Turn): TurnedPadSide {
    let all = this.turnedSides.get(turn);
    if (all === undefined) {
      all = [];
      this.turnedSides.set(turn, all);
    }
    const known = all[line];
    if (known !== undefined) return known;
    const { cos, sin } = turn;
    const side = this.padSideOf(line);
    const turnX = (point: PadPoint): number => cos * point.along + sin * point.left;
    const turnY = (point: PadPoint): number => cos * point.left - sin * point.along;
    const turned = {
      xs: Float64Array.from(side.nodes, turnX),
      ys: Float64Array.from(side.nodes, turnY),
      barriers: side.barriers.map(({ barrier }) =>
        convexPolygon(barrier.outline.map((point) => ({ x: turnX(point), y: turnY(point) }))),
      ),
    };
    all[line] = turned;
    return turned;
  }

  /** Barriers that count for a line, pad frame. */
  private barriersOf(line: number): readonly ConvexPolygon[] {
    const known = this.inTheWay[line];
    if (known !== undefined) return known;
    const { target } = this.lines[line] as { target: PadPoint };
    const found = this.barriers.compiled.filter((one) => !holdsTarget(one, target)).map(({ polygon }) => polygon);
    this.inTheWay[line] = found;
    return found;
  }

  /**
   * The shortest way as if there were no barrier, when it crosses none: then no way is shorter. Null when something is
   * in its way, or when there is no way; `shortest` then looks among the barriers.
   */
  private straight(line: number, turn: Turn, x: number, y: number): GroundWay | null {
    const { cos, sin } = turn;
    const { target } = this.lines[line] as { target: PadPoint };
    const toX = cos * target.along + sin * target.left;
    const toY = cos * target.left - sin * target.along;
    let best: GroundWay | null = null;
    for (const side of this.rigSidesOf(line)) {
      const departure = departureTo(side, toX - x, toY - y);
      if (departure === null || (best !== null && departure.run >= best.run)) continue;
      best = { run: departure.run, side, rigWay: wayTo(side.tree, departure.node), padWay: TARGET_ONLY };
    }
    if (best === null) return null;
    const points = best.rigWay.map((node) => {
      const at = (best as GroundWay).side.nodes[node] as RigPoint;
      return { x: x + at.fromRear, y: y + at.left };
    });
    points.push({ x: toX, y: toY });
    // Turned back into the pad frame, where the barriers are.
    const padPoints = points.map((point) => ({ x: cos * point.x - sin * point.y, y: sin * point.x + cos * point.y }));
    const clear = this.barriersOf(line).every((barrier) =>
      padPoints.every((to, index) => {
        const from = padPoints[index - 1];
        return from === undefined || !segmentCrosses(barrier, from.x, from.y, to.x, to.y);
      }),
    );
    return clear ? best : null;
  }

  /** The shortest way of a line with the rig's origin at (x, y), rig-aligned; null when there is none. */
  shortest(line: number, turn: Turn, x: number, y: number): GroundWay | null {
    const straight = this.straight(line, turn, x, y);
    if (straight !== null) return straight;
    const pad = this.padSideOf(line);
    const turned = this.turnedOf(line, turn);
    let best: GroundWay | null = null;
    for (const side of this.rigSidesOf(line)) {
      const way = shortestOnSide(side, pad, turned, x, y);
      if (way !== null && (best === null || way.run < best.run)) best = way;
    }
    return best;
  }
}

/** The way among the barriers of a line that bends round none of them. */
const TARGET_ONLY: readonly number[] = [0];

/** The departure from the rig's side with the shortest way to a rig-frame point that crosses neither body nor zone. */
function departureTo(side: RigSide, toX: number, toY: number): { readonly node: number; readonly run: number } | null {
  let run = Infinity;
  let found = -1;
  for (let node = 0; node < side.nodes.length; node++) {
    const from = side.nodes[node] as RigPoint;
    const way = side.setback + (side.tree.distance[node] as number) + Math.hypot(toX - from.fromRear, toY - from.left);
    if (!(way < run)) continue;
    if (side.blocks.some((block) => segmentCrosses(block, from.fromRear, from.left, toX, toY))) continue;
    run = way;
    found = node;
  }
  return found < 0 ? null : { node: found, run };
}

/** True when the straight leg from a rig point (rig frame) to a pad point (rig-aligned) crosses nothing. */
export function legIsClear(
  side: RigSide,
  turned: TurnedPadSide,
  x: number,
  y: number,
  from: RigPoint,
  toX: number,
  toY: number,
): boolean {
  const fromX = x + from.fromRear;
  const fromY = y + from.left;
  for (const barrier of turned.barriers) if (segmentCrosses(barrier, fromX, fromY, toX, toY)) return false;
  for (const block of side.blocks) {
    if (segmentCrosses(block, from.fromRear, from.left, toX - x, toY - y)) return false;
  }
  return true;
}

/** True when an edge along the rig crosses no barrier at this stance. */
export function rigEdgeIsClear(
  side: RigSide,
  turned: TurnedPadSide,
  x: number,
  y: number,
  a: number,
  b: number,
): boolean {
  const from = side.nodes[a] as RigPoint;
  const to = side.nodes[b] as RigPoint;
  return !turned.barriers.some((barrier) =>
    segmentCrosses(barrier, x + from.fromRear, y + from.left, x + to.fromRear, y + to.left),
  );
}

/** True when an edge among the barriers crosses neither body nor zones at this stance. */
export function padEdgeIsClear(
  side: RigSide,
  turned: TurnedPadSide,
  x: number,
  y: number,
  a: number,
  b: number,
): boolean {
  const fromX = (turned.xs[a] as number) - x;
  const fromY = (turned.ys[a] as number) - y;
  const toX = (turned.xs[b] as number) - x;
  const toY = (turned.ys[b] as number) - y;
  return !side.blocks.some((block) => segmentCrosses(block, fromX, fromY, toX, toY));
}

function shortestOnSide(side: RigSide, pad: PadSide, turned: TurnedPadSide, x: number, y: number): GroundWay | null {
  const known = shortestOver(side, side.tree, pad, pad.tree, turned, x, y);
  if (known === null) return null;
  const clear =
    everyEdge(known.rigWay, (a, b) => rigEdgeIsClear(side, turned, x, y, a, b)) &&
    everyEdge(known.padWay, (a, b) => padEdgeIsClear(side, turned, x, y, a, b));
  if (clear) return known;
  // The rig stands on a barrier or across the way among them: only the edges that are clear now may be used.
  const rig = rigTree(side, (a, b) => rigEdgeIsClear(side, turned, x, y, a, b));
  const rest = padTree(pad, (a, b) => padEdgeIsClear(side, turned, x, y, a, b));
  return shortestOver(side, rig, pad, rest, turned, x, y);
}

function everyEdge(way: readonly number[], clear: (a: number, b: number) => boolean): boolean {
  return way.every((node, index) => index === 0 || clear(way[index - 1] as number, node));
}

function shortestOver(
  side: RigSide,
  rig: ShortestTree,
  pad: PadSide,
  rest: ShortestTree,
  turned: TurnedPadSide,
  x: number,
  y: number,
): GroundWay | null {
  let best = Infinity;
  let bestRig = -1;
  let bestPad = -1;
  for (let c = 0; c < side.nodes.length; c++) {
    const along = side.setback + (rig.distance[c] as number);
    if (!(along < best)) continue;
    const node = side.nodes[c] as RigPoint;
    for (let v = 0; v < pad.nodes.length; v++) {
      const toX = turned.xs[v] as number;
      const toY = turned.ys[v] as number;
      const run = along + Math.hypot(toX - x - node.fromRear, toY - y - node.left) + (rest.distance[v] as number);
      if (!(run < best)) continue;
      if (!legIsClear(side, turned, x, y, node, toX, toY)) continue;
      best = run;
      bestRig = c;
      bestPad = v;
    }
  }
  if (bestRig < 0) return null;
  return { run: best, side, rigWay: wayTo(rig, bestRig), padWay: wayTo(rest, bestPad) };
}
