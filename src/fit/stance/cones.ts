import { goldenSection } from "./golden.ts";
import type { Region } from "./region.ts";

/** Most cones in one problem: a rig has a handful of lines, and one more cone may pull towards a point. */
export const MOST_CONES = 16;

/** Metres within which a cone counts as not above the others. */
const SLACK = 1e-13;
/** Area (relative to the square of the size) below which three centres count as in one line: two of them decide. */
const IN_LINE = 1e-11;
const POLISH_STEPS = 3;
const ROOT_STEPS = 40;
const NONE = -1;

/**
 * The additively weighted smallest circle: the w that minimises max over i of |w - D_i| - b_i, over a region.
 * At most three cones decide it (one or two on a line), so it is solved in closed form from the candidates: the largest
 * optimum over all subsets of three is the optimum of all. A scratch object; the answer is left in its fields.
 */
export class ConeSolver {
  count = 0;
  readonly dx = new Float64Array(MOST_CONES);
  readonly dy = new Float64Array(MOST_CONES);
  readonly b = new Float64Array(MOST_CONES);
  /** The answer: where, how much, which cones decide and with what weight (the weights add up to 1). */
  x = 0;
  y = 0;
  value = 0;
  first = NONE;
  second = NONE;
  third = NONE;
  firstWeight = 0;
  secondWeight = 0;
  thirdWeight = 0;

  private height(cone: number, x: number, y: number): number {
    const dx = x - (this.dx[cone] as number);
    const dy = y - (this.dy[cone] as number);
    return Math.sqrt(dx * dx + dy * dy) - (this.b[cone] as number);
  }

  /** Minimises over the region; false when the region is empty. */
  solve(region: Region): boolean {
    this.free();
    const { x, y } = this;
    if (
      region.count === 0 &&
      x >= region.xMin - SLACK &&
      x <= region.xMax + SLACK &&
      y >= region.yMin - SLACK &&
      y <= region.yMax + SLACK
    ) {
      return true;
    }
    let found = false;
    let inside = true;
    let bestX = 0;
    let bestY = 0;
    let best = Infinity;
    let f0 = NONE;
    let f1 = NONE;
    let w0 = 0;
    let w1 = 0;
    const total = region.count + 4;
    for (let side = 0; side < total; side++) {
      let nx = 0;
      let ny = 0;
      let limit: number;
      if (side === 0) {
        nx = -1;
        limit = -region.xMin;
      } else if (side === 1) {
        nx = 1;
        limit = region.xMax;
      } else if (side === 2) {
        ny = -1;
        limit = -region.yMin;
      } else if (side === 3) {
        ny = 1;
        limit = region.yMax;
      } else {
        nx = region.px[side - 4] as number;
        ny = region.py[side - 4] as number;
        limit = region.limit[side - 4] as number;
      }
      if (nx * x + ny * y <= limit + SLACK) continue;
      // The straight way from the free optimum to any point of the region crosses one of the sides it violates, and
      // the value only grows along it; so the optimum lies on one of those sides.
      inside = false;
      if (!this.solveOnLine(region, nx, ny, limit) || this.value >= best) continue;
      found = true;
      best = this.value;
      bestX = this.x;
      bestY = this.y;
      f0 = this.first;
      f1 = this.second;
      w0 = this.firstWeight;
      w1 = this.secondWeight;
    }
    if (inside) return true;
    this.answer(bestX, bestY, best, f0, f1, NONE, w0, w1, 0);
    return found;
  }

  private answer(
    x: number,
    y: number,
    value: number,
    first: number,
    second: number,
    third: number,
    firstWeight: number,
    secondWeight: number,
    thirdWeight: number,
  ): void {
    this.x = x;
    this.y = y;
    this.value = value;
    this.first = first;
    this.second = second;
    this.third = third;
    this.firstWeight = firstWeight;
    this.secondWeight = secondWeight;
    this.thirdWeight = thirdWeight;
  }

  /** Minimises over the whole plane. */
  private free(): void {
    const { count } = this;
    if (count <= 3) {
      this.freeOfThree(0, count > 1 ? 1 : NONE, count > 2 ? 2 : NONE);
      return;
    }
    let i0 = 0;
    let i1 = 1;
    let i2 = 2;
    let best = -Infinity;
    for (let i = 0; i < count; i++) {
      for (let j = i + 1; j < count; j++) {
        for (let k = j + 1; k < count; k++) {
          this.freeOfThree(i, j, k);
          if (this.value <= best) continue;
          best = this.value;
          i0 = i;
          i1 = j;
          i2 = k;
        }
      }
    }
    this.freeOfThree(i0, i1, i2);
  }

  private freeOfThree(i: number, j: number, k: number): void {
    let low = i;
    if (j !== NONE && (this.b[j] as number) < (this.b[low] as number)) low = j;
    if (k !== NONE && (this.b[k] as number) < (this.b[low] as number)) low = k;
    this.answer(this.dx[low] as number, this.dy[low] as number, -(this.b[low] as number), low, NONE, NONE, 1, 0, 0);
    if (j !== NONE) this.freeOfPair(i, j);
    if (k === NONE) return;
    this.freeOfPair(i, k);
    this.freeOfPair(j, k);
    const rest = i + j + k - this.first - this.second;
    const other = this.second === NONE ? NONE : rest;
    // After one cone alone the others were compared in the pairs; after a pair only the third can be above.
    if (other === NONE || this.height(other, this.x, this.y) <= this.value + SLACK) return;
    this.freeOfTriple(i, j, k);
  }

