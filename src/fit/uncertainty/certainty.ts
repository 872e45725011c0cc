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
const INSIDE_POINTS = 24;
/** Beyond this many standard deviations from zero a probability is 0 or 1 to four digits. */
const DECIDED_SIGMAS = 4;

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
  /** Largest effect first. */
  readonly sensitivities: readonly Sensitivity[];
}

type Fractions = ReadonlyMap<Estimate, number>;
const NO_FRACTIONS: Fractions = new Map();

function corner(ranges: readonly Estimate[], mask: number): Fractions {
  return new Map(ranges.map((estimate, bit) => [estimate, (mask >> bit) % 2]));
}

/** Points of the ranges to try: corners, adverse and favourable ends, and points inside. */
function rangePoints(parameters: Parameters, sensitivities: readonly (Sensitivity & { readonly rises: boolean })[]): Fractions[] {
  const { ranges } = parameters;
  if (ranges.length === 0) return [];
  const ends = new Map(sensitivities.map((entry) => [entry.estimate, entry.rises ? 1 : 0]));
  const favourable: Fractions = new Map(ranges.map((estimate) => [estimate, ends.get(estimate) ?? 1]));
  const adverse: Fractions = new Map(ranges.map((estimate) => [estimate, 1 - (ends.get(estimate) ?? 1)]));
  const corners =
    ranges.length <= FULL_CORNERS ? Array.from({ length: 2 ** ranges.length }, (_, mask) => corner(ranges, mask)) : [];
  const lattice = latticePoints(INSIDE_POINTS, ranges.length);
  const inside = Array.from(
    { length: INSIDE_POINTS },
    (_, row): Fractions => new Map(ranges.map((estimate, column) => [estimate, lattice[row * ranges.length + column]!])),
  );
  return [adverse, favourable, ...corners, ...inside];
}

/** Spread of one estimate as the two numbers at which its effect is measured, relative to nominal. */
function spread(estimate: Estimate): readonly [number, number] {
  if (estimate.low < estimate.high) return [estimate.low - estimate.value, estimate.high - estimate.value];
  const sigma = Math.hypot(estimate.sigma, estimate.sigmaShared);
  return [-sigma, sigma];
}

function finite(value: number): number {
  return Math.max(-DECIDED_SIGMAS * 1e3, Math.min(DECIDED_SIGMAS * 1e3, value));
}

function measureEffects(parameters: Parameters, parkAnew: ParkAnew) {
  const estimates = new Set([...parameters.ranges, ...parameters.errors.map((error) => error.estimate)]);
  return [...estimates]
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

/**
 * Share of the draws that work, without drawing when the outcome lies beyond doubt. The worst margin moves by at most
 * the sum of the errors of the values it uses, so four standard deviations of that sum decide.
 */
function shares(parameters: Parameters, fractions: Fractions, parkAnew: ParkAnew, lineCount: number): Shares {
  const nominal = parkAnew(pickAt(parameters, fractions, null));
  const sigmas = parameters.errors.map(({ estimate }) => Math.hypot(estimate.sigma, estimate.sigmaShared));
  const reach = DECIDED_SIGMAS * sigmas.reduce((sum, sigma) => sum + sigma, 0);
  const decided = [nominal.worst, ...nominal.margins].every((margin) => Math.abs(margin) > reach);
  if (decided && Number.isFinite(nominal.worst) && standsWhenPinched(parameters, fractions, parkAnew)) {
    return { joint: nominal.worst > 0 ? 1 : 0, lines: nominal.margins.map((margin) => (margin > 0 ? 1 : 0)) };
  }
  return drawShares(parameters, fractions, parkAnew, lineCount);
}

/** True when the rig still stands with any one error at four sigmas, either way: then only the lines can fail. */
function standsWhenPinched(parameters: Parameters, fractions: Fractions, parkAnew: ParkAnew): boolean {
  return parameters.errors.every(({ estimate: target }) => {
    const shift = DECIDED_SIGMAS * Math.hypot(target.sigma, target.sigmaShared);
    const base = pickAt(parameters, fractions, null);
    return [shift, -shift].every((value) =>
      Number.isFinite(parkAnew((estimate) => base(estimate) + (estimate === target ? value : 0)).worst),
    );
  });
}

/**
 * Tries the ranges and draws the errors. `build` reads every number that the question uses; `parkAnew` answers it.
 * With `probability` false only the ranges are tried.
 */
export function judgeCertainty(
  build: (pick: Pick) => unknown,
  parkAnew: ParkAnew,
  lineCount: number,
  probability = true,
): Certainty {
  const parameters = collectParameters(build);
  const hasRanges = parameters.ranges.length > 0;
  const hasErrors = parameters.errors.length > 0;
  const nominal = parkAnew((estimate) => estimate.value);
  const effects = hasRanges ? measureEffects(parameters, parkAnew) : [];
  let low = nominal.worst;
  let high = nominal.worst;
  let lowAt = NO_FRACTIONS;
  let highAt = NO_FRACTIONS;
  const marginLow = Array.from({ length: lineCount }, (_, line) => nominal.margins[line] ?? Number.NEGATIVE_INFINITY);
  const marginHigh = [...marginLow];
  for (const fractions of rangePoints(parameters, effects)) {
    const parking = parkAnew(pickAt(parameters, fractions, null));
    if (parking.worst < low) [low, lowAt] = [parking.worst, fractions];
    if (parking.worst > high) [high, highAt] = [parking.worst, fractions];
    for (let line = 0; line < lineCount; line++) {
      const margin = parking.margins[line] ?? Number.NEGATIVE_INFINITY;
      marginLow[line] = Math.min(marginLow[line]!, margin);
      marginHigh[line] = Math.max(marginHigh[line]!, margin);
    }
  }
  const draw = hasErrors && probability;
  const lowShares = draw ? shares(parameters, lowAt, parkAnew, lineCount) : null;
  const highShares = draw ? (hasRanges ? shares(parameters, highAt, parkAnew, lineCount) : lowShares) : null;
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
    sensitivities: effects,
  };
}

/** Effects of every uncertain value on the worst margin, largest first: what to measure. */
export function sensitivities(build: (pick: Pick) => unknown, parkAnew: ParkAnew): readonly Sensitivity[] {
  return measureEffects(collectParameters(build), parkAnew);
}
