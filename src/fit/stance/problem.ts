/**
 * The stance problem: pure geometry, no service, no code, no unit other than the metre and the radian.
 *
 * Frames (design section 2). Pad frame: `along` from the pad's rear edge to the exit, `left` to the left of someone
 * looking along `along`; lengths are measured on the pad's surface, as a tape does. Rig frame: `fromRear` forward from
 * the rear bumper, `left` towards the rig's own left. A stance maps a rig point r to the pad point
 * `origin + R(theta) r`, with R the usual counter-clockwise rotation in (along, left).
 */

/** Which way the nose points: `out` to the pad's exit, `in` to its rear edge. */
export type Facing = "out" | "in";

/** A wall of the rig's body, named from the rig's own left and right. */
export type Wall = "left" | "rear" | "right" | "front";

/** A point in the pad frame, metres. */
export interface PadPoint {
  readonly along: number;
  readonly left: number;
}

/** A point in the rig frame, metres. */
export interface RigPoint {
  readonly fromRear: number;
  readonly left: number;
}

/** The closed half-plane `normal . p <= max` in the pad frame; the normal has length 1. */
export interface HalfPlane {
  readonly along: number;
  readonly left: number;
  readonly max: number;
  /** What a part touches when it is on the line: "pad edge at the exit", "wheel stop". */
  readonly what: string;
}

/** An axis-aligned box of the rig frame with the heights it occupies above the ground, metres. */
export interface RigBox {
  readonly fromRearMin: number;
  readonly fromRearMax: number;
  readonly leftMin: number;
  readonly leftMax: number;
  readonly from: number;
  readonly to: number;
}

/** A solid part of the rig: body, slide, awning, wheels. */
export interface RigPart extends RigBox {
  readonly id: string;
  readonly kind: "body" | "slide" | "awning" | "wheels" | "towed";
  /** Half-planes that every point of this part must keep; empty when the part may hang over the pad's edge. */
  readonly limits: readonly HalfPlane[];
}

/** A zone fixed to the rig that no line on the ground may cross: a door, a hot outlet, a tyre, a jack. */
export interface RigKeepOut {
  readonly id: string;
  readonly fromRearMin: number;
  readonly fromRearMax: number;
  readonly leftMin: number;
  readonly leftMax: number;
}

/** A convex, counter-clockwise polygon in the pad frame with the heights it occupies above the ground, metres. */
export interface Obstacle {
  readonly id: string;
  readonly what: string;
  readonly outline: readonly PadPoint[];
  readonly from: number;
  readonly to: number;
  /** Metres added round the rig's parts against this obstacle. */
  readonly clearance: number;
}

/** A convex, counter-clockwise polygon that a line on the ground goes round and never crosses. */
export interface LineBarrier {
  readonly id: string;
  readonly what: string;
  readonly outline: readonly PadPoint[];
}

/**
 * How a ground route of `run` metres turns into a margin.
 *
 * margin(run) = min(budget - sqrt(run^2 + fall^2), fall / requiredSlope - run), the second term only with
 * `requiredSlope`. A dropped line (power, water) has fall 0: margin = budget - run.
 * On sloping ground the fall depends on where the outlet stands:
 * fall = fallAtLevel + slopeAlong (outlet.along - target.along) + slopeLeft (outlet.left - target.left).
 */
export interface ReachLaw {
  /** Metres available for the route: the line and what adds to it, less both heights and the allowance. */
  readonly budget: number;
  /** Metres from outlet to rim at level ground (positive: the outlet is higher); 0 for a dropped line. */
  readonly fallAtLevel: number;
  /** Rise of the ground per metre along `along` and towards `left`; 0 when level or when the law has no fall. */
  readonly slopeAlong: number;
  readonly slopeLeft: number;
  /** Least fall per metre of run; absent when no slope is asked. */
  readonly requiredSlope?: number;
}

/** One line from an inlet in a wall of the rig to a hookup on the ground. */
export interface LineTask {
  readonly id: string;
  /** Where the line leaves; may lie inside the wall (a compartment): the way to the wall is added to the route. */
  readonly inlet: RigPoint;
  readonly wall: Wall;
  /** True when the record or the rig grants a clear strip beneath the body. */
  readonly mayRunBeneath: boolean;
  readonly target: PadPoint;
  readonly law: ReachLaw;
}

export interface StanceProblem {
  /** The body rectangle that lines go round: [0, length] x [-width/2, width/2] of the rig frame. */
  readonly length: number;
  readonly width: number;
  readonly parts: readonly RigPart[];
  readonly keepOuts: readonly RigKeepOut[];
  readonly facings: readonly Facing[];
  /** Radians; positive turns the nose towards pad `left`. */
  readonly yaws: readonly number[];
  readonly obstacles: readonly Obstacle[];
  readonly barriers: readonly LineBarrier[];
  readonly lines: readonly LineTask[];
}

/**
 * A parked rig. `along` and `left` place the middle of the rig's end that is nearer to the pad's rear edge:
 * the rear bumper when facing `out`, the nose when facing `in`.
 * theta (nose direction, from `along` towards `left`) is `yaw` facing out and `pi - yaw` facing in.
 */
export interface Stance {
  readonly facing: Facing;
  readonly along: number;
  readonly left: number;
  readonly yaw: number;
}

/** How a line leaves the rig. */
export type RouteKind = "direct" | "around-rear" | "around-front" | "beneath";

/** A line as it lies at one stance. */
export interface LineRoute {
  readonly id: string;
  readonly route: RouteKind;
  /** Ground length from the inlet to the target, with detours, metres; Infinity when there is no permitted way. */
  readonly run: number;
  /** Fall from outlet to rim at this stance, metres (0 for a dropped line). */
  readonly fall: number;
  /** min of the two terms of the law, metres. */
  readonly margin: number;
  /** Inlet, wall point, corners, corners of barriers, target. */
  readonly path: readonly PadPoint[];
  /** Barriers that the path bends round. */
  readonly detours: readonly string[];
}

/** A contact that makes a stance impossible, with its depth in metres (how far it would have to be pushed out). */
export interface Contact {
  readonly part: string;
  readonly against: string;
  readonly depth: number;
}

export interface StanceEvaluation {
  readonly stance: Stance;
  readonly lines: readonly LineRoute[];
  readonly contacts: readonly Contact[];
}

export interface StanceSolution extends StanceEvaluation {
  /** The maximised value: the least margin over the lines in the objective, metres. */
  readonly worst: number;
  /** No stance has a larger value than this; equals `worst` when proven. */
  readonly bound: number;
  readonly proven: boolean;
  readonly nodes: number;
}
