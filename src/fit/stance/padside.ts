import { type ConvexPolygon, convexPolygon, depthInside, segmentCrosses } from "./convex.ts";
import { type EdgeBans, edgeName, type ShortestTree, shortestTree } from "./graph.ts";
import type { LineBarrier, PadPoint } from "./problem.ts";
import { TOUCH_TOLERANCE } from "./tolerance.ts";

/** A barrier with its outline made ready, pad frame. */
export interface CompiledBarrier {
  readonly barrier: LineBarrier;
  readonly polygon: ConvexPolygon;
}

/**
 * The part of a line's way that lies among the barriers, seen from the target: node 0 is the target, the others are the
 * barriers' corners. It knows nothing of the rig.
 */
export interface PadSide {
  readonly nodes: readonly PadPoint[];
  /** The barrier whose corner the node is; null for the target. */
  readonly owners: readonly (LineBarrier | null)[];
  /** For every node the two corners beside it on its barrier; the target stands beside itself. */
  readonly beside: readonly (readonly [PadPoint, PadPoint])[];
  /** Barriers that count for this line: one around the target itself is not in the way of reaching it. */
  readonly barriers: readonly CompiledBarrier[];
  readonly seen: Uint8Array;
  readonly tree: ShortestTree;
}

function asPolygon(outline: readonly PadPoint[]): ConvexPolygon {
  return convexPolygon(outline.map((point) => ({ x: point.along, y: point.left })));
}

export function compileBarriers(barriers: readonly LineBarrier[]): readonly CompiledBarrier[] {
  return barriers.map((barrier) => ({ barrier, polygon: asPolygon(barrier.outline) }));
}

/** The ways among the barriers to one target. */
export function padSide(target: PadPoint, all: readonly CompiledBarrier[]): PadSide {
  const barriers = all.filter(({ polygon }) => depthInside(polygon, target.along, target.left) <= TOUCH_TOLERANCE);
  const nodes: PadPoint[] = [target];
  const owners: (LineBarrier | null)[] = [null];
  const beside: (readonly [PadPoint, PadPoint])[] = [[target, target]];
  for (const { barrier, polygon } of barriers) {
    for (let corner = 0; corner < polygon.xs.length; corner++) {
      const x = polygon.xs[corner] as number;
      const y = polygon.ys[corner] as number;
      if (barriers.some((other) => depthInside(other.polygon, x, y) > TOUCH_TOLERANCE)) continue;
      nodes.push({ along: x, left: y });
      owners.push(barrier);
      const count = polygon.xs.length;
      const before = (corner + count - 1) % count;
      const after = (corner + 1) % count;
      beside.push([
        { along: polygon.xs[before] as number, left: polygon.ys[before] as number },
        { along: polygon.xs[after] as number, left: polygon.ys[after] as number },
      ]);
    }
  }
  const count = nodes.length;
  const seen = new Uint8Array(count * count);
  for (let a = 0; a < count; a++) {
    for (let b = 0; b < a; b++) {
      const from = nodes[a] as PadPoint;
      const to = nodes[b] as PadPoint;
      const clear = !barriers.some(({ polygon }) => segmentCrosses(polygon, from.along, from.left, to.along, to.left));
      seen[a * count + b] = seen[b * count + a] = clear ? 1 : 0;
    }
  }
  const bare = { nodes, owners, beside, barriers, seen };
  return { ...bare, tree: padTree(bare, () => true) };
}

/** Shortest ways from the target over the edges that are seen and allowed. */
export function padTree(
  side: Pick<PadSide, "nodes" | "seen">,
  allowed: (from: number, to: number) => boolean,
): ShortestTree {
  const { nodes, seen } = side;
  return shortestTree(nodes.length, (from, to) => {
    if (seen[from * nodes.length + to] !== 1 || !allowed(from, to)) return Infinity;
    const a = nodes[from] as PadPoint;
    const b = nodes[to] as PadPoint;
    return Math.hypot(a.along - b.along, a.left - b.left);
  });
}

/** The same without the banned edges. */
export function padTreeWithout(side: PadSide, bans: EdgeBans): ShortestTree {
  return bans.size === 0 ? side.tree : padTree(side, (from, to) => !bans.has(edgeName(from, to)));
}
