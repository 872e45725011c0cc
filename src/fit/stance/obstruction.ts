import { type ConvexPolygon, type ConvexSet, convexPolygon, convexSet, overlapSet, shadow } from "./convex.ts";
import type { TurnedPadSide } from "./courses.ts";
import { edgeName } from "./graph.ts";
import { liesWithin, type Place } from "./place.ts";
import type { RigPoint } from "./problem.ts";
import type { RigSide } from "./rigside.ts";

/**
 * Where the rig's origin must not be for the legs and edges of one line's courses: every set holds the places at which
 * one thing is in the way of one of them. Each is worked out when it is first asked for.
 */
export class Obstruction {
  private readonly side: RigSide;
  private readonly turned: TurnedPadSide;
  private readonly padEdges = new Map<string, readonly ConvexSet[]>();
  private readonly rigEdges = new Map<string, readonly ConvexSet[]>();
  private readonly legs = new Map<number, readonly ConvexSet[]>();

  constructor(side: RigSide, turned: TurnedPadSide) {
    this.side = side;
    this.turned = turned;
  }

  /** Where body or zones lie across an edge among the barriers. */
  padEdge(a: number, b: number): readonly ConvexSet[] {
    const name = edgeName(a, b);
    let sets = this.padEdges.get(name);
    if (sets === undefined) {
      const { xs, ys } = this.turned;
      const edge = segment(xs[a] as number, ys[a] as number, xs[b] as number, ys[b] as number);
      sets = this.side.blocks.map((block) => overlapSet(edge, block));
      this.padEdges.set(name, sets);
    }
    return sets;
  }

  /** Where barriers lie across an edge along the rig. */
  rigEdge(a: number, b: number): readonly ConvexSet[] {
    const name = edgeName(a, b);
    let sets = this.rigEdges.get(name);
    if (sets === undefined) {
      const from = this.side.nodes[a] as RigPoint;
      const to = this.side.nodes[b] as RigPoint;
      const edge = segment(from.fromRear, from.left, to.fromRear, to.left);
      sets = this.turned.barriers.map((barrier) => overlapSet(barrier, edge));
      this.rigEdges.set(name, sets);
    }
    return sets;
  }

  /** Where barriers, body or zones are in the way of the straight leg from a node of the rig to an anchor. */
  leg(node: number, anchor: number): readonly ConvexSet[] {
    const key = node * this.turned.xs.length + anchor;
    let sets = this.legs.get(key);
    if (sets === undefined) {
      const { fromRear, left } = this.side.nodes[node] as RigPoint;
      const x = this.turned.xs[anchor] as number;
      const y = this.turned.ys[anchor] as number;
      sets = [
        ...this.turned.barriers.map((barrier) => moved(shadow(barrier, x, y), 1, fromRear, left)),
        ...this.side.blocks.map((block) => moved(shadow(block, fromRear, left), -1, x, y)),
      ].filter((set) => set !== null);
      this.legs.set(key, sets);
    }
    return sets;
  }

  /** The edges along the rig that are blocked wherever in the patch the origin is, with those given. */
  rigBans(place: Place, bans: ReadonlySet<string>): ReadonlySet<string> {
    return withBlocked(this.side.nodes.length, this.side.seen, place, bans, (a, b) => this.rigEdge(a, b));
  }

  /** The same for the edges among the barriers; `seen` tells row by row which there are. */
  padBans(seen: Uint8Array, place: Place, bans: ReadonlySet<string>): ReadonlySet<string> {
    return withBlocked(this.turned.xs.length, seen, place, bans, (a, b) => this.padEdge(a, b));
  }
}

function withBlocked(
  count: number,
  seen: Uint8Array,
  place: Place,
  bans: ReadonlySet<string>,
  blocking: (a: number, b: number) => readonly ConvexSet[],
): ReadonlySet<string> {
  const all = new Set(bans);
  for (let a = 0; a < count; a++) {
    for (let b = 0; b < a; b++) {
      if (seen[a * count + b] !== 1) continue;
      if (blocking(a, b).some((set) => liesWithin(place, set))) all.add(edgeName(a, b));
    }
  }
  return all;
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
  return convexSet(
    Array.from(set.nx, (nx, side) => {
      const ny = set.ny[side] as number;
      return [sign * nx, sign * ny, (set.offset[side] as number) - nx * x - ny * y] as const;
    }),
  );
}
