import { type ConvexPolygon, type ConvexSet, overlapWithBox } from "./convex.ts";
import { noseVector } from "./frame.ts";
import type { Growth, OriginRoom } from "./limits.ts";
import { outlineOf } from "./outlines.ts";
import type { Facing, Obstacle, RigPart } from "./problem.ts";

/** The places of the rig's origin at which one part overlaps one obstacle, in rig-aligned coordinates. */
export interface Forbidden {
  readonly set: ConvexSet;
  readonly part: string;
  readonly obstacle: string;
}

/** Where the rig's origin may be: the box that pairs of parts and obstacles are looked at for. */
export type OriginBox = Pick<OriginRoom, "xMin" | "xMax" | "yMin" | "yMax">;

/** True when part and obstacle share a height: touching heights do not. */
function sharesHeight(part: RigPart, obstacle: Obstacle): boolean {
  return part.from < obstacle.to && obstacle.from < part.to;
}

/** Every pair of part and obstacle that can meet while the origin keeps to its room. */
export function forbiddenSets(
  parts: readonly RigPart[],
  obstacles: readonly Obstacle[],
  facing: Facing,
  yaw: number,
  growth: Growth,
  room: OriginBox,
): readonly Forbidden[] {
  const { cos, sin } = noseVector(facing, yaw);
  const wide = Math.abs(cos);
  const high = Math.abs(sin);
  const found: Forbidden[] = [];
  for (const obstacle of obstacles) {
    const outline = outlineOf(obstacle.outline);
    const { extent } = outline;
    // Bounding boxes first: where the origin would have to be for the part's box to meet the obstacle's.
    const x = cos * extent.x + sin * extent.y;
    const y = cos * extent.y - sin * extent.x;
    const reachX = wide * extent.halfX + high * extent.halfY + obstacle.clearance + growth.lengthwise;
    const reachY = wide * extent.halfY + high * extent.halfX + obstacle.clearance + growth.sidewise;
    const fromX = x - reachX - room.xMax;
    const toX = x + reachX - room.xMin;
    const fromY = y - reachY - room.yMax;
    const toY = y + reachY - room.yMin;
    for (const part of parts) {
      // Written so that an outline without corners, whose extent is no number, meets nothing.
      const meets = fromX < part.fromRearMax && toX > part.fromRearMin && fromY < part.leftMax && toY > part.leftMin;
      if (!meets || !sharesHeight(part, obstacle)) continue;
      const set = overlapOf(part, obstacle.clearance, outline.turned(cos, sin).polygon, growth);
      if (set !== null && !missesBox(set, room)) found.push({ set, part: part.id, obstacle: obstacle.id });
    }
  }
  return found;
}

/** The places of the origin at which a part, grown by the clearance and by the scatter of parking, meets an outline. */
function overlapOf(part: RigPart, clearance: number, outline: ConvexPolygon, growth: Growth): ConvexSet | null {
  if (outline.xs.length === 0) return null;
  const lengthwise = clearance + growth.lengthwise;
  const sidewise = clearance + growth.sidewise;
  return overlapWithBox(
    outline,
    part.fromRearMin - lengthwise,
    part.fromRearMax + lengthwise,
    part.leftMin - sidewise,
    part.leftMax + sidewise,
  );
}

/** True when some side of the set keeps the whole box outside. */
function missesBox(set: ConvexSet, box: OriginBox): boolean {
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
