/** Makers of answers by hand: nothing here is solved. */
import type { AnswerLine, Fit, Scene } from "../../src/fit/answer.ts";
import type { PadPoint, RigPoint, Stance } from "../../src/fit/stance/problem.ts";

type RigScene = NonNullable<Scene["rig"]>;
type Hookup = Scene["hookups"][number];
type Obstacle = Scene["obstacles"][number];

/** Where a point of the rig stands (the rule of the stance, written out a second time). */
export function stand(stance: Stance, length: number, point: RigPoint): PadPoint {
  const theta = stance.facing === "out" ? stance.yaw : Math.PI - stance.yaw;
  const ahead = { along: Math.cos(theta), left: Math.sin(theta) };
  const side = { along: -Math.sin(theta), left: Math.cos(theta) };
  const fromNearer = stance.facing === "out" ? point.fromRear : point.fromRear - length;
  return {
    along: stance.along + fromNearer * ahead.along + point.left * side.along,
    left: stance.left + fromNearer * ahead.left + point.left * side.left,
  };
}

export interface RigShape {
  length: number;
  width: number;
  slides?: { id: string; side: "left" | "right"; fromRear: number; length: number; depth: number }[];
  awnings?: {
    id: string;
    side: "left" | "right";
    fromRear: number;
    length: number;
    projection: number;
    open: boolean;
  }[];
  doors?: { id: string; side: "left" | "right"; fromRear: number; width: number; given: boolean }[];
  hot?: { id: string; what: string; side: "left" | "right"; fromRear: number }[];
  connections?: { id: string; service: Hookup["service"]; fromRear: number; left: number }[];
}

export function rigScene(shape: RigShape, stance: Stance): RigScene {
  const { length, width } = shape;
  const at = (fromRear: number, left: number): PadPoint => stand(stance, length, { fromRear, left });
  const sign = (side: "left" | "right"): number => (side === "left" ? 1 : -1);
  const box = (from: number, size: number, side: "left" | "right", depth: number): PadPoint[] => {
    const wall = (sign(side) * width) / 2;
    const out = wall + sign(side) * depth;
    return [at(from, wall), at(from + size, wall), at(from + size, out), at(from, out)];
  };
  const centre = at(0, 0);
  return {
    stance,
    length,
    width,
    body: [at(0, -width / 2), at(length, -width / 2), at(length, width / 2), at(0, width / 2)],
    nose: [at(length, -width / 2), at(length, width / 2)],
    slides: (shape.slides ?? []).map((each) => ({
      id: each.id,
      outline: box(each.fromRear, each.length, each.side, each.depth),
    })),
    awnings: (shape.awnings ?? []).map((each) => ({
      id: each.id,
      open: each.open,
      outline: box(each.fromRear, each.length, each.side, each.projection),
    })),
    doors: (shape.doors ?? []).map((each) => {
      const outward = at(0, sign(each.side));
      return {
        id: each.id,
        at: at(each.fromRear, (sign(each.side) * width) / 2),
        outward: { along: outward.along - centre.along, left: outward.left - centre.left },
        width: each.width,
        given: each.given,
      };
    }),
    hotOutlets: (shape.hot ?? []).map((each) => ({
      id: each.id,
      what: each.what,
      at: at(each.fromRear, (sign(each.side) * width) / 2),
    })),
    connections: (shape.connections ?? []).map((each) => ({
      id: each.id,
      service: each.service,
      at: at(each.fromRear, each.left),
    })),
  };
}

export function hookup(service: Hookup["service"], along: number, left: number, more: Partial<Hookup> = {}): Hookup {
  return {
    id: `${service}-1`,
    service,
    at: { along, left },
    sigma: 0.05,
    region: null,
    pedestal: null,
    label: "",
    ...more,
  };
}

export function rectangle(alongFrom: number, alongTo: number, leftFrom: number, leftTo: number): PadPoint[] {
  return [
    { along: alongFrom, left: leftFrom },
    { along: alongTo, left: leftFrom },
    { along: alongTo, left: leftTo },
    { along: alongFrom, left: leftTo },
  ];
}

export function obstacle(id: string, what: string, outline: PadPoint[], more: Partial<Obstacle> = {}): Obstacle {
  return { id, what, outline, from: 0, to: 1.2, bars: "both", ...more };
}

export function line(
  service: AnswerLine["service"],
  path: readonly PadPoint[],
  needed: number | null,
  available: number | null,
  verdict: AnswerLine["verdict"],
  more: Partial<AnswerLine> = {},
): AnswerLine {
  return {
    service,
    need: "required",
    connection: `rig-${service}`,
    hookup: `${service}-1`,
    side: "left",
    route: "direct",
    path,
    needed,
    neededLeast: needed === null ? null : needed - 0.6,
    available,
    margin: needed === null || available === null ? null : available - needed,
    verdict,
    why: "Made by hand.",
    ...more,
  };
}

const EMPTY_SCENE: Scene = { pad: null, stop: null, rig: null, hookups: [], obstacles: [], patio: null };

export function makeFit(more: Partial<Omit<Fit, "scene">> & { scene?: Partial<Scene> } = {}): Fit {
  const { scene, ...rest } = more;
  return {
    rig: { id: "heron", name: "Heron 25" },
    site: { id: "17", name: "17", campground: "alder-bend", campgroundName: "Alder Bend (invented)" },
    verdict: "fits",
    headline: "Fits with the nose to the exit: power, water and sewer reach. Awning wind is not judged.",
    bestMargin: 0.5,
    proven: true,
    bestMarginBound: null,
    stance: null,
    window: null,
    lines: [],
    power: {
      mating: "unknown",
      receptacle: null,
      receptacleType: null,
      hookup: null,
      why: "",
      chain: [],
      amps: null,
      legs: null,
      voltsToNeutral: null,
      voltsLegToLeg: null,
      voltAmperes: null,
      continuousVoltAmperes: null,
      weakestLink: null,
      drop: null,
      canRun: [],
      alternatives: [],
    },
    sewer: {
      status: "none",
      outlet: null,
      fall: null,
      run: null,
      slope: null,
      requiredSlope: 0.0208,
      longestRun: null,
      why: "",
      source: "",
    },
    checks: [],
    kit: [],
    awning: [],
    exposure: null,
    exposureRose: null,
    wind: null,
    level: { status: "unknown", alongRig: null, acrossRig: null, blocks: [], why: "" },
    stay: { water: null, tanks: null, why: null },
    fixes: [],
    cautions: [
      { id: "test-before", text: "Test voltage, polarity and ground before connecting.", source: "invented" },
      { id: "spotter", text: "Reverse with a spotter; stop when you lose sight of them.", source: "invented" },
    ],
    assumed: [],
    unknowns: [],
    manoeuvre: null,
    notChecked: [],
    warnings: [],
    sources: [],
    units: "metric",
    engineVersion: "0",
    dataVersion: null,
    ...rest,
    scene: { ...EMPTY_SCENE, ...scene },
  };
}
