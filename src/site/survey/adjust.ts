/**
 * Least squares for a tape network: Gauss and Newton's steps with Levenberg and Marquardt's damping, then the covariance
 * of the unknowns and how surprising each tape is.
 */
import { inverse, type Matrix, solve, times, zeros } from "./matrix.ts";
import { type Network, type Row, rows } from "./network.ts";

export interface Adjustment {
  readonly unknowns: readonly number[];
  /** Sum of squared residuals, each in its standard deviations. */
  readonly chiSquare: number;
  /** Observations less unknowns. */
  readonly redundancy: number;
  /** Covariance of the unknowns, square metres; never below what the stated accuracies give. */
  readonly covariance: Matrix;
  /** Observed minus computed of each tape, metres. */
  readonly residuals: readonly number[];
  /** Each residual in its own standard deviations; 0 for a tape that nothing checks. */
  readonly surprises: readonly number[];
}

const MOST_STEPS = 60;
const FIRST_DAMPING = 1e-3;
const DAMPING_UP = 10;
const DAMPING_DOWN = 0.2;
const MOST_DAMPING = 1e12;
/** Metres below which a step ends the search. */
const LEAST_STEP = 1e-10;
/** Share of a tape's variance that other tapes must check before its residual says anything. */
const LEAST_CHECKED = 1e-6;

/** The adjusted network from a start, or the number of an unknown that the tapes leave undetermined there. */
export function adjust(network: Network, start: readonly number[]): Adjustment | number {
  let unknowns = [...start];
  let here = rows(network, unknowns);
  let cost = chiSquareOf(here);
  let damping = FIRST_DAMPING;
  for (let step = 0; step < MOST_STEPS && damping < MOST_DAMPING; step += 1) {
    const change = dampedStep(here, network.unknowns, damping);
    if (change === null) {
      damping *= DAMPING_UP;
      continue;
    }
    const next = unknowns.map((value, index) => value + (change[index] as number));
    const there = rows(network, next);
    const nextCost = chiSquareOf(there);
    if (!(nextCost <= cost)) {
      damping *= DAMPING_UP;
      continue;
    }
    unknowns = next;
    here = there;
    cost = nextCost;
    damping *= DAMPING_DOWN;
    if (Math.hypot(...change) < LEAST_STEP) break;
  }
  return summary(network, unknowns, here, cost);
}

function summary(
  network: Network,
  unknowns: readonly number[],
  here: readonly Row[],
  chiSquare: number,
): Adjustment | number {
  const cofactor = inverse(normal(here, network.unknowns, 0));
  if (typeof cofactor === "number") return cofactor;
  const redundancy = here.length - network.unknowns;
  // A worse fit than the stated accuracies explain widens everything; a better one by luck narrows nothing.
  const inflation = redundancy > 0 ? Math.max(1, chiSquare / redundancy) : 1;
  const tapes = here.slice(0, network.tapes.length);
  return {
    unknowns,
    chiSquare,
    redundancy,
    covariance: cofactor.map((row) => row.map((value) => value * inflation)),
    residuals: tapes.map(({ gap }) => gap),
    surprises: tapes.map(({ gap, derivative, sigma }) => {
      const explained = times(cofactor, derivative).reduce(
        (sum, value, index) => sum + value * (derivative[index] as number),
        0,
      );
      const left = sigma * sigma - explained;
      return left > LEAST_CHECKED * sigma * sigma ? Math.abs(gap) / Math.sqrt(left) : 0;
    }),
  };
}

function chiSquareOf(all: readonly Row[]): number {
  return all.reduce((sum, { gap, sigma }) => sum + (gap / sigma) ** 2, 0);
}

function normal(all: readonly Row[], size: number, damping: number): Matrix {
  const matrix = zeros(size, size);
  for (const { derivative, sigma } of all) {
    const weight = 1 / (sigma * sigma);
    for (let row = 0; row < size; row += 1) {
      const first = derivative[row] as number;
      if (first === 0) continue;
      const target = matrix[row] as number[];
      for (let column = 0; column < size; column += 1) {
        target[column] = (target[column] as number) + weight * first * (derivative[column] as number);
      }
    }
  }
  for (let row = 0; row < size; row += 1) {
    const target = matrix[row] as number[];
    target[row] = (target[row] as number) * (1 + damping);
  }
  return matrix;
}

function dampedStep(all: readonly Row[], size: number, damping: number): number[] | null {
  const slope = new Array<number>(size).fill(0);
  for (const { gap, derivative, sigma } of all) {
    for (let index = 0; index < size; index += 1) {
      slope[index] = (slope[index] as number) + (gap * (derivative[index] as number)) / (sigma * sigma);
    }
  }
  return solve(normal(all, size, damping), slope);
}
