import type { ActiveLine, CompiledProblem, NoseFamily } from "./compile.ts";
import {
  type ConvexPolygon,
  type ConvexSet,
  convexPolygon,
  convexSet,
  overlapSet,
  segmentCrosses,
  shadow,
} from "./convex.ts";
import type { Course, CourseDeparture, CourseTail, GroundCourses, TurnedPadSide } from "./courses.ts";
import { legIsClear, padEdgeIsClear, rigEdgeIsClear } from "./courses.ts";
import { edgeName, NO_BANS, wayTo } from "./graph.ts";
import { marginOf } from "./law.ts";
import { padTreeWithout } from "./padside.ts";
import type { RigPoint } from "./problem.ts";
import { type RigSide, rigTreeWithout } from "./rigside.ts";
import type { Leaf } from "./search.ts";

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
  readonly outside: readonly ConvexSet[];
  readonly leaves: readonly Leaf[];
  /** Where the leaves are of use; null when everywhere. */
  readonly within: ConvexSet | null;
}

const NO_BRANCHES: Branches = { outside: [], leaves: [], within: null };

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

  /** The children of a leaf that is short on one line. */
  branch(leaf: Leaf, line: number, x: number, y: number): Branches {
    const course = leaf.courses?.[line] ?? null;
    if (course === null) return { outside: [], leaves: this.everyCourse(leaf, line), within: null };
    return this.blockage(course, line, leaf.family, x, y)?.(leaf) ?? NO_BRANCHES;
  }

  private everyCourse(leaf: Leaf, line: number): readonly Leaf[] {
    const leaves: Leaf[] = [];
    const pad = this.ground.padSideOf(line);
    for (const side of this.ground.rigSidesOf(line)) {
      for (let node = 0; node < side.nodes.length; node++) {
        const departure = departureOf(side, node, NO_BANS);
        if (departure === null) continue;
        for (let anchor = 0; anchor < pad.nodes.length; anchor++) {
          const tail = this.tailOf(line, anchor, NO_BANS);
          if (tail !== null) leaves.push(...this.held(leaf, line, departure, tail));
        }
      }
    }
    return leaves;
  }

  /** The leaves that hold a line to a course, one for each wall beyond which its leg is legal. */
  private held(leaf: Leaf, line: number, departure: CourseDeparture, tail: CourseTail): readonly Leaf[] {
    const turned = this.ground.turnedOf(line, leaf.family);
    const anchorX = turned.xs[tail.node] as number;
    const anchorY = turned.ys[tail.node] as number;
    const courses = leaf.courses === null ? this.compiled.lines.map(() => null) : [...leaf.courses];
    courses[line] = { departure, anchorX, anchorY, tail } as Course & null;
    const walls = wallsBeyond(departure);
    const held = { ...leaf, courses };
    if (walls.length === 0) return [held];
    const half = this.compiled.problem.width / 2;
    return walls.map((wall) => {
      if (wall === 0) return { ...held, yMax: Math.min(leaf.yMax, anchorY - half) };
      if (wall === 1) return { ...held, xMin: Math.max(leaf.xMin, anchorX) };
      if (wall === 2) return { ...held, yMin: Math.max(leaf.yMin, anchorY + half) };
      return { ...held, xMax: Math.min(leaf.xMax, anchorX - this.compiled.problem.length) };
    });
  }

  private tailOf(line: number, node: number, bans: ReadonlySet<string>): CourseTail | null {
    const tree = padTreeWithout(this.ground.padSideOf(line), bans);
    const length = tree.distance[node] as number;
    return length < Infinity ? { node, length, way: wayTo(tree, node), bans } : null;
  }

  /** What blocks a course at a stance, as the function that makes the children; null when nothing does. */
  private blockage(
    course: Course,
    line: number,
    family: NoseFamily,
    x: number,
    y: number,
  ): ((leaf: Leaf) => Branches) | null {
    const turned = this.ground.turnedOf(line, family);
    const { side, way } = course.departure;
    const point = side.nodes[course.departure.node] as RigPoint;
    if (!legIsClear(side, turned, x, y, point, course.anchorX, course.anchorY)) {
      const set = blockedLeg(course, turned, x, y);
      return () => ({ outside: set === null ? [] : [set], leaves: [], within: null });
    }
    for (let step = 1; step < course.tail.way.length; step++) {
      const a = course.tail.way[step - 1] as number;
      const b = course.tail.way[step] as number;
      if (padEdgeIsClear(side, turned, x, y, a, b)) continue;
      return (leaf) => this.aroundPadEdge(leaf, line, course, turned, x, y, a, b);
    }
    for (let step = 1; step < way.length; step++) {
      const a = way[step - 1] as number;
      const b = way[step] as number;
      if (rigEdgeIsClear(side, turned, x, y, a, b)) continue;
      return (leaf) => this.aroundRigEdge(leaf, line, course, turned, x, y, a, b);
    }
    return null;
  }

  private aroundPadEdge(
    leaf: Leaf,
    line: number,
    course: Course,
    turned: TurnedPadSide,
    x: number,
    y: number,
    a: number,
    b: number,
  ): Branches {
    const edge = segment(
      turned.xs[a] as number,
      turned.ys[a] as number,
      turned.xs[b] as number,
      turned.ys[b] as number,
    );
    const block = course.departure.side.blocks.find((candidate) =>
      segmentCrosses(
        candidate,
        (turned.xs[a] as number) - x,
        (turned.ys[a] as number) - y,
        (turned.xs[b] as number) - x,
        (turned.ys[b] as number) - y,
      ),
    ) as ConvexPolygon;
    const tail = this.tailOf(line, course.tail.node, new Set([...course.tail.bans, edgeName(a, b)]));
    const across = overlapSet(edge, block);
    const leaves = tail === null ? [] : this.held(leaf, line, course.departure, tail);
    return { outside: [across], leaves, within: across };
  }

  private aroundRigEdge(
    leaf: Leaf,
    line: number,
    course: Course,
    turned: TurnedPadSide,
    x: number,
    y: number,
    a: number,
    b: number,
  ): Branches {
    const { departure } = course;
    const from = departure.side.nodes[a] as RigPoint;
    const to = departure.side.nodes[b] as RigPoint;
    const edge = segment(from.fromRear, from.left, to.fromRear, to.left);
    const barrier = turned.barriers.find((candidate) =>
      segmentCrosses(candidate, x + from.fromRear, y + from.left, x + to.fromRear, y + to.left),
    ) as ConvexPolygon;
    const other = departureOf(departure.side, departure.node, new Set([...departure.bans, edgeName(a, b)]));
    const across = overlapSet(barrier, edge);
    const leaves = other === null ? [] : this.held(leaf, line, other, course.tail);
    return { outside: [across], leaves, within: across };
  }
}

