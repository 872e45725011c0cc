/**
 * Zones fixed to the rig that no line may cross: in front of a door, over a hot outlet, under a tyre. Only what the
 * record gives makes a zone: an assumed door decides which side people use, it never bars a line.
 */
import type { CompletedRig, RigWall } from "../rig/completed.ts";
import { nominal, type Pick } from "./lines/choice.ts";
import type { RigKeepOut } from "./stance/problem.ts";

/** Floor in front of a door that people step on, metres. Common practice, no source. */
const DOOR_DEPTH = 0.6;
/** Half the width and the depth of the hot zone before a furnace, heater or exhaust outlet, metres. Assumed. */
const HOT_HALF_WIDTH = 0.3;
const HOT_DEPTH = 0.5;
/** Radius and width of a tyre, metres. Assumed: 0.8 m over, 0.3 m wide. */
export const TYRE_RADIUS = 0.4;
const TYRE_WIDTH = 0.3;

interface Zone {
  readonly id: string;
  readonly wall: RigWall;
  readonly from: number;
  readonly to: number;
  readonly depth: number;
}

/** A zone outside a wall, in the rig frame. */
function outside(zone: Zone, length: number, width: number): RigKeepOut {
  const half = width / 2;
  switch (zone.wall) {
    case "left":
      return box(zone.id, zone.from, zone.to, half, half + zone.depth);
    case "right":
      return box(zone.id, zone.from, zone.to, -half - zone.depth, -half);
    case "rear":
      return box(zone.id, -zone.depth, 0, zone.from, zone.to);
    case "front":
      return box(zone.id, length, length + zone.depth, zone.from, zone.to);
  }
}

function box(id: string, fromRearMin: number, fromRearMax: number, leftMin: number, leftMax: number): RigKeepOut {
  return { id, fromRearMin, fromRearMax, leftMin, leftMax };
}

/** Tyres, for lines that run beneath. */
function tyres(rig: CompletedRig, width: number, pick: Pick): RigKeepOut[] {
  const rear = pick(rig.rearOverhang);
  const axles = [rear, rear + pick(rig.wheelbase)];
  const half = width / 2;
  return axles.flatMap((axle, index) => [
    box(`tyre ${index} left`, axle - TYRE_RADIUS, axle + TYRE_RADIUS, half - TYRE_WIDTH, half),
    box(`tyre ${index} right`, axle - TYRE_RADIUS, axle + TYRE_RADIUS, -half, -half + TYRE_WIDTH),
  ]);
}

/** All zones of a rig. On the rear and front walls `fromRear` of a door is its offset to the left of the centreline. */
export function rigKeepOuts(rig: CompletedRig, pick: Pick = nominal): readonly RigKeepOut[] {
  const length = pick(rig.length);
  const width = pick(rig.width);
  const doors = rig.doors
    .filter((door) => door.given)
    .map((door) => {
      const from = pick(door.fromRear);
      return outside(
        { id: door.id, wall: door.wall, from, to: from + pick(door.width), depth: DOOR_DEPTH },
        length,
        width,
      );
    });
  const hot = rig.hotOutlets.map((outlet) => {
    const at = pick(outlet.fromRear);
    const zone = { from: at - HOT_HALF_WIDTH, to: at + HOT_HALF_WIDTH, depth: HOT_DEPTH };
    return outside({ id: outlet.id, wall: outlet.wall, ...zone }, length, width);
  });
  const beneath = rig.connections.some((connection) => connection.mayRunBeneath);
  return [...doors, ...hot, ...(beneath ? tyres(rig, width, pick) : [])];
}
