/** The least clearance of a path: estimated at its states while searching, proven between them for the path shown. */
import type { PadPoint } from "../stance/problem.ts";
import type { Obstruction } from "./ground.ts";
import { advance, type Path, type Piece, type State } from "./motion.ts";
import { nearest, roughSeparation, separation } from "./separation.ts";
import { type Box, placed, reach, type Train, type Unit, units } from "./vehicle.ts";

/** One box of one unit against the areas it keeps off. */
interface Watch {
  readonly index: number;
  readonly unit: Unit;
  readonly box: Box;
  readonly obstructions: readonly Obstruction[];
}

export function watches(train: Train, obstructions: readonly Obstruction[]): readonly Watch[] {
  return units(train).flatMap((unit, index) =>
    (["wheels", "body"] as const).flatMap((against) => {
      const found = obstructions.filter((one) => one.against === against);
      return found.length === 0 ? [] : [{ index, unit, box: unit[against], obstructions: found }];
    }),
  );
}

/** Least separation in one state, metres; what is more than `enough` is not told exactly. */
export function clearanceAt(state: State, train: Train, watched: readonly Watch[], enough: number): number {
  const at = placed(state, train);
  let least = enough;
  for (const { index, box, obstructions } of watched) {
    const place = at[index];
    if (place === undefined) continue;
    for (const obstruction of obstructions) {
      const gap = separation(place, box, obstruction.area, least);
      if (gap < least) least = gap;
    }
  }
  return least;
}

/** Where every unit stands in every state of a path, so that a moved path is judged without driving it again. */
export interface Trace {
  /** Per state and unit: along, left, cosine, sine of the heading. */
  readonly numbers: readonly number[];
  readonly units: number;
  readonly count: number;
  /** True when the hitch is turned beyond its limit somewhere. */
  readonly jammed: boolean;
}

const PLACE = 4;

export function traceOf(path: Path, train: Train): Trace {
  const limit = train.drawn?.limit ?? Number.POSITIVE_INFINITY;
  const hitch = train.drawn?.hitch ?? null;
  const numbers: number[] = [];
  for (const { along, left, heading, trailer } of path.states) {
    const [cos, sin] = [Math.cos(heading), Math.sin(heading)];
    numbers.push(along, left, cos, sin);
    if (hitch === null) continue;
    const [cosDrawn, sinDrawn] = [Math.cos(trailer), Math.sin(trailer)];
    const { behind, length } = hitch;
    numbers.push(along - behind * cos - length * cosDrawn, left - behind * sin - length * sinDrawn, cosDrawn, sinDrawn);
  }
  const jammed = path.states.some((state) => Math.abs(state.heading - state.trailer) > limit);
  return { numbers, units: units(train).length, count: path.states.length, jammed };
}

/** What ended the last path that was given up: tried first on the next one. */
export interface Hint {
  state: number;
  watch: Watch | null;
  obstruction: Obstruction | null;
}

/**
 * Least clearance over the states of a trace moved by (along, left), along the sides only, so that it is never too
 * large; minus infinity once it is not above `floor`. With `states` only the first so many are looked at.
 */
export function roughClearance(
  trace: Trace,
  shift: PadPoint,
  watched: readonly Watch[],
  floor: number,
  enough: number,
  hint: Hint,
  states = trace.count,
): number {
  if (trace.jammed) return Number.NEGATIVE_INFINITY;
  const { numbers, units: unitCount } = trace;
  const count = Math.min(states, trace.count);
  const gapAt = (state: number, watch: Watch, obstruction: Obstruction, most: number): number => {
    const base = (state * unitCount + watch.index) * PLACE;
    const x = (numbers[base] as number) + shift.along;
    const y = (numbers[base + 1] as number) + shift.left;
    const [cos, sin] = [numbers[base + 2] as number, numbers[base + PLACE - 1] as number];
    return roughSeparation(x, y, cos, sin, watch.box, obstruction.area, most);
  };
  if (hint.watch !== null && hint.obstruction !== null && hint.state < count && hint.watch.index < unitCount) {
    if (gapAt(hint.state, hint.watch, hint.obstruction, enough) <= floor) return Number.NEGATIVE_INFINITY;
  }
  let least = enough;
  for (let state = 0; state < count; state += 1) {
    for (const watch of watched) {
      for (const obstruction of watch.obstructions) {
        const gap = gapAt(state, watch, obstruction, least);
        if (gap >= least) continue;
        least = gap;
        if (least > floor) continue;
        hint.state = state;
        hint.watch = watch;
        hint.obstruction = obstruction;
        return Number.NEGATIVE_INFINITY;
      }
    }
  }
  return least;
}