/**
 * The walls beyond which a departure's straight leg is legal and tight: a line that comes along one wall to a corner of
 * the body and goes on beyond that same wall would have left it earlier.
 */
function wallsBeyond({ side, node, way }: CourseDeparture): readonly number[] {
  const walls = side.walls[node] as readonly number[];
  if (walls.length < 2 || way.length < 2) return walls;
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

function segment(x1: number, y1: number, x2: number, y2: number): ConvexPolygon {
  return convexPolygon([
    { x: x1, y: y1 },
    { x: x2, y: y2 },
  ]);
}

function departureOf(side: RigSide, node: number, bans: ReadonlySet<string>): CourseDeparture | null {
  const tree = rigTreeWithout(side, bans);
  const length = side.setback + (tree.distance[node] as number);
  if (!(length < Infinity)) return null;
  const { fromRear, left } = side.nodes[node] as RigPoint;
  return { side, node, x: fromRear, y: left, length, way: wayTo(tree, node), bans };
}

/** The places of the rig's origin at which the straight leg of a course is blocked by what blocks it at (x, y). */
function blockedLeg(course: Course, turned: TurnedPadSide, x: number, y: number): ConvexSet | null {
  const { anchorX, anchorY, departure } = course;
  for (const barrier of turned.barriers) {
    if (!segmentCrosses(barrier, x + departure.x, y + departure.y, anchorX, anchorY)) continue;
    const hidden = shadow(barrier, anchorX, anchorY);
    return hidden === null ? null : moved(hidden, 1, departure.x, departure.y);
  }
  for (const block of departure.side.blocks) {
    if (!segmentCrosses(block, departure.x, departure.y, anchorX - x, anchorY - y)) continue;
    const hidden = shadow(block, departure.x, departure.y);
    return hidden === null ? null : moved(hidden, -1, anchorX, anchorY);
  }
  return null;
}

/** The w with `sign w + (x, y)` in the set. */
function moved(set: ConvexSet, sign: 1 | -1, x: number, y: number): ConvexSet {
  return convexSet(
    Array.from(set.nx, (nx, side) => {
      const ny = set.ny[side] as number;
      return [sign * nx, sign * ny, (set.offset[side] as number) - nx * x - ny * y] as const;
    }),
  );
}
