/** The vehicles of a manoeuvre as boxes about their axles. */
import type { PadPoint } from "../stance/problem.ts";
import { type Hitch, type State, trailerAxle } from "./motion.ts";

/** A rectangle about an axle: metres behind it (negative) and ahead of it, and half its width. */
export interface Box {
  readonly rear: number;
  readonly front: number;
  readonly half: number;
}

export interface Unit {
  /** What to call it in a sentence. */
  readonly name: string;
  readonly body: Box;
  /** Round the tyres: from the rear axle to the front axle, as wide as the body. */
  readonly wheels: Box;
  /** Highest point and underside, metres. */
  readonly height: number;
  readonly underside: number;
}

/** A vehicle with what it draws. */
export interface Train {
  readonly drawing: Unit;
  readonly drawn: {
    readonly unit: Unit;
    readonly hitch: Hitch /** Greatest hitch angle, radians. */;
    readonly limit: number;
  } | null;
  /** Least turning radius of the middle of the drawing vehicle's rear axle, metres. */
  readonly radius: number;
  /** True when the rig of the answer is the vehicle that is drawn. */
  readonly rigIsDrawn: boolean;
}

/** Where an axle stands and points. */
export interface Placed {
  readonly along: number;
  readonly left: number;
  readonly cos: number;
  readonly sin: number;
}

export function units(train: Train): readonly Unit[] {
  return train.drawn === null ? [train.drawing] : [train.drawing, train.drawn.unit];
}

/** Where each unit stands in a state, the drawing vehicle first. */
export function placed(state: State, train: Train): readonly Placed[] {
  const first = { along: state.along, left: state.left, cos: Math.cos(state.heading), sin: Math.sin(state.heading) };
  if (train.drawn === null) return [first];
  const axle = trailerAxle(state, train.drawn.hitch);
  return [first, { ...axle, cos: Math.cos(state.trailer), sin: Math.sin(state.trailer) }];
}

function corner({ along, left, cos, sin }: Placed, ahead: number, aside: number): PadPoint {
  return { along: along + cos * ahead - sin * aside, left: left + sin * ahead + cos * aside };
}

/** Corners of a box, counter-clockwise from its rear right one. */
export function outlineOf(at: Placed, box: Box): readonly PadPoint[] {
  const { rear, front, half } = box;
  return [corner(at, rear, -half), corner(at, front, -half), corner(at, front, half), corner(at, rear, half)];
}

/** Metres from the axle's middle to the box's farthest corner. */
export function reach({ rear, front, half }: Box): number {
  const far = Math.max(-rear, front);
  return Math.sqrt(far * far + half * half);
}

/**
 * Radius of the middle of the rear axle from the radius of the outer front wheel's track (what a kerb-to-kerb turning
 * circle is twice of). `half` is half the width over the front tyres. NaN when the wheelbase is longer than the radius.
 */
export function axleRadius(outerFront: number, wheelbase: number, half: number): number {
  return Math.sqrt(outerFront * outerFront - wheelbase * wheelbase) - half;
}
