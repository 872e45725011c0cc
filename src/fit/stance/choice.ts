import type { ActiveLine, CompiledProblem, NoseFamily } from "./compile.ts";
import { PULL_LAW } from "./compile.ts";
import { MOST_CONES } from "./cones.ts";
import { type CompiledLaw, longestRun, marginOf } from "./law.ts";
import { Reach } from "./reach.ts";
import { Region } from "./region.ts";
import type { Departure } from "./routes.ts";
import { TOUCH_TOLERANCE } from "./tolerance.ts";

/** Numbers of a box: least and greatest x, least and greatest y. */
export const BOX = 4;

/** What is done with a complete choice of routes: its cones are in `chooser.reach`, its box in the last four fields. */
export type LeafVisit = (family: NoseFamily, upper: number) => void;

/**
 * Chooses one route for every line, depth first, keeping the box in which all chosen routes are legal and the least of
 * their upper bounds. A branch is left when its box is empty or when one line, or two lines pulling apart, cannot beat
 * `cutoff`. Few of the 5^n choices are ever completed.
 */
export class RouteChooser {
  readonly reach = new Reach();
  readonly region = new Region();
  /** Chosen departure of every line at a leaf. */
  readonly chosen = new Int32Array(MOST_CONES);
  /** Box of the routes chosen so far: four numbers per depth. */
  readonly boxes = new Float64Array(BOX * (MOST_CONES + 1));
  cutoff = -Infinity;
  private readonly uppers = new Float64Array(MOST_CONES + 1);
  private readonly lines: readonly ActiveLine[];
  private readonly halfWidth: number;
  private readonly length: number;
  private readonly pulled: boolean;
  private family: NoseFamily | null = null;
  private visit: LeafVisit = () => undefined;

  constructor(compiled: CompiledProblem) {
    this.lines = compiled.lines;
    this.pulled = compiled.pulled;
    this.length = compiled.problem.length;
    this.halfWidth = compiled.problem.width / 2;
    this.loadLaws();
  }

  /** Takes the laws of the lines over again, after budgets were moved. */
  loadLaws(): void {
    this.reach.clear();
    for (const line of this.lines) this.reach.add(line.law, line.floor);
    if (this.pulled) this.reach.add(PULL_LAW, Number.NaN);
  }

  /** Visits every choice of routes in one family that may beat the cutoff. */
  run(family: NoseFamily, visit: LeafVisit): void {
    this.family = family;
    this.visit = visit;
    this.loadFamily(family);
    const { room } = family;
    this.boxes[0] = room.xMin;
    this.boxes[1] = room.xMax;
    this.boxes[2] = room.yMin;
    this.boxes[3] = room.yMax;
    this.uppers[0] = this.pulled ? this.pullUpper(family) : Infinity;
    if ((this.uppers[0] as number) > this.cutoff) this.descend(0);
  }

  /** Sets what the cones of a family share: the pull and the slope of the ground. */
  loadFamily(family: NoseFamily): void {
    const { reach } = this;
    if (this.pulled) {
      const last = this.lines.length;
      reach.cones.dx[last] = family.pullX;
      reach.cones.dy[last] = family.pullY;
      reach.fixed[last] = 0;
    }
    if (!reach.sloping) return;
    for (let i = 0; i < this.lines.length; i++) {
      const { inlet } = (this.lines[i] as ActiveLine).task;
      reach.slopeX[i] = family.slopeX[i] as number;
      reach.slopeY[i] = family.slopeY[i] as number;
      reach.outletX[i] = (family.targetX[i] as number) - inlet.fromRear;
      reach.outletY[i] = (family.targetY[i] as number) - inlet.left;
    }
  }

  private pullUpper(family: NoseFamily): number {
    const { room } = family;
    const dx = Math.max(room.xMin - family.pullX, 0, family.pullX - room.xMax);
    const dy = Math.max(room.yMin - family.pullY, 0, family.pullY - room.yMax);
    return -Math.hypot(dx, dy);
  }

