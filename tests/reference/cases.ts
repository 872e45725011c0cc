/** Seeded stance problems of varied and lopsided kinds. All invented. */
import type {
  Facing,
  HalfPlane,
  LineTask,
  ReachLaw,
  RigPart,
  StanceProblem,
  Wall,
} from "../../src/fit/stance/problem.ts";
import { barriersBefore, keepOutsOn, obstaclesAbout } from "./case-things.ts";
import { type Random, seeded } from "./random.ts";
import { snapped } from "./snap.ts";

export type CaseKind = "plain" | "obstacles" | "barriers" | "yaw" | "sewer" | "keep-outs" | "mixed";

export interface ReferenceCase {
  readonly seed: number;
  readonly kind: CaseKind;
  readonly problem: StanceProblem;
}

/** Of ten cases in a row five are plain, three have obstacles, one has barriers and one is special. */
export function kindOf(seed: number): CaseKind {
  const place = seed % 10;
  if (place < 5) return "plain";
  if (place < 8) return "obstacles";
  if (place === 8) return "barriers";
  return (["yaw", "sewer", "keep-outs", "mixed"] as const)[Math.floor(seed / 10) % 4] ?? "mixed";
}

export interface Rig {
  readonly length: number;
  readonly width: number;
  readonly height: number;
}

export interface Pad {
  readonly length: number;
  readonly width: number;
  /** The pad's middle line lies at this `left`. */
  readonly middle: number;
}

function padFor(random: Random, rig: Rig, busy: boolean): Pad {
  const tooSmall = random.chance(0.04);
  // Roomy pads let lines, not edges, decide the place.
  const roomy = random.chance(0.35);
  const spare = busy || roomy ? random.between(0.5, 1) : random.next();
  const room = tooSmall ? random.between(-1, 0.3) : random.between(0, roomy ? 20 : 7) * spare;
  const side = tooSmall ? random.between(-0.3, 0.3) : 0.1 + random.between(0, roomy ? 9 : 3.5) * spare;
  return {
    length: Math.min(25, Math.max(6, rig.length + room)),
    width: rig.width + side,
    middle: random.between(-0.4, 0.4),
  };
}

function padLimits(random: Random, pad: Pad): HalfPlane[] {
  const limits: HalfPlane[] = [
    { along: 1, left: 0, max: pad.length, what: "pad edge at the exit" },
    { along: -1, left: 0, max: 0, what: "pad edge at the rear" },
    { along: 0, left: 1, max: pad.middle + pad.width / 2, what: "left pad edge" },
    { along: 0, left: -1, max: pad.width / 2 - pad.middle, what: "right pad edge" },
  ];
  if (random.chance(0.2)) {
    // A corner of the pad cut off.
    const angle = random.between(0, 2 * Math.PI);
    const [along, left] = [Math.cos(angle), Math.sin(angle)];
    const corner =
      Math.max(0, along * pad.length) +
      Math.max(left * (pad.middle + pad.width / 2), left * (pad.middle - pad.width / 2));
    limits.push({ along, left, max: corner - random.between(0, 0.5), what: "cut corner" });
  }
  return limits;
}

function partsOf(random: Random, rig: Rig, pad: Pad, busy: boolean): RigPart[] {
  const half = rig.width / 2;
  const limits = padLimits(random, pad);
  const overhangs = random.chance(0.25);
  const parts: RigPart[] = [
    {
      id: "body",
      kind: "body",
      fromRearMin: 0,
      fromRearMax: rig.length,
      leftMin: -half,
      leftMax: half,
      from: random.pick([0, 0.25]),
      to: rig.height,
      limits: overhangs ? limits.filter((limit) => limit.what !== "pad edge at the rear") : limits,
    },
  ];
  if (overhangs) {
    const stop = random.between(0.2, 1.4);
    parts.push({
      id: "wheels",
      kind: "wheels",
      fromRearMin: rig.length * random.between(0.12, 0.3),
      fromRearMax: rig.length * random.between(0.7, 0.92),
      leftMin: -half,
      leftMax: half,
      from: 0,
      to: 0.75,
      limits: [{ along: -1, left: 0, max: -stop, what: "wheel stop" }],
    });
  }
  const count = busy ? random.whole(0, 2) : random.chance(0.2) ? 1 : 0;
  for (let i = 0; i < count; i++) {
    const start = rig.length * random.between(0.05, 0.6);
    const depth = random.between(0.4, 1.1);
    const left = random.chance(0.6);
    parts.push({
      id: `slide-${i + 1}`,
      kind: "slide",
      fromRearMin: start,
      fromRearMax: start + random.between(0.8, 3.5),
      leftMin: left ? half : -half - depth,
      leftMax: left ? half + depth : -half,
      from: random.between(0.5, 1),
      to: random.between(2.2, 2.9),
      limits: random.chance(0.3) && pad.width > rig.width + depth ? limits : [],
    });
  }
  if (busy && random.chance(0.6)) {
    const start = rig.length * random.between(0.1, 0.5);
    parts.push({
      id: "awning",
      kind: "awning",
      fromRearMin: start,
      fromRearMax: start + random.between(2, 5),
      leftMin: -half - random.between(2, 3.2),
      leftMax: -half,
      from: random.between(1.9, 2.2),
      to: random.between(2.6, 3),
      limits: [],
    });
  }
  return parts;
}

