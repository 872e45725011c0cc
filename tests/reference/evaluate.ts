/** A stance judged by the definition: visibility graph, separating axes, corner checks. Shares no code with src. */
import type { Contact, LineTask, PadPoint, RigPart, Stance, StanceProblem } from "../../src/fit/stance/problem.ts";
import { cornersOf } from "./planar.ts";
import { routeGraph, routeOf } from "./routes.ts";

export interface ReferenceLine {
  readonly id: string;
  readonly run: number;
  readonly fall: number;
  readonly margin: number;
  /** Inlet, nodes, target. */
  readonly path: readonly PadPoint[];
}

export interface ReferenceEvaluation {
  readonly lines: readonly ReferenceLine[];
  readonly contacts: readonly Contact[];
  /** Least margin over the lines; Infinity without lines. */
  readonly worst: number;
}

/** Direction of the nose and place of the rear bumper's middle, pad frame. */
export interface RigPlace {
  readonly theta: number;
  readonly x: number;
  readonly y: number;
}

export function placeOf(problem: StanceProblem, stance: Stance): RigPlace {
  if (stance.facing === "out") return { theta: stance.yaw, x: stance.along, y: stance.left };
  const theta = Math.PI - stance.yaw;
  return {
    theta,
    x: stance.along - problem.length * Math.cos(theta),
    y: stance.left - problem.length * Math.sin(theta),
  };
}

export function stanceOf(problem: StanceProblem, facing: Stance["facing"], yaw: number, x: number, y: number): Stance {
  if (facing === "out") return { facing, yaw, along: x, left: y };
  const theta = Math.PI - yaw;
  return { facing, yaw, along: x + problem.length * Math.cos(theta), left: y + problem.length * Math.sin(theta) };
}

/** The law of problem.ts for a known run and fall. */
export function marginOf(line: LineTask, run: number, fall: number): number {
  const reach = line.law.budget - Math.sqrt(run * run + fall * fall);
  return line.law.requiredSlope === undefined ? reach : Math.min(reach, fall / line.law.requiredSlope - run);
}

function partCorners(part: RigPart, grown: number, place: RigPlace): [number, number][] {
  const cos = Math.cos(place.theta);
  const sin = Math.sin(place.theta);
  return cornersOf({
    fromRearMin: part.fromRearMin - grown,
    fromRearMax: part.fromRearMax + grown,
    leftMin: part.leftMin - grown,
    leftMax: part.leftMax + grown,
  }).map(([x, y]) => [place.x + cos * x - sin * y, place.y + sin * x + cos * y]);
}

/** Depth by which two convex outlines overlap along the separating axis that parts them soonest; <= 0 when apart. */
function overlapDepth(one: readonly [number, number][], other: readonly [number, number][]): number {
  let depth = Number.POSITIVE_INFINITY;
  for (const [shape, against] of [
    [one, other],
    [other, one],
  ] as const) {
    shape.forEach(([x0, y0], i) => {
      const [x1, y1] = shape[(i + 1) % shape.length] as [number, number];
      const length = Math.hypot(x1 - x0, y1 - y0);
      if (length === 0) return;
      const nx = (y1 - y0) / length;
      const ny = (x0 - x1) / length;
      const reach = Math.min(...against.map(([x, y]) => nx * (x - x0) + ny * (y - y0)));
      depth = Math.min(depth, -reach);
    });
  }
  return depth;
}

export function contactsAt(problem: StanceProblem, place: RigPlace): Contact[] {
  const contacts: Contact[] = [];
  for (const part of problem.parts) {
    for (const limit of part.limits) {
      const depth = Math.max(
        ...partCorners(part, 0, place).map(([x, y]) => limit.along * x + limit.left * y - limit.max),
      );
      if (depth > 0) contacts.push({ part: part.id, against: limit.what, depth });
    }
    for (const obstacle of problem.obstacles) {
      if (part.from >= obstacle.to || obstacle.from >= part.to) continue;
      const outline = obstacle.outline.map((point): [number, number] => [point.along, point.left]);
      const depth = overlapDepth(partCorners(part, obstacle.clearance, place), outline);
      if (depth > 0) contacts.push({ part: part.id, against: obstacle.id, depth });
    }
  }
  return contacts;
}

/** Every line's route and margin at one stance, and every contact. */
export function evaluateByDefinition(problem: StanceProblem, stance: Stance): ReferenceEvaluation {
  const place = placeOf(problem, stance);
  const lines = problem.lines.map((line): ReferenceLine => {
    const graph = routeGraph(problem, line, place.theta);
    const inlet = { along: place.x + graph.inletX, left: place.y + graph.inletY };
    const route = routeOf(graph, place.x, place.y, 0, 0);
    const { law, target } = line;
    const fall =
      law.fallAtLevel + law.slopeAlong * (inlet.along - target.along) + law.slopeLeft * (inlet.left - target.left);
    return { id: line.id, run: route.run, fall, margin: marginOf(line, route.run, fall), path: [inlet, ...route.path] };
  });
  return {
    lines,
    contacts: contactsAt(problem, place),
    worst: Math.min(Number.POSITIVE_INFINITY, ...lines.map((line) => line.margin)),
  };
}
