import { type FlatBox, segmentCrosses } from "./convex.ts";
import type { Turn } from "./frame.ts";
import { type ShortestTree, wayTo } from "./graph.ts";
import { Obstruction } from "./obstruction.ts";
import { type BoxedPolygon, boxedCrosses } from "./outlines.ts";
import { compileBarriers, type PadSide, padSide, padTree } from "./padside.ts";
import { clearOfBarriers, clearOfZones, plainWay } from "./plain.ts";
import type { LineTask, PadPoint, RigPoint, RouteKind, StanceProblem } from "./problem.ts";
import { closedZones, openZones, type RigSide, rigSides, rigTree, rigWayKind } from "./rigside.ts";
import { type Departure, shortestDepartures } from "./routes.ts";

/** The pad side of a line turned into the rig's direction. */
export interface TurnedPadSide {
  readonly xs: Float64Array;
  readonly ys: Float64Array;
  readonly barriers: readonly BoxedPolygon[];
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
  readonly kind: RouteKind;
  /** From the inlet to where the line leaves the rig. */
  readonly rigPoints: readonly RigPoint[];
  /** Nodes of the line's pad side from the target back to where the straight leg ends. */
  readonly padWay: readonly number[];
}

/** What the ground routes of one line are made of, each made ready when it is first asked for. */
interface LineGround {
  readonly departures: readonly Departure[];
  zones: readonly FlatBox[] | null;
  rig: readonly RigSide[] | null;
  pad: PadSide | null;
  turned: Map<Turn, TurnedPadSide> | null;
  obstructions: Map<TurnedPadSide, Map<RigSide, Obstruction>> | null;
}

/** A line with the target as last moved. */
interface TargetedLine {
  readonly task: LineTask;
  readonly target: PadPoint;
  readonly departures?: readonly Departure[];
}

/** The way among the barriers of a line that bends round none of them. */
const TARGET_ONLY: readonly number[] = [0];

/**
 * The ground routes of lines that have to go round barriers or zones. A way is: along the rig, one straight leg, then
 * among the barriers; once it has left the rig's side it does not come back to it. It crosses no barrier, no zone and,
 * unless it may run beneath, not the body; touching is allowed.
 */
export class GroundCourses {
  private readonly problem: StanceProblem;
  private readonly lines: readonly TargetedLine[];
  private readonly barriers: ReturnType<typeof compileBarriers>;
  private readonly grounds: LineGround[] = [];

  constructor(problem: StanceProblem, lines: readonly TargetedLine[]) {
    this.problem = problem;
    this.lines = lines;
    this.barriers = compileBarriers(problem.barriers);
  }

  private groundOf(line: number): LineGround {
    const known = this.grounds[line];
    if (known !== undefined) return known;
    const { task, departures } = this.lines[line] as TargetedLine;
    const { length, width } = this.problem;
    const made = {
      departures: departures ?? shortestDepartures(task, length, width),
      zones: null,
      rig: null,
      pad: null,
      turned: null,
      obstructions: null,
    };
    this.grounds[line] = made;
    return made;
  }

  /** Drops what depends on the targets, after they were moved. */
  forget(): void {
    for (const ground of this.grounds) {
      if (ground === undefined) continue;
      ground.pad = null;
      ground.turned = null;
      ground.obstructions = null;
    }
  }

  rigSidesOf(line: number): readonly RigSide[] {
    const ground = this.groundOf(line);
    ground.rig ??= rigSides((this.lines[line] as TargetedLine).task, this.problem);
    return ground.rig;
  }

  padSideOf(line: number): PadSide {
    const ground = this.groundOf(line);
    ground.pad ??= padSide((this.lines[line] as TargetedLine).target, this.barriers);
    return ground.pad;
  }

