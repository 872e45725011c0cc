/**
 * What a walk gives so far: places, sizes, what is still to measure, which of two places, which tape contradicts the
 * others. The survey itself is that of the site records (src/site/survey.ts); offsets join it as distances to corners.
 */
import type { PadPoint } from "../../geo/pad-frame.ts";
import { fits } from "../../site/survey/wish.ts";
import {
  type Residual,
  type SurveySolution,
  solveSurvey,
  TAPE_ACCURACY,
  type TapeMeasurement,
  type Wish,
} from "../../site/survey.ts";
import { metresOf, type Offset, type Walk } from "./walk.ts";

export interface Placed extends PadPoint {
  readonly id: string;
  /** Larger of both standard deviations, metres. */
  readonly sigma: number;
}

export interface Size {
  readonly value: number;
  readonly sigma: number;
  /** False when it is only what the record said before. */
  readonly taped: boolean;
}

export interface Contradiction {
  /** Place in the walk's readings; null for an offset. */
  readonly reading: number | null;
  readonly from: string;
  readonly to: string;
  /** Measured, and measured minus what the others allow, metres. */
  readonly distance: number;
  readonly residual: number;
}

export interface Solved {
  readonly corners: readonly Placed[];
  readonly places: readonly Placed[];
  readonly length: Size | null;
  readonly width: Size | null;
  readonly questions: readonly { readonly id: string; readonly places: readonly [PadPoint, PadPoint] }[];
  readonly contradictions: readonly Contradiction[];
}

/** What the record says of the pad before the walk, metres. */
export interface Recorded {
  readonly length: number | null;
  readonly width: number | null;
}

/** Standard deviation of a recorded size that nobody has taped on this walk (our choice), metres. */
const RECORDED_SIGMA = 0.1;
/** A third of the difference between both places: the wrong one is out, the right one is hardly pulled. */
const CHOICE_SHARE = 1 / 4;
const MOST_ROUNDS = 8;
const HALF = 0.5;
const CORNERS = ["rear-left", "rear-right", "exit-left", "exit-right"] as const;

type Sizes = { readonly length: number | null; readonly width: number | null };

function cornerAt(id: string, { length, width }: Sizes): PadPoint | null {
  if (width === null || (id.startsWith("exit") && length === null)) return null;
  return { along: id.startsWith("exit") ? (length as number) : 0, left: (id.endsWith("left") ? HALF : -HALF) * width };
}

/** The place that an offset gives; null while it needs a width that is not known. */
export function placeByOffset(offset: Offset, width: number | null): PadPoint | null {
  const along = metresOf(offset.along.replace(/^\s*-/, ""));
  const across = metresOf(offset.across);
  if (along === null || across === null) return null;
  const sign = /^\s*-/.test(offset.along) ? -1 : 1;
  const half = width === null ? null : width / 2;
  const left: Readonly<Record<Offset["acrossFrom"], number | null>> = {
    "middle-left": across,
    "middle-right": -across,
    "left-edge": half === null ? null : half + across,
    "right-edge": half === null ? null : -half - across,
  };
  const found = left[offset.acrossFrom];
  return found === null ? null : { along: sign * along, left: found };
}

const apart = (a: PadPoint, b: PadPoint): number => Math.hypot(a.along - b.along, a.left - b.left);

/** Distances from a place to every known corner. */
function tapesTo(id: string, place: PadPoint, sizes: Sizes): TapeMeasurement[] {
  return CORNERS.flatMap((corner) => {
    const at = cornerAt(corner, sizes);
    return at === null ? [] : [{ from: id, to: corner, distance: apart(place, at), accuracy: TAPE_ACCURACY }];
  });
}

interface Chosen {
  readonly wish?: Wish;
  readonly tape?: TapeMeasurement;
}

/** Words that tell the chosen place from the other, or, where words cannot, a loose tape to the corner that tells most. */
function choose(id: string, chosen: PadPoint, other: PadPoint, sizes: Sizes): Chosen {
  const sides = Math.sign(chosen.left) !== Math.sign(other.left);
  const wish: Wish = {
    side: sides ? (chosen.left > 0 ? "left" : "right") : null,
    third: chosen.along < 0 && other.along >= 0 ? "behind" : null,
  };
  if (fits(chosen, wish, sizes.length) && !fits(other, wish, sizes.length)) return { wish };
  const tellers = CORNERS.flatMap((corner) => {
    const at = cornerAt(corner, sizes);
    return at === null
      ? []
      : [{ corner, distance: apart(chosen, at), tells: Math.abs(apart(chosen, at) - apart(other, at)) }];
  });
  const best = tellers.reduce<(typeof tellers)[number] | null>(
    (most, one) => (most === null || one.tells > most.tells ? one : most),
    null,
  );
  if (best === null) return { wish };
  return {
    tape: {
      from: id,
      to: best.corner,
      distance: best.distance,
      accuracy: Math.max(TAPE_ACCURACY, best.tells * CHOICE_SHARE),
    },
  };
}

