import { BOX, RouteChooser } from "./choice.ts";
import type { CompiledProblem, NoseFamily } from "./compile.ts";
import { type ConvexSet, depthInside } from "./convex.ts";
import type { Course, GroundCourses } from "./courses.ts";
import type { DetourBranching } from "./detours.ts";
import { NO_NODE, NodePool } from "./nodes.ts";
import type { Forbidden } from "./obstacles.ts";
import { type Place, placeOf } from "./place.ts";
import type { Region } from "./region.ts";
import type { Departure } from "./routes.ts";
import { TOUCH_TOLERANCE } from "./tolerance.ts";

/** Nodes of one search unless the caller says otherwise; thousands of times what an ordinary site takes. */
export const DEFAULT_NODE_LIMIT = 50_000;

/** Nodes that the way down to some stance may take when the limit is reached, however low that limit is. */
const LEAST_DIVE = 1000;

/** A choice of routes: which family, in which box, which departure of every line, and the lines on a course of their own. */
export interface Leaf {
  readonly family: NoseFamily;
  readonly xMin: number;
  readonly xMax: number;
  readonly yMin: number;
  readonly yMax: number;
  readonly chosen: Int32Array;
  /** For every line the course it is held to; null while it follows the shortest way round the body. */
  readonly courses: readonly (Course | null)[] | null;
}

/** What a search found. `value` is negative infinity when nothing was. */
export interface SearchOutcome {
  value: number;
  x: number;
  y: number;
  family: NoseFamily | null;
  bound: number;
  nodes: number;
}

/**
 * Best-first branch and bound. A node is a convex problem: one nose direction, one route per line, some half-planes.
 * The node with the greatest value is taken; when its stance is clear of everything it is the best there is. Otherwise
 * something forbids an open convex set of places around it, and the rig must be outside one of that set's sides: one
 * child for each, whose optimum lies on that side's line.
 */
export class StanceSearch {
  private readonly compiled: CompiledProblem;
  private readonly chooser: RouteChooser;
  private readonly pool = new NodePool();
  private readonly leaves: Leaf[] = [];
  private loaded: Leaf | null = null;
  private lead = 0;
  private readonly free: boolean;
  private readonly detours: DetourBranching | null;
  private readonly ground: GroundCourses | null;
  readonly outcome: SearchOutcome = { value: -Infinity, x: 0, y: 0, family: null, bound: -Infinity, nodes: 0 };
  /** Obstacles that the last search had to branch on. */
  readonly met = new Set<string>();

  constructor(compiled: CompiledProblem, ground: GroundCourses | null, detours: DetourBranching | null) {
    this.compiled = compiled;
    this.chooser = new RouteChooser(compiled);
    this.ground = ground;
    this.detours = detours;
    this.free = detours === null && compiled.families.every((family) => family.forbidden.length === 0);
  }

  /** Takes targets and laws over again after they were moved. */
  reload(): void {
    this.chooser.loadLaws();
    this.ground?.forget();
  }

  /** Finds the best stance; the answer is in `outcome`. */
  run(nodeLimit: number): SearchOutcome {
    const { outcome } = this;
    outcome.nodes = 0;
    // What is best without obstacles, barriers and zones is best with them when it meets none of them.
    this.runFree();
    if (this.free || outcome.family === null || this.isClear()) return outcome;
    this.runBranching(nodeLimit);
    return outcome;
  }

  private start(): void {
    const { outcome } = this;
    outcome.value = -Infinity;
    outcome.bound = -Infinity;
    outcome.family = null;
    this.chooser.cutoff = -Infinity;
  }

  /** The best stance without obstacles, carrying the best value from family to family. */
  private runFree(): void {
    this.start();
    const { families } = this.compiled;
    // The family that won last time sets a high mark for the others when only the targets were moved a little.
    const lead = this.lead < families.length ? this.lead : 0;
    for (let turn = 0; turn < families.length; turn++) {
      const place = (lead + turn) % families.length;
      const before = this.outcome.value;
      this.chooser.run(families[place] as NoseFamily, this.takeFree);
      if (this.outcome.value > before) this.lead = place;
    }
    this.outcome.bound = this.outcome.value;
  }

  private readonly takeFree = (family: NoseFamily, upper: number): void => {
    const { outcome, chooser } = this;
    const { reach } = chooser;
    outcome.nodes++;
    if (!reach.solve(chooser.leafRegion(family), upper) || reach.s <= outcome.value) return;
    outcome.value = reach.s;
    outcome.x = reach.x;
    outcome.y = reach.y;
    outcome.family = family;
    chooser.cutoff = reach.s;
  };

  private isClear(): boolean {
    const { family, x, y, value } = this.outcome;
    if (deepest((family as NoseFamily).forbidden, x, y) !== null) return false;
    return this.detours === null || this.detours.holds(family as NoseFamily, x, y, value);
  }

