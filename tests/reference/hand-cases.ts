/**
 * Small cases with known answers. They are drawn as on a sketch with X inward from the road, Y to the left of X, and
 * turned by half a turn into the pad frame (along = X of the road - X, left = -Y), so nose towards growing X is `in`.
 *
 * Source of the figures: where `by` says hand, arithmetic that the name or the comment spells out; otherwise an
 * earlier program of our own, checked by its own search, four decimals (derived, nothing outside behind it).
 */
import type {
  Facing,
  HalfPlane,
  LineTask,
  Obstacle,
  PadPoint,
  RigPart,
  Stance,
  StanceProblem,
} from "../../src/fit/stance/problem.ts";
import { stanceOf } from "./evaluate.ts";

const LENGTH = 10;
const HALF = 1.25;

/** What a line has: its length, less the slack and the inlet's height; metres. */
const KIT = {
  power: { fromRear: 2, reach: 7.62 - 0.3 - 0.9 },
  water: { fromRear: 4, reach: 7.62 - 0.3 - 0.7 },
  sewer: { fromRear: 3, reach: 4.5 - 0.2 - 0.4 },
} as const;

type Service = keyof typeof KIT;

/** Where a hookup stands on the sketch and its height, metres. */
type Hookup = readonly [x: number, y: number, height: number];

export interface HandCase {
  readonly name: string;
  readonly by: "hand" | "earlier program";
  readonly problem: StanceProblem;
  /** The largest worst margin; undefined when no stance exists. */
  readonly worst?: number;
  /** A stance that has it. */
  readonly stance?: Stance;
  /** Margins at that stance, in the order of the lines. */
  readonly margins?: readonly number[];
}

interface Sketch {
  readonly name: string;
  readonly by: HandCase["by"];
  readonly pad: readonly [x0: number, x1: number, y0: number, y1: number];
  readonly hookups: Partial<Record<Service, Hookup>>;
  readonly inlets?: Partial<Record<Service, number>>;
  readonly beneath?: boolean;
  /** Metres from outlet to rim for every line; 0 when left out. */
  readonly fall?: number;
  readonly facings: readonly Facing[];
  readonly yaw?: number;
  readonly slide?: Omit<RigPart, "id" | "kind" | "limits">;
  /** Boxes on the sketch: x0, x1, y0, y1, from, to. */
  readonly solids?: readonly (readonly [number, number, number, number, number, number])[];
  readonly worst?: number;
  /** Rear bumper on the sketch. */
  readonly rear?: readonly [x: number, y: number];
  readonly facing?: Facing;
  readonly margins?: readonly number[];
}

function turned(sketch: Sketch): HandCase {
  const [x0, x1, y0, y1] = sketch.pad;
  const point = (x: number, y: number): PadPoint => ({ along: x1 - x, left: -y });
  const limits: HalfPlane[] = [
    { along: 1, left: 0, max: x1 - x0, what: "pad edge at the exit" },
    { along: -1, left: 0, max: 0, what: "pad edge at the rear" },
    { along: 0, left: 1, max: -y0, what: "left pad edge" },
    { along: 0, left: -1, max: y1, what: "right pad edge" },
  ];
  const body: RigPart = {
    id: "body",
    kind: "body",
    fromRearMin: 0,
    fromRearMax: LENGTH,
    leftMin: -HALF,
    leftMax: HALF,
    from: 0,
    to: 3.5,
    limits,
  };
  const slides: RigPart[] = sketch.slide ? [{ id: "slide", kind: "slide", limits, ...sketch.slide }] : [];
  const lines = Object.entries(sketch.hookups).map(([service, [x, y, height]]): LineTask => {
    const kit = KIT[service as Service];
    return {
      id: service,
      inlet: { fromRear: sketch.inlets?.[service as Service] ?? kit.fromRear, left: HALF },
      wall: "left",
      mayRunBeneath: sketch.beneath ?? false,
      target: point(x, y),
      law: { budget: kit.reach - height, fallAtLevel: sketch.fall ?? 0, slopeAlong: 0, slopeLeft: 0 },
    };
  });
  const obstacles = (sketch.solids ?? []).map(
    ([a, b, c, d, from, to], i): Obstacle => ({
      id: `solid-${i + 1}`,
      what: "solid",
      outline: [point(a, c), point(b, c), point(b, d), point(a, d)],
      from,
      to,
      clearance: 0,
    }),
  );
  const yaw = sketch.yaw ?? 0;
  const problem: StanceProblem = {
    length: LENGTH,
    width: 2 * HALF,
    parts: [body, ...slides],
    keepOuts: [],
    facings: sketch.facings,
    yaws: [yaw],
    obstacles,
    barriers: [],
    lines,
  };
  const rear = sketch.rear && point(sketch.rear[0], sketch.rear[1]);
  const facing = sketch.facing ?? sketch.facings[0] ?? "in";
  return {
    name: sketch.name,
    by: sketch.by,
    problem,
    ...(sketch.worst === undefined ? {} : { worst: sketch.worst }),
    ...(rear === undefined ? {} : { stance: stanceOf(problem, facing, yaw, rear.along, rear.left) }),
    ...(sketch.margins === undefined ? {} : { margins: sketch.margins }),
  };
}

const BODY_ALONE = [0, 10, -1.25, 1.25] as const;
const PAD = [0, 14, -2, 2] as const;
const THREE = { power: [8, 4, 1], water: [7.2, 3.8, 0.5], sewer: [4, 3.6, 0.05] } as const;

