/**
 * How a vehicle and what it draws move at walking pace: no tyre slips sideways. The drawing vehicle is a bicycle with
 * its reference at the middle of the rear axle, so that it moves on straights and true arcs; a trailer follows the exact
 * equation of its hitch (a tractrix), integrated by the classical fourth-order Runge-Kutta step. Forward and backward are
 * one equation with the distance's sign, so that a path driven backwards is the same path.
 *
 * Sources: Sayers 1991, Vehicle System Dynamics 20(5) 297-308 (exact tractrix equations, valid forward and backward),
 * read in abstract; the equations themselves derived.
 */

/** Middle of the drawing vehicle's rear axle, metres, its heading and the trailer's heading, radians from `along` to `left`. */
export interface State {
  readonly along: number;
  readonly left: number;
  readonly heading: number;
  /** Equal to `heading` when nothing is drawn. */
  readonly trailer: number;
}

/** A piece of one steering angle: signed metres of the rear axle (negative: reverse) and its curvature, 1/m, left positive. */
export interface Piece {
  readonly distance: number;
  readonly curvature: number;
}

/** Coupling: metres behind the rear axle (negative: ahead of it) and from there to the trailer's axle. */
export interface Hitch {
  readonly behind: number;
  readonly length: number;
}

/** Metres of one integration step: for hitches of two metres and more its error stays below a millionth of a radian. */
const LONGEST_STEP = 0.4;
const STRAIGHT = 1e-9;
const WEIGHT_SUM = 6;

/** Rate of the trailer's heading per metre of the rear axle. */
function trailerRate(heading: number, trailer: number, curvature: number, hitch: Hitch): number {
  const bend = heading - trailer;
  return (Math.sin(bend) - hitch.behind * curvature * Math.cos(bend)) / hitch.length;
}

function trailerAfter(heading: number, trailer: number, piece: Piece, hitch: Hitch): number {
  const { distance, curvature } = piece;
  const steps = Math.max(1, Math.ceil(Math.abs(distance) / LONGEST_STEP));
  const step = distance / steps;
  let phi = trailer;
  for (let index = 0; index < steps; index += 1) {
    const from = heading + curvature * step * index;
    const middle = from + (curvature * step) / 2;
    const first = trailerRate(from, phi, curvature, hitch);
    const second = trailerRate(middle, phi + (step * first) / 2, curvature, hitch);
    const third = trailerRate(middle, phi + (step * second) / 2, curvature, hitch);
    const fourth = trailerRate(from + curvature * step, phi + step * third, curvature, hitch);
    phi += (step * (first + 2 * second + 2 * third + fourth)) / WEIGHT_SUM;
  }
  return phi;
}

/** The state after a piece. */
export function advance(state: State, piece: Piece, hitch: Hitch | null): State {
  const { distance, curvature } = piece;
  const turned = curvature * distance;
  const heading = state.heading + turned;
  // Chord of an arc: its length is 2 sin(half the turn) / curvature, its direction the mean of both headings.
  const chord = Math.abs(curvature) < STRAIGHT ? distance : (2 * Math.sin(turned / 2)) / curvature;
  const way = state.heading + turned / 2;
  return {
    along: state.along + chord * Math.cos(way),
    left: state.left + chord * Math.sin(way),
    heading,
    trailer: hitch === null ? heading : trailerAfter(state.heading, state.trailer, piece, hitch),
  };
}

/** States with the short pieces between them: `pieces[i]` leads from `states[i]` to `states[i + 1]`. */
export interface Path {
  readonly states: readonly State[];
  readonly pieces: readonly Piece[];
}

/** Drives pieces from a state, cut into steps of at most `step` metres. */
export function drive(start: State, pieces: readonly Piece[], hitch: Hitch | null, step: number): Path {
  const states = [start];
  const cut: Piece[] = [];
  let state = start;
  for (const piece of pieces) {
    const count = Math.ceil(Math.abs(piece.distance) / step);
    for (let index = 0; index < count; index += 1) {
      const short = { distance: piece.distance / count, curvature: piece.curvature };
      state = advance(state, short, hitch);
      states.push(state);
      cut.push(short);
    }
  }
  return { states, pieces: cut };
}

/** The same path driven the other way. */
export function backwards(path: Path): Path {
  return {
    states: [...path.states].reverse(),
    pieces: [...path.pieces].reverse().map(({ distance, curvature }) => ({ distance: -distance, curvature })),
  };
}

/** The path moved by metres along `along` and `left`. */
export function shifted(path: Path, along: number, left: number): Path {
  const states = path.states.map((state) => ({ ...state, along: state.along + along, left: state.left + left }));
  return { states, pieces: path.pieces };
}

/** Middle of the trailer's axle. */
export function trailerAxle(state: State, hitch: Hitch): { readonly along: number; readonly left: number } {
  return {
    along: state.along - hitch.behind * Math.cos(state.heading) - hitch.length * Math.cos(state.trailer),
    left: state.left - hitch.behind * Math.sin(state.heading) - hitch.length * Math.sin(state.trailer),
  };
}