  private readonly takeRoot = (family: NoseFamily, upper: number): void => {
    const { boxes, chosen } = this.chooser;
    const lines = this.compiled.lines.length;
    const at = BOX * lines;
    const leaf = this.addLeaf({
      family,
      xMin: boxes[at] as number,
      xMax: boxes[at + 1] as number,
      yMin: boxes[at + 2] as number,
      yMax: boxes[at + 3] as number,
      chosen: chosen.slice(0, lines),
      courses: null,
    });
    this.pool.push(this.pool.add(leaf, NO_NODE, upper, false));
  };

  private addLeaf(leaf: Leaf): number {
    this.leaves.push(leaf);
    return this.leaves.length - 1;
  }

  private runBranching(nodeLimit: number): void {
    const { pool, outcome } = this;
    this.start();
    this.met.clear();
    this.loaded = null;
    this.leaves.length = 0;
    pool.clear();
    for (const family of this.compiled.families) this.chooser.run(family, this.takeRoot);
    const last = outcome.nodes + nodeLimit;
    for (let node = pool.pop(); ; node = pool.pop()) {
      if (node === NO_NODE || (pool.value[node] as number) <= outcome.value) {
        outcome.bound = outcome.value;
        return;
      }
      if (outcome.nodes >= last) {
        pool.push(node);
        this.dive(pool.value[node] as number, last + Math.max(nodeLimit, LEAST_DIVE));
        return;
      }
      outcome.nodes++;
      if (this.visit(node)) return;
    }
  }

  /** The node limit is reached: goes down to the first stance that holds, and leaves the bound where the search was. */
  private dive(bound: number, last: number): void {
    const { pool, outcome } = this;
    if (outcome.family === null) {
      pool.goDeep();
      for (let node = pool.pop(); node !== NO_NODE && outcome.nodes < last; node = pool.pop()) {
        outcome.nodes++;
        if (this.visit(node) || outcome.family !== null) break;
      }
    }
    outcome.bound = bound;
  }

  /** Solves or settles a node; true when it is the answer. */
  private visit(node: number): boolean {
    const { pool } = this;
    if (pool.solved[node] === 0) {
      if (!this.solveNode(node)) return false;
      if ((pool.value[node] as number) < pool.top()) {
        pool.push(node);
        return false;
      }
    }
    return this.settle(node);
  }

  /** Branches on whatever is wrong with the node's stance; true when nothing is, and the node is the answer. */
  private settle(node: number): boolean {
    const { pool, detours, outcome } = this;
    const leaf = this.leaves[pool.leaf[node] as number] as Leaf;
    const x = pool.x[node] as number;
    const y = pool.y[node] as number;
    const obstacle = deepest(leaf.family.forbidden, x, y);
    if (obstacle !== null) {
      this.met.add(obstacle.obstacle);
      this.branchOutside(node, obstacle.set);
      return false;
    }
    const value = pool.value[node] as number;
    if (detours === null) {
      this.accept(leaf.family, x, y, value);
      outcome.bound = value;
      return true;
    }
    const verdict = detours.judge(leaf, x, y, value);
    if (verdict.value > outcome.value) this.accept(leaf.family, x, y, Math.min(verdict.value, value));
    if (verdict.line === NO_NODE) {
      outcome.bound = outcome.value;
      return true;
    }
    const place = this.placeOf(node, leaf);
    if (place === null) return false;
    const blocked = detours.branch(leaf, verdict.line, x, y, { place, best: outcome.value });
    if (blocked.outside !== null) this.branchOutside(node, blocked.outside);
    if (blocked.leaves.length === 0) return false;
    const above = blocked.within === null ? node : this.within(node, blocked.within);
    for (const next of blocked.leaves) this.branchToLeaf(above, next);
    return false;
  }

  private accept(family: NoseFamily, x: number, y: number, value: number): void {
    const { outcome } = this;
    outcome.value = value;
    outcome.x = x;
    outcome.y = y;
    outcome.family = family;
    this.chooser.cutoff = value;
  }

  /**
   * One child for every side of the forbidden set: the rig's origin on or beyond that side, and not beyond the sides
   * before it, so that no place is searched twice. The node's own place violates only the new half-plane, so the
   * child's optimum still lies on its line.
   */
  private branchOutside(node: number, set: ConvexSet): void {
    const { pool, chooser, outcome } = this;
    const { reach, region } = chooser;
    const leafNumber = pool.leaf[node] as number;
    const leaf = this.leaves[leafNumber] as Leaf;
    const value = pool.value[node] as number;
    this.load(leaf);
    this.gather(node, leaf);
    let above = node;
    for (let side = 0; side < set.nx.length; side++) {
      const nx = set.nx[side] as number;
      const ny = set.ny[side] as number;
      const limit = set.offset[side] as number;
      if (reach.solveOnLine(region, value, nx, ny, limit) && reach.s > outcome.value) {
        const child = pool.add(leafNumber, above, Math.min(reach.s, value), true);
        pool.setPlane(child, -nx, -ny, -limit);
        pool.x[child] = reach.x;
        pool.y[child] = reach.y;
        pool.push(child);
      } else continue;
      // Only a side that leaves something beyond it needs to be closed to the ones after it.
      above = pool.add(leafNumber, above, value, true);
      pool.setPlane(above, nx, ny, limit);
      region.addPlane(nx, ny, limit);
    }
  }

