/**
 * What a manoeuvre must keep clear of, seen from one end of the pad. Frame of the end: origin in the middle of that edge
 * of the pad, `along` outward to the road, `left` to the left of someone looking to the road. Wheels stay on road, pad
 * and the way between them, which is as wide as the pad unless the record gives a mouth; a body may hang over the verge
 * where nothing on record stands.
 */
import type { PadPoint } from "../stance/problem.ts";
import { type Area, cut, makeArea } from "./separation.ts";

export type End = "exit" | "rear";

/** A straight road before one end of the pad, in the frame of that end. */
export interface Road {
  /** Metres from the pad's edge to the road's near edge, along the pad's middle. */
  readonly gap: number;
  /** Direction of the road to the left, radians from `along`; between 0 and pi. */
  readonly angle: number;
  readonly width: number;
  /** Metres along the road, from before the pad's middle to the left, between which it is straight and recorded. */
  readonly from: number;
  readonly to: number;
  /** The only direction of travel; null when both are allowed. */
  readonly oneWay: "left" | "right" | null;
  /** Standard deviation of its place, metres. */
  readonly sigma: number;
}

export interface PadSize {
  readonly length: number;
  readonly width: number;
  /** Width of the opening at the road's edge, metres; null: as wide as the pad. */
  readonly mouth: number | null;
}

export interface Obstruction {
  readonly what: string;
  readonly area: Area;
  readonly against: "wheels" | "body";
  /** True for the edge of what is driven on; false for a thing that stands there. */
  readonly verge: boolean;
  readonly sigma: number;
}

/** Half the side of the ground that is looked at, metres: further than any manoeuvre goes. */
const FAR = 90;
const MITRE = Math.PI / 4;

function everywhere(): PadPoint[] {
  return [
    { along: -FAR, left: -FAR },
    { along: FAR, left: -FAR },
    { along: FAR, left: FAR },
    { along: -FAR, left: FAR },
  ];
}

interface RoadLine {
  /** Unit vector along the road to the left, and across it away from the pad. */
  readonly way: PadPoint;
  readonly off: PadPoint;
  /** How far out the near edge lies. */
  readonly near: number;
}

export function roadLine(road: Road): RoadLine {
  const way = { along: Math.cos(road.angle), left: Math.sin(road.angle) };
  const off = { along: way.left, left: -way.along };
  return { way, off, near: off.along * road.gap };
}

/** The ground beside the pad on one side: `side` 1 is left. A mouth takes its corner away at 45 degrees. */
function beside(road: Road, pad: PadSize, side: 1 | -1): PadPoint[] {
  const { off, near } = roadLine(road);
  const half = pad.width / 2;
  let area = cut(everywhere(), off.along, off.left, near);
  area = cut(area, 0, -side, -half);
  area = cut(area, -1, 0, pad.length);
  const wider = ((pad.mouth ?? pad.width) - pad.width) / 2;
  if (wider <= 0) return area;
  // The corner where the mouth meets the road: from there the cut runs back towards the pad.
  const left = side * (half + wider);
  const corner = { along: (near - off.left * left) / off.along, left };
  const normal = { along: Math.sin(MITRE), left: -side * Math.cos(MITRE) };
  return cut(area, normal.along, normal.left, normal.along * corner.along + normal.left * corner.left);
}

/** Depth of an opening narrower than the pad, metres. Assumed: a gate post or a culvert. */
const GATE_DEPTH = 0.3;

/** What closes the pad's width beside a narrower mouth. */
function gatePost(road: Road, mouth: number, side: number): PadPoint[] {
  const { off, near } = roadLine(road);
  const beyond = cut(cut(everywhere(), off.along, off.left, near), 0, -side, -mouth / 2);
  return cut(beyond, -1, 0, GATE_DEPTH);
}

/** The edges of road and pad as areas for no wheel; left and right in their names are those of the pad frame. */
export function verges(road: Road, pad: PadSize, end: End): Obstruction[] {
  const { way, off, near } = roadLine(road);
  const middle = road.gap * way.along;
  const make = (what: string, corners: readonly PadPoint[]): Obstruction[] =>
    corners.length < 3 ? [] : [{ what, area: makeArea(corners), against: "wheels", verge: true, sigma: road.sigma }];
  const ends: Obstruction[] = [];
  if (Number.isFinite(road.to)) {
    const limit = middle + road.to;
    ends.push(...make("the end of the straight road", cut(everywhere(), -way.along, -way.left, -limit)));
  }
  if (Number.isFinite(road.from)) {
    const limit = middle + road.from;
    ends.push(...make("the end of the straight road", cut(everywhere(), way.along, way.left, limit)));
  }
  const { mouth } = pad;
  const gate = mouth !== null && mouth < pad.width ? [1, -1].map((side) => gatePost(road, mouth, side)) : [];
  return [
    ...gate.flatMap((corners) => make("the side of the mouth", corners)),
    ...make("the road's far edge", cut(everywhere(), -off.along, -off.left, -(near + road.width))),
    ...make(`the verge on the pad's ${end === "exit" ? "left" : "right"}`, beside(road, pad, 1)),
    ...make(`the verge on the pad's ${end === "exit" ? "right" : "left"}`, beside(road, pad, -1)),
    ...ends,
  ];
}

/** The sides of the way between pad and road, right and left, from the pad to the road. */
export function mouthSides(road: Road, pad: PadSize): PadPoint[][] {
  const { off, near } = roadLine(road);
  const half = pad.width / 2;
  const wider = Math.max(0, ((pad.mouth ?? pad.width) - pad.width) / 2);
  return [-1, 1].map((side) => {
    const left = side * (half + wider);
    const along = (near - off.left * left) / off.along;
    return [
      { along: along - wider, left: side * half },
      { along, left },
    ];
  });
}

/** From the pad frame to the frame of an end, and back: for both ends the same function. */
export function seenFrom(end: End, length: number, point: PadPoint): PadPoint {
  return end === "exit"
    ? { along: point.along - length, left: point.left }
    : { along: 0 - point.along, left: 0 - point.left };
}

export function backToPad(end: End, length: number, point: PadPoint): PadPoint {
  return end === "exit" ? { along: point.along + length, left: point.left } : seenFrom(end, length, point);
}

/** Radians by which a heading of the pad frame grows in the frame of the end. */
export function turnOf(end: End): number {
  return end === "exit" ? 0 : Math.PI;
}
