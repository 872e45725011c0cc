import type {
  Facing,
  LineTask,
  Obstacle,
  PadPoint,
  RigPart,
  StanceProblem,
  StanceSolution,
} from "../../../src/fit/stance/index.ts";
import { type Infeasible, rigToPad } from "../../../src/fit/stance/index.ts";

/**
 * The check cases were drawn in a frame whose first axis points inward from the road; the product's `along` points to
 * the exit. A half turn about the pad takes one to the other: along = depth - x, left = -y; nose-in (heading 0) is
 * facing "in". `DEPTH` is where the drawn x of the pad's rear edge lies.
 */
export const DEPTH = 14;

export const toPad = (x: number, y: number): PadPoint => ({ along: DEPTH - x, left: -y });

/** The base rig of the check cases: 10 m by 2.5 m, 3.5 m high. */
export const LENGTH = 10;
export const WIDTH = 2.5;

/** The pad [xMin, xMax] x [yMin, yMax] of the drawn frame, as limits. */
export function padLimits(xMin: number, xMax: number, yMin: number, yMax: number): RigPart["limits"] {
  return [
    { along: 1, left: 0, max: DEPTH - xMin, what: "pad edge at the exit" },
    { along: -1, left: 0, max: xMax - DEPTH, what: "pad edge at the rear" },
    { along: 0, left: 1, max: -yMin, what: "pad edge on the left" },
    { along: 0, left: -1, max: yMax, what: "pad edge on the right" },
  ];
}

export function bodyPart(limits: RigPart["limits"], length = LENGTH): RigPart {
  return {
    id: "body",
    kind: "body",
    fromRearMin: 0,
    fromRearMax: length,
    leftMin: -WIDTH / 2,
    leftMax: WIDTH / 2,
    from: 0,
    to: 3.5,
    limits,
  };
}

export interface LineSketch {
  readonly id: string;
  readonly fromRear: number;
  /** Metres available less slack and inlet height. */
  readonly spare: number;
  /** Target in the drawn frame, with its height. */
  readonly at: readonly [number, number, number];
  readonly beneath?: boolean;
}

export function leftLine(sketch: LineSketch): LineTask {
  const [x, y, height] = sketch.at;
  return {
    id: sketch.id,
    inlet: { fromRear: sketch.fromRear, left: sketch.beneath ? 0 : WIDTH / 2 },
    wall: "left",
    mayRunBeneath: sketch.beneath ?? false,
    target: toPad(x, y),
    law: { budget: sketch.spare - height, fallAtLevel: 0, slopeAlong: 0, slopeLeft: 0 },
  };
}

/** The lines of the base rig: available less slack less inlet height. */
export const POWER = { id: "power", fromRear: 2, spare: 7.62 - 0.3 - 0.9 };
export const WATER = { id: "water", fromRear: 4, spare: 7.62 - 0.3 - 0.7 };
export const SEWER = { id: "sewer", fromRear: 3, spare: 4.5 - 0.2 - 0.4 };

/** The three hookups that most cases share. */
export const THREE_LINES: readonly LineTask[] = [
  leftLine({ ...POWER, at: [8, 4, 1] }),
  leftLine({ ...WATER, at: [7.2, 3.8, 0.5] }),
  leftLine({ ...SEWER, at: [4, 3.6, 0.05] }),
];

export function stanceProblem(overrides: Partial<StanceProblem>): StanceProblem {
  return {
    length: LENGTH,
    width: WIDTH,
    parts: [bodyPart(padLimits(0, 14, -2, 2))],
    keepOuts: [],
    facings: ["in", "out"],
    yaws: [0],
    obstacles: [],
    barriers: [],
    lines: THREE_LINES,
    ...overrides,
  };
}

export function box(
  id: string,
  x: readonly [number, number],
  y: readonly [number, number],
  from: number,
  to: number,
): Obstacle {
  const outline = [toPad(x[0], y[0]), toPad(x[1], y[0]), toPad(x[1], y[1]), toPad(x[0], y[1])];
  return { id, what: id, outline, from, to, clearance: 0 };
}

export function solved(answer: StanceSolution | Infeasible): StanceSolution {
  if ("feasible" in answer) throw new Error(`expected a stance, got ${JSON.stringify(answer)}`);
  return answer;
}

export function refused(answer: StanceSolution | Infeasible): Infeasible {
  if (!("feasible" in answer)) throw new Error(`expected no stance, got ${JSON.stringify(answer.stance)}`);
  return answer;
}

/** The middle of the rear bumper in the drawn frame. */
export function drawnRear(answer: StanceSolution, length = LENGTH): { readonly x: number; readonly y: number } {
  const rear = rigToPad(answer.stance, length, { fromRear: 0, left: 0 });
  return { x: DEPTH - rear.along, y: -rear.left };
}

export function marginOfLine(answer: StanceSolution, id: string): number {
  const line = answer.lines.find((candidate) => candidate.id === id);
  if (line === undefined) throw new Error(`no line ${id}`);
  return line.margin;
}

export const IN: readonly Facing[] = ["in"];
export const OUT: readonly Facing[] = ["out"];