  /** The patch of a node in which its lines can still do better than the best stance so far; null when there is none. */
  private placeOf(node: number, leaf: Leaf): Place | null {
    const { reach } = this.chooser;
    this.load(leaf);
    const region = this.gather(node, leaf);
    for (let i = 0; i < reach.count; i++) {
      const radius = reach.longestLeg(i, this.outcome.value);
      const x = reach.cones.dx[i] as number;
      const y = reach.cones.dy[i] as number;
      region.narrow(x - radius, x + radius, y - radius, y + radius);
    }
    return placeOf(region);
  }

  /** The last of a chain of nodes that hold the rig's origin within a set. */
  private within(node: number, set: ConvexSet): number {
    const { pool } = this;
    let above = node;
    for (let side = 0; side < set.nx.length; side++) {
      above = pool.add(pool.leaf[node] as number, above, pool.value[node] as number, true);
      pool.setPlane(above, set.nx[side] as number, set.ny[side] as number, set.offset[side] as number);
    }
    return above;
  }

  private branchToLeaf(node: number, leaf: Leaf): void {
    const { pool } = this;
    if (leaf.xMin > leaf.xMax + TOUCH_TOLERANCE || leaf.yMin > leaf.yMax + TOUCH_TOLERANCE) return;
    pool.push(pool.add(this.addLeaf(leaf), node, pool.value[node] as number, false));
  }

  private solveNode(node: number): boolean {
    const { pool, chooser, outcome } = this;
    const { reach } = chooser;
    const leaf = this.leaves[pool.leaf[node] as number] as Leaf;
    const upper = pool.value[node] as number;
    this.load(leaf);
    if (!reach.solve(this.gather(node, leaf), upper)) return false;
    const s = Math.min(reach.s, upper);
    if (s <= outcome.value) return false;
    pool.value[node] = s;
    pool.x[node] = reach.x;
    pool.y[node] = reach.y;
    pool.solved[node] = 1;
    return true;
  }

  /** Sets the cones of a leaf. */
  private load(leaf: Leaf): void {
    if (this.loaded === leaf) return;
    this.loaded = leaf;
    const { reach } = this.chooser;
    const { family } = leaf;
    this.chooser.loadFamily(family);
    const { lines } = this.compiled;
    for (let i = 0; i < lines.length; i++) {
      const course = leaf.courses?.[i] ?? null;
      if (course !== null) {
        reach.cones.dx[i] = course.anchorX - course.departure.x;
        reach.cones.dy[i] = course.anchorY - course.departure.y;
        reach.fixed[i] = course.departure.length + course.tail.length;
        continue;
      }
      const departure = lines[i]?.departures[leaf.chosen[i] as number] as Departure;
      reach.cones.dx[i] = (family.targetX[i] as number) - departure.x;
      reach.cones.dy[i] = (family.targetY[i] as number) - departure.y;
      reach.fixed[i] = departure.length;
    }
  }

  /** Fills the region of a node: its leaf's box, the slanted limits, and the half-planes up to the root. */
  private gather(node: number, leaf: Leaf): Region {
    const { pool } = this;
    const { region } = this.chooser;
    region.setBox(leaf.xMin, leaf.xMax, leaf.yMin, leaf.yMax);
    const { planes } = leaf.family.room;
    for (let i = 0; i < planes.nx.length; i++) {
      region.addPlane(planes.nx[i] as number, planes.ny[i] as number, planes.offset[i] as number);
    }
    for (let at = node; at !== NO_NODE; at = pool.parent[at] as number) {
      const limit = pool.limit[at] as number;
      if (limit < Infinity) region.addPlane(pool.nx[at] as number, pool.ny[at] as number, limit);
    }
    return region;
  }
}

/** The forbidden set in which the place lies deepest; null when it lies in none. */
export function deepest(forbidden: readonly Forbidden[], x: number, y: number): Forbidden | null {
  let found: Forbidden | null = null;
  let most = TOUCH_TOLERANCE;
  for (const candidate of forbidden) {
    const depth = depthInside(candidate.set, x, y);
    if (depth > most) {
      most = depth;
      found = candidate;
    }
  }
  return found;
}
