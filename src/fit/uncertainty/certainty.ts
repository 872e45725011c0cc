/**
 * How sure an answer is. Ranges (described, coded, assumed) are tried at their ends and inside, parking anew each
 * time, and carry no probability; errors with a standard deviation are drawn together (shared errors shared), parking
 * anew per draw.
 */
import type { Estimate } from "../../units/estimate.ts";
import type { Pick } from "../lines/choice.ts";
import { latticePoints, normalQuantile } from "./lattice.ts";
import { collectParameters, type Parameters, pickAt } from "./parameters.ts";

/** Draws per probability; sampling error up to 4 points in the worst case seen (256-point lattice). */
const DRAWS = 256;
/** All corners of the ranges are tried up to this many ranges; beyond, the adverse corners and points inside. */
const FULL_CORNERS = 5;
const INSIDE_POINTS = 12;
/** Beyond this many standard deviations from zero a probability is 0 or 1 to three digits. */
const DECIDED_SIGMAS = 3.5;
/** Where each error is tried before an outcome counts as beyond doubt, as shares of that. */
const TRIED_SHARES = [1 / 3, 2 / 3, 1] as const;
/** A shift no longer than this cannot carry anything past a rig and out on its other side, metres. */
const SHORT_SHIFT = 0.5;
const END_ONLY = [1] as const;

/** What one parking gave: the value that must not be negative, and the margin of every line. */
export interface Parking {
  /** Worst margin over the lines that count; -Infinity when the rig cannot stand at all. */
  readonly worst: number;
  readonly margins: readonly number[];
}

/** Parks anew with every number read by `pick`. */
export type ParkAnew = (pick: Pick) => Parking;

export interface Sensitivity {
  readonly estimate: Estimate;
  /** Half the change of the worst margin from one end (or -1 sigma) to the other, metres. */
  readonly effect: number;
}

export interface Certainty {
  /** Extremes of the worst margin over the ranges, errors at zero. */
  readonly low: number;
  readonly high: number;
  /** Per line: extremes of its margin over the ranges. */
  readonly marginLow: readonly number[];
  readonly marginHigh: readonly number[];
  readonly hasRanges: boolean;
  readonly hasErrors: boolean;
  /** Probability that the worst margin is not negative, at the least and most favourable ends of the ranges. */
  readonly probabilityLow: number | null;
  readonly probabilityHigh: number | null;
  /** Per line, at the least favourable end. */
  readonly lineProbability: readonly (number | null)[];
  readonly lineProbabilityHigh: readonly (number | null)[];
  /** Of every range and, when weighed, of every error; largest first. */
  readonly effects: readonly Effect[];
}

type Fractions = ReadonlyMap<Estimate, number>;
const NO_FRACTIONS: Fractions = new Map();

function corner(ranges: readonly Estimate[], mask: number): Fractions {
  return new Map(ranges.map((estimate, bit) => [estimate, (mask >> bit) % 2]));
}

/** Points of the ranges to try: corners, adverse and favourable ends, and points inside. */
function rangePoints(ranges: readonly Estimate[], effects: readonly Effect[]): Fractions[] {
  if (ranges.length === 0) return [];
  const ends = new Map(effects.map((entry) => [entry.estimate, entry.rises ? 1 : 0]));
  const favourable: Fractions = new Map(ranges.map((estimate) => [estimate, ends.get(estimate) ?? 1]));
  const adverse: Fractions = new Map(ranges.map((estimate) => [estimate, 1 - (ends.get(estimate) ?? 1)]));
  const corners =
    ranges.length <= FULL_CORNERS ? Array.from({ length: 2 ** ranges.length }, (_, mask) => corner(ranges, mask)) : [];
  const lattice = latticePoints(INSIDE_POINTS, ranges.length);
  const inside = Array.from(
    { length: INSIDE_POINTS },
    (_, row): Fractions =>
      new Map(ranges.map((estimate, column) => [estimate, lattice[row * ranges.length + column]!])),
  );
  return [adverse, favourable, ...corners, ...inside];
}

/** Spread of one estimate as the two numbers at which its effect is measured, relative to nominal. */
function spread(estimate: Estimate): readonly [number, number] {
  if (estimate.low < estimate.high) return [estimate.low - estimate.value, estimate.high - estimate.value];
  const sigma = Math.hypot(estimate.sigma, estimate.sigmaShared);
  return [-sigma, sigma];
}

/** A place where the rig cannot stand counts as this far from reaching, metres, so that effects stay finite. */
const FAR = 1e3;

function finite(value: number): number {
  return Math.max(-FAR, Math.min(FAR, value));
}

export interface Effect extends Sensitivity {
  /** True when a larger value makes the worst margin larger. */
  readonly rises: boolean;
}

function measureEffects(estimates: Iterable<Estimate>, parkAnew: ParkAnew): Effect[] {
  return [...new Set(estimates)]
    .map((target) => {
      const [down, up] = spread(target);
      const at = (shift: number) =>
        finite(parkAnew((estimate) => (estimate === target ? estimate.value + shift : estimate.value)).worst);
      const change = at(up) - at(down);
      return { estimate: target, effect: Math.abs(change) / 2, rises: change >= 0 };
    })
    .sort((a, b) => b.effect - a.effect);
}

interface Shares {
  readonly joint: number;
  readonly lines: readonly number[];
}

