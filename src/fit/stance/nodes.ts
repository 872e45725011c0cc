const START = 64;
const NO_FLOATS = new Float64Array(0);
const NO_INTEGERS = new Int32Array(0);
export const NO_NODE = -1;

/**
 * The nodes of a search tree in typed arrays, and the heap that hands out the one with the greatest value. Of equal
 * values the youngest comes first, so that the search goes down instead of across. Kept and reused between searches;
 * it takes up no room until the first.
 */
export class NodePool {
  count = 0;
  value = NO_FLOATS;
  x = NO_FLOATS;
  y = NO_FLOATS;
  /** The half-plane that the node adds to its parent's region; a limit of Infinity adds none. */
  nx = NO_FLOATS;
  ny = NO_FLOATS;
  limit = NO_FLOATS;
  parent = NO_INTEGERS;
  leaf = NO_INTEGERS;
  /** 1 once the node is solved, 0 while its value is only an upper bound. */
  solved = new Uint8Array(0);
  private heap = NO_INTEGERS;
  private size = 0;
  private deep = false;

  clear(): void {
    this.count = 0;
    this.size = 0;
    this.deep = false;
  }

  /** From now on hands out the youngest node first: the quick way to some stance when there is no time for the best. */
  goDeep(): void {
    const waiting = this.heap.slice(0, this.size);
    this.deep = true;
    this.size = 0;
    for (const node of waiting) this.push(node);
  }

  add(leaf: number, parent: number, value: number, solved: boolean): number {
    if (this.count === this.value.length) this.grow();
    const node = this.count++;
    this.leaf[node] = leaf;
    this.parent[node] = parent;
    this.value[node] = value;
    this.solved[node] = solved ? 1 : 0;
    this.limit[node] = Infinity;
    return node;
  }

  setPlane(node: number, nx: number, ny: number, limit: number): void {
    this.nx[node] = nx;
    this.ny[node] = ny;
    this.limit[node] = limit;
  }

  private grow(): void {
    const size = Math.max(START, this.value.length + this.value.length);
    const floats = (old: Float64Array): Float64Array<ArrayBuffer> => {
      const next = new Float64Array(size);
      next.set(old);
      return next;
    };
    const integers = (old: Int32Array): Int32Array<ArrayBuffer> => {
      const next = new Int32Array(size);
      next.set(old);
      return next;
    };
    this.value = floats(this.value);
    this.x = floats(this.x);
    this.y = floats(this.y);
    this.nx = floats(this.nx);
    this.ny = floats(this.ny);
    this.limit = floats(this.limit);
    this.parent = integers(this.parent);
    this.leaf = integers(this.leaf);
    this.heap = integers(this.heap);
    const solved = new Uint8Array(size);
    solved.set(this.solved);
    this.solved = solved;
  }

  private before(a: number, b: number): boolean {
    if (this.deep) return a > b;
    const va = this.value[a] as number;
    const vb = this.value[b] as number;
    return va > vb || (va === vb && a > b);
  }

  push(node: number): void {
    const { heap } = this;
    let place = this.size++;
    while (place > 0) {
      const up = (place - 1) >> 1;
      const above = heap[up] as number;
      if (!this.before(node, above)) break;
      heap[place] = above;
      place = up;
    }
    heap[place] = node;
  }

  /** The node with the greatest value, or `NO_NODE`. */
  pop(): number {
    if (this.size === 0) return NO_NODE;
    const { heap } = this;
    const top = heap[0] as number;
    const last = heap[--this.size] as number;
    let place = 0;
    for (;;) {
      let child = place + place + 1;
      if (child >= this.size) break;
      if (child + 1 < this.size && this.before(heap[child + 1] as number, heap[child] as number)) child++;
      if (!this.before(heap[child] as number, last)) break;
      heap[place] = heap[child] as number;
      place = child;
    }
    if (this.size > 0) heap[place] = last;
    return top;
  }

  /** The greatest value waiting; negative infinity when nothing is. */
  top(): number {
    return this.size === 0 ? -Infinity : (this.value[this.heap[0] as number] as number);
  }
}