/** Solves, puts in the choices that questions ask for, and solves again until no answered question is left. */
function surveyed(walk: Walk, tapes: readonly TapeMeasurement[], held: Sizes): SurveySolution {
  const wishes = new Map<string, Wish>();
  const extra: TapeMeasurement[] = [];
  const sizeOf = (value: number | null) => (value === null ? null : { value, sigma: RECORDED_SIGMA });
  const answered = new Set<string>();
  for (let round = 0; ; round += 1) {
    const solution = solveSurvey({
      measurements: [...tapes, ...extra],
      length: sizeOf(held.length),
      width: sizeOf(held.width),
      wishes,
    });
    const open = solution.ambiguous.filter(({ id }) => walk.choices[id] !== undefined && !answered.has(id));
    if (open.length === 0 || round === MOST_ROUNDS) return solution;
    for (const { id, places } of open) {
      const hint = walk.choices[id] as PadPoint;
      const [chosen, other] = apart(places[0], hint) <= apart(places[1], hint) ? places : [places[1], places[0]];
      const made = choose(id, chosen, other, {
        length: solution.length?.value ?? null,
        width: solution.width?.value ?? null,
      });
      if (made.wish !== undefined) wishes.set(id, made.wish);
      if (made.tape !== undefined) extra.push(made.tape);
      answered.add(id);
    }
  }
}

/** True when a reading of the walk speaks of the pad's width (or length), alone or by a diagonal. */
function tapedSizes(walk: Walk): { readonly length: boolean; readonly width: boolean } {
  const ids = new Set(walk.readings.flatMap(({ from, to }) => [from, to]));
  const corners = CORNERS.filter((corner) => ids.has(corner));
  const pairs = walk.readings.filter(
    ({ from, to }) => corners.includes(from as never) && corners.includes(to as never),
  );
  const end = (id: string) => id.split("-")[0];
  const side = (id: string) => id.split("-")[1];
  return {
    length: pairs.some(({ from, to }) => end(from) !== end(to)),
    width: pairs.some(({ from, to }) => side(from) !== side(to)),
  };
}

export function solveWalk(walk: Walk, recorded: Recorded): Solved {
  const measured = walk.readings.map(({ from, to, distance }) => ({ from, to, distance: metresOf(distance) ?? 0 }));
  const taped = tapedSizes(walk);
  const held: Sizes = { length: taped.length ? null : recorded.length, width: taped.width ? null : recorded.width };
  const first = surveyed(walk, measured, held);
  const sizes: Sizes = { length: first.length?.value ?? null, width: first.width?.value ?? null };
  const byOffset = walk.offsets.flatMap((offset) => {
    const place = placeByOffset(offset, sizes.width);
    return place === null ? [] : [{ id: offset.mark, place }];
  });
  const joined =
    sizes.length === null || sizes.width === null ? [] : byOffset.flatMap(({ id, place }) => tapesTo(id, place, sizes));
  const solution = joined.length === 0 ? first : surveyed(walk, [...measured, ...joined], held);
  return gathered(walk, solution, taped, byOffset, measured.length);
}

function gathered(
  walk: Walk,
  solution: SurveySolution,
  taped: { readonly length: boolean; readonly width: boolean },
  byOffset: readonly { readonly id: string; readonly place: PadPoint }[],
  readings: number,
): Solved {
  const sizeOf = (size: SurveySolution["length"], own: boolean): Size | null =>
    size === null ? null : { ...size, taped: own };
  const length = sizeOf(solution.length, taped.length);
  const width = sizeOf(solution.width, taped.width);
  const solved = solution.marks.map(
    ({ id, along, left, sigmaAlong, sigmaLeft }): Placed => ({
      id,
      along,
      left,
      sigma: Math.max(sigmaAlong, sigmaLeft),
    }),
  );
  const known = new Set(solved.map(({ id }) => id));
  const alone = byOffset
    .filter(({ id }) => !known.has(id))
    .map(({ id, place }): Placed => ({ id, ...place, sigma: TAPE_ACCURACY }));
  const corners = CORNERS.flatMap((id): Placed[] => {
    const at = cornerAt(id, { length: length?.value ?? null, width: width?.value ?? null });
    return at === null ? [] : [{ id, ...at, sigma: Math.max(length?.sigma ?? 0, width?.sigma ?? 0) }];
  });
  const placed = new Set([...known, ...alone.map(({ id }) => id)]);
  return {
    corners,
    places: [...solved, ...alone],
    length,
    width,
    questions: solution.ambiguous.filter(({ id }) => !placed.has(id)),
    contradictions: solution.contradictions
      .filter(({ from }) => walk.marks.some(({ id }) => id === from))
      .map((one) => contradiction(one, readings)),
  };
}

function contradiction({ index, from, to, distance, residual }: Residual, readings: number): Contradiction {
  return { reading: index < readings ? index : null, from, to, distance, residual };
}