  private freeOfPair(i: number, j: number): void {
    const dx = (this.dx[j] as number) - (this.dx[i] as number);
    const dy = (this.dy[j] as number) - (this.dy[i] as number);
    const bi = this.b[i] as number;
    const distance = Math.sqrt(dx * dx + dy * dy);
    const value = (distance - bi - (this.b[j] as number)) / 2;
    if (value <= this.value || value <= -bi || value <= -(this.b[j] as number)) return;
    const part = (bi + value) / distance;
    this.answer((this.dx[i] as number) + part * dx, (this.dy[i] as number) + part * dy, value, i, j, NONE, 0.5, 0.5, 0);
  }

  /** Three cones at one height: subtracting the circles' equations leaves w linear in the height, then a quadratic. */
  private freeOfTriple(i: number, j: number, k: number): void {
    const x1 = this.dx[i] as number;
    const y1 = this.dy[i] as number;
    const b1 = this.b[i] as number;
    const ux = (this.dx[j] as number) - x1;
    const uy = (this.dy[j] as number) - y1;
    const vx = (this.dx[k] as number) - x1;
    const vy = (this.dy[k] as number) - y1;
    const determinant = 2 * (ux * vy - uy * vx);
    const size = ux * ux + uy * uy + vx * vx + vy * vy;
    if (Math.abs(determinant) < IN_LINE * size) return;
    const b2 = this.b[j] as number;
    const b3 = this.b[k] as number;
    const p = ux * ux + uy * uy + b1 * b1 - b2 * b2;
    const q = vx * vx + vy * vy + b1 * b1 - b3 * b3;
    const ax = (p * vy - q * uy) / determinant;
    const ay = (q * ux - p * vx) / determinant;
    const gx = (2 * ((b1 - b2) * vy - (b1 - b3) * uy)) / determinant;
    const gy = (2 * ((b1 - b3) * ux - (b1 - b2) * vx)) / determinant;
    const square = gx * gx + gy * gy - 1;
    const half = ax * gx + ay * gy - b1;
    const rest = ax * ax + ay * ay - b1 * b1;
    const value = leastRoot(square, half, rest, this.value - SLACK);
    this.polish(i, j, k, x1 + ax + gx * value, y1 + ay + gy * value, value);
  }

  /** Newton's method on the three equations, against the cancellation of nearly aligned centres; sets the weights. */
  private polish(i: number, j: number, k: number, startX: number, startY: number, startValue: number): void {
    let x = startX;
    let y = startY;
    let value = startValue;
    for (let step = 0; step <= POLISH_STEPS; step++) {
      const nix = x - (this.dx[i] as number);
      const niy = y - (this.dy[i] as number);
      const njx = x - (this.dx[j] as number);
      const njy = y - (this.dy[j] as number);
      const nkx = x - (this.dx[k] as number);
      const nky = y - (this.dy[k] as number);
      const ri = Math.sqrt(nix * nix + niy * niy);
      const rj = Math.sqrt(njx * njx + njy * njy);
      const rk = Math.sqrt(nkx * nkx + nky * nky);
      const wi = (njx * nky - njy * nkx) / (rj * rk);
      const wj = (nkx * niy - nky * nix) / (rk * ri);
      const wk = (nix * njy - niy * njx) / (ri * rj);
      const sum = wi + wj + wk;
      const ei = ri - (this.b[i] as number) - value;
      const ej = rj - (this.b[j] as number) - value;
      const ek = rk - (this.b[k] as number) - value;
      const error = Math.max(Math.abs(ei), Math.abs(ej), Math.abs(ek));
      if (error < SLACK || step === POLISH_STEPS || !(Math.abs(sum) > 0)) {
        if (error < SLACK * 1000) this.answer(x, y, value, i, j, k, wi / sum, wj / sum, wk / sum);
        else this.descend(i, j, k);
        return;
      }
      const up = (wi * ei + wj * ej + wk * ek) / sum;
      const a = up - ei;
      const c = up - ej;
      const determinant = (nix * njy - niy * njx) / (ri * rj);
      x += (a * (njy / rj) - c * (niy / ri)) / determinant;
      y += (c * (nix / ri) - a * (njx / rj)) / determinant;
      value += up;
    }
  }

  /** Nested golden sections for three cones whose equations are too close to singular to trust. */
  private descend(i: number, j: number, k: number): void {
    const cones = [i, j, k];
    const xs = cones.map((cone) => this.dx[cone] as number);
    const ys = cones.map((cone) => this.dy[cone] as number);
    const top = (x: number, y: number): number => Math.max(...cones.map((cone) => this.height(cone, x, y)));
    const across = (x: number) => goldenSection((y) => top(x, y), Math.min(...ys), Math.max(...ys));
    const along = goldenSection((x) => across(x).value, Math.min(...xs), Math.max(...xs));
    const y = across(along.at).at;
    if (along.value > this.value) this.answer(along.at, y, along.value, i, j, k, 1 / 3, 1 / 3, 1 / 3);
  }

