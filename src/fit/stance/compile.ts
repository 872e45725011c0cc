import { noseVector } from "./frame.ts";
import { type CompiledLaw, compileLaw } from "./law.ts";
import { type Growth, NO_GROWTH, type OriginRoom, originRoom } from "./limits.ts";
import { type Forbidden, forbiddenSets } from "./obstacles.ts";
import type { Facing, LineTask, PadPoint, StanceProblem } from "./problem.ts";
import { type Departure, shortestDepartures } from "./routes.ts";

/** What is asked of a stance problem beside the least margin over all lines. */
export interface SolveRequest {
  /** One per line: a number is the least margin the line must keep and takes it out of the objective. */
  readonly floors?: readonly (number | null)[];
  /**
   * Instead of the margins, bring the centre of the body rectangle as near as possible to this point: the value is
   * minus the distance. Lines without a floor are then not asked for anything.
   */
  readonly towards?: PadPoint;
  readonly facings?: readonly Facing[];
  readonly yaws?: readonly number[];
  /** Metres by which every part is grown fore and aft, and on either side. */
  readonly grow?: Growth;
  /** Most nodes of the search; reaching it leaves the answer unproven. */
  readonly nodeLimit?: number;
}

/** One direction of the nose, with everything about the pad turned into rig-aligned coordinates. */
export interface NoseFamily {
  readonly facing: Facing;
  readonly yaw: number;
  readonly cos: number;
  readonly sin: number;
  readonly room: OriginRoom;
  readonly forbidden: readonly Forbidden[];
  /** Targets of the active lines. */
  readonly targetX: Float64Array;
  readonly targetY: Float64Array;
  /** Slope of the ground under each active line. */
  readonly slopeX: Float64Array;
  readonly slopeY: Float64Array;
  /** Where the objective pulls the rig's origin, when it is a place and not the margins. */
  readonly pullX: number;
  readonly pullY: number;
}

/** A line that the request asks something of. */
export interface ActiveLine {
  readonly task: LineTask;
  /** Its place in `problem.lines`. */
  readonly index: number;
  /** The least margin asked; NaN for a line of the objective. */
  readonly floor: number;
  readonly departures: readonly Departure[];
  /** The law and the target as last moved. */
  law: CompiledLaw;
  target: PadPoint;
}

/** A stance problem and a request made ready; the families are those in which the limits leave room. */
export interface CompiledProblem {
  readonly problem: StanceProblem;
  readonly request: SolveRequest;
  readonly growth: Growth;
  readonly lines: readonly ActiveLine[];
  readonly families: readonly NoseFamily[];
  /** Every nose direction asked for, with its room, also when there is none. */
  readonly rooms: readonly OriginRoom[];
  /** True when the value is a distance to a place, not a margin. */
  readonly pulled: boolean;
  /** True when lines may have to go round barriers or zones of the rig. */
  readonly hasDetours: boolean;
}

/** Compiles a problem for a request. */
export function compileProblem(problem: StanceProblem, request: SolveRequest = {}): CompiledProblem {
  const growth = request.grow ?? NO_GROWTH;
  const lines: ActiveLine[] = [];
  problem.lines.forEach((task, index) => {
    const floor = request.floors?.[index] ?? null;
    if (floor === null && request.towards !== undefined) return;
    lines.push({
      task,
      index,
      floor: floor ?? Number.NaN,
      departures: shortestDepartures(task, problem.length, problem.width),
      law: compileLaw(task.law),
      target: task.target,
    });
  });
  // The lines with the least to spare prune most, so they are chosen for first.
  lines.sort((a, b) => a.task.law.budget - b.task.law.budget);
  const pulled = !lines.some((line) => Number.isNaN(line.floor));
  const rooms: OriginRoom[] = [];
  const families: NoseFamily[] = [];
  for (const facing of request.facings ?? problem.facings) {
    for (const yaw of request.yaws ?? problem.yaws) {
      const room = originRoom(problem.parts, facing, yaw, growth);
      rooms.push(room);
      if (room.excess > 0) continue;
      const family = noseFamily(problem, request, growth, lines, facing, yaw, room);
      turnTargets(family, lines);
      families.push(family);
    }
  }
  const hasDetours = lines.length > 0 && (problem.barriers.length > 0 || problem.keepOuts.length > 0);
  return { problem, request, growth, lines, families, rooms, pulled, hasDetours };
}

function noseFamily(
  problem: StanceProblem,
  request: SolveRequest,
  growth: Growth,
  lines: readonly ActiveLine[],
  facing: Facing,
  yaw: number,
  room: OriginRoom,
): NoseFamily {
  const { cos, sin } = noseVector(facing, yaw);
  const { towards } = request;
  const slopeX = new Float64Array(lines.length);
  const slopeY = new Float64Array(lines.length);
  for (let i = 0; i < lines.length; i++) {
    const { slopeAlong, slopeLeft } = (lines[i] as ActiveLine).law;
    slopeX[i] = cos * slopeAlong + sin * slopeLeft;
    slopeY[i] = cos * slopeLeft - sin * slopeAlong;
  }
  return {
    facing,
    yaw,
    cos,
    sin,
    room,
    forbidden: forbiddenSets(problem.parts, problem.obstacles, facing, yaw, growth, room),
    targetX: new Float64Array(lines.length),
    targetY: new Float64Array(lines.length),
    slopeX,
    slopeY,
    pullX: towards ? cos * towards.along + sin * towards.left - problem.length / 2 : middle(room.xMin, room.xMax),
    pullY: towards ? cos * towards.left - sin * towards.along : middle(room.yMin, room.yMax),
  };
}

/** The middle of a range; of a range with one end, that end; of an endless one, nought. */
function middle(low: number, high: number): number {
  if (Number.isFinite(low) && Number.isFinite(high)) return (low + high) / 2;
  return Number.isFinite(low) ? low : Number.isFinite(high) ? high : 0;
}

/** Turns the lines' targets into the family's coordinates. */
export function turnTargets(family: NoseFamily, lines: readonly ActiveLine[]): void {
  const { cos, sin } = family;
  for (let i = 0; i < lines.length; i++) {
    const { along, left } = (lines[i] as ActiveLine).target;
    family.targetX[i] = cos * along + sin * left;
    family.targetY[i] = cos * left - sin * along;
  }
}

/** The cone of a pull towards a place: nothing to spare at the place itself. */
export const PULL_LAW: CompiledLaw = {
  budget: 0,
  fall: 0,
  cap: Infinity,
  requiredSlope: 0,
  slopeAlong: 0,
  slopeLeft: 0,
  sloping: false,
  dropped: true,
};
