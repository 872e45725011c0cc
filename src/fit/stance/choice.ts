import type { ActiveLine, CompiledProblem, NoseFamily } from "./compile.ts";
import { PULL_LAW } from "./compile.ts";
import { MOST_CONES } from "./cones.ts";
import { type CompiledLaw, longestRun, marginOf } from "./law.ts";
import { Reach } from "./reach.ts";
import { Region } from "./region.ts";
import { TOUCH_TOLERANCE } from "./tolerance.ts";

/** Numbers of a box: least and greatest x, least and greatest y. */
export const BOX = 4;

/** Most routes of one line. */
const ROUTES = 5;

/** Places of the walls in `WALLS`, as plain numbers for the inner loop. */
const LEFT = 0;
const REAR = 1;
const RIGHT = 2;
const FRONT = 3;

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
  /** The departures of every line, `ROUTES` places each, and what the lines have to spend. */
  private readonly routeX: Float64Array;
  private readonly routeY: Float64Array;
  private readonly routeLength: Float64Array;
  private readonly routeWall: Int32Array;
  private readonly routeCounts: Int32Array;
  private readonly budgets: Float64Array;
  /** 1 for a dropped line of the objective. */
  private readonly plain: Uint8Array;
  /** The routes worth trying: the edge of their wall's half-plane, their bound, and their order for each line. */
  private readonly edge: Float64Array;
  private readonly upper: Float64Array;
  private readonly order: Int32Array;
  private readonly counts: Int32Array;
  private visit: LeafVisit = () => undefined;

  constructor(compiled: CompiledProblem) {
    this.lines = compiled.lines;
    this.pulled = compiled.pulled;
    this.length = compiled.problem.length;
    this.halfWidth = compiled.problem.width / 2;
    const count = this.lines.length;
    const places = count * ROUTES;
    this.routeX = new Float64Array(places);
    this.routeY = new Float64Array(places);
    this.routeLength = new Float64Array(places);
    this.routeWall = new Int32Array(places);
    this.edge = new Float64Array(places);
    this.upper = new Float64Array(places);
    this.order = new Int32Array(places);
    this.counts = new Int32Array(count);
    this.routeCounts = Int32Array.from(this.lines, (line) => line.departures.length);
    this.budgets = new Float64Array(count);
    this.plain = new Uint8Array(count);
    this.lines.forEach((line, index) => {
      line.departures.forEach((departure, route) => {
        const place = index * ROUTES + route;
        this.routeX[place] = departure.x;
        this.routeY[place] = departure.y;
        this.routeLength[place] = departure.length;
        this.routeWall[place] = departure.wall;
      });
    });
    this.loadLaws();
  }

  /** Takes the laws of the lines over again, after budgets were moved. */
  loadLaws(): void {
    this.reach.clear();
    this.lines.forEach((line, index) => {
      this.reach.add(line.law, line.floor);
      this.budgets[index] = line.law.budget;
      this.plain[index] = line.law.dropped && Number.isNaN(line.floor) ? 1 : 0;
    });
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
    if ((this.uppers[0] as number) > this.cutoff && this.listRoutes(family)) this.descend(0);
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

  /**
   * Lists the routes of every line that can be legal and good enough anywhere in the family's room, the most promising
   * first; false when some line has none.
   */
  private listRoutes(family: NoseFamily): boolean {
    const { xMin, xMax, yMin, yMax } = family.room;
    const { routeX, routeY, routeLength, routeWall, edge, upper, counts, cutoff } = this;
    for (let line = 0; line < counts.length; line++) {
      const targetX = family.targetX[line] as number;
      const targetY = family.targetY[line] as number;
      const budget = this.budgets[line] as number;
      const end = line * ROUTES + (this.routeCounts[line] as number);
      counts[line] = 0;
      for (let place = line * ROUTES; place < end; place++) {
        const along = routeLength[place] as number;
        if (budget - along <= cutoff) continue;
        const x = targetX - (routeX[place] as number);
        const y = targetY - (routeY[place] as number);
        let dx = x < xMin ? xMin - x : x > xMax ? x - xMax : 0;
        let dy = y < yMin ? yMin - y : y > yMax ? y - yMax : 0;
        const wall = routeWall[place] as number;
        if (wall === LEFT) {
          const limit = targetY - this.halfWidth;
          if (limit < yMin - TOUCH_TOLERANCE) continue;
          if (y - limit > dy) dy = y - limit;
          edge[place] = limit;
        } else if (wall === REAR) {
          if (targetX > xMax + TOUCH_TOLERANCE) continue;
          if (targetX - x > dx) dx = targetX - x;
          edge[place] = targetX;
        } else if (wall === RIGHT) {
          const limit = targetY + this.halfWidth;
          if (limit > yMax + TOUCH_TOLERANCE) continue;
          if (limit - y > dy) dy = limit - y;
          edge[place] = limit;
        } else if (wall === FRONT) {
          const limit = targetX - this.length;
          if (limit < xMin - TOUCH_TOLERANCE) continue;
          if (x - limit > dx) dx = x - limit;
          edge[place] = limit;
        }
        const run = along + Math.sqrt(dx * dx + dy * dy);
        const most = this.plain[line] === 1 ? budget - run : this.upperOf(line, run);
        if (most <= cutoff) continue;
        upper[place] = most;
        this.insert(line, place);
      }
      if (counts[line] === 0) return false;
    }
    return true;
  }

  /** The most that a route of at least `run` metres leaves: negative infinity when a floored line cannot keep its floor. */
  private upperOf(line: number, run: number): number {
    const law = this.reach.laws[line] as CompiledLaw;
    const floor = this.reach.floor[line] as number;
    if (!Number.isNaN(floor)) {
      const longest = law.sloping ? law.budget - floor : longestRun(law.budget, law.fall, law.cap, floor);
      return run > longest + TOUCH_TOLERANCE ? -Infinity : Infinity;
    }
    if (law.sloping) return law.budget - run;
    return marginOf(law.budget, law.fall, law.requiredSlope, run);
  }

  /** Puts a route into its line's order, best bound first. */
  private insert(line: number, place: number): void {
    const { order, upper } = this;
    const first = line * ROUTES;
    const count = this.counts[line] as number;
    const bound = upper[place] as number;
    let at = first + count;
    for (; at > first && (upper[order[at - 1] as number] as number) < bound; at--) order[at] = order[at - 1] as number;
    order[at] = place;
    this.counts[line] = count + 1;
  }

  private descend(depth: number): void {
    if (depth === this.lines.length) {
      this.visit(this.family as NoseFamily, this.uppers[depth] as number);
      return;
    }
    const { reach, uppers } = this;
    const first = depth * ROUTES;
    const end = first + (this.counts[depth] as number);
    const { targetX, targetY } = this.family as NoseFamily;
    for (let at = first; at < end; at++) {
      const place = this.order[at] as number;
      const upper = Math.min(uppers[depth] as number, this.upper[place] as number);
      // The routes are in order, and the cutoff only rises: the rest of them cannot do better either.
      if (upper <= this.cutoff) return;
      if (!this.narrow(depth, this.routeWall[place] as number, this.edge[place] as number)) continue;
      reach.cones.dx[depth] = (targetX[depth] as number) - (this.routeX[place] as number);
      reach.cones.dy[depth] = (targetY[depth] as number) - (this.routeY[place] as number);
      reach.fixed[depth] = this.routeLength[place] as number;
      if (depth > 0 && !this.pairsReach(depth)) continue;
      uppers[depth + 1] = upper;
      this.chosen[depth] = place - first;
      this.descend(depth + 1);
    }
  }

  /** Cuts the box to the half-plane beyond a wall; false when nothing is left. */
  private narrow(depth: number, wall: number, edge: number): boolean {
    const { boxes } = this;
    const from = BOX * depth;
    const to = from + BOX;
    let xMin = boxes[from] as number;
    let xMax = boxes[from + 1] as number;
    let yMin = boxes[from + 2] as number;
    let yMax = boxes[from + 3] as number;
    if (wall === LEFT) yMax = Math.min(edge, yMax);
    else if (wall === REAR) xMin = Math.max(edge, xMin);
    else if (wall === RIGHT) yMin = Math.max(edge, yMin);
    else if (wall === FRONT) xMax = Math.min(edge, xMax);
    if (xMin > xMax + TOUCH_TOLERANCE || yMin > yMax + TOUCH_TOLERANCE) return false;
    boxes[to] = xMin;
    boxes[to + 1] = xMax;
    boxes[to + 2] = yMin;
    boxes[to + 3] = yMax;
    return true;
  }

  /** Two lines pulling apart: half of what both have to spare over the distance between their centres. */
  private pairsReach(depth: number): boolean {
    const { reach, budgets, cutoff } = this;
    if (cutoff === -Infinity || !Number.isNaN(reach.floor[depth] as number)) return true;
    const { dx, dy } = reach.cones;
    const spare = (budgets[depth] as number) - (reach.fixed[depth] as number) - cutoff - cutoff;
    for (let other = 0; other < depth; other++) {
      if (!Number.isNaN(reach.floor[other] as number)) continue;
      const x = (dx[depth] as number) - (dx[other] as number);
      const y = (dy[depth] as number) - (dy[other] as number);
      const both = spare + (budgets[other] as number) - (reach.fixed[other] as number);
      if (both <= 0 || x * x + y * y >= both * both) return false;
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
