import { ConeSolver, MOST_CONES } from "./cones.ts";
import { type CompiledLaw, longestRun, runPerMargin } from "./law.ts";
import type { Region } from "./region.ts";
import { solveSloping } from "./slopes.ts";
import { TOUCH_TOLERANCE, VALUE_TOLERANCE } from "./tolerance.ts";

const NEWTON_STEPS = 100;
/** Above this rate the law is at its end, where its slope has no limit; a step by length is better than Newton's. */
const STEEP = 50;

/**
 * The convex part of the search: with one route chosen for every line, the largest s such that some w of a region lets
 * every line of the objective keep a margin of s and every floored line its floor.
 *
 * A line allows |w - D| <= rho(s), with rho falling as s grows. Dropped lines fall as fast as s, so one cone problem
 * answers. For the others v(s) = min over w of max(|w - D| - rho(s)) is convex and grows with s: Newton's method from
 * an upper bound comes down on its root. A scratch object; the answer is left in `s`, `x` and `y`.
 */
export class Reach {
  count = 0;
  readonly cones = new ConeSolver();
  readonly laws: CompiledLaw[] = [];
  /** Metres along the rig (and along barriers) before and after the straight leg. */
  readonly fixed = new Float64Array(MOST_CONES);
  /** The least margin asked of a line; NaN for a line of the objective. */
  readonly floor = new Float64Array(MOST_CONES);
  /** Rig-aligned place of the rig's origin for which the outlet stands on the target, and the slope of the ground. */
  readonly outletX = new Float64Array(MOST_CONES);
  readonly outletY = new Float64Array(MOST_CONES);
  readonly slopeX = new Float64Array(MOST_CONES);
  readonly slopeY = new Float64Array(MOST_CONES);
  allDropped = true;
  sloping = false;
  s = 0;
  x = 0;
  y = 0;

  clear(): void {
    this.count = 0;
    this.laws.length = 0;
    this.allDropped = true;
    this.sloping = false;
  }

  add(law: CompiledLaw, floor: number): void {
    if (this.count === MOST_CONES) throw new RangeError(`A stance takes at most ${MOST_CONES - 1} lines.`);
    this.laws.push(law);
    this.floor[this.count] = floor;
    this.count++;
    this.cones.count = this.count;
    if (!law.dropped || !Number.isNaN(floor)) this.allDropped = false;
    if (law.sloping) this.sloping = true;
  }

  /** Solves over the region from an upper bound of s; false when the region is empty or a floor cannot be kept. */
  solve(region: Region, upper: number): boolean {
    return this.run(region, upper, 0, 0, 0, false);
  }

  /** The same on the line `nx x + ny y = limit`. */
  solveOnLine(region: Region, upper: number, nx: number, ny: number, limit: number): boolean {
    return this.run(region, upper, nx, ny, limit, true);
  }

  private run(region: Region, upper: number, nx: number, ny: number, limit: number, onLine: boolean): boolean {
    if (this.sloping) return solveSloping(this, region, onLine ? { nx, ny, limit } : null, upper);
    const { cones } = this;
    if (this.allDropped) {
      for (let i = 0; i < this.count; i++)
        cones.b[i] = (this.laws[i] as CompiledLaw).budget - (this.fixed[i] as number);
      if (!(onLine ? cones.solveOnLine(region, nx, ny, limit) : cones.solve(region))) return false;
      this.s = -cones.value;
      this.x = cones.x;
      this.y = cones.y;
      return true;
    }
    let s = upper;
    let low = -Infinity;
    let high = Infinity;
    for (let step = 0; step < NEWTON_STEPS; step++) {
      for (let i = 0; i < this.count; i++) cones.b[i] = this.radius(i, s);
      if (!(onLine ? cones.solveOnLine(region, nx, ny, limit) : cones.solve(region))) return false;
      const v = cones.value;
      if (Math.abs(v) <= VALUE_TOLERANCE || (step === 0 && v < 0)) break;
      const rate = this.rate(s);
      if (!(rate > 0)) {
        if (v > TOUCH_TOLERANCE) return false;
        break;
      }
      if (v > 0) high = s;
      else low = s;
      let next = rate > STEEP ? this.stepByLength(s, v) : s - v / rate;
      if (!(next > low && next < high)) next = low > -Infinity ? (low + high) / 2 : s - Math.abs(v);
      if (next === s) break;
      s = next;
    }
    this.s = s;
    this.x = cones.x;
    this.y = cones.y;
    return cones.value <= TOUCH_TOLERANCE;
  }

  /** Metres of the longest straight leg with which a line keeps s, or its floor; on sloping ground at most that. */
  longestLeg(i: number, s: number): number {
    const law = this.laws[i] as CompiledLaw;
    const floor = this.floor[i] as number;
    const margin = Number.isNaN(floor) ? s : floor;
    const run = law.sloping ? law.budget - margin : longestRun(law.budget, law.fall, law.cap, margin);
    return run - (this.fixed[i] as number);
  }

  private radius(i: number, s: number): number {
    const law = this.laws[i] as CompiledLaw;
    const floor = this.floor[i] as number;
    return longestRun(law.budget, law.fall, law.cap, Number.isNaN(floor) ? s : floor) - (this.fixed[i] as number);
  }

  /** How fast v grows with s, from the weights of the cones that decide. */
  private rate(s: number): number {
    const { first, second, third, firstWeight, secondWeight, thirdWeight } = this.cones;
    let rate = this.rateOf(first, s, firstWeight);
    if (second >= 0) rate += this.rateOf(second, s, secondWeight);
    if (third >= 0) rate += this.rateOf(third, s, thirdWeight);
    return rate;
  }

  private rateOf(i: number, s: number, weight: number): number {
    if (!Number.isNaN(this.floor[i] as number) || weight <= 0) return 0;
    const law = this.laws[i] as CompiledLaw;
    return weight * runPerMargin(law.budget, law.fall, law.cap, s);
  }

  /** The s at which the deciding line would have v metres more of run. */
  private stepByLength(s: number, v: number): number {
    let next = s - Math.abs(v);
    for (const i of [this.cones.first, this.cones.second, this.cones.third]) {
      if (i < 0 || !Number.isNaN(this.floor[i] as number)) continue;
      const law = this.laws[i] as CompiledLaw;
      const run = longestRun(law.budget, law.fall, law.cap, s) + v;
      next = Math.max(next, law.budget - Math.sqrt(run * run + law.fall * law.fall));
    }
    return next;
  }
}
