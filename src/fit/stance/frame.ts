import type { Facing, PadPoint, RigBox, RigPoint, Stance } from "./problem.ts";

/** A nose direction by its cosine and sine. */
export interface Turn {
  readonly cos: number;
  readonly sin: number;
}

/** Cosine and sine of the nose direction; the half turn of a straight stance is kept exact. */
export function noseVector(facing: Facing, yaw: number): Turn {
  const cos = Math.cos(yaw);
  return { cos: facing === "out" ? cos : -cos, sin: Math.sin(yaw) };
}

/** Pad point of the middle of the rear bumper. */
export function rearBumper(stance: Stance, length: number): PadPoint {
  if (stance.facing === "out") return { along: stance.along, left: stance.left };
  const { cos, sin } = noseVector(stance.facing, stance.yaw);
  return { along: stance.along - length * cos, left: stance.left - length * sin };
}

/** The stance whose rear bumper's middle is at the given pad point; the inverse of `rearBumper`. */
export function stanceFromRear(rear: PadPoint, facing: Facing, yaw: number, length: number): Stance {
  if (facing === "out") return { facing, along: rear.along, left: rear.left, yaw };
  const { cos, sin } = noseVector(facing, yaw);
  return { facing, along: rear.along + length * cos, left: rear.left + length * sin, yaw };
}

/** Where a point of the rig stands on the pad, metres. `length` is the body's length. */
export function rigToPad(stance: Stance, length: number, point: RigPoint): PadPoint {
  const { cos, sin } = noseVector(stance.facing, stance.yaw);
  const rear = rearBumper(stance, length);
  return {
    along: rear.along + cos * point.fromRear - sin * point.left,
    left: rear.left + sin * point.fromRear + cos * point.left,
  };
}

/** Where a point of the pad lies in the rig frame, metres; the inverse of `rigToPad`. */
export function padToRig(stance: Stance, length: number, point: PadPoint): RigPoint {
  const { cos, sin } = noseVector(stance.facing, stance.yaw);
  const rear = rearBumper(stance, length);
  const along = point.along - rear.along;
  const left = point.left - rear.left;
  return { fromRear: cos * along + sin * left, left: cos * left - sin * along };
}

/** The body rectangle on the pad, counter-clockwise from the rear right corner. */
export function bodyOutline(stance: Stance, length: number, width: number): readonly PadPoint[] {
  return boxOutline(stance, length, {
    fromRearMin: 0,
    fromRearMax: length,
    leftMin: -width / 2,
    leftMax: width / 2,
  });
}

/** A box of the rig on the pad, counter-clockwise from its rear right corner. `length` is the body's length. */
export function boxOutline(
  stance: Stance,
  length: number,
  box: Pick<RigBox, "fromRearMin" | "fromRearMax" | "leftMin" | "leftMax">,
): readonly PadPoint[] {
  return [
    rigToPad(stance, length, { fromRear: box.fromRearMin, left: box.leftMin }),
    rigToPad(stance, length, { fromRear: box.fromRearMax, left: box.leftMin }),
    rigToPad(stance, length, { fromRear: box.fromRearMax, left: box.leftMax }),
    rigToPad(stance, length, { fromRear: box.fromRearMin, left: box.leftMax }),
  ];
}
