/**
 * Random sites near the limit, each described twice: to the product as completed rig and site with stated errors, and
 * here as plain numbers with the errors they truly have, from which a truth is drawn and laid out for the reference.
 * The drawing shares nothing with the product: its own generator, its own normal numbers, its own layout. All invented.
 */
import type { FitInput } from "../../src/fit/fit.ts";
import type { StanceProblem } from "../../src/fit/stance/problem.ts";
import type { RigWall, Service } from "../../src/rig/completed.ts";
import type { Estimate } from "../../src/units/estimate.ts";
import { type ConnectionSpec, exact, obstacle, options, rig, site } from "../fit/core/builders.ts";

/** Small fast counter generator (Doty-Humphrey's sfc32, from memory): 128 bits of state. */
export function drawing(seed: number): () => number {
  let [a, b, c, counter] = [seed | 0, 0x2545f491, 0x6c078965, 1];
  const next = (): number => {
    const sum = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + sum;
    return (sum >>> 0) / 4294967296;
  };
  for (let warm = 0; warm < 16; warm++) next();
  return next;
}

/** A standard normal number by Box and Muller's method. */
export function normal(next: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
}

interface Uncertain {
  readonly value: number;
  readonly sigma: number;
  /** Standard deviation shared with the other hookups of the one survey, per axis. */
  readonly shared: number;
}

interface Line {
  readonly service: Extract<Service, "power" | "water" | "sewer">;
  readonly wall: Extract<RigWall, "left" | "rear" | "right">;
  readonly fromRear: number;
  readonly inletHeight: number;
  readonly hookupHeight: Uncertain;
  readonly along: Uncertain;
  readonly left: Uncertain;
  readonly length: Uncertain;
}

interface Post {
  readonly along: readonly [number, number];
  readonly left: readonly [number, number];
}

export interface CalibrationSite {
  readonly facing: "out" | "in";
  readonly rigLength: number;
  readonly rigWidth: number;
  readonly padLength: Uncertain;
  readonly padWidth: Uncertain;
  readonly lines: readonly Line[];
  readonly posts: readonly Post[];
  readonly solidDevices: boolean;
}

const SERVICES = ["power", "water", "sewer"] as const;
/** Metres, as the published options have them. */
const ALLOWANCE = { power: 0.6, water: 0.6, sewer: 0.3 } as const;
const CLEARANCE = 0.1;
const RIG_HEIGHT = 3.4;
const POST_HEIGHT = 3;
/** A quarter of an inch per foot. */
const DRAIN_SLOPE = 1 / 48;
const PEDESTAL = { half: 0.15, height: 1.2 };
const RISER = { half: 0.05, height: 0.9 };
const DOOR = { fromRear: 4.4, width: 0.7, depth: 0.6 };

/** An inlet in front of which people step out has no permitted way at all, and is another question: not here. */
function besideDoor(fromRear: number): number {
  const [start, end] = [DOOR.fromRear - 0.05, DOOR.fromRear + DOOR.width + 0.05];
  return fromRear > start && fromRear < end ? start : fromRear;
}