  /** Minimises over the part of the line `nx x + ny y = limit` that lies in the region; false when there is none. */
  solveOnLine(region: Region, nx: number, ny: number, limit: number): boolean {
    const baseX = nx * limit;
    const baseY = ny * limit;
    if (!region.clipLine(baseX, baseY, -ny, nx)) return false;
    const { start, end } = region;
    let best = NONE;
    let value = -Infinity;
    let at = 0;
    for (let i = 0; i < this.count; i++) {
      const foot = this.foot(i, nx, ny);
      const t = foot < start ? start : Math.min(foot, end);
      const height = this.height(i, baseX - ny * t, baseY + nx * t);
      if (height <= value) continue;
      value = height;
      best = i;
      at = t;
    }
    this.answer(baseX - ny * at, baseY + nx * at, value, best, NONE, NONE, 1, 0, 0);
    let above = false;
    for (let i = 0; i < this.count && !above; i++) {
      above = i !== best && this.height(i, this.x, this.y) > value + SLACK;
    }
    if (!above) return true;
    for (let i = 0; i < this.count; i++) {
      for (let j = i + 1; j < this.count; j++) this.pairOnLine(i, j, nx, ny, limit, start, end);
    }
    return true;
  }

  private foot(cone: number, nx: number, ny: number): number {
    return (this.dy[cone] as number) * nx - (this.dx[cone] as number) * ny;
  }

  /** Raises the answer to the optimum of two cones on the line, when their crossing decides and is higher. */
  private pairOnLine(i: number, j: number, nx: number, ny: number, limit: number, start: number, end: number): void {
    const footI = this.foot(i, nx, ny);
    const footJ = this.foot(j, nx, ny);
    const offI = (this.dx[i] as number) * nx + (this.dy[i] as number) * ny - limit;
    const offJ = (this.dx[j] as number) * nx + (this.dy[j] as number) * ny - limit;
    const bi = this.b[i] as number;
    const bj = this.b[j] as number;
    let low = Math.min(Math.max(footI, start), end);
    let high = Math.min(Math.max(footJ, start), end);
    let atLow = difference(low, footI, offI, bi, footJ, offJ, bj);
    let atHigh = difference(high, footI, offI, bi, footJ, offJ, bj);
    // Where one cone is on top at its own foot it decides alone, and the single cones were compared already.
    if (atLow >= 0 || atHigh <= 0) return;
    let t = low - (atLow * (high - low)) / (atHigh - atLow);
    for (let step = 0; step < ROOT_STEPS; step++) {
      const error = difference(t, footI, offI, bi, footJ, offJ, bj);
      if (Math.abs(error) < SLACK) break;
      if (error < 0) {
        low = t;
        atLow = error;
      } else {
        high = t;
        atHigh = error;
      }
      const a = t - footI;
      const c = t - footJ;
      const rate = a / Math.sqrt(a * a + offI * offI) - c / Math.sqrt(c * c + offJ * offJ);
      let next = t - error / rate;
      if (!(next > Math.min(low, high) && next < Math.max(low, high))) next = (low + high) / 2;
      if (next === t) break;
      t = next;
    }
    const a = t - footI;
    const c = t - footJ;
    const ri = Math.sqrt(a * a + offI * offI);
    const rj = Math.sqrt(c * c + offJ * offJ);
    const value = Math.max(ri - bi, rj - bj);
    if (value <= this.value) return;
    const slopeI = ri > 0 ? a / ri : 0;
    const slopeJ = rj > 0 ? c / rj : 0;
    const spread = slopeJ - slopeI;
    const weight = Math.abs(spread) > 0 ? slopeJ / spread : 0.5;
    this.answer(nx * limit - ny * t, ny * limit + nx * t, value, i, j, NONE, weight, 1 - weight, 0);
  }
}

/** How much the first of two cones stands above the second at t on a line. */
function difference(
  t: number,
  footI: number,
  offI: number,
  bi: number,
  footJ: number,
  offJ: number,
  bj: number,
): number {
  const a = t - footI;
  const c = t - footJ;
  return Math.sqrt(a * a + offI * offI) - bi - Math.sqrt(c * c + offJ * offJ) + bj;
}

/** Least root of `square r^2 + 2 half r + rest = 0` that is at least `floor`; NaN when there is none. */
function leastRoot(square: number, half: number, rest: number, floor: number): number {
  if (Math.abs(square) < 1e-14) return -rest / (2 * half);
  const discriminant = Math.max(0, half * half - square * rest);
  const q = -(half + (half < 0 ? -1 : 1) * Math.sqrt(discriminant));
  const one = q / square;
  const two = q === 0 ? one : rest / q;
  const low = Math.min(one, two);
  const high = Math.max(one, two);
  return low >= floor ? low : high >= floor ? high : Number.NaN;
}
