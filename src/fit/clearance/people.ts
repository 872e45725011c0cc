/**
 * Room for people: in front of doors, before the pedestal, along the side with the services. All distances are common
 * practice without a source; each may be overridden. None of them decides a verdict alone.
 */
import clearances from "../../../data/clearances.json" with { type: "json" };
import type { CompletedDoor, RigWall } from "../../rig/completed.ts";
import type { CompletedSite } from "../../site/completed.ts";
import type { Check } from "../answer.ts";
import type { Device } from "../devices.ts";
import type { Say } from "../say.ts";
import type { PadPoint } from "../stance/problem.ts";
import { TOUCH_TOLERANCE } from "../stance/tolerance.ts";
import { check, notApplicable, unknownCheck } from "./check.ts";
import { heightsMeet, type PlacedRig } from "./placed.ts";
import { nearest, roomOutward } from "./polygon.ts";

export interface PeopleOptions {
  readonly doorClear: number;
  readonly pedestalClear: number;
  readonly serviceSideClear: number;
}

export const PEOPLE_DEFAULTS: PeopleOptions = {
  doorClear: clearances.doorClear.value,
  pedestalClear: clearances.pedestalClear.value,
  serviceSideClear: clearances.serviceSideClear.value,
};

interface Solid {
  readonly id: string;
  readonly what: string;
  readonly outline: readonly PadPoint[];
  readonly from: number;
  readonly to: number;
}

function solids(site: CompletedSite, devices: readonly Device[]): Solid[] {
  const stands = devices.map((device) => ({
    id: device.id,
    what: device.service === "power" ? "pedestal" : "riser",
    outline: device.outline,
    from: 0,
    to: device.height,
  }));
  return [...site.obstacles.filter((obstacle) => obstacle.bars !== "line"), ...stands];
}

interface Free {
  readonly room: number;
  readonly solid: Solid | null;
}

/** Free metres outward from a stretch of wall below a person's height. */
function freeBefore(
  placed: PlacedRig,
  wall: RigWall,
  start: number,
  end: number,
  height: number,
  things: readonly Solid[],
): Free {
  let best: Free = { room: Infinity, solid: null };
  for (const solid of things) {
    if (!heightsMeet({ from: 0, to: height }, solid)) continue;
    const room = roomOutward(placed.stance, placed, { wall, start, end }, solid.outline);
    if (room < best.room) best = { room, solid };
  }
  return best;
}

function doorCheck(placed: PlacedRig, door: CompletedDoor, things: readonly Solid[], wanted: number, say: Say): Check {
  const init = {
    id: "door.clear",
    family: "risk" as const,
    deciding: false,
    unit: "m" as const,
    limit: wanted,
    source: clearances.doorClear.source,
  };
  if (!door.given) {
    const why = "The door's place is only assumed, so the room in front of it is not judged.";
    return unknownCheck({ ...init, why }, "Measure where the door is", door.path);
  }
  const start = door.fromRear.value;
  const free = freeBefore(placed, door.wall, start, start + door.width.value, clearances.doorHeight.value, things);
  const asked = `${say.length(wanted)} in front of the door ${door.id} should be clear for door and step`;
  if (free.solid === null)
    return check({ ...init, status: "pass", value: null, why: `${asked}; nothing on record stands there.` });
  const status = free.room >= wanted - TOUCH_TOLERANCE ? "pass" : "tight";
  return check({
    ...init,
    status,
    value: free.room,
    least: true,
    why: `${asked}; ${say.available(free.room)} is clear up to the ${free.solid.what} ${free.solid.id}.`,
    ...(status === "pass" ? {} : { change: "Stand further along or face the other way." }),
  });
}

/** door.clear, one check for each door on record; doors that are only assumed are unknown. */
export function doorsClear(
  placed: PlacedRig,
  site: CompletedSite,
  devices: readonly Device[],
  say: Say,
  options: PeopleOptions = PEOPLE_DEFAULTS,
): Check[] {
  const { doors } = placed.rig;
  if (doors.length === 0) {
    const why = "The rig has no door on record.";
    return [
      unknownCheck(
        { id: "door.clear", family: "risk", deciding: false, unit: "m", source: clearances.doorClear.source, why },
        "Measure where the door is",
        "/rig/doors",
      ),
    ];
  }
  const things = solids(site, devices);
  return doors.map((door) => doorCheck(placed, door, things, options.doorClear, say));
}