function drawShares(parameters: Parameters, fractions: Fractions, parkAnew: ParkAnew, lineCount: number): Shares {
  const lattice = latticePoints(DRAWS, Math.max(1, parameters.draws));
  const width = Math.max(1, parameters.draws);
  const normals = new Float64Array(width);
  let joint = 0;
  const lines = new Array<number>(lineCount).fill(0);
  for (let row = 0; row < DRAWS; row++) {
    for (let column = 0; column < width; column++) normals[column] = normalQuantile(lattice[row * width + column]!);
    const parking = parkAnew(pickAt(parameters, fractions, normals));
    if (parking.worst >= 0) joint++;
    for (let line = 0; line < lineCount; line++) if ((parking.margins[line] ?? -1) >= 0) lines[line] = lines[line]! + 1;
  }
  return { joint: joint / DRAWS, lines: lines.map((count) => count / DRAWS) };
}

/** Distance from zero that decides: of the worst margin or of a line's. */
function nearestToZero(parking: Parking): number {
  return Math.min(Math.abs(parking.worst), ...parking.margins.map(Math.abs));
}

/**
 * True when the errors cannot turn the outcome: each in turn is put to its far end and between, either way, and what
 * the margins move is added as independent errors add. False as soon as that is more than there is to spare, or when
 * the rig can no longer stand, so that the lines alone do not decide.
 */
function beyondDoubt(parameters: Parameters, fractions: Fractions, parkAnew: ParkAnew, nominal: Parking): boolean {
  if (!Number.isFinite(nominal.worst)) return false;
  const spare = nearestToZero(nominal);
  const base = pickAt(parameters, fractions, null);
  const size = ({ estimate }: { readonly estimate: Estimate }) => Math.hypot(estimate.sigma, estimate.sigmaShared);
  let squares = 0;
  for (const error of [...parameters.errors].sort((a, b) => size(b) - size(a))) {
    const shift = DECIDED_SIGMAS * size(error);
    let most = 0;
    const shares = shift > SHORT_SHIFT ? TRIED_SHARES : END_ONLY;
    for (const share of shares.flatMap((one) => [one, -one])) {
      const moved = parkAnew((estimate) => base(estimate) + (estimate === error.estimate ? share * shift : 0));
      if (!Number.isFinite(moved.worst)) return false;
      const moves = moved.margins.map((margin, line) => Math.abs(margin - nominal.margins[line]!));
      most = Math.max(most, Math.abs(moved.worst - nominal.worst), ...moves);
      if (squares + most ** 2 >= spare ** 2) return false;
    }
    squares += most ** 2;
  }
  return true;
}

/** Share of the draws that work, without drawing when the outcome lies beyond doubt. */
function shares(parameters: Parameters, fractions: Fractions, parkAnew: ParkAnew, lineCount: number): Shares {
  const nominal = parkAnew(pickAt(parameters, fractions, null));
  if (beyondDoubt(parameters, fractions, parkAnew, nominal)) {
    return { joint: nominal.worst > 0 ? 1 : 0, lines: nominal.margins.map((margin) => (margin > 0 ? 1 : 0)) };
  }
  return drawShares(parameters, fractions, parkAnew, lineCount);
}

export interface JudgeInput {
  /** Reads every number that the question uses. */
  readonly build: (pick: Pick) => unknown;
  readonly parkAnew: ParkAnew;
  readonly lineCount: number;
  /** True to weigh the errors as well as the ranges: what to measure. */
  readonly weigh: boolean;
  /** Effects already measured for the same lines; then none is measured here. */
  readonly effects?: readonly Effect[];
  /** False to try the ranges only. */
  readonly draw?: boolean;
}

/** Tries the ranges and draws the errors, parking anew each time. */
export function judgeCertainty(input: JudgeInput): Certainty {
  const { build, parkAnew, lineCount, weigh, effects: known, draw = true } = input;
  const parameters = collectParameters(build);
  const { ranges, errors } = parameters;
  const nominal = parkAnew((estimate) => estimate.value);
  const weighed = weigh ? errors.map((error) => error.estimate) : [];
  const effects = known ?? measureEffects([...ranges, ...weighed], parkAnew);
  let low = nominal.worst;
  let high = nominal.worst;
  let lowAt = NO_FRACTIONS;
  let highAt = NO_FRACTIONS;
  const marginLow = Array.from({ length: lineCount }, (_, line) => nominal.margins[line] ?? Number.NEGATIVE_INFINITY);
  const marginHigh = [...marginLow];
  for (const fractions of rangePoints(ranges, effects)) {
    const parking = parkAnew(pickAt(parameters, fractions, null));
    if (parking.worst < low) [low, lowAt] = [parking.worst, fractions];
    if (parking.worst > high) [high, highAt] = [parking.worst, fractions];
    for (let line = 0; line < lineCount; line++) {
      const margin = parking.margins[line] ?? Number.NEGATIVE_INFINITY;
      marginLow[line] = Math.min(marginLow[line]!, margin);
      marginHigh[line] = Math.max(marginHigh[line]!, margin);
    }
  }
  const hasRanges = ranges.length > 0;
  const hasErrors = errors.length > 0;
  const lowShares = hasErrors && draw ? shares(parameters, lowAt, parkAnew, lineCount) : null;
  const highShares =
    hasErrors && draw && lowAt !== highAt ? shares(parameters, highAt, parkAnew, lineCount) : lowShares;
  const none = new Array<null>(lineCount).fill(null);
  return {
    low,
    high,
    marginLow,
    marginHigh,
    hasRanges,
    hasErrors,
    probabilityLow: lowShares?.joint ?? null,
    probabilityHigh: highShares?.joint ?? null,
    lineProbability: lowShares?.lines ?? none,
    lineProbabilityHigh: highShares?.lines ?? none,
    effects,
  };
}
