import type { ActiveLine, CompiledProblem, NoseFamily } from "./compile.ts";
import type { ConvexSet } from "./convex.ts";
import type { Course, CourseDeparture, GroundCourses } from "./courses.ts";
import { legIsClear, padEdgeIsClear, rigEdgeIsClear } from "./courses.ts";
import { edgeName } from "./graph.ts";
import { longestRun, marginOf } from "./law.ts";
import type { Obstruction } from "./obstruction.ts";
import { OpenWays } from "./openways.ts";
import { extentOf, type Place, placeWithin } from "./place.ts";
import type { RigPoint } from "./problem.ts";
import type { Leaf } from "./search.ts";
import { TOUCH_TOLERANCE } from "./tolerance.ts";

const NO_LINE = -1;

/** Metres by which a line may miss the node's value and still count as keeping it: what grazing lines are allowed. */
const JUDGE_TOLERANCE = 1e-8;

/** What the lines really have to spare at a node's stance, and the line to branch on (-1 when none is short). */
export interface Verdict {
  readonly value: number;
  readonly line: number;
}

/** The children of a node: places to stay out of for the same leaf, and other courses of the line. */
export interface Branches {
  readonly outside: ConvexSet | null;
  readonly leaves: readonly Leaf[];
  /** Where the leaves are of use; null when everywhere. */
  readonly within: ConvexSet | null;
}

/** Where the stances of a node are that can still be better than the best so far, and how good that one is. */
export interface Scope {
  readonly place: Place;
  readonly best: number;
}

/** What blocks a course: the places where it does, and the edge of the course that then has to be given up. */
interface Blockage {
  readonly set: ConvexSet | null;
  readonly padEdge: string | null;
  readonly rigEdge: string | null;
}

/**
 * Branching on lines that have to go round something. A line first follows the shortest way round the body, which is
 * never longer than its true way. When that is not good enough at a node's stance, the line is held to one course
 * after another (every departure from the rig's side, every corner of a barrier as the next anchor). A course held to
 * is blocked in an open convex set of places: the shadow of what is in the way, or the places where the rig stands
 * across it; so it branches as an obstacle does, and an edge of it may be given up for a longer one.
 */
export class DetourBranching {
  private readonly compiled: CompiledProblem;
  private readonly ground: GroundCourses;

  constructor(compiled: CompiledProblem, ground: GroundCourses) {
    this.compiled = compiled;
    this.ground = ground;
  }

  /** Judges a leaf's stance by the lines' true ways; `value` is what the node promises. */
  judge(leaf: Leaf, x: number, y: number, value: number): Verdict {
    const { lines, pulled } = this.compiled;
    let least = pulled ? value : Infinity;
    let line = NO_LINE;
    let most = JUDGE_TOLERANCE;
    let missed = false;
    for (let i = 0; i < lines.length; i++) {
      const active = lines[i] as ActiveLine;
      const margin = this.marginAt(active, i, leaf.family, x, y);
      const objective = Number.isNaN(active.floor);
      if (objective) least = Math.min(least, margin);
      const short = (objective ? value : active.floor) - margin;
      if (short <= JUDGE_TOLERANCE) continue;
      if (!objective) missed = true;
      const course = leaf.courses?.[i] ?? null;
      if (short <= most || (course !== null && this.blockage(course, i, leaf.family, x, y) === null)) continue;
      most = short;
      line = i;
    }
    return { value: missed ? -Infinity : least, line };
  }

  /** True when every line at a place really has what is promised of it: `value`, or its floor. */
  holds(family: NoseFamily, x: number, y: number, value: number): boolean {
    return this.compiled.lines.every((active, i) => {
      const asked = Number.isNaN(active.floor) ? value : active.floor;
      return asked - this.marginAt(active, i, family, x, y) <= JUDGE_TOLERANCE;
    });
  }