export const HAND_CASES: readonly HandCase[] = (
  [
    {
      name: "1: a pad exactly as large as the body leaves one stance; straight run of 3 m",
      by: "hand",
      pad: BODY_ALONE,
      hookups: { power: [2, 4.25, 1] },
      facings: ["in"],
      worst: 5.42 - 3,
      rear: [0, 0],
      margins: [2.42],
    },
    {
      name: "2: the same turned round goes about the rear: 2 + 2.5 + sqrt(8^2 + 3^2)",
      by: "hand",
      pad: BODY_ALONE,
      hookups: { power: [2, 4.25, 1] },
      facings: ["out"],
      worst: 5.42 - (2 + 2.5 + Math.sqrt(73)),
      rear: [10, 0],
      margins: [-7.624],
    },
    {
      name: "3: the same with the way beneath: sqrt(6^2 + 5.5^2)",
      by: "hand",
      pad: BODY_ALONE,
      hookups: { power: [2, 4.25, 1] },
      beneath: true,
      facings: ["out"],
      worst: 5.42 - Math.sqrt(66.25),
      rear: [10, 0],
      margins: [-2.7194],
    },
    {
      name: "4: three lines, power and sewer bind together at the pad's edge",
      by: "earlier program",
      pad: PAD,
      hookups: THREE,
      facings: ["in", "out"],
      worst: 1.5365,
      rear: [2.6711, 0.75],
      margins: [1.5365, 4.2439, 1.5365],
    },
    {
      name: "5: the same turned round, the sewer about the front corner",
      by: "earlier program",
      pad: PAD,
      hookups: THREE,
      facings: ["out"],
      worst: -7.25,
      rear: [14, 0.75],
      margins: [7.62 - 13.0246, 7.62 - 13.6715, -7.25],
    },
    {
      name: "6: two lines on a wide pad share the shortfall: sqrt(5.631^2 + 4) - 5.42 = sqrt(6.369^2 + 4) - 6.12",
      by: "hand",
      pad: [-30, 44, -30, 2],
      hookups: { power: [12, 4, 1], water: [2, 4, 0.5] },
      facings: ["in"],
      worst: -0.5556,
      rear: [4.369, 0.75],
      margins: [-0.5556, -0.5556],
    },
    {
      name: "7: three lines beneath the rig bind together",
      by: "earlier program",
      pad: [-20, 30, -20, 20],
      hookups: { power: [4, 9, 1], water: [5, 9, 0.5], sewer: [4, -2, 0] },
      inlets: { power: 1, water: 8, sewer: 4 },
      beneath: true,
      facings: ["in"],
      worst: -1.065,
      rear: [0.7974, 1.6505],
      margins: [-1.065, -1.065, -1.065],
    },
    {
      name: "8: the body's side touches the pedestal at Y = 1.6",
      by: "earlier program",
      pad: PAD,
      hookups: { power: [8, 1.8, 1], water: THREE.water, sewer: THREE.sewer },
      facings: ["in"],
      solids: [[7.8, 8.2, 1.6, 2, 0, 1.2]],
      worst: 1.5502,
      rear: [2.1354, 0.35],
      margins: [1.5502, 3.6759, 1.5502],
    },
    {
      name: "9: past a tree, with the nose at the pad's end",
      by: "earlier program",
      pad: PAD,
      hookups: { power: [13, 4, 1], water: [13, 3.6, 0.5], sewer: [12, 3, 0] },
      facings: ["in"],
      solids: [[11.5, 12.1, 0.8, 1.4, 0, 8]],
      worst: -2.2768,
      rear: [4, -0.45],
      margins: [-2.2768, 0.3894, -1.5626],
    },
    {
      name: "10: a slide clears the table below it and stops at the post",
      by: "earlier program",
      pad: [0, 14, -2, 2.2],
      hookups: THREE,
      facings: ["in"],
      slide: { fromRearMin: 3, fromRearMax: 6, leftMin: 1.25, leftMax: 2.15, from: 0.8, to: 2.6 },
      solids: [
        [5, 7, 2.2, 3, 0, 0.75],
        [8.45, 8.55, 1.8, 1.9, 0, 1.1],
      ],
      worst: 0.9599,
      rear: [2.45, 0.05],
    },
    {
      name: "11: a pad 0.1 m shorter than the body has no stance",
      by: "hand",
      pad: [0, 9.9, -2, 2],
      hookups: THREE,
      facings: ["in", "out"],
    },
    {
      name: "12: power decides alone at the pad's end",
      by: "earlier program",
      pad: [0, 12, -1.5, 1.5],
      hookups: { power: [12.5, 4.5, 1], water: [6, 3.8, 0.5], sewer: [5, 3, 0.05] },
      facings: ["in"],
      worst: -3.5939,
      rear: [2, 0.25],
    },
    {
      name: "13: three degrees of yaw cost a quarter of a metre",
      by: "earlier program",
      pad: [0, 13, -2, 2],
      hookups: THREE,
      facings: ["in"],
      yaw: (-3 * Math.PI) / 180,
      worst: 1.2858,
      rear: [2.7153, 0.2284],
    },
    {
      name: "14: a lone hose on a wide pad parks with its outlet over the rim, and only the fall is spent",
      by: "hand",
      pad: [-30, 44, -30, 30],
      hookups: { sewer: [4, 3.6, 0.05] },
      fall: 0.45,
      facings: ["in"],
      worst: 4.5 - 0.2 - 0.4 - 0.05 - 0.45,
      rear: [1, 2.35],
      margins: [3.4],
    },
    {
      name: "15: the same hose, the pad ending 1.2 m short of that: sqrt(1.2^2 + 0.45^2)",
      by: "hand",
      pad: [-30, 44, -30, 2.4],
      hookups: { sewer: [4, 3.6, 0.05] },
      fall: 0.45,
      facings: ["in"],
      worst: 3.85 - Math.hypot(1.2, 0.45),
      rear: [1, 1.15],
    },
  ] satisfies readonly Sketch[]
).map(turned);
