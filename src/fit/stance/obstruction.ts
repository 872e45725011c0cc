import {
  type ConvexPolygon,
  type ConvexSet,
  convexPolygon,
  emptySet,
  overlapSet,
  segmentCrosses,
  shadow,
} from "./convex.ts";
import type { TurnedPadSide } from "./courses.ts";
import { type BoxedPolygon, boxedCrosses } from "./outlines.ts";
import { extentOf, liesOutside, liesWithin, type Place } from "./place.ts";
import type { RigPoint } from "./problem.ts";
import type { RigSide } from "./rigside.ts";

/** A set that may be worked out later; null when the thing is never in the way. */
type Kept = (ConvexSet | null | undefined)[];

/**
 * Where the rig's origin must not be for the legs and edges of one line's courses: every set holds the places at which
 * one thing is in the way of one of them. Each is worked out when it is first needed, which few ever are.
 */
export class Obstruction {
  private readonly side: RigSide;
  private readonly turned: TurnedPadSide;
  private readonly padEdges = new Map<number, Kept>();
  private readonly rigEdges = new Map<number, Kept>();
  private readonly legs = new Map<number, Kept>();

  constructor(side: RigSide, turned: TurnedPadSide) {
    this.side = side;
    this.turned = turned;
  }

  /** Where the block that lies deepest across an edge among the barriers at (x, y) does so; null when none does. */
  acrossPadEdge(a: number, b: number, x: number, y: number): ConvexSet | null {
    return this.padBlockers(a, b, x, y, null);
  }

  /** True when body or zones lie across an edge among the barriers wherever the origin is; (x, y) is in the place. */
  padEdgeIsBlocked(a: number, b: number, x: number, y: number, place: Place): boolean {
    return this.padBlockers(a, b, x, y, place) !== null;
  }

  private padBlockers(a: number, b: number, x: number, y: number, place: Place | null): ConvexSet | null {
    const { xs, ys } = this.turned;
    const fromX = xs[a] as number;
    const fromY = ys[a] as number;
    const toX = xs[b] as number;
    const toY = ys[b] as number;
    const { blocks } = this.side;
    for (let i = 0; i < blocks.length; i++) {
      const block = blocks[i] as ConvexPolygon;
      if (!segmentCrosses(block, fromX - x, fromY - y, toX - x, toY - y)) continue;
      const set = keep(this.padEdges, Math.max(a, b) * xs.length + Math.min(a, b), i, () =>
        overlapSet(segment(fromX, fromY, toX, toY), block),
      );
      if (set !== null && (place === null || liesWithin(place, set))) return set;
    }
    return null;
  }

  /** Where the barrier across an edge along the rig at (x, y) lies across it; null when none does. */
  acrossRigEdge(a: number, b: number, x: number, y: number): ConvexSet | null {
    return this.rigBlockers(a, b, x, y, null);
  }

  /** True when a barrier lies across an edge along the rig wherever the origin is; (x, y) is in the place. */
  rigEdgeIsBlocked(a: number, b: number, x: number, y: number, place: Place): boolean {
    return this.rigBlockers(a, b, x, y, place) !== null;
  }

  private rigBlockers(a: number, b: number, x: number, y: number, place: Place | null): ConvexSet | null {
    const from = this.side.nodes[a] as RigPoint;
    const to = this.side.nodes[b] as RigPoint;
    const { barriers } = this.turned;
    for (let i = 0; i < barriers.length; i++) {
      const barrier = barriers[i] as BoxedPolygon;
      if (!boxedCrosses(barrier, x + from.fromRear, y + from.left, x + to.fromRear, y + to.left)) continue;
      const set = this.rigEdgeSet(a, b, i);
      if (set !== null && (place === null || liesWithin(place, set))) return set;
    }
    return null;
  }