  private descend(depth: number): void {
    const family = this.family as NoseFamily;
    if (depth === this.lines.length) {
      this.visit(family, this.uppers[depth] as number);
      return;
    }
    const { departures } = this.lines[depth] as ActiveLine;
    for (let route = 0; route < departures.length; route++) {
      const departure = departures[route] as Departure;
      if (!this.narrow(depth, departure.wall, family.targetX[depth] as number, family.targetY[depth] as number))
        continue;
      if (!this.place(depth, departure, family)) continue;
      this.chosen[depth] = route;
      this.descend(depth + 1);
    }
  }

  /** Cuts the box to the half-plane beyond a wall; false when nothing is left. */
  private narrow(depth: number, wall: number, targetX: number, targetY: number): boolean {
    const { boxes } = this;
    const from = BOX * depth;
    const to = from + BOX;
    let xMin = boxes[from] as number;
    let xMax = boxes[from + 1] as number;
    let yMin = boxes[from + 2] as number;
    let yMax = boxes[from + 3] as number;
    if (wall === 0) yMax = Math.min(yMax, targetY - this.halfWidth);
    else if (wall === 1) xMin = Math.max(xMin, targetX);
    else if (wall === 2) yMin = Math.max(yMin, targetY + this.halfWidth);
    else if (wall === 3) xMax = Math.min(xMax, targetX - this.length);
    boxes[to] = xMin;
    boxes[to + 1] = xMax;
    boxes[to + 2] = yMin;
    boxes[to + 3] = yMax;
    return xMin <= xMax + TOUCH_TOLERANCE && yMin <= yMax + TOUCH_TOLERANCE;
  }

  /** Sets the cone of a line and its upper bound; false when the choice cannot beat the cutoff. */
  private place(depth: number, departure: Departure, family: NoseFamily): boolean {
    const { reach, boxes } = this;
    const { cones } = reach;
    const to = BOX * (depth + 1);
    const x = (family.targetX[depth] as number) - departure.x;
    const y = (family.targetY[depth] as number) - departure.y;
    cones.dx[depth] = x;
    cones.dy[depth] = y;
    reach.fixed[depth] = departure.length;
    const dx = Math.max((boxes[to] as number) - x, 0, x - (boxes[to + 1] as number));
    const dy = Math.max((boxes[to + 2] as number) - y, 0, y - (boxes[to + 3] as number));
    const run = departure.length + Math.sqrt(dx * dx + dy * dy);
    const law = reach.laws[depth] as CompiledLaw;
    const floor = reach.floor[depth] as number;
    let upper = this.uppers[depth] as number;
    if (!Number.isNaN(floor)) {
      const longest = law.sloping ? law.budget - floor : longestRun(law.budget, law.fall, law.cap, floor);
      if (run > longest + TOUCH_TOLERANCE) return false;
    } else if (law.dropped || law.sloping) upper = Math.min(upper, law.budget - run);
    else upper = Math.min(upper, marginOf(law.budget, law.fall, law.requiredSlope, run));
    if (upper <= this.cutoff) return false;
    this.uppers[depth + 1] = upper;
    return Number.isNaN(floor) ? this.pairsReach(depth, law.budget - departure.length, x, y) : true;
  }

  /** Two lines pulling apart: half of what both have to spare over the distance between their centres. */
  private pairsReach(depth: number, spare: number, x: number, y: number): boolean {
    const { reach } = this;
    for (let other = 0; other < depth; other++) {
      if (!Number.isNaN(reach.floor[other] as number)) continue;
      const dx = x - (reach.cones.dx[other] as number);
      const dy = y - (reach.cones.dy[other] as number);
      const both = spare + (reach.laws[other] as CompiledLaw).budget - (reach.fixed[other] as number);
      if ((both - Math.sqrt(dx * dx + dy * dy)) / 2 <= this.cutoff) return false;
    }
    return true;
  }

  /** Fills the region of a leaf: its box and the family's slanted limits. */
  leafRegion(family: NoseFamily): Region {
    const { region, boxes } = this;
    const at = BOX * this.lines.length;
    region.setBox(boxes[at] as number, boxes[at + 1] as number, boxes[at + 2] as number, boxes[at + 3] as number);
    const { planes } = family.room;
    for (let i = 0; i < planes.nx.length; i++) {
      region.addPlane(planes.nx[i] as number, planes.ny[i] as number, planes.offset[i] as number);
    }
    return region;
  }
}
