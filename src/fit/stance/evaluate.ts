import { depthInside, overlapSet } from "./convex.ts";
import { GroundCourses, type GroundWay, type Turn } from "./courses.ts";
import { noseVector, rearBumper, rigToPad } from "./frame.ts";
import { compileLaw, marginOf } from "./law.ts";
import { NO_GROWTH } from "./limits.ts";
import { grownPart, sharesHeight, turned } from "./obstacles.ts";
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
import { rigWayKind } from "./rigside.ts";
import { TOUCH_TOLERANCE } from "./tolerance.ts";

/**
 * Every line as it lies at one stance, with the shortest permitted route, and every contact that makes the stance
 * impossible. Independent of the search: it knows shortest ways only, no cones and no branches.
 */
export function evaluateStance(problem: StanceProblem, stance: Stance): StanceEvaluation {
  const ground = new GroundCourses(
    problem,
    problem.lines.map((task) => ({ task, target: task.target })),
  );
  return evaluateWith(ground, problem, stance);
}

/** The same with shortest ways that are kept from stance to stance. */
export function evaluateWith(ground: GroundCourses, problem: StanceProblem, stance: Stance): StanceEvaluation {
  return {
    stance,
    lines: problem.lines.map((task, line) => lineAt(ground, problem, stance, task, line)),
    contacts: contactsAt(problem, stance),
  };
}

function lineAt(
  ground: GroundCourses,
  problem: StanceProblem,
  stance: Stance,
  task: LineTask,
  line: number,
): LineRoute {
  const turn: Turn = noseVector(stance.facing, stance.yaw);
  const rear = rearBumper(stance, problem.length);
  const x = turn.cos * rear.along + turn.sin * rear.left;
  const y = turn.cos * rear.left - turn.sin * rear.along;
  const way = ground.shortest(line, turn, x, y);
  const law = compileLaw(task.law);
  const outlet = rigToPad(stance, problem.length, task.inlet);
  const fall =
    law.fall + law.slopeAlong * (outlet.along - task.target.along) + law.slopeLeft * (outlet.left - task.target.left);
  if (way === null) {
    const margin = -Infinity;
    return { id: task.id, route: "direct", run: Infinity, fall, margin, path: [], detours: [] };
  }
  return {
    id: task.id,
    route: rigWayKind(way.side, way.rigWay),
    run: way.run,
    fall,
    margin: marginOf(law.budget, fall, law.requiredSlope, way.run),
    ...pathOf(ground, problem, stance, task, line, way),
  };
}

function pathOf(
  ground: GroundCourses,
  problem: StanceProblem,
  stance: Stance,
  task: LineTask,
  line: number,
  way: GroundWay,
): { readonly path: readonly PadPoint[]; readonly detours: readonly string[] } {
  const bends = way.padWay.length > 1;
  const pad = bends ? ground.padSideOf(line) : null;
  const rigPoints = way.rigWay.map((node) => way.side.nodes[node] as RigPoint);
  if (way.side.setback > 0) rigPoints.unshift(task.inlet);
  const anchors = [...way.padWay].reverse();
  const detours = new Set<string>();
  for (const node of anchors) {
    const owner = pad?.owners[node];
    if (owner) detours.add(owner.id);
  }
  return {
    path: [
      ...rigPoints.map((point) => rigToPad(stance, problem.length, point)),
      ...(pad === null ? [task.target] : anchors.map((node) => pad.nodes[node] as PadPoint)),
    ],
    detours: [...detours],
  };
}

/** Parts over their limits and parts against obstacles, each with the metres by which it would have to move out. */
function contactsAt(problem: StanceProblem, stance: Stance): readonly Contact[] {
  const contacts: Contact[] = [];
  const rear = rearBumper(stance, problem.length);
  const { cos, sin } = noseVector(stance.facing, stance.yaw);
  const x = cos * rear.along + sin * rear.left;
  const y = cos * rear.left - sin * rear.along;
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
  for (const obstacle of problem.obstacles) {
    const outline = turned(obstacle.outline, stance.facing, stance.yaw);
    for (const part of problem.parts) {
      if (!sharesHeight(part, obstacle)) continue;
      const depth = depthInside(overlapSet(outline, grownPart(part, obstacle.clearance, NO_GROWTH)), x, y);
      if (depth > TOUCH_TOLERANCE) contacts.push({ part: part.id, against: obstacle.id, depth });
    }
  }
  return contacts;
}
