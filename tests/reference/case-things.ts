/** What stands about a generated pad: posts, trees, tables, walls before hookups, zones on the rig. All invented. */
import type { LineBarrier, LineTask, Obstacle, PadPoint, RigKeepOut, Wall } from "../../src/fit/stance/problem.ts";
import type { Pad, Rig } from "./cases.ts";
import type { Random } from "./random.ts";

/** Metres kept between an inlet's way to its wall and any keep-out. */
const INLET_GAP = 0.05;
/** A target is either this deep inside a barrier or this far from it, metres. */
const TARGET_GAP = 0.02;

/** A box turned by `angle`, counter-clockwise. */
function turnedBox(at: PadPoint, long: number, wide: number, angle: number): PadPoint[] {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return [
    [-long / 2, -wide / 2],
    [long / 2, -wide / 2],
    [long / 2, wide / 2],
    [-long / 2, wide / 2],
  ].map(([x = 0, y = 0]) => ({ along: at.along + cos * x - sin * y, left: at.left + sin * x + cos * y }));
}

/** A convex polygon of 3 to 8 edges, counter-clockwise: points of an ellipse at well parted angles. */
function blob(random: Random, at: PadPoint, size: number): PadPoint[] {
  const count = random.whole(3, 8);
  const start = random.between(0, 2 * Math.PI);
  const flat = random.between(0.6, 1);
  return Array.from({ length: count }, (_, i) => {
    const angle = start + ((i + random.between(-0.3, 0.3)) * 2 * Math.PI) / count;
    return { along: at.along + size * Math.cos(angle), left: at.left + size * flat * Math.sin(angle) };
  });
}

type Shape = Pick<Obstacle, "what" | "outline" | "from" | "to">;

function thingAt(random: Random, at: PadPoint): Shape {
  const angle = random.chance(0.4) ? 0 : random.between(0, Math.PI);
  switch (random.whole(0, 5)) {
    case 0:
      return { what: "post", outline: turnedBox(at, 0.1, 0.14, 0), from: 0, to: random.between(0.6, 1.4) };
    case 1:
      return { what: "tree", outline: blob(random, at, random.between(0.15, 0.6)), from: 0, to: 8 };
    case 2:
      return { what: "pedestal", outline: turnedBox(at, 0.3, 0.34, angle), from: 0, to: 1.2 };
    case 3:
      return { what: "table", outline: turnedBox(at, 1.8, random.between(0.7, 1.5), angle), from: 0, to: 0.75 };
    case 4:
      return {
        what: "branch",
        outline: blob(random, at, random.between(0.5, 1.6)),
        from: random.between(2, 3.6),
        to: 6,
      };
    default:
      return {
        what: "boulder",
        outline: blob(random, at, random.between(0.2, 0.8)),
        from: 0,
        to: random.between(0.2, 1),
      };
  }
}

/** Obstacles along the sides and the rear of the pad, some of them standing in it. */
export function obstaclesAbout(random: Random, pad: Pad, count: number): Obstacle[] {
  return Array.from({ length: count }, (_, i) => {
    const side = random.chance(0.5) ? 1 : -1;
    const inward = random.chance(0.35) ? random.between(0, 0.5) : -random.between(0, 1.8);
    const at = random.chance(0.85)
      ? {
          along: random.between(-0.5, pad.length + 0.5),
          left: pad.middle + side * (pad.width / 2 - inward),
        }
      : { along: random.between(-1, 0.3), left: pad.middle + random.between(-0.5, 0.5) * pad.width };
    return {
      id: `obstacle-${i + 1}`,
      ...thingAt(random, at),
      clearance: random.chance(0.6) ? 0 : random.between(0.05, 0.3),
    };
  });
}

/** Distance by which a point lies outside the polygon (positive) or inside (negative), to the nearest edge line. */
function outsideBy(outline: readonly PadPoint[], point: PadPoint): number {
  return Math.max(
    ...outline.map((p, i) => {
      const q = outline[(i + 1) % outline.length] as PadPoint;
      const length = Math.hypot(q.along - p.along, q.left - p.left);
      return ((q.left - p.left) * (point.along - p.along) - (q.along - p.along) * (point.left - p.left)) / length;
    }),
  );
}