  private marginAt(active: ActiveLine, i: number, family: NoseFamily, x: number, y: number): number {
    const way = this.ground.shortest(i, family, x, y);
    if (way === null) return -Infinity;
    const { law, task } = active;
    let { fall } = law;
    if (law.sloping) {
      fall += (family.slopeX[i] as number) * (x + task.inlet.fromRear - (family.targetX[i] as number));
      fall += (family.slopeY[i] as number) * (y + task.inlet.left - (family.targetY[i] as number));
    }
    return marginOf(law.budget, fall, law.requiredSlope, way.run);
  }

  /** The children of a leaf that is short on one line at (x, y). */
  branch(leaf: Leaf, line: number, x: number, y: number, scope: Scope): Branches {
    const course = leaf.courses?.[line] ?? null;
    if (course === null) return { outside: null, leaves: this.everyCourse(leaf, line, x, y, scope), within: null };
    const blocked = this.blockage(course, line, leaf.family, x, y);
    if (blocked === null) return { outside: null, leaves: [], within: null };
    const { set } = blocked;
    if (set === null || (blocked.padEdge === null && blocked.rigEdge === null)) {
      return { outside: set, leaves: [], within: null };
    }
    const inside = placeWithin(scope.place, set);
    const other = inside === null ? null : this.given(course, line, leaf.family, blocked, x, y, inside);
    return { outside: set, leaves: other === null ? [] : [this.held(leaf, line, other)], within: set };
  }

  /**
   * Every course that is good enough somewhere in the place and is not blocked all over it, one leaf for each wall
   * beyond which its leg is legal.
   */
  private everyCourse(leaf: Leaf, line: number, x: number, y: number, { place, best }: Scope): readonly Leaf[] {
    const leaves: Leaf[] = [];
    const { ground } = this;
    const pad = ground.padSideOf(line);
    const turned = ground.turnedOf(line, leaf.family);
    const extent = extentOf(place);
    const most = this.longestRunOf(line, best) + TOUCH_TOLERANCE;
    for (const side of ground.rigSidesOf(line)) {
      const obstruction = ground.obstructionOf(line, side, leaf.family);
      const ways = new OpenWays(side, pad, obstruction, x, y, place);
      for (let node = 0; node < side.nodes.length; node++) {
        const { fromRear, left } = side.nodes[node] as RigPoint;
        const along = side.setback + (side.tree.distance[node] as number);
        if (along >= most) continue;
        let departure: CourseDeparture | null | undefined;
        let walls: readonly number[] = [];
        for (let anchor = 0; anchor < pad.nodes.length; anchor++) {
          const anchorX = turned.xs[anchor] as number;
          const anchorY = turned.ys[anchor] as number;
          const dx = Math.max(extent.xMin + fromRear - anchorX, 0, anchorX - extent.xMax - fromRear);
          const dy = Math.max(extent.yMin + left - anchorY, 0, anchorY - extent.yMax - left);
          const least = along + (pad.tree.distance[anchor] as number) + Math.sqrt(dx * dx + dy * dy);
          if (!(least < most) || obstruction.legIsBlocked(node, anchor, x, y, place)) continue;
          if (departure === undefined) {
            departure = ways.departure(node);
            if (departure !== null) walls = wallsBeyond(departure, obstruction, place);
          }
          if (departure === null) break;
          const tail = ways.tail(anchor);
          if (tail === null || least + tail.length - (pad.tree.distance[anchor] as number) >= most) continue;
          const held = this.held(leaf, line, { departure, anchorX, anchorY, tail });
          if (walls.length === 0) leaves.push(held);
          for (const wall of walls) leaves.push(this.beyond(held, wall, anchorX, anchorY));
        }
      }
    }
    return leaves;
  }

  /** Metres of the longest route with which a line does better than `best`, or keeps its floor; or more. */
  private longestRunOf(line: number, best: number): number {
    const { law, floor } = this.compiled.lines[line] as ActiveLine;
    const margin = Number.isNaN(floor) ? best : floor;
    return law.sloping ? law.budget - margin : longestRun(law.budget, law.fall, law.cap, margin);
  }

  /** A leaf with a line held to a course. */
  private held(leaf: Leaf, line: number, course: Course): Leaf {
    const courses: (Course | null)[] = leaf.courses === null ? this.compiled.lines.map(() => null) : [...leaf.courses];
    courses[line] = course;
    return { ...leaf, courses };
  }