  /** True when no barrier can lie across an edge along the rig, wherever in the place the origin is. */
  rigEdgeIsFree(a: number, b: number, place: Place): boolean {
    const from = this.side.nodes[a] as RigPoint;
    const to = this.side.nodes[b] as RigPoint;
    const { xMin, xMax, yMin, yMax } = extentOf(place);
    const left = xMin + Math.min(from.fromRear, to.fromRear);
    const right = xMax + Math.max(from.fromRear, to.fromRear);
    const low = yMin + Math.min(from.left, to.left);
    const high = yMax + Math.max(from.left, to.left);
    return this.turned.barriers.every(({ box }, i) => {
      if (box.xMax <= left || box.xMin >= right || box.yMax <= low || box.yMin >= high) return true;
      const set = this.rigEdgeSet(a, b, i);
      return set === null || liesOutside(place, set);
    });
  }

  private rigEdgeSet(a: number, b: number, i: number): ConvexSet | null {
    const from = this.side.nodes[a] as RigPoint;
    const to = this.side.nodes[b] as RigPoint;
    return keep(this.rigEdges, Math.max(a, b) * this.side.nodes.length + Math.min(a, b), i, () =>
      overlapSet(
        (this.turned.barriers[i] as BoxedPolygon).polygon,
        segment(from.fromRear, from.left, to.fromRear, to.left),
      ),
    );
  }

  /** Where what is in the way of a leg at (x, y) is in its way; null when nothing is. */
  acrossLeg(node: number, anchor: number, x: number, y: number): ConvexSet | null {
    return this.legBlockers(node, anchor, x, y, null);
  }

  /** True when one thing is in the way of a leg wherever the origin is; (x, y) is in the place. */
  legIsBlocked(node: number, anchor: number, x: number, y: number, place: Place): boolean {
    return this.legBlockers(node, anchor, x, y, place) !== null;
  }

  private legBlockers(node: number, anchor: number, x: number, y: number, place: Place | null): ConvexSet | null {
    const { fromRear, left } = this.side.nodes[node] as RigPoint;
    const { xs, ys, barriers } = this.turned;
    const toX = xs[anchor] as number;
    const toY = ys[anchor] as number;
    const key = node * xs.length + anchor;
    for (let i = 0; i < barriers.length; i++) {
      const barrier = barriers[i] as BoxedPolygon;
      if (!boxedCrosses(barrier, x + fromRear, y + left, toX, toY)) continue;
      const set = keep(this.legs, key, i, () => moved(shadow(barrier.polygon, toX, toY), 1, fromRear, left));
      if (set !== null && (place === null || liesWithin(place, set))) return set;
    }
    const { blocks } = this.side;
    for (let i = 0; i < blocks.length; i++) {
      const block = blocks[i] as ConvexPolygon;
      if (!segmentCrosses(block, fromRear, left, toX - x, toY - y)) continue;
      const set = keep(this.legs, key, barriers.length + i, () => moved(shadow(block, fromRear, left), -1, toX, toY));
      if (set !== null && (place === null || liesWithin(place, set))) return set;
    }
    return null;
  }
}

function keep(kept: Map<number, Kept>, key: number, place: number, make: () => ConvexSet | null): ConvexSet | null {
  let sets = kept.get(key);
  if (sets === undefined) {
    sets = [];
    kept.set(key, sets);
  }
  let set = sets[place];
  if (set === undefined) {
    set = make();
    sets[place] = set;
  }
  return set;
}

function segment(x1: number, y1: number, x2: number, y2: number): ConvexPolygon {
  return convexPolygon([
    { x: x1, y: y1 },
    { x: x2, y: y2 },
  ]);
}

/** The w with `sign w + (x, y)` in the set. */
function moved(set: ConvexSet | null, sign: 1 | -1, x: number, y: number): ConvexSet | null {
  if (set === null) return null;
  const count = set.nx.length;
  const shifted = emptySet(count);
  for (let side = 0; side < count; side++) {
    const nx = set.nx[side] as number;
    const ny = set.ny[side] as number;
    shifted.nx[side] = sign * nx;
    shifted.ny[side] = sign * ny;
    shifted.offset[side] = (set.offset[side] as number) - nx * x - ny * y;
  }
  return shifted;
}