/** workspace.pedestal: between the nearest power pedestal and the rig with its slides out. */
export function pedestalSpace(
  placed: PlacedRig,
  devices: readonly Device[],
  say: Say,
  options: PeopleOptions = PEOPLE_DEFAULTS,
): Check {
  const id = "workspace.pedestal";
  const pedestals = devices.filter((device) => device.service === "power");
  if (pedestals.length === 0) return notApplicable(id, "No pedestal with a known place stands here.");
  let best = { room: Infinity, part: "", device: pedestals[0] as Device };
  for (const device of pedestals) {
    for (const part of [placed.body, ...placed.slides]) {
      const { distance } = nearest(part.outline, device.outline);
      if (distance < best.room) best = { room: distance, part: part.id, device };
    }
  }
  const wanted = options.pedestalClear;
  const status = best.room >= wanted - TOUCH_TOLERANCE ? "pass" : "tight";
  const body = best.device.given ? "" : " (its size is assumed)";
  return check({
    id,
    family: "risk",
    deciding: false,
    status,
    value: best.room,
    limit: wanted,
    least: true,
    unit: "m",
    source: clearances.pedestalClear.source,
    why: `Between the pedestal ${best.device.id}${body} and the ${best.part} are ${say.available(best.room)}; ${say.length(wanted)} leaves room to work.`,
    ...(status === "pass" ? {} : { change: "Stand further from the pedestal." }),
  });
}

/** workspace.side: along each wall that has connections, outward from the wall and from its open slides. */
export function serviceSide(
  placed: PlacedRig,
  site: CompletedSite,
  say: Say,
  options: PeopleOptions = PEOPLE_DEFAULTS,
): Check {
  const id = "workspace.side";
  const walls = [...new Set(placed.rig.connections.map((connection) => connection.wall))];
  if (walls.length === 0) return notApplicable(id, "The rig has no connection on record.");
  const wanted = options.serviceSideClear;
  const init = {
    id,
    family: "risk" as const,
    deciding: false,
    unit: "m" as const,
    limit: wanted,
    source: clearances.serviceSideClear.source,
  };
  const things = solids(site, []);
  let best: Free & { wall: RigWall } = { room: Infinity, solid: null, wall: walls[0] as RigWall };
  for (const wall of walls) {
    for (const { start, end, out } of stretches(placed, wall)) {
      const free = freeBefore(placed, wall, start, end, clearances.workHeight.value, things);
      const room = Math.max(0, free.room - out);
      if (room < best.room) best = { room, solid: free.solid, wall };
    }
  }
  const asked = `${say.length(wanted)} along the wall with the connections leaves room to work`;
  if (best.solid === null)
    return check({ ...init, status: "pass", value: null, why: `${asked}; nothing on record stands there.` });
  const status = best.room >= wanted - TOUCH_TOLERANCE ? "pass" : "tight";
  return check({
    ...init,
    status,
    value: best.room,
    least: true,
    why: `${asked}; on the ${best.wall} side ${say.available(best.room)} is clear up to the ${best.solid.what} ${best.solid.id}, slides out.`,
    ...(status === "pass" ? {} : { change: "Stand further to the other side, or keep the slide in." }),
  });
}

/** The wall itself and each open slide on it with how far it stands out. */
function stretches(placed: PlacedRig, wall: RigWall): { start: number; end: number; out: number }[] {
  const half = placed.width / 2;
  const side = wall === "left" || wall === "right";
  const whole = side ? { start: 0, end: placed.length, out: 0 } : { start: -half, end: half, out: 0 };
  const open = placed.rig.slideouts.filter(
    (slide) => slide.wall === wall && placed.slides.some((part) => part.id === slide.id),
  );
  return [
    whole,
    ...open.map((slide) => ({
      start: slide.fromRear.value,
      end: slide.fromRear.value + slide.length.value,
      out: slide.depth.value,
    })),
  ];
}
