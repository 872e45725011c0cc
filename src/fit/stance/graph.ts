/** Shortest ways from node 0 of a small dense graph. */
export interface ShortestTree {
  /** Metres from node 0; Infinity where there is no way. */
  readonly distance: Float64Array;
  /** The node before, on the way from node 0; -1 for node 0 and for nodes without a way. */
  readonly before: Int32Array;
}

/** Dijkstra without a heap: the graphs have a few dozen nodes and the edges are asked for, not stored. */
export function shortestTree(count: number, edge: (from: number, to: number) => number): ShortestTree {
  const distance = new Float64Array(count).fill(Infinity);
  const before = new Int32Array(count).fill(-1);
  const done = new Uint8Array(count);
  if (count > 0) distance[0] = 0;
  for (let round = 0; round < count; round++) {
    let nearest = -1;
    for (let node = 0; node < count; node++) {
      if (done[node] === 1 || !((distance[node] as number) < Infinity)) continue;
      if (nearest < 0 || (distance[node] as number) < (distance[nearest] as number)) nearest = node;
    }
    if (nearest < 0) break;
    done[nearest] = 1;
    for (let node = 0; node < count; node++) {
      if (done[node] === 1) continue;
      const length = (distance[nearest] as number) + edge(nearest, node);
      if (length < (distance[node] as number)) {
        distance[node] = length;
        before[node] = nearest;
      }
    }
  }
  return { distance, before };
}

/** The nodes from node 0 to the given one. */
export function wayTo(tree: ShortestTree, node: number): readonly number[] {
  const way: number[] = [];
  for (let at = node; at >= 0; at = tree.before[at] as number) way.unshift(at);
  return way;
}

/** Name of the edge between two nodes, the same in both directions. */
export function edgeName(one: number, other: number): string {
  return one < other ? `${one}-${other}` : `${other}-${one}`;
}

/** Names of edges that may not be used. */
export type EdgeBans = ReadonlySet<string>;

export const NO_BANS: EdgeBans = new Set<string>();