  /** A leaf in the half-plane of places from which an anchor is beyond a wall. */
  private beyond(leaf: Leaf, wall: number, anchorX: number, anchorY: number): Leaf {
    const { length, width } = this.compiled.problem;
    if (wall === 0) return { ...leaf, yMax: Math.min(leaf.yMax, anchorY - width / 2) };
    if (wall === 1) return { ...leaf, xMin: Math.max(leaf.xMin, anchorX) };
    if (wall === 2) return { ...leaf, yMin: Math.max(leaf.yMin, anchorY + width / 2) };
    return { ...leaf, xMax: Math.min(leaf.xMax, anchorX - length) };
  }

  /** What blocks a course at a stance; null when nothing does. */
  private blockage(course: Course, line: number, family: NoseFamily, x: number, y: number): Blockage | null {
    const turned = this.ground.turnedOf(line, family);
    const { side, way, node } = course.departure;
    const obstruction = this.ground.obstructionOf(line, side, family);
    if (!legIsClear(side, turned, x, y, side.nodes[node] as RigPoint, course.anchorX, course.anchorY)) {
      return { set: obstruction.acrossLeg(node, course.tail.node, x, y), padEdge: null, rigEdge: null };
    }
    for (let step = 1; step < course.tail.way.length; step++) {
      const a = course.tail.way[step - 1] as number;
      const b = course.tail.way[step] as number;
      if (padEdgeIsClear(side, turned, x, y, a, b)) continue;
      return { set: obstruction.acrossPadEdge(a, b, x, y), padEdge: edgeName(a, b), rigEdge: null };
    }
    for (let step = 1; step < way.length; step++) {
      const a = way[step - 1] as number;
      const b = way[step] as number;
      if (rigEdgeIsClear(side, turned, x, y, a, b)) continue;
      return { set: obstruction.acrossRigEdge(a, b, x, y), padEdge: null, rigEdge: edgeName(a, b) };
    }
    return null;
  }

  /** The course without the edge that is blocked all over the place, and without any other that is; null without a way. */
  private given(
    course: Course,
    line: number,
    family: NoseFamily,
    blocked: Blockage,
    x: number,
    y: number,
    place: Place,
  ): Course | null {
    const { departure, tail } = course;
    const { side } = departure;
    const obstruction = this.ground.obstructionOf(line, side, family);
    const ways = new OpenWays(side, this.ground.padSideOf(line), obstruction, x, y, place);
    if (blocked.padEdge !== null) {
      const other = ways.tailWithout(tail.node, new Set([...tail.bans, blocked.padEdge]));
      return other === null ? null : { ...course, tail: other };
    }
    const other = ways.departureWithout(departure.node, new Set([...departure.bans, blocked.rigEdge as string]));
    return other === null ? null : { ...course, departure: other };
  }
}

/**
 * The walls beyond which a departure's straight leg is legal and tight: a line that comes along one wall to a corner of
 * the body and goes on beyond that same wall would have left it earlier. That says nothing while barriers may block the
 * way along the wall, because another way may then have to be taken to the same corner.
 */
function wallsBeyond({ side, node, way }: CourseDeparture, obstruction: Obstruction, place: Place): readonly number[] {
  const walls = side.walls[node] as readonly number[];
  if (walls.length < 2 || way.length < 2) return walls;
  for (let step = 1; step < way.length; step++) {
    if (!obstruction.rigEdgeIsFree(way[step - 1] as number, way[step] as number, place)) return walls;
  }
  const corner = side.nodes[node] as RigPoint;
  const before = side.nodes[way[way.length - 2] as number] as RigPoint;
  // An inlet at the very corner comes along neither wall.
  if (before.left === corner.left && before.fromRear === corner.fromRear) return walls;
  // Walls left and right (even numbers) run lengthwise, rear and front across.
  const [one, other] = walls as readonly [number, number];
  const lengthwise = one % 2 === 0 ? one : other;
  const across = one % 2 === 0 ? other : one;
  if (before.left === corner.left) return [across];
  return before.fromRear === corner.fromRear ? [lengthwise] : walls;
}
