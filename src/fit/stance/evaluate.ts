import { depthInside } from "./convex.ts";
import { GroundCourses, type GroundWay } from "./courses.ts";
import { noseVector, rearBumper, type Turn } from "./frame.ts";
import { compileLaw, marginOf } from "./law.ts";
import { NO_GROWTH } from "./limits.ts";
import { forbiddenSets } from "./obstacles.ts";
import type {
  Contact,
  LineRoute,
  LineTask,
  PadPoint,
  RigPoint,
  Stance,
  StanceEvaluation,
  StanceProblem,
} from "./problem.ts";
import { TOUCH_TOLERANCE } from "./tolerance.ts";

/** A stance worked out: the nose direction, the rear bumper on the pad, and the same in rig-aligned coordinates. */
interface Placed {
  readonly stance: Stance;
  readonly turn: Turn;
  readonly rear: PadPoint;
  readonly x: number;
  readonly y: number;
}

/**
 * Every line as it lies at one stance, with the shortest permitted route, and every contact that makes the stance
 * impossible. Independent of the search: it knows shortest ways only, no cones and no branches.
 */
export function evaluateStance(problem: StanceProblem, stance: Stance): StanceEvaluation {
  const ground = new GroundCourses(
    problem,
    problem.lines.map((task) => ({ task, target: task.target })),
  );
  const turn = noseVector(stance.facing, stance.yaw);
  const { cos, sin } = turn;
  const rear = rearBumper(stance, problem.length);
  const x = cos * rear.along + sin * rear.left;
  const y = cos * rear.left - sin * rear.along;
  const placed = { stance, turn, rear, x, y };
  return {
    stance,
    lines: problem.lines.map((task, line) => lineAt(ground, placed, task, line)),
    contacts: contactsAt(problem, placed),
  };
}

function lineAt(ground: GroundCourses, placed: Placed, task: LineTask, line: number): LineRoute {
  const way = ground.shortest(line, placed.turn, placed.x, placed.y);
  const law = compileLaw(task.law);
  const outlet = toPad(placed, task.inlet);
  const fall =
    law.fall + law.slopeAlong * (outlet.along - task.target.along) + law.slopeLeft * (outlet.left - task.target.left);
  if (way === null) {
    const margin = -Infinity;
    return { id: task.id, route: "direct", run: Infinity, fall, margin, path: [], detours: [] };
  }
  const path = way.rigPoints.map((point) => toPad(placed, point));
  const detours = addAnchors(ground, task, line, way, path);
  const margin = marginOf(law.budget, fall, law.requiredSlope, way.run);
  return { id: task.id, route: way.kind, run: way.run, fall, margin, path, detours };
}

/** Adds the way from the end of the straight leg to the target, and names the barriers that it bends round. */
function addAnchors(
  ground: GroundCourses,
  task: LineTask,
  line: number,
  way: GroundWay,
  path: PadPoint[],
): readonly string[] {
  if (way.padWay.length === 1) {
    path.push(task.target);
    return [];
  }
  const pad = ground.padSideOf(line);
  const detours = new Set<string>();
  for (let step = way.padWay.length - 1; step >= 0; step--) {
    const node = way.padWay[step] as number;
    path.push(pad.nodes[node] as PadPoint);
    const owner = pad.owners[node];
    if (owner) detours.add(owner.id);
  }
  return [...detours];
}

function toPad({ turn, rear }: Placed, point: RigPoint): PadPoint {
  const { cos, sin } = turn;
  return {
    along: rear.along + cos * point.fromRear - sin * point.left,
    left: rear.left + sin * point.fromRear + cos * point.left,
  };
}

/** Parts over their limits and parts against obstacles, each with the metres by which it would have to move out. */
function contactsAt(problem: StanceProblem, { stance, turn, x, y }: Placed): readonly Contact[] {
  const contacts: Contact[] = [];
  const { cos, sin } = turn;
  for (const part of problem.parts) {
    for (const limit of part.limits) {
      const nx = cos * limit.along + sin * limit.left;
      const ny = cos * limit.left - sin * limit.along;
      const reach =
        nx * (x + (nx > 0 ? part.fromRearMax : part.fromRearMin)) + ny * (y + (ny > 0 ? part.leftMax : part.leftMin));
      const depth = reach - limit.max;
      if (depth > TOUCH_TOLERANCE) contacts.push({ part: part.id, against: limit.what, depth });
    }
  }
  const here = { xMin: x, xMax: x, yMin: y, yMax: y };
  const { facing, yaw } = stance;
  for (const { set, part, obstacle } of forbiddenSets(problem.parts, problem.obstacles, facing, yaw, NO_GROWTH, here)) {
    const depth = depthInside(set, x, y);
    if (depth > TOUCH_TOLERANCE) contacts.push({ part, against: obstacle, depth });
  }
  return contacts;
}
