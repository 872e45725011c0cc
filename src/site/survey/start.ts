/**
 * Starting places for the adjustment: sizes from the tapes between corners, then each mark at the crossing of two
 * circles, the likelier of the two first.
 */
import type { PadPoint } from "../../geo/pad-frame.ts";
import { type Mark, placeOf, type Tape } from "./network.ts";
import { type NetworkPlan, WHEEL_STOP } from "./plan.ts";
import { fits, type Wish } from "./wish.ts";

/** Metres by which a place may miss the other tapes more than its mirror image and still be tried. */
const CLEARLY_WORSE = 0.5;
/** Sizes to start from when no tape gives them, metres: a common pad (common practice, no source). */
const COMMON_LENGTH = 12;
const COMMON_WIDTH = 4;

export interface Start {
  readonly unknowns: readonly number[];
  /** Marks that had two places to choose from, in the order in which they were placed. */
  readonly open: readonly string[];
}

/** @param mirrored Marks that take the other of their two places. */
export function startPlaces(
  plan: NetworkPlan,
  wishes: ReadonlyMap<string, Wish>,
  mirrored: ReadonlySet<string>,
): Start {
  let unknowns = new Array<number>(plan.network.unknowns).fill(0);
  startSizes(plan, unknowns);
  const freeIds = new Set(plan.free.map(({ id }) => id));
  const placed = new Set([...plan.network.marks.keys()].filter((id) => !freeIds.has(id)));
  const open: string[] = [];
  for (let next = mostReached(plan, placed); next !== null; next = mostReached(plan, placed)) {
    const { mark, tapes } = next;
    const [first, second] = candidates(plan, mark, tapes, unknowns, wishes.get(mark.id));
    if (second !== undefined) open.push(mark.id);
    const place = mirrored.has(mark.id) ? (second ?? first) : first;
    if (place !== undefined) unknowns = withPlace(unknowns, mark, place);
    placed.add(mark.id);
  }
  return { unknowns, open };
}

function startSizes(plan: NetworkPlan, unknowns: number[]): void {
  const taped = (pairs: readonly (readonly [string, string])[]): number | undefined =>
    plan.network.tapes.find(({ from, to }) =>
      pairs.some(([a, b]) => (a === from && b === to) || (a === to && b === from)),
    )?.distance;
  const heldAt = (unknown: number): number | undefined =>
    plan.network.held.find((held) => held.unknown === unknown)?.value;
  const diagonal = taped([
    ["rear-left", "exit-right"],
    ["rear-right", "exit-left"],
  ]);
  let width = COMMON_WIDTH;
  if (plan.width !== null) {
    width =
      taped([
        ["rear-left", "rear-right"],
        ["exit-left", "exit-right"],
      ]) ??
      heldAt(plan.width) ??
      COMMON_WIDTH;
    unknowns[plan.width] = width;
  }
  if (plan.length !== null) {
    const side = taped([
      ["rear-left", "exit-left"],
      ["rear-right", "exit-right"],
    ]);
    const across = diagonal === undefined || diagonal <= width ? undefined : Math.sqrt(diagonal ** 2 - width ** 2);
    unknowns[plan.length] = side ?? heldAt(plan.length) ?? across ?? COMMON_LENGTH;
  }
}

interface Next {
  readonly mark: Mark;
  readonly tapes: readonly { readonly from: PadPoint | null; readonly other: string; readonly distance: number }[];
}

/** The mark not yet placed that most tapes reach from placed ones. */
function mostReached(plan: NetworkPlan, placed: ReadonlySet<string>): Next | null {
  let best: { mark: Mark; tapes: Tape[] } | null = null;
  for (const mark of plan.free) {
    if (placed.has(mark.id)) continue;
    const tapes = plan.network.tapes.filter(
      ({ from, to }) => (from === mark.id && placed.has(to)) || (to === mark.id && placed.has(from)),
    );
    if (tapes.length > 0 && (best === null || tapes.length > best.tapes.length)) best = { mark, tapes };
  }
  if (best === null) return null;
  const { mark, tapes } = best;
  return {
    mark,
    tapes: tapes.map(({ from, to, distance }) => ({ from: null, other: from === mark.id ? to : from, distance })),
  };
}