/** One to three walls, hedges or tables, most of them between a hookup and the pad; solid where they reach into it. */
export function barriersBefore(
  random: Random,
  pad: Pad,
  lines: readonly LineTask[],
): { barriers: LineBarrier[]; solids: Obstacle[] } {
  const barriers: LineBarrier[] = [];
  const solids: Obstacle[] = [];
  const count = random.whole(1, 3);
  for (let attempt = 0; barriers.length < count && attempt < 50; attempt++) {
    const target = (lines[random.whole(0, lines.length - 1)] as LineTask).target;
    const side = target.left > pad.middle ? 1 : -1;
    const edge = pad.middle + (side * pad.width) / 2;
    const between = random.between(0, 1);
    const at = {
      along: target.along + random.between(-2, 2),
      left: edge + between * (target.left - edge) + side * random.between(-0.1, 0.2),
    };
    const round = random.chance(0.1);
    const outline = random.chance(0.7)
      ? turnedBox(round ? target : at, random.between(0.8, 5), random.between(0.08, 0.4), random.between(-0.5, 0.5))
      : blob(random, round ? target : at, random.between(0.3, 1.4));
    if (lines.some((line) => Math.abs(outsideBy(outline, line.target)) < TARGET_GAP)) continue;
    const id = `barrier-${barriers.length + 1}`;
    barriers.push({ id, what: "wall", outline });
    if (random.chance(0.9)) solids.push({ id: `${id}-solid`, what: "wall", outline, from: 0, to: 1.5, clearance: 0 });
  }
  return { barriers, solids };
}

/** True when the way from an inlet to its wall comes near the zone. */
export function coversInlet(zone: RigKeepOut, line: LineTask, rig: Rig): boolean {
  const half = rig.width / 2;
  const wall = {
    left: [undefined, half],
    right: [undefined, -half],
    rear: [0, undefined],
    front: [rig.length, undefined],
  }[line.wall];
  const [x0, y0] = [line.inlet.fromRear, line.inlet.left];
  const [x1, y1] = [wall[0] ?? x0, wall[1] ?? y0];
  return (
    Math.max(x0, x1) > zone.fromRearMin - INLET_GAP &&
    Math.min(x0, x1) < zone.fromRearMax + INLET_GAP &&
    Math.max(y0, y1) > zone.leftMin - INLET_GAP &&
    Math.min(y0, y1) < zone.leftMax + INLET_GAP
  );
}

/** One or two zones on walls: doors, hot outlets, jacks; none of them over an inlet. */
export function keepOutsOn(random: Random, rig: Rig, lines: readonly LineTask[]): RigKeepOut[] {
  const half = rig.width / 2;
  const zones: RigKeepOut[] = [];
  const count = random.whole(1, 2);
  for (let attempt = 0; zones.length < count && attempt < 50; attempt++) {
    const wall = random.pick<Wall>(["left", "left", "right", "rear", "front"]);
    const depth = random.between(0.3, 1.1);
    const wide = random.between(0.2, 1);
    // Some zones stand about a corner of the body.
    const over = random.chance(0.2) ? wide * random.between(0, 0.8) : 0;
    const lengthwise = random.between(-over, rig.length - wide + over);
    const across = random.between(-half - over, half - wide + over);
    const inside = random.chance(0.5) ? 0 : random.between(0.05, 0.3);
    const zone: RigKeepOut = {
      id: `zone-${zones.length + 1}`,
      ...{
        left: {
          fromRearMin: lengthwise,
          fromRearMax: lengthwise + wide,
          leftMin: half - inside,
          leftMax: half + depth,
        },
        right: {
          fromRearMin: lengthwise,
          fromRearMax: lengthwise + wide,
          leftMin: -half - depth,
          leftMax: inside - half,
        },
        rear: { fromRearMin: -depth, fromRearMax: inside, leftMin: across, leftMax: across + wide },
        front: {
          fromRearMin: rig.length - inside,
          fromRearMax: rig.length + depth,
          leftMin: across,
          leftMax: across + wide,
        },
      }[wall],
    };
    if (!lines.some((line) => coversInlet(zone, line, rig))) zones.push(zone);
  }
  return zones;
}
