import { depthInside, segmentCrosses, segmentMissesBox } from "./convex.ts";
import { type ShortestTree, shortestTree } from "./graph.ts";
import { type Outline, outlineOf } from "./outlines.ts";
import type { LineBarrier, PadPoint } from "./problem.ts";
import { TOUCH_TOLERANCE } from "./tolerance.ts";

/** A barrier with its outline made ready. */
export interface CompiledBarrier {
  readonly barrier: LineBarrier;
  readonly outline: Outline;
}

/**
 * The part of a line's way that lies among the barriers, seen from the target: node 0 is the target, the others are the
 * barriers' corners. It knows nothing of the rig.
 */
export interface PadSide {
  readonly nodes: readonly PadPoint[];
  /** The barrier whose corner the node is; null for the target. */
  readonly owners: readonly (LineBarrier | null)[];
  /** Barriers that count for this line: one around the target itself is not in the way of reaching it. */
  readonly barriers: readonly CompiledBarrier[];
  readonly seen: Uint8Array;
  readonly tree: ShortestTree;
}

/** Corners of barriers that a line may bend at, and which of them see each other: all that no target changes. */
interface CornerField {
  readonly barriers: readonly CompiledBarrier[];
  readonly nodes: readonly PadPoint[];
  readonly owners: readonly LineBarrier[];
  /** Row by row, 1 where two corners see each other. */
  readonly seen: Uint8Array;
}

/** What was made ready for an array of barriers; a fit asks about the same array hundreds of times. */
interface ReadyBarriers {
  readonly compiled: readonly CompiledBarrier[];
  /** By the barriers left out because the target stands within them. */
  readonly fields: Map<string, CornerField>;
  /** The pad sides last asked for: search and evaluation ask for the same ones in turn. */
  readonly sides: PadSide[];
}

/** Pad sides that are kept for an array of barriers. */
const MOST_SIDES = 8;

/** A weak store: it saves time only, no answer depends on it. */
const ready = new WeakMap<readonly LineBarrier[], ReadyBarriers>();

export function compileBarriers(barriers: readonly LineBarrier[]): ReadyBarriers {
  const known = ready.get(barriers);
  if (known !== undefined) return known;
  const compiled = barriers.map((barrier) => ({ barrier, outline: outlineOf(barrier.outline) }));
  const made: ReadyBarriers = { compiled, fields: new Map(), sides: [] };
  ready.set(barriers, made);
  return made;
}

/** True when the target stands within the barrier: then it is not in the way of reaching it. */
export function holdsTarget({ outline }: CompiledBarrier, target: PadPoint): boolean {
  return depthInside(outline.polygon, target.along, target.left) > TOUCH_TOLERANCE;
}

function crossed(barriers: readonly CompiledBarrier[], from: PadPoint, to: PadPoint): boolean {
  for (const { outline } of barriers) {
    if (segmentMissesBox(outline.box, from.along, from.left, to.along, to.left)) continue;
    if (segmentCrosses(outline.polygon, from.along, from.left, to.along, to.left)) return true;
  }
  return false;
}

function cornerField(barriers: readonly CompiledBarrier[]): CornerField {
  const nodes: PadPoint[] = [];
  const owners: LineBarrier[] = [];
  for (const { barrier, outline } of barriers) {
    const { polygon } = outline;
    const count = polygon.xs.length;
    const cornerAt = (index: number): PadPoint => ({
      along: polygon.xs[index % count] as number,
      left: polygon.ys[index % count] as number,
    });
    for (let corner = 0; corner < count; corner++) {
      const node = cornerAt(corner);
      if (barriers.some((other) => holdsTarget(other, node))) continue;
      nodes.push(node);
      owners.push(barrier);
    }
  }
  const count = nodes.length;
  const seen = new Uint8Array(count * count);
  for (let a = 0; a < count; a++) {
    for (let b = 0; b < a; b++) {
      const clear = !crossed(barriers, nodes[a] as PadPoint, nodes[b] as PadPoint);
      seen[a * count + b] = seen[b * count + a] = clear ? 1 : 0;
    }
  }
  return { barriers, nodes, owners, seen };
}

function fieldFor(target: PadPoint, { compiled, fields }: ReadyBarriers): CornerField {
  const inside = compiled.map((barrier) => (holdsTarget(barrier, target) ? "1" : "0")).join("");
  const known = fields.get(inside);
  if (known !== undefined) return known;
  const made = cornerField(compiled.filter((_, index) => inside[index] === "0"));
  fields.set(inside, made);
  return made;
}

/** The ways among the barriers to one target. */
export function padSide(target: PadPoint, all: ReadyBarriers): PadSide {
  const { sides } = all;
  for (const known of sides) {
    const at = known.nodes[0] as PadPoint;
    if (at.along === target.along && at.left === target.left) return known;
  }
  const made = newPadSide(target, all);
  if (sides.length === MOST_SIDES) sides.shift();
  sides.push(made);
  return made;
}

function newPadSide(target: PadPoint, all: ReadyBarriers): PadSide {
  const field = fieldFor(target, all);
  const corners = field.nodes.length;
  const count = corners + 1;
  const seen = new Uint8Array(count * count);
  for (let a = 0; a < corners; a++) {
    seen.set(field.seen.subarray(a * corners, (a + 1) * corners), (a + 1) * count + 1);
    const clear = !crossed(field.barriers, target, field.nodes[a] as PadPoint);
    seen[a + 1] = seen[(a + 1) * count] = clear ? 1 : 0;
  }
  const bare = {
    nodes: [target, ...field.nodes],
    owners: [null, ...field.owners],
    barriers: field.barriers,
    seen,
  };
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