/** A site of this seed. Sizes, walls, errors and obstacles vary. */
export function calibrationSite(seed: number): CalibrationSite {
  const next = drawing(seed * 7919 + 13);
  const between = (low: number, high: number): number => low + (high - low) * next();
  const chance = (probability: number): boolean => next() < probability;
  const facing = chance(0.7) ? "out" : "in";
  const rigLength = between(6, 11);
  const rigWidth = between(2.2, 2.6);
  const unsurePad = chance(0.35);
  const padLength = rigLength + (chance(0.15) ? between(0.05, 0.6) : between(0.8, 6));
  const padWidth = rigWidth + between(0.5, 2.5);
  const padSigma = unsurePad ? between(0.05, 0.5) : 0;
  /** Even in the logarithm from 0.05 to 3 metres. */
  const spread = 0.05 * 60 ** next();
  const shared = chance(0.3) ? spread * between(0.3, 1.5) : 0;
  const count = 1 + Math.floor(between(0, 3));
  const first = Math.floor(between(0, 3));
  const rigLeft = facing === "out" ? 1 : -1;
  const lines = Array.from({ length: count }, (_, index): Line => {
    const service = SERVICES[(first + index) % SERVICES.length] ?? "power";
    const side = chance(0.85) ? rigLeft : -rigLeft;
    const own = spread * between(0.7, 1.3);
    const drain = service === "sewer";
    const wall = chance(0.75) ? "left" : chance(0.6) ? "rear" : "right";
    const place = between(0.3, rigLength * 0.6);
    return {
      service,
      wall,
      fromRear: wall === "right" ? besideDoor(place) : place,
      inletHeight: drain ? between(0.35, 0.6) : between(0.5, 1.1),
      hookupHeight: { value: drain ? between(0, 0.1) : between(0.4, 1.2), sigma: chance(0.2) ? 0.02 : 0, shared: 0 },
      along: { value: between(-1, padLength), sigma: own, shared },
      left: { value: side * (padWidth / 2 + between(0.3, 3)), sigma: own, shared },
      length: { value: 0, sigma: chance(0.25) ? between(0.02, 0.2) : 0, shared: 0 },
    };
  });
  const posts = Array.from({ length: chance(0.3) ? 1 + Math.floor(between(0, 4)) : 0 }, (): Post => {
    const [along, left, size] = [between(0, padLength), between(-0.5, 0.5) * (padWidth + 0.6), between(0.1, 0.5)];
    return { along: [along, along + size], left: [left, left + 0.7 * size] };
  });
  return {
    facing,
    rigLength,
    rigWidth,
    padLength: { value: padLength, sigma: padSigma, shared: 0 },
    padWidth: { value: padWidth, sigma: padSigma / 3, shared: 0 },
    lines,
    posts,
    solidDevices: chance(0.3),
  };
}

/** The same site with every line so much longer, metres. */
export function lengthened(one: CalibrationSite, by: number): CalibrationSite {
  const lines = one.lines.map((line) => ({ ...line, length: { ...line.length, value: line.length.value + by } }));
  return { ...one, lines };
}

function estimate(of: Uncertain, path: string): Estimate {
  const { value, sigma, shared } = of;
  return { ...exact(value, path), sigma, sigmaShared: shared, ...(shared > 0 ? { survey: "one survey" } : {}) };
}

/** The question as the product is asked it. */
export function questionOf(one: CalibrationSite): FitInput {
  const needs = Object.fromEntries(one.lines.map((line) => [line.service, "required" as const]));
  const connections = one.lines.map(
    (line): ConnectionSpec => ({
      service: line.service,
      wall: line.wall,
      fromRear: line.fromRear,
      height: line.inletHeight,
      length: line.length.value,
    }),
  );
  const bare = rig({ length: one.rigLength, width: one.rigWidth, connections });
  const asked: FitInput["rig"] = {
    ...bare,
    connections: bare.connections.map((connection, index) => {
      const length = estimate(one.lines[index]!.length, `${connection.path}/line/length`);
      return { ...connection, line: { ...connection.line!, length, workingLength: length } };
    }),
  };
  const hookups = one.lines.map(({ service }) => ({ service, along: 0, left: 0 }));
  const plain = site({ hookups });
  const padPath = "/properties/pad";
  return {
    rig: asked,
    site: {
      ...plain,
      facings: [one.facing],
      facingsStated: true,
      pad: {
        ...plain.pad,
        length: estimate(one.padLength, `${padPath}/length`),
        width: estimate(one.padWidth, `${padPath}/width`),
      },
      hookups: plain.hookups.map((hookup, index) => {
        const line = one.lines[index]!;
        return {
          ...hookup,
          along: estimate(line.along, `${hookup.path}/at/along`),
          left: estimate(line.left, `${hookup.path}/at/left`),
          height: estimate(line.hookupHeight, `${hookup.path}/at/height`),
        };
      }),
      obstacles: one.posts.map((post, index) => obstacle(`post ${index}`, post.along, post.left)),
    },
    options: options({ needs, awning: "in", devices: one.solidDevices ? "assumed" : "ignore" }),
  };
}

