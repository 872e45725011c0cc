/**
 * A tape survey as a network: marks with coordinates that are numbers or unknowns of one list, and tapes between them.
 *
 * The pad's corners give the frame. rear-left is (0, width / 2), exit-right is (length, -width / 2); length and width
 * are unknowns like any other, held by what the record says of them, if it says anything.
 */
import type { PadPoint } from "../../geo/pad-frame.ts";

/** A coordinate: a fixed number, or `factor` times the unknown at `unknown`. */
export type Coordinate = { readonly fixed: number } | { readonly unknown: number; readonly factor: number };

export interface Mark {
  readonly id: string;
  readonly along: Coordinate;
  readonly left: Coordinate;
}

export interface Tape {
  readonly from: string;
  readonly to: string;
  /** Metres on the ground. */
  readonly distance: number;
  /** Standard deviation, metres. */
  readonly sigma: number;
  /** Place in the record's list. */
  readonly index: number;
}

/** Something already known of an unknown: a stated length or width with its standard deviation. */
export interface Held {
  readonly unknown: number;
  readonly value: number;
  readonly sigma: number;
}

export interface Network {
  readonly marks: ReadonlyMap<string, Mark>;
  readonly tapes: readonly Tape[];
  readonly held: readonly Held[];
  readonly unknowns: number;
}

export function coordinateOf(coordinate: Coordinate, unknowns: readonly number[]): number {
  return "fixed" in coordinate ? coordinate.fixed : coordinate.factor * (unknowns[coordinate.unknown] as number);
}

export function placeOf(mark: Mark, unknowns: readonly number[]): PadPoint {
  return { along: coordinateOf(mark.along, unknowns), left: coordinateOf(mark.left, unknowns) };
}

/** One row of the linearised problem: observed minus computed, its derivative by the unknowns, its sigma. */
export interface Row {
  readonly gap: number;
  readonly derivative: readonly number[];
  readonly sigma: number;
}

export function rows(network: Network, unknowns: readonly number[]): Row[] {
  const tapes = network.tapes.map((tape): Row => {
    const from = network.marks.get(tape.from) as Mark;
    const to = network.marks.get(tape.to) as Mark;
    const a = placeOf(from, unknowns);
    const b = placeOf(to, unknowns);
    const length = Math.hypot(b.along - a.along, b.left - a.left);
    const derivative = new Array<number>(network.unknowns).fill(0);
    const add = (coordinate: Coordinate, rate: number) => {
      if ("unknown" in coordinate) {
        derivative[coordinate.unknown] = (derivative[coordinate.unknown] as number) + coordinate.factor * rate;
      }
    };
    if (length > 0) {
      const along = (b.along - a.along) / length;
      const left = (b.left - a.left) / length;
      add(from.along, -along);
      add(from.left, -left);
      add(to.along, along);
      add(to.left, left);
    }
    return { gap: tape.distance - length, derivative, sigma: tape.sigma };
  });
  const held = network.held.map(({ unknown, value, sigma }): Row => {
    const derivative = new Array<number>(network.unknowns).fill(0);
    derivative[unknown] = 1;
    return { gap: value - (unknowns[unknown] as number), derivative, sigma };
  });
  return [...tapes, ...held];
}
