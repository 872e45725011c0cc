import { boxPolygon, type ConvexPolygon, type ConvexSet, convexPolygon, overlapSet } from "./convex.ts";
import { noseVector } from "./frame.ts";
import type { Growth, OriginRoom } from "./limits.ts";
import type { Facing, Obstacle, PadPoint, RigPart } from "./problem.ts";

/** The places of the rig's origin at which one part overlaps one obstacle, in rig-aligned coordinates. */
export interface Forbidden {
  readonly set: ConvexSet;
  readonly part: string;
  readonly obstacle: string;
}

/** An outline of the pad turned into rig-aligned coordinates. */
export function turned(outline: readonly PadPoint[], facing: Facing, yaw: number): ConvexPolygon {
  const { cos, sin } = noseVector(facing, yaw);
  return convexPolygon(
    outline.map((point) => ({
      x: cos * point.along + sin * point.left,
      y: cos * point.left - sin * point.along,
    })),
  );
}

/** A part of the rig grown by the obstacle's clearance and by the scatter of parking. */
export function grownPart(part: RigPart, clearance: number, growth: Growth): ConvexPolygon {
  const lengthwise = clearance + growth.lengthwise;
  const sidewise = clearance + growth.sidewise;
  return boxPolygon(
    part.fromRearMin - lengthwise,
    part.fromRearMax + lengthwise,
    part.leftMin - sidewise,
    part.leftMax + sidewise,
  );
}

/** True when part and obstacle share a height: touching heights do not. */
export function sharesHeight(part: RigPart, obstacle: Obstacle): boolean {
  return part.from < obstacle.to && obstacle.from < part.to;
}

/** Every pair of part and obstacle that can meet while the origin keeps to its room. */
export function forbiddenSets(
  parts: readonly RigPart[],
  obstacles: readonly Obstacle[],
  facing: Facing,
  yaw: number,
  growth: Growth,
  room: OriginRoom,
): readonly Forbidden[] {
  const found: Forbidden[] = [];
  for (const obstacle of obstacles) {
    const outline = turned(obstacle.outline, facing, yaw);
    if (outline.xs.length === 0) continue;
    for (const part of parts) {
      if (!sharesHeight(part, obstacle)) continue;
      const set = overlapSet(outline, grownPart(part, obstacle.clearance, growth));
      if (!missesBox(set, room)) found.push({ set, part: part.id, obstacle: obstacle.id });
    }
  }
  return found;
}

/** True when some side of the set keeps the whole box outside. */
function missesBox(set: ConvexSet, box: OriginRoom): boolean {
  for (let side = 0; side < set.nx.length; side++) {
    const nx = set.nx[side] as number;
    const ny = set.ny[side] as number;
    const x = nx > 0 ? box.xMin : box.xMax;
    const y = ny > 0 ? box.yMin : box.yMax;
    // An axis the side does not look along adds nothing, even where the box has no end.
    const least = (nx === 0 ? 0 : nx * x) + (ny === 0 ? 0 : ny * y);
    if (least >= (set.offset[side] as number)) return true;
  }
  return false;
}
