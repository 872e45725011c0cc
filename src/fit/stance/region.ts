import { PARALLEL_TOLERANCE, TOUCH_TOLERANCE } from "./tolerance.ts";

const START_PLANES = 16;

/**
 * Where the rig's origin may be, in rig-aligned coordinates: a box and further half-planes `px x + py y <= limit`.
 * A scratch object: the search fills it again for every node.
 */
export class Region {
  xMin = -Infinity;
  xMax = Infinity;
  yMin = -Infinity;
  yMax = Infinity;
  count = 0;
  px = new Float64Array(START_PLANES);
  py = new Float64Array(START_PLANES);
  limit = new Float64Array(START_PLANES);
  /** The part of a line that lies in the region, after `clipLine`. */
  start = 0;
  end = 0;

  setBox(xMin: number, xMax: number, yMin: number, yMax: number): void {
    this.xMin = xMin;
    this.xMax = xMax;
    this.yMin = yMin;
    this.yMax = yMax;
    this.count = 0;
  }

  /** Cuts the box to another. */
  narrow(xMin: number, xMax: number, yMin: number, yMax: number): void {
    this.xMin = Math.max(this.xMin, xMin);
    this.xMax = Math.min(this.xMax, xMax);
    this.yMin = Math.max(this.yMin, yMin);
    this.yMax = Math.min(this.yMax, yMax);
  }

  addPlane(nx: number, ny: number, limit: number): void {
    if (this.count === this.px.length) this.grow();
    this.px[this.count] = nx;
    this.py[this.count] = ny;
    this.limit[this.count] = limit;
    this.count++;
  }

  private grow(): void {
    const bigger = (old: Float64Array): Float64Array<ArrayBuffer> => {
      const next = new Float64Array(old.length + old.length);
      next.set(old);
      return next;
    };
    this.px = bigger(this.px);
    this.py = bigger(this.py);
    this.limit = bigger(this.limit);
  }

  /** Clips the line through (x, y) along the unit vector (ux, uy); false when nothing of it is in the region. */
  clipLine(x: number, y: number, ux: number, uy: number): boolean {
    this.start = -Infinity;
    this.end = Infinity;
    if (!this.clip(ux, this.xMax - x) || !this.clip(-ux, x - this.xMin)) return false;
    if (!this.clip(uy, this.yMax - y) || !this.clip(-uy, y - this.yMin)) return false;
    for (let plane = 0; plane < this.count; plane++) {
      const nx = this.px[plane] as number;
      const ny = this.py[plane] as number;
      if (!this.clip(nx * ux + ny * uy, (this.limit[plane] as number) - nx * x - ny * y)) return false;
    }
    if (this.start > this.end) {
      if (this.start > this.end + TOUCH_TOLERANCE) return false;
      this.start = this.end = (this.start + this.end) / 2;
    }
    return true;
  }

  private clip(slope: number, room: number): boolean {
    if (slope > PARALLEL_TOLERANCE) {
      const t = room / slope;
      if (t < this.end) this.end = t;
    } else if (slope < -PARALLEL_TOLERANCE) {
      const t = room / slope;
      if (t > this.start) this.start = t;
    } else return room >= -TOUCH_TOLERANCE;
    return true;
  }
}
