/**
 * Rigs and stands as the National Electrical Code describes them, in feet. Stand frame of the code's text: x to the
 * right of the stand's left edge, y forward from its rear. Marks say how each rule was come by.
 */
import type { Fit } from "../../src/fit/answer.ts";
import { fitRig } from "../../src/fit/fit.ts";
import type { RigWall } from "../../src/rig/completed.ts";
import { BARE, exact, options, rig, site } from "../fit/core/builders.ts";

export const FOOT = 0.3048;

/**
 * Least length of a supply cord from the face of its entrance to the face of its plug, feet.
 *
 * 551.46 (recreational vehicles): 25 ft at the side (read second-hand, a forum page with a worked example), 30 ft at
 * the rear (from memory); an entrance farther than 15 ft from the rear adds what is beyond (read second-hand, the same
 * page); one higher than 3 ft adds what is above (from memory for 551.46; read for its twin 552.44).
 * 552.44 (park trailers, 2008, read): 23 ft at the side, 28 ft at the rear, above 3 ft added; no more than 36.5 ft.
 */
export interface Entrance {
  readonly wall: "side" | "rear";
  readonly fromRear: number;
  readonly height: number;
}

const LEAST = { "551.46": { side: 25, rear: 30 }, "552.44": { side: 23, rear: 28 } } as const;
const HIGH = 3;
const FAR = 15;

export function leastCord(rule: keyof typeof LEAST, entrance: Entrance): number {
  const beyond = rule === "551.46" && entrance.wall === "side" ? Math.max(0, entrance.fromRear - FAR) : 0;
  return LEAST[rule][entrance.wall] + beyond + Math.max(0, entrance.height - HIGH);
}

export interface Connected {
  readonly wall: RigWall;
  /** Feet from the rear on a side wall; on the rear wall feet inward from the outside of the left wall. */
  readonly at: number;
  readonly height: number;
  readonly cord: number;
}

export interface Pedestal {
  readonly x: number;
  readonly y: number;
  readonly height: number;
}

export interface Stand {
  readonly length: number;
  readonly width: number;
}

/** A coach of 40 ft by 8.5 ft. */
export const COACH: Stand = { length: 40, width: 8.5 };

/**
 * The product's answer for a coach on its stand, with nothing kept in hand unless `allowance` (feet) says so. A stand as
 * large as the coach leaves one place: the vehicle's left on the stand's left edge, its rear on the stand's rear.
 */
export function fitOf(
  inlet: Connected,
  pedestal: Pedestal,
  stand: Stand = COACH,
  allowance = 0,
  facing: "out" | "in" = "out",
): Fit {
  const half = (COACH.width / 2) * FOOT;
  const length = COACH.length * FOOT;
  const rear = inlet.wall === "rear";
  const spec = { service: "power", wall: inlet.wall, fromRear: inlet.at * FOOT, length: inlet.cord * FOOT } as const;
  const bare = rig({ length, width: 2 * half, connections: [{ ...spec, height: inlet.height * FOOT }] }, { doors: [] });
  const connections = bare.connections.map((one) => ({
    ...one,
    left: rear ? exact(half - inlet.at * FOOT) : one.left,
  }));
  const place = {
    along: pedestal.y * FOOT,
    left: (stand.width / 2 - pedestal.x) * FOOT,
    height: pedestal.height * FOOT,
  };
  return fitRig({
    rig: { ...bare, connections },
    site: site({ length: stand.length * FOOT, width: stand.width * FOOT, hookups: [{ service: "power", ...place }] }),
    options: options({
      ...BARE,
      allowance: { power: allowance * FOOT },
      awning: "in",
      detail: "summary",
      facings: [facing],
    }),
  });
}

/** The power line of an answer, lengths in feet. */
export function powerLine(fit: Fit) {
  const line = fit.lines.find(({ service }) => service === "power");
  if (line?.needed == null || line.margin === null || line.neededLeast === null) throw new Error("no power line");
  return {
    needed: line.needed / FOOT,
    neededLeast: line.neededLeast / FOOT,
    margin: line.margin / FOOT,
    verdict: line.verdict,
    route: line.route,
  };
}