/** Metres to which the least clearance is proven. */
export const PROOF = 0.005;
/** Metres of a piece below which it is not cut again. */
const SHORTEST = 1e-4;

/** No point of the train moves further than this over a piece, metres. */
function travel(piece: Piece, train: Train): number {
  const distance = Math.abs(piece.distance);
  const bend = Math.abs(piece.curvature);
  const first = distance * (1 + bend * reach(train.drawing.body));
  if (train.drawn === null) return first;
  const { hitch, unit } = train.drawn;
  const pulled = distance * (1 + bend * Math.abs(hitch.behind));
  return Math.max(first, pulled * (1 + reach(unit.body) / hitch.length));
}

export interface Proven {
  /** Lower bound of the clearance along the whole path, at most 5 mm below what is reached. */
  readonly clearance: number;
  /** State with the least clearance found. */
  readonly state: State;
  /** Its place in the path, counted in pieces. */
  readonly index: number;
}

/** The least clearance of a path between its states too: intervals are halved until nothing can hide in them. */
export function provenClearance(path: Path, train: Train, watched: readonly Watch[]): Proven {
  const hitch = train.drawn?.hitch ?? null;
  const far = Number.POSITIVE_INFINITY;
  let best = { clearance: far, state: path.states[0] as State, index: 0 };
  const clear = path.states.map((state, index) => {
    const clearance = clearanceAt(state, train, watched, far);
    if (clearance < best.clearance) best = { clearance, state, index };
    return clearance;
  });
  const search = (from: State, piece: Piece, first: number, last: number, index: number): void => {
    const room = travel(piece, train);
    if ((first + last - room) / 2 >= best.clearance - PROOF || Math.abs(piece.distance) < SHORTEST) return;
    const half = { distance: piece.distance / 2, curvature: piece.curvature };
    const state = advance(from, half, hitch);
    const clearance = clearanceAt(state, train, watched, far);
    if (clearance < best.clearance) best = { clearance, state, index };
    search(from, half, first, clearance, index);
    search(state, half, clearance, last, index);
  };
  path.pieces.forEach((piece, index) => {
    search(path.states[index] as State, piece, clear[index] as number, clear[index + 1] as number, index);
  });
  return { ...best, clearance: best.clearance - PROOF };
}

interface Closest {
  readonly unit: string;
  readonly obstruction: Obstruction;
  readonly distance: number;
  readonly at: PadPoint;
}

/** What is closest to the train in one state. */
export function closestAt(state: State, train: Train, watched: readonly Watch[]): Closest | null {
  const at = placed(state, train);
  let best: Closest | null = null;
  for (const { index, unit, box, obstructions } of watched) {
    const place = at[index];
    if (place === undefined) continue;
    for (const obstruction of obstructions) {
      const distance = separation(place, box, obstruction.area, Number.POSITIVE_INFINITY);
      if (best !== null && distance >= best.distance) continue;
      best = { unit: unit.name, obstruction, distance, at: nearest(place, box, obstruction.area).at };
    }
  }
  return best;
}

/** How far a body hangs over the verge at most, metres; 0 when it stays over road and pad. */
export function overVerge(path: Path, train: Train, obstructions: readonly Obstruction[]): number {
  const verge = obstructions.filter((one) => one.verge);
  let most = 0;
  for (const state of path.states) {
    const at = placed(state, train);
    units(train).forEach((unit, index) => {
      const place = at[index];
      if (place === undefined) return;
      for (const one of verge) most = Math.max(most, -separation(place, unit.body, one.area, 0));
    });
  }
  return most;
}

/** Standard deviations by which a clearance must exceed the error of a place: one chance in twenty. */
const SURE = 1.645;

/**
 * Name of a thing whose place is not known well enough for the clearance from it; null when all are. What is as close
 * at the stance already is the stance's affair. `inwards`: the path ends at the stance, else it begins there.
 */
export function doubtful(path: Path, train: Train, watched: readonly Watch[], inwards: boolean): string | null {
  const stance = (inwards ? path.states.at(-1) : path.states[0]) as State;
  for (const { index, box, obstructions } of watched) {
    for (const one of obstructions) {
      const enough = SURE * one.sigma;
      const gap = (state: State): number => {
        const place = placed(state, train)[index];
        return place === undefined ? enough : separation(place, box, one.area, enough);
      };
      if (enough === 0 || gap(stance) < enough) continue;
      if (path.states.some((state) => gap(state) < enough)) return one.what;
    }
  }
  return null;
}
