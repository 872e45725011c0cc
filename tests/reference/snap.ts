/**
 * A problem with its lengths put on a grid, as they come from a tape: many things then touch or line up exactly, which
 * numbers drawn at random never do. What would become flat, bent inwards or stand over an inlet keeps its own numbers
 * or is left out.
 */
import type { LineTask, Obstacle, PadPoint, RigKeepOut, RigPart, StanceProblem } from "../../src/fit/stance/problem.ts";
import { coversInlet } from "./case-things.ts";
import type { FlatBox } from "./planar.ts";

const FLAT = 1e-9;

function bendsLeftEverywhere(outline: readonly PadPoint[]): boolean {
  return outline.every((a, i) => {
    const b = outline[(i + 1) % outline.length] as PadPoint;
    const c = outline[(i + 2) % outline.length] as PadPoint;
    return (b.along - a.along) * (c.left - b.left) - (b.left - a.left) * (c.along - b.along) > FLAT;
  });
}

/** The problem on the grid; heights, laws and directions stay as they are. */
export function snapped(problem: StanceProblem, grid: number): StanceProblem {
  const put = (value: number): number => Math.round(value / grid) * grid;
  const rig = { length: put(problem.length), width: put(problem.width), height: 0 };
  const half = rig.width / 2;
  // Walls stay walls, whatever the grid makes of half a width.
  const across = (left: number): number => (Math.abs(left) === problem.width / 2 ? Math.sign(left) * half : put(left));
  const lengthwise = (fromRear: number): number => (fromRear === problem.length ? rig.length : put(fromRear));
  const box = <B extends FlatBox>(from: B): B => ({
    ...from,
    fromRearMin: lengthwise(from.fromRearMin),
    fromRearMax: lengthwise(from.fromRearMax),
    leftMin: across(from.leftMin),
    leftMax: across(from.leftMax),
  });
  const outline = (from: readonly PadPoint[]): readonly PadPoint[] => {
    const to = from.map((point) => ({ along: put(point.along), left: put(point.left) }));
    return bendsLeftEverywhere(to) ? to : from;
  };
  const line = (from: LineTask): LineTask => {
    const fromRear = Math.min(rig.length, Math.max(0, lengthwise(from.inlet.fromRear)));
    const left = Math.min(half, Math.max(-half, across(from.inlet.left)));
    return {
      ...from,
      inlet: { fromRear, left },
      target: { along: put(from.target.along), left: put(from.target.left) },
    };
  };
  const lines = problem.lines.map(line);
  const isZone = (zone: RigKeepOut): boolean =>
    zone.fromRearMax > zone.fromRearMin &&
    zone.leftMax > zone.leftMin &&
    !lines.some((task) => coversInlet(zone, task, rig));
  return {
    ...problem,
    length: rig.length,
    width: rig.width,
    parts: problem.parts.map(
      (part): RigPart => ({
        ...box(part),
        limits: part.limits.map((limit) => ({ ...limit, max: put(limit.max) })),
      }),
    ),
    keepOuts: problem.keepOuts.map(box).filter(isZone),
    obstacles: problem.obstacles.map((one): Obstacle => ({ ...one, outline: outline(one.outline) })),
    barriers: problem.barriers.map((one) => ({ ...one, outline: outline(one.outline) })),
    lines,
  };
}
