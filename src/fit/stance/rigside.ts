import { boxPolygon, type ConvexPolygon, depthInside, type FlatBox, segmentCrosses } from "./convex.ts";
import { type ShortestTree, shortestTree } from "./graph.ts";
import type { LineTask, RigKeepOut, RigPoint, RouteKind, StanceProblem } from "./problem.ts";
import { bodyCorners, kindByCorner, rigDistance, WALLS, wallPoint } from "./routes.ts";
import { TOUCH_TOLERANCE } from "./tolerance.ts";

/**
 * The part of a line's way that lies along the rig: from the wall point (or, beneath, from the inlet) round the corners
 * of the body and of the zones that no line may cross. All lengths are the rig's own and never change.
 */
export interface RigSide {
  readonly beneath: boolean;
  /** Node 0 is where the ground route starts; then the body's corners (not beneath); then the corners of zones. */
  readonly nodes: readonly RigPoint[];
  /** Metres from the inlet to node 0. */
  readonly setback: number;
  /** What the last leg and the way beyond it may not cross: the body (not beneath) and the zones. */
  readonly blocks: readonly ConvexPolygon[];
  readonly tree: ShortestTree;
  /** Walls beyond which a straight leg from the node is legal; empty where that is not a matter of one wall. */
  readonly walls: readonly (readonly number[])[];
  readonly seen: Uint8Array;
}

const BODY_CORNERS = 4;

/** Metres by which a zone on a wall is drawn into the body: deeper than a graze, far less than a margin is good to. */
const SEAM = 1e-7;

/** The ways along the rig that a line may take: round the body, and beneath it where that is granted. */
export function rigSides(line: LineTask, problem: StanceProblem): readonly RigSide[] {
  const sides: RigSide[] = [];
  if (line.mayRunBeneath) sides.push(sideBeneath(line, problem.keepOuts));
  // Without zones the straight way beneath is never longer than any way round the body.
  if (!line.mayRunBeneath || problem.keepOuts.length > 0) sides.push(sideRound(line, problem));
  return sides;
}

function sideBeneath(line: LineTask, keepOuts: readonly RigKeepOut[]): RigSide {
  return side(line.inlet, [], 0, openZones(keepOuts), null);
}

function sideRound(line: LineTask, problem: StanceProblem): RigSide {
  const { length, width } = problem;
  const start = wallPoint(line, length, width);
  const body = boxPolygon(0, length, -width / 2, width / 2);
  const zones = closedZones(problem.keepOuts, length, width / 2);
  return side(start, bodyCorners(length, width), rigDistance(line.inlet, start), zones, {
    body,
    wall: WALLS.indexOf(line.wall),
  });
}

/** The zones as a line beneath the body meets them. */
export function openZones(keepOuts: readonly RigKeepOut[]): readonly FlatBox[] {
  return keepOuts.map(({ fromRearMin, fromRearMax, leftMin, leftMax }) => ({
    xMin: fromRearMin,
    xMax: fromRearMax,
    yMin: leftMin,
    yMax: leftMax,
  }));
}

/**
 * The zones as a line round the body meets them. One that touches a wall is drawn into the body by a seam, so that no
 * line slips through between zone and wall. The seam is so thin that a zone about a corner of the body grows by nothing
 * that matters along the other wall.
 */
export function closedZones(keepOuts: readonly RigKeepOut[], length: number, half: number): readonly FlatBox[] {
  const touches = (a: number, b: number): boolean => Math.abs(a - b) <= SEAM;
  return keepOuts.map(({ fromRearMin, fromRearMax, leftMin, leftMax }) => ({
    xMin: touches(fromRearMin, length) ? length - SEAM : fromRearMin,
    xMax: touches(fromRearMax, 0) ? SEAM : fromRearMax,
    yMin: touches(leftMin, half) ? half - SEAM : leftMin,
    yMax: touches(leftMax, -half) ? SEAM - half : leftMax,
  }));
}

function side(
  start: RigPoint,
  corners: readonly RigPoint[],
  setback: number,
  boxes: readonly FlatBox[],
  round: { readonly body: ConvexPolygon; readonly wall: number } | null,
): RigSide {
  // A zone round the inlet itself cannot be avoided by any line from it and is the rig builder's business.
  const zones = boxes
    .map(({ xMin, xMax, yMin, yMax }) => boxPolygon(xMin, xMax, yMin, yMax))
    .filter((zone) => depthInside(zone, start.fromRear, start.left) <= TOUCH_TOLERANCE);
  const blocks = round === null ? zones : [round.body, ...zones];
  const nodes: RigPoint[] = [start, ...corners];
  const walls: (readonly number[])[] = [round === null ? [] : [round.wall]];
  for (let corner = 0; corner < corners.length; corner++) walls.push([corner, (corner + 1) % WALLS.length]);
  for (const zone of zones) {
    for (let corner = 0; corner < zone.xs.length; corner++) {
      nodes.push({ fromRear: zone.xs[corner] as number, left: zone.ys[corner] as number });
      walls.push([]);
    }
  }
  const hidden = nodes.map((node) =>
    blocks.some((block) => depthInside(block, node.fromRear, node.left) > TOUCH_TOLERANCE),
  );
  const count = nodes.length;
  const seen = new Uint8Array(count * count);
  for (let a = 0; a < count; a++) {
    for (let b = 0; b < a; b++) {
      const from = nodes[a] as RigPoint;
      const to = nodes[b] as RigPoint;
      const clear =
        hidden[a] !== true &&
        hidden[b] !== true &&
        !blocks.some((block) => segmentCrosses(block, from.fromRear, from.left, to.fromRear, to.left));
      seen[a * count + b] = seen[b * count + a] = clear ? 1 : 0;
    }
  }
  const bare = { beneath: round === null, nodes, setback, blocks, walls, seen };
  return { ...bare, tree: rigTree(bare, () => true) };
}

/** Shortest ways along the rig over the edges that are seen and allowed. */
export function rigTree(
  side: Pick<RigSide, "nodes" | "seen">,
  allowed: (from: number, to: number) => boolean,
): ShortestTree {
  const { nodes, seen } = side;
  return shortestTree(nodes.length, (from, to) =>
    seen[from * nodes.length + to] === 1 && allowed(from, to)
      ? rigDistance(nodes[from] as RigPoint, nodes[to] as RigPoint)
      : Infinity,
  );
}

/** Names the way along the rig that passes the given nodes. */
export function rigWayKind(side: RigSide, way: readonly number[]): RouteKind {
  if (side.beneath) return "beneath";
  const corner = way.find((node) => node >= 1 && node <= BODY_CORNERS);
  return corner === undefined ? "direct" : kindByCorner(corner - 1);
}