type Point = readonly [number, number];

function square([along, left]: Point, half: number): { along: number; left: number }[] {
  return [
    { along: along - half, left: left - half },
    { along: along + half, left: left - half },
    { along: along + half, left: left + half },
    { along: along - half, left: left + half },
  ];
}

/** One truth: every uncertain number drawn from its stated error, laid out for the reference. */
export function drawnTruth(one: CalibrationSite, next: () => number): StanceProblem {
  const common = [normal(next), normal(next)] as const;
  const draw = ({ value, sigma, shared }: Uncertain, axis: 0 | 1 = 0): number =>
    value + sigma * normal(next) + shared * common[axis];
  const [long, wide] = [draw(one.padLength), draw(one.padWidth)];
  const half = one.rigWidth / 2;
  const drawn = one.lines.map((line) => ({
    line,
    at: [draw(line.along, 0), draw(line.left, 1)] as Point,
    height: draw(line.hookupHeight),
    length: draw(line.length),
  }));
  const posts = one.posts.map((post, index) => ({
    id: `post ${index}`,
    what: "post",
    outline: square([0, 0], 1).map((corner) => ({
      along: post.along[corner.along > 0 ? 1 : 0],
      left: post.left[corner.left > 0 ? 1 : 0],
    })),
    from: 0,
    to: POST_HEIGHT,
    clearance: CLEARANCE,
  }));
  const devices = drawn
    .filter(({ line }) => one.solidDevices && line.service !== "sewer")
    .map(({ line, at }) => {
      const body = line.service === "power" ? PEDESTAL : RISER;
      const outline = square(at, body.half);
      return { id: line.service, what: "device", outline, from: 0, to: body.height, clearance: CLEARANCE };
    });
  return {
    length: one.rigLength,
    width: one.rigWidth,
    parts: [
      {
        id: "body",
        kind: "body",
        fromRearMin: 0,
        fromRearMax: one.rigLength,
        leftMin: -half,
        leftMax: half,
        from: 0,
        to: RIG_HEIGHT,
        limits: [
          { along: 1, left: 0, max: long, what: "exit" },
          { along: -1, left: 0, max: 0, what: "rear" },
          { along: 0, left: 1, max: wide / 2, what: "left" },
          { along: 0, left: -1, max: wide / 2, what: "right" },
        ],
      },
    ],
    keepOuts: [
      {
        id: "door",
        fromRearMin: DOOR.fromRear,
        fromRearMax: DOOR.fromRear + DOOR.width,
        leftMin: -half - DOOR.depth,
        leftMax: -half,
      },
    ],
    facings: [one.facing],
    yaws: [0],
    obstacles: [...posts, ...devices],
    barriers: posts.map(({ id, what, outline }) => ({ id, what, outline })),
    lines: drawn.map(({ line, at, height, length }) => {
      const left = { left: half, right: -half, rear: 0.3 }[line.wall];
      const drain = line.service === "sewer";
      const budget = length - ALLOWANCE[line.service] - (drain ? 0 : line.inletHeight + height);
      return {
        id: line.service,
        inlet: { fromRear: line.wall === "rear" ? 0 : line.fromRear, left },
        wall: line.wall,
        mayRunBeneath: false,
        target: { along: at[0], left: at[1] },
        law: {
          budget,
          fallAtLevel: drain ? line.inletHeight - height : 0,
          slopeAlong: 0,
          slopeLeft: 0,
          ...(drain ? { requiredSlope: DRAIN_SLOPE } : {}),
        },
      };
    }),
  };
}
