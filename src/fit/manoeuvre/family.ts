/**
 * The published family of manoeuvres that is searched, written as the way out of the stance to the road. A way in is the
 * same path driven backwards, but for a drawn trailer that is pulled in, whose path is driven as it is.
 *
 *   alone      straight - arc - [arc the other gear] - straight along the road
 *   reversing  the same as a way out, backwards: straight along the road, swing away by up to 40 degrees, stop, one
 *              reversing arc, straight back
 *   drawn      straight - [arc against the turn] - arc - [arc back] - straight along the road until the two are in line
 *
 * Arcs have one of six radii from the least one up; their ends are tangent, steering is changed while standing still or
 * within the half metre of a step (no clothoid: at walking pace a driver steers so, common practice, no source).
 */
import { drive, type Hitch, type Path, type Piece, type State } from "./motion.ts";

const RADII = [1, 1.1, 1.25, 1.5, 2, 3] as const;
const DEGREE = Math.PI / 180;
const SWINGS = [0, 10, 25, 40] as const;
const PULL_SWINGS = [0, 10, 20] as const;
const PULL_BACKS = [0, 10, 20, 30] as const;
const PULL_RADII = [1, 1.15, 1.4, 2] as const;
/** Metres of a step while searching. */
export const STEP = 0.4;
/** A trailer is pulled at most this far along the road to come into line, metres. */
const LONGEST_RUN = 32;

export type Gear = 1 | -1;

/** One member of the family, from the end of the straight out of the stance; the arc begins at the origin. */
export interface Member {
  readonly path: Path;
  readonly radius: number;
  /** Radians of the second arc, 0 when there is none. */
  readonly swing: number;
}

export interface TurnTask {
  /** Heading at the stance and along the road, radians. */
  readonly heading: number;
  readonly road: number;
  /** Gear out of the stance. */
  readonly gear: Gear;
  /** Gear of the last straight along the road. */
  readonly last: Gear;
  readonly radius: number;
  /** True when a second arc in the other gear is allowed. */
  readonly swings: boolean;
  /** Metres of the last straight. */
  readonly run: number;
}

/** The signed turn from one heading to another, within half a turn. */
export function turnTo(from: number, to: number): number {
  return Math.atan2(Math.sin(to - from), Math.cos(to - from));
}

function arc(turn: number, radius: number, gear: Gear): Piece {
  const distance = Math.abs(turn) * radius * gear;
  return { distance, curvature: distance === 0 ? 0 : turn / distance };
}

const ORIGIN = { along: 0, left: 0 };

/** Every member for a vehicle that moves alone. */
export function aloneMembers(task: TurnTask): Member[] {
  const whole = turnTo(task.heading, task.road);
  const side = Math.sign(whole);
  const start: State = { ...ORIGIN, heading: task.heading, trailer: task.heading };
  return RADII.flatMap((times) =>
    (task.swings ? SWINGS : SWINGS.slice(0, 1)).flatMap((degrees): Member[] => {
      const swing = degrees * DEGREE;
      if (swing >= Math.abs(whole)) return [];
      const radius = times * task.radius;
      const other: Gear = task.gear === 1 ? -1 : 1;
      const pieces = [
        arc(whole - side * swing, radius, task.gear),
        arc(side * swing, radius, other),
        { distance: task.run * task.last, curvature: 0 },
      ];
      return [{ path: drive(start, pieces, null, STEP), radius, swing: side * swing }];
    }),
  );
}

/** Metres of straight until the hitch angle falls to `limit`; null when it does not within the longest run. */
function lineUp(state: State, hitch: Hitch, limit: number, least: number): Piece | null {
  const bend = Math.abs(turnTo(state.trailer, state.heading));
  // On a straight tan(bend / 2) falls as exp(-distance / length).
  const needed = bend <= limit ? 0 : hitch.length * Math.log(Math.tan(bend / 2) / Math.tan(limit / 2));
  return needed > LONGEST_RUN ? null : { distance: Math.max(needed, least), curvature: 0 };
}

export interface PullTask extends TurnTask {
  readonly hitch: Hitch;
  /** Hitch angle that counts as in line, radians. */
  readonly inLine: number;
  /** False when the drawing vehicle alone leaves the road wherever this path lies: then the trailer is not looked at. */
  readonly mayFit: (alone: Path, roadEnd: State) => boolean;
}

/** Every member for a vehicle that draws a trailer out of the stance onto the road. */
export function pulledOut(task: PullTask): Member[] {
  const whole = turnTo(task.heading, task.road);
  const side = Math.sign(whole);
  const start: State = { ...ORIGIN, heading: task.heading, trailer: task.heading };
  return PULL_RADII.flatMap((times) =>
    PULL_SWINGS.flatMap((before) =>
      PULL_BACKS.flatMap((after): Member[] => {
        const radius = times * task.radius;
        const [first, last] = [before * DEGREE * side, after * DEGREE * side];
        const pieces = [arc(-first, radius, 1), arc(whole + first + last, radius, 1), arc(-last, radius, 1)];
        const alone = drive(start, pieces, null, STEP);
        if (!task.mayFit(alone, alone.states.at(-1) ?? start)) return [];
        const turned = drive(start, pieces, task.hitch, STEP);
        const end = turned.states.at(-1) ?? start;
        const run = lineUp(end, task.hitch, task.inLine, task.run);
        if (run === null) return [];
        const straight = drive(end, [run], task.hitch, 2 * STEP);
        return [{ path: joined(turned, straight), radius, swing: first }];
      }),
    ),
  );
}

/**
 * Every member for a vehicle that draws a trailer off the road into the pad: in line on the road, a swing away, the
 * turn in. The path ends, at the origin, where the straight to the stance begins.
 */
export function pulledIn(task: PullTask): Member[] {
  const whole = turnTo(task.road, task.heading);
  const side = Math.sign(whole);
  const start: State = { ...ORIGIN, heading: task.road, trailer: task.road };
  return PULL_RADII.flatMap((times) =>
    PULL_SWINGS.flatMap((before) =>
      PULL_SWINGS.flatMap((after): Member[] => {
        const radius = times * task.radius;
        const [first, last] = [before * DEGREE * side, after * DEGREE * side];
        const pieces = [
          { distance: task.run, curvature: 0 },
          arc(-first, radius, 1),
          arc(whole + first + last, radius, 1),
          arc(-last, radius, 1),
        ];
        if (!task.mayFit(drive(start, pieces, null, STEP), start)) return [];
        const path = drive(start, pieces, task.hitch, STEP);
        const end = path.states.at(-1) ?? start;
        const states = path.states.map((one) => ({ ...one, along: one.along - end.along, left: one.left - end.left }));
        return [{ path: { states, pieces: path.pieces }, radius, swing: first }];
      }),
    ),
  );
}

/** Two paths, the second from where the first ends. */
export function joined(first: Path, second: Path): Path {
  return { states: [...first.states, ...second.states.slice(1)], pieces: [...first.pieces, ...second.pieces] };
}