  turnedOf(line: number, turn: Turn): TurnedPadSide {
    const ground = this.groundOf(line);
    ground.turned ??= new Map();
    const known = ground.turned.get(turn);
    if (known !== undefined) return known;
    const { cos, sin } = turn;
    const side = this.padSideOf(line);
    const made = {
      xs: Float64Array.from(side.nodes, (point) => cos * point.along + sin * point.left),
      ys: Float64Array.from(side.nodes, (point) => cos * point.left - sin * point.along),
      barriers: side.barriers.map(({ outline }) => outline.turned(cos, sin)),
    };
    ground.turned.set(turn, made);
    return made;
  }

  /** What can be in the way of a line's courses that leave from one side of the rig. */
  obstructionOf(line: number, side: RigSide, turn: Turn): Obstruction {
    const ground = this.groundOf(line);
    ground.obstructions ??= new Map();
    const turned = this.turnedOf(line, turn);
    let bySide = ground.obstructions.get(turned);
    if (bySide === undefined) {
      bySide = new Map();
      ground.obstructions.set(turned, bySide);
    }
    let made = bySide.get(side);
    if (made === undefined) {
      made = new Obstruction(side, turned);
      bySide.set(side, made);
    }
    return made;
  }

  private zonesOf(line: number): readonly FlatBox[] {
    const ground = this.groundOf(line);
    const { keepOuts, length, width } = this.problem;
    ground.zones ??= (this.lines[line] as TargetedLine).task.mayRunBeneath
      ? openZones(keepOuts)
      : closedZones(keepOuts, length, width / 2);
    return ground.zones;
  }

  /**
   * The shortest way of a line with the rig's origin at (x, y), rig-aligned; null when there is none. First the
   * shortest as if there were neither barrier nor zone: when it crosses none, no way is shorter.
   */
  shortest(line: number, turn: Turn, x: number, y: number): GroundWay | null {
    const { length, width, keepOuts } = this.problem;
    const { target } = this.lines[line] as TargetedLine;
    const { cos, sin } = turn;
    const toX = cos * target.along + sin * target.left - x;
    const toY = cos * target.left - sin * target.along - y;
    const plain = plainWay(this.groundOf(line).departures, length, width / 2, toX, toY);
    const { compiled } = this.barriers;
    if (plain === null) {
      if (compiled.length === 0 && keepOuts.length === 0) return null;
    } else if (
      clearOfZones(plain.departure, toX, toY, this.zonesOf(line)) &&
      clearOfBarriers(plain.departure, target, compiled, turn, x, y)
    ) {
      const { kind, path } = plain.departure;
      return { run: plain.run, kind, rigPoints: path, padWay: TARGET_ONLY };
    }
    return this.roundabout(line, turn, x, y);
  }

  /** The shortest way among barriers and zones. */
  private roundabout(line: number, turn: Turn, x: number, y: number): GroundWay | null {
    const pad = this.padSideOf(line);
    const turned = this.turnedOf(line, turn);
    let best: SideWay | null = null;
    for (const side of this.rigSidesOf(line)) {
      const way = shortestOnSide(side, pad, turned, x, y);
      if (way !== null && (best === null || way.run < best.run)) best = way;
    }
    if (best === null) return null;
    const { side, rigWay, padWay, run } = best;
    const rigPoints = rigWay.map((node) => side.nodes[node] as RigPoint);
    if (side.setback > 0) rigPoints.unshift((this.lines[line] as TargetedLine).task.inlet);
    return { run, kind: rigWayKind(side, rigWay), rigPoints, padWay };
  }
}

/** A way by the nodes that it passes. */
interface SideWay {
  readonly run: number;
  readonly side: RigSide;
  readonly rigWay: readonly number[];
  readonly padWay: readonly number[];
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
  for (const barrier of turned.barriers) if (boxedCrosses(barrier, fromX, fromY, toX, toY)) return false;
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
    boxedCrosses(barrier, x + from.fromRear, y + from.left, x + to.fromRear, y + to.left),
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

function shortestOnSide(side: RigSide, pad: PadSide, turned: TurnedPadSide, x: number, y: number): SideWay | null {
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
): SideWay | null {
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
