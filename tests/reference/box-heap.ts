/** A box of rig places about (x, y), +-a along and +-b to the side, with the bound on the worst margin in it. */
export interface SearchBox {
  readonly bound: number;
  readonly index: number;
  readonly x: number;
  readonly y: number;
  readonly a: number;
  readonly b: number;
}

/** A binary heap that gives the box with the largest bound first. */
export class BoxHeap {
  readonly #boxes: SearchBox[] = [];

  push(box: SearchBox): void {
    const boxes = this.#boxes;
    let at = boxes.length;
    while (at > 0) {
      const parent = (at - 1) >> 1;
      const above = boxes[parent] as SearchBox;
      if (above.bound >= box.bound) break;
      boxes[at] = above;
      at = parent;
    }
    boxes[at] = box;
  }

  pop(): SearchBox | undefined {
    const boxes = this.#boxes;
    const top = boxes[0];
    const last = boxes.pop();
    if (top === undefined || last === undefined || boxes.length === 0) return top;
    let at = 0;
    for (;;) {
      let child = 2 * at + 1;
      if (child >= boxes.length) break;
      if (child + 1 < boxes.length && (boxes[child + 1] as SearchBox).bound > (boxes[child] as SearchBox).bound) {
        child += 1;
      }
      if ((boxes[child] as SearchBox).bound <= last.bound) break;
      boxes[at] = boxes[child] as SearchBox;
      at = child;
    }
    boxes[at] = last;
    return top;
  }
}