function candidates(
  plan: NetworkPlan,
  mark: Mark,
  tapes: Next["tapes"],
  unknowns: readonly number[],
  wish: Wish | undefined,
): PadPoint[] {
  const known = tapes.map(({ other, distance }) => ({
    centre: placeOf(plan.network.marks.get(other) as Mark, unknowns),
    distance,
  }));
  const first = known[0] as (typeof known)[number];
  if (mark.id === WHEEL_STOP) {
    const run = Math.sqrt(Math.max(0, first.distance ** 2 - first.centre.left ** 2));
    const both = [1, -1].map((way) => ({ along: first.centre.along + way * run, left: 0 }));
    return likelier(both, known, wish, plan, unknowns);
  }
  // The pair of centres that are furthest apart crosses best.
  let pair: [(typeof known)[number], (typeof known)[number]] | null = null;
  let widest = 0;
  for (const a of known) {
    for (const b of known) {
      const apart = Math.hypot(a.centre.along - b.centre.along, a.centre.left - b.centre.left);
      if (apart > widest) {
        widest = apart;
        pair = [a, b];
      }
    }
  }
  if (pair === null) {
    const side = wish?.side === "right" ? -1 : 1;
    return [{ along: first.centre.along, left: first.centre.left + side * first.distance }];
  }
  return likelier(
    crossing(pair[0].centre, pair[0].distance, pair[1].centre, pair[1].distance),
    known,
    wish,
    plan,
    unknowns,
  );
}

interface Reach {
  readonly centre: PadPoint;
  readonly distance: number;
}

/** The places that agree with the words and miss the tapes least, the best first. */
function likelier(
  places: readonly PadPoint[],
  known: readonly Reach[],
  wish: Wish | undefined,
  plan: NetworkPlan,
  unknowns: readonly number[],
): PadPoint[] {
  const missOf = (place: PadPoint) =>
    Math.max(
      ...known.map(({ centre, distance }) =>
        Math.abs(Math.hypot(place.along - centre.along, place.left - centre.left) - distance),
      ),
    );
  const sorted = places.map((place) => ({ place, miss: missOf(place) })).sort((a, b) => a.miss - b.miss);
  const least = sorted[0]?.miss ?? 0;
  const likely = sorted.filter(({ miss }) => miss <= least + CLEARLY_WORSE).map(({ place }) => place);
  const length = plan.length === null ? null : (unknowns[plan.length] as number);
  const wished = likely.filter((place) => fits(place, wish, length));
  return wished.length > 0 ? wished : likely;
}

/** Where two circles cross; the nearest thing to it when they do not. */
function crossing(a: PadPoint, radiusA: number, b: PadPoint, radiusB: number): PadPoint[] {
  const apart = Math.hypot(b.along - a.along, b.left - a.left);
  const along = (b.along - a.along) / apart;
  const left = (b.left - a.left) / apart;
  const foot = (apart * apart + radiusA * radiusA - radiusB * radiusB) / (2 * apart);
  // A start on the line itself could not leave it: both sides pull alike there.
  const least = 0.1;
  const off = Math.max(least, Math.sqrt(Math.max(0, radiusA * radiusA - foot * foot)));
  return [1, -1].map((side) => ({
    along: a.along + foot * along - side * off * left,
    left: a.left + foot * left + side * off * along,
  }));
}

function withPlace(unknowns: readonly number[], mark: Mark, place: PadPoint): number[] {
  const next = [...unknowns];
  if ("unknown" in mark.along) next[mark.along.unknown] = place.along;
  if ("unknown" in mark.left) next[mark.left.unknown] = place.left;
  return next;
}
