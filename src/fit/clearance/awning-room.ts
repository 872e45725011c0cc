/** Room for an awning at the stance: free metres outward from its wall against what reaches its height. */

import { normaliseBearing } from "../../geo/tangent-plane.ts";
import type { CompletedAwning } from "../../rig/completed.ts";
import type { CompletedSite, SiteObstacle } from "../../site/completed.ts";
import type { AwningRoomAnswer, Check } from "../answer.ts";
import type { Say } from "../say.ts";
import { noseVector } from "../stance/frame.ts";
import type { Stance } from "../stance/problem.ts";
import { valueWords } from "../value-words.ts";
import { check, notApplicable, unknownCheck } from "./check.ts";
import { type Judgement, judge, total } from "./compare.ts";
import { heightsMeet, type PlacedRig } from "./placed.ts";
import { roomOutward } from "./polygon.ts";

interface AwningRoom {
  readonly answer: AwningRoomAnswer;
  readonly check: Check;
}

type Wall = "left" | "right" | "rear" | "front";

/** Unit vector in the pad frame out of a wall of the rig at a stance. */
function outwardOf(wall: Wall, stance: Stance): { readonly along: number; readonly left: number } {
  const { cos, sin } = noseVector(stance.facing, stance.yaw);
  return {
    left: { along: -sin, left: cos },
    right: { along: sin, left: -cos },
    front: { along: cos, left: sin },
    rear: { along: -cos, left: -sin },
  }[wall];
}

/** Side of the pad to which a wall of the rig looks at a stance (nearest of the four). */
export function padSideOf(wall: Wall, stance: Stance): "left" | "right" | "rear" | "exit" {
  const outward = outwardOf(wall, stance);
  if (Math.abs(outward.along) > Math.abs(outward.left)) return outward.along > 0 ? "exit" : "rear";
  return outward.left > 0 ? "left" : "right";
}

/** True bearing out of a wall of the rig, radians; `heading` is that of the pad's axis. */
export function azimuthOf(wall: Wall, stance: Stance, heading: number): number {
  const { along, left } = outwardOf(wall, stance);
  return normaliseBearing(heading - Math.atan2(left, along));
}

/** True bearing out of a side of the pad, radians. */
export function padSideAzimuth(side: "left" | "right" | "rear" | "exit", heading: number): number {
  const quarter = Math.PI / 2;
  return normaliseBearing(heading + { exit: 0, right: quarter, rear: 2 * quarter, left: -quarter }[side]);
}

/** Nearest thing straight outward from the awning that reaches into its heights. */
function nearestOutward(
  placed: PlacedRig,
  awning: CompletedAwning,
  site: CompletedSite,
): { clear: number; obstacle: SiteObstacle | null } {
  const part = placed.awnings.find((one) => one.id === awning.id);
  const start = awning.fromRear.value;
  const stretch = { wall: awning.wall, start, end: start + awning.length.value };
  let clear = Infinity;
  let nearest: SiteObstacle | null = null;
  for (const obstacle of site.obstacles) {
    if (part === undefined || obstacle.bars === "line" || !heightsMeet(part, obstacle)) continue;
    const room = roomOutward(placed.stance, placed, stretch, obstacle.outline);
    if (room < clear) {
      clear = room;
      nearest = obstacle;
    }
  }
  return { clear, obstacle: nearest };
}

/** One awning. `required` makes the check decide. */
function awningRoom(
  placed: PlacedRig,
  awning: CompletedAwning,
  site: CompletedSite,
  required: boolean,
  say: Say,
): AwningRoom {
  const padSide = padSideOf(awning.wall, placed.stance);
  const needed = awning.projection.value;
  const told = `Open, the awning ${awning.id} needs ${say.needed(needed)} on the pad's ${padSide} side`;
  const init = { id: "awning.room", family: "cannot" as const, deciding: required, value: needed, unit: "m" as const };
  const make = (made: Check, clear: number | null): AwningRoom => ({
    answer: { id: awning.id, side: awning.wall, padSide, room: made.status, needed, clear, why: made.why },
    check: made,
  });
  if (site.rules.awning === false) {
    const why = "The site's rules do not allow an awning.";
    const change = "Leave it in, or ask the host.";
    return make(
      check({
        ...init,
        family: "may-not",
        status: "fail",
        limit: null,
        source: "the site's record, /rules/awning",
        why,
        change,
      }),
      null,
    );
  }
  const { clear, obstacle } = nearestOutward(placed, awning, site);
  if (obstacle === null) {
    const why = `${told}; nothing on record stands in it. Look before you open it.`;
    return make(check({ ...init, status: "pass", limit: null, source: "the obstacles on record", why }), null);
  }
  const margin = total([{ of: awning.projection, times: -1 }], clear);
  // The obstacle's own error joins that of the awning.
  const judged: Judgement = judge({ ...margin, sigma: Math.hypot(margin.sigma, obstacle.sigma, obstacle.sigmaShared) });
  const room = margin.value < 0 ? `${say.needed(-margin.value)} short` : `${say.available(margin.value)} to spare`;
  const height = obstacle.heightGiven
    ? ""
    : ` The height of the ${obstacle.what} is not on record and counts as reaching the awning.`;
  const why = `${told}; ${say.available(clear)} is clear up to the ${obstacle.what} ${obstacle.id}: ${room}.${height}`;
  const source = `the ${obstacle.what} on record (${obstacle.path})`;
  const change =
    judged === "unknown"
      ? `Measure ${valueWords(margin.doubt ?? obstacle.path)}.`
      : "Stand further from it, face the other way, or leave the awning in.";
  return make(
    check({ ...init, status: judged, limit: clear, source, why, ...(judged === "pass" ? {} : { change }) }),
    clear,
  );
}

/** Every awning; a rig without one gets a single "not applicable". */
export function awningRooms(
  placed: PlacedRig,
  site: CompletedSite,
  required: boolean,
  say: Say,
): { answers: AwningRoom["answer"][]; checks: Check[] } {
  const { awnings } = placed.rig;
  if (awnings.length === 0) {
    if (!required) return { answers: [], checks: [notApplicable("awning.room", "The rig has no awning on record.")] };
    const why = "An awning is required and the rig has none on record.";
    const made = unknownCheck(
      { id: "awning.room", family: "cannot", deciding: true, unit: "m", source: "the rig's record", why },
      "Add the awning",
      "/rig/awnings",
    );
    return { answers: [], checks: [made] };
  }
  const rooms = awnings.map((awning) => awningRoom(placed, awning, site, required, say));
  return { answers: rooms.map((room) => room.answer), checks: rooms.map((room) => room.check) };
}
