import type { LineTask, Obstacle, RigPart, StanceProblem } from "../../src/fit/stance/index.ts";

/** A small seeded generator (mulberry32), so that every run of the benchmark solves the same sites. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export interface Mix {
  readonly obstacles: number;
  /** Metres by which obstacles may stand inside the pad. */
  readonly inside: number;
  readonly slideAndAwning: boolean;
  readonly sewerFalls: boolean;
}

/** An invented site and rig: a pad 10 to 20 m long, a rig that mostly fits it, three services on the rig's left. */
export function randomStance(random: () => number, mix: Mix): StanceProblem {
  const between = (low: number, high: number): number => low + random() * (high - low);
  const length = between(7, 12);
  const width = 2.5;
  const depth = length + between(0.2, 6);
  const padWidth = width + between(0.5, 3.5);
  const half = padWidth / 2;
  const limits = [
    { along: 1, left: 0, max: depth, what: "exit" },
    { along: -1, left: 0, max: 0, what: "rear" },
    { along: 0, left: 1, max: half, what: "left edge" },
    { along: 0, left: -1, max: half, what: "right edge" },
  ];
  const part = (id: string, kind: RigPart["kind"], box: readonly number[]): RigPart => ({
    id,
    kind,
    fromRearMin: box[0] as number,
    fromRearMax: box[1] as number,
    leftMin: box[2] as number,
    leftMax: box[3] as number,
    from: box[4] as number,
    to: box[5] as number,
    limits: kind === "body" ? limits : [],
  });
  const parts = [part("body", "body", [0, length, -width / 2, width / 2, 0, 3.5])];
  if (mix.slideAndAwning) {
    parts.push(part("slide", "slide", [length * 0.3, length * 0.6, width / 2, width / 2 + 0.9, 0.8, 2.6]));
    parts.push(part("awning", "awning", [length * 0.4, length * 0.85, -width / 2 - 2.4, -width / 2, 2.0, 3.0]));
  }
  const line = (id: string, share: number, budget: number, fall: number): LineTask => ({
    id,
    inlet: { fromRear: length * share, left: width / 2 },
    wall: "left",
    mayRunBeneath: false,
    target: { along: between(0, depth), left: (random() < 0.75 ? -1 : 1) * (half + between(0.1, 3)) },
    law:
      fall > 0
        ? { budget, fallAtLevel: fall, slopeAlong: 0, slopeLeft: 0, requiredSlope: 0.02 }
        : { budget, fallAtLevel: 0, slopeAlong: 0, slopeLeft: 0 },
  });
  const lines = [
    line("power", between(0.1, 0.4), 5.4, 0),
    line("water", between(0.3, 0.6), 6.1, 0),
    line("sewer", between(0.1, 0.5), 3.9, mix.sewerFalls ? between(0.15, 0.5) : 0),
  ];
  const obstacles: Obstacle[] = [];
  for (let i = 0; i < mix.obstacles; i++) {
    const size = between(0.1, 0.8);
    const along = between(-0.5, depth + 0.5);
    const off = half - mix.inside + between(0, mix.inside + 2);
    const left = random() < 0.5 ? off : -off - size;
    const outline = [
      { along, left },
      { along: along + size, left },
      { along: along + size, left: left + size },
      { along, left: left + size },
    ];
    obstacles.push({ id: `obstacle-${i}`, what: "obstacle", outline, from: 0, to: between(0.5, 6), clearance: 0 });
  }
  return {
    length,
    width,
    parts,
    keepOuts: [],
    facings: ["out", "in"],
    yaws: [0],
    obstacles,
    barriers: [],
    lines,
  };
}