function lawOf(random: Random, falls: boolean): ReachLaw {
  const budget = random.between(2.5, 14);
  if (!falls) return { budget, fallAtLevel: 0, slopeAlong: 0, slopeLeft: 0 };
  const slopes = random.chance(0.6) ? [random.between(-0.03, 0.03), random.between(-0.02, 0.02)] : [0, 0];
  return {
    budget,
    fallAtLevel: random.between(-0.05, 0.6),
    slopeAlong: slopes[0] ?? 0,
    slopeLeft: slopes[1] ?? 0,
    ...(random.chance(0.7) ? { requiredSlope: random.pick([0.0208, 0.0104, 0.025]) } : {}),
  };
}

function lineFor(random: Random, rig: Rig, pad: Pad, index: number, falls: boolean): LineTask {
  const half = rig.width / 2;
  const wall = random.pick<Wall>(["left", "left", "left", "left", "right", "right", "rear", "front"]);
  const setback = random.chance(0.5) ? 0 : random.between(0.03, 0.6);
  // Now and then right at a corner of the body.
  const position = random.chance(0.05) ? random.whole(0, 1) : random.between(0.03, 0.97);
  const inlet = {
    left: { fromRear: position * rig.length, left: half - setback },
    right: { fromRear: position * rig.length, left: setback - half },
    rear: { fromRear: setback, left: (2 * position - 1) * half },
    front: { fromRear: rig.length - setback, left: (2 * position - 1) * half },
  }[wall];
  const side = random.chance(0.65) ? 1 : -1;
  const beside = pad.middle + side * (pad.width / 2 + random.between(-0.4, 3));
  const far = random.chance(0.04);
  const target = random.chance(0.08)
    ? { along: random.between(0, pad.length), left: pad.middle + random.between(-0.5, 0.5) * pad.width }
    : random.chance(0.12)
      ? { along: random.between(-3, 0), left: pad.middle + random.between(-2, 2) }
      : { along: random.between(-1, pad.length + 1) * (far ? 3 : 1), left: far ? beside * 9 : beside };
  return {
    id: `line-${index + 1}`,
    inlet,
    wall,
    mayRunBeneath: random.chance(0.15),
    target,
    law: lawOf(random, falls),
  };
}

/** Grids of a tape's readings, metres. */
const GRIDS = [0.25, 0.1] as const;

/** The problem of a seed; the kind follows from the seed unless given. One in five has its lengths on a grid. */
export function caseOf(seed: number, kind: CaseKind = kindOf(seed)): ReferenceCase {
  const problem = problemOf(seed, kind);
  const turn = Math.floor(seed / 10) % 5;
  if (turn !== 3) return { seed, kind, problem };
  return { seed, kind, problem: snapped(problem, GRIDS[seed % 2] as number) };
}

function problemOf(seed: number, kind: CaseKind): StanceProblem {
  const random = seeded(0x51ed270 + seed * 2654435761);
  const rig = { length: random.between(5, 14), width: random.between(2, 2.6), height: random.between(2.6, 3.9) };
  const mixed = kind === "mixed";
  const busy = mixed || kind === "obstacles" || (kind === "yaw" && random.chance(0.5));
  const pad = padFor(random, rig, busy);
  const sewer = kind === "sewer";
  const count = sewer && random.chance(0.4) ? 1 : random.whole(1, 4);
  const lines = Array.from({ length: count }, (_, i) =>
    lineFor(random, rig, pad, i, (sewer && i === 0) || ((sewer || mixed) && random.chance(0.4))),
  );
  const parts = partsOf(random, rig, pad, busy);
  const facings = random.pick<readonly Facing[]>([["out"], ["in"], ["out", "in"]]);
  const degrees = kind === "yaw" || (mixed && random.chance(0.5)) ? [-3, 0, 3] : [0];
  const walls = mixed || kind === "barriers" ? barriersBefore(random, pad, lines) : { barriers: [], solids: [] };
  const obstacles = busy ? obstaclesAbout(random, pad, random.whole(1, 10)) : [];
  return {
    length: rig.length,
    width: rig.width,
    parts,
    keepOuts: mixed || kind === "keep-outs" ? keepOutsOn(random, rig, lines) : [],
    facings,
    yaws: degrees.map((degree) => (degree * Math.PI) / 180),
    obstacles: [...obstacles, ...walls.solids],
    barriers: walls.barriers,
    lines,
  };
}
