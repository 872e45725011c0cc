/**
 * The best member of the family for one way in or out. Searched over a fixed grid that does not depend on the road's
 * width, so that a wider road can never come out worse; the winner's clearance is then proven along its whole path.
 * Finding none says nothing about other manoeuvres: it is "not in one move of this family".
 */
import type { PadPoint } from "../stance/problem.ts";
import {
  clearanceAt,
  type Hint,
  PROOF,
  type Proven,
  provenClearance,
  roughClearance,
  type Trace,
  traceOf,
  watches,
} from "./clearance.ts";
import {
  aloneMembers,
  type Gear,
  joined,
  type Member,
  type PullTask,
  pulledIn,
  pulledOut,
  STEP,
  type TurnTask,
  turnTo,
} from "./family.ts";
import { type Obstruction, type Road, roadLine } from "./ground.ts";
import { backwards, drive, type Path, type State, shifted } from "./motion.ts";
import type { Train } from "./vehicle.ts";

/** More clearance than this is not looked for, metres. */
export const ENOUGH = 0.6;
/** Metres between the places across the road that are tried. */
const LATERAL_STEP = 0.15;
const LATERAL_MOST = 60;
/** Longest straight out of the stance, metres. */
const LONGEST_STRAIGHT = 45;
/** The same in whole steps, so that a trace's states lie where a path's do. */
const LONGEST_TRACE = Math.ceil(LONGEST_STRAIGHT / STEP) * STEP;
/** Metres of straight along the road beyond the turn that count and are drawn. */
const RUN = 2;
/** Rounding error, metres. */
const TOUCH = 1e-6;
/** Less clearance than this is none: the proof between the states may take a centimetre away. */
const LEAST = 0.015;

export interface LegTask {
  /** Drawing vehicle at the stance, in the frame of the end. */
  readonly stance: State;
  readonly train: Train;
  readonly road: Road;
  readonly obstructions: readonly Obstruction[];
  /** in: from the road to the stance; out: the other way. */
  readonly way: "in" | "out";
  /** Gear in which the train leaves the stance by this end, also when it only comes in by it. */
  readonly gear: Gear;
  /** Order in which directions along the road are tried. */
  readonly directions: readonly ("left" | "right")[];
  /** Metres that the rig may go beyond the stance, on the pad, and come straight back; negative: it must go as far out. */
  readonly beyond: number;
  /** Metres sideways, to the rig's left, to the pad's middle; 0 when the rig must leave the stance straight. */
  readonly sideways: number;
  /** Greatest hitch angle at the stance when it is pulled in, radians. */
  readonly parkedHitch: number;
  readonly straightHitch: number;
}

export interface Found {
  /** In the order of driving, in the frame of the end. */
  readonly path: Path;
  readonly direction: "left" | "right";
  readonly radius: number;
  /** Of the turning part, metres, at most ENOUGH. */
  readonly turning: number;
  readonly proven: Proven;
  /** Hitch angle at the stance, radians. */
  readonly hitchAngle: number;
}

interface Candidate {
  readonly member: Member;
  readonly straight: number;
  readonly clearance: number;
  readonly direction: "left" | "right";
}

/** Metres across the road, from its near edge, of a point. */
function across(point: PadPoint, road: Road): number {
  const { off, near } = roadLine(road);
  return off.along * point.along + off.left * point.left - near;
}

/** True when the trailer is pulled in: its path cannot be read backwards from the stance. */
function isPulledIn(task: LegTask): boolean {
  return task.train.drawn !== null && task.way === "in" && task.gear === -1;
}

function membersFor(task: LegTask, heading: number): readonly Member[] {
  const { stance, train, gear, way } = task;
  const first: TurnTask = {
    heading: stance.heading,
    road: heading,
    gear,
    // In: the path is read backwards, and the road is driven forward. Out: the road is driven forward.
    last: way === "in" ? -1 : 1,
    radius: train.radius,
    swings: (way === "in") === (gear === 1),
    run: RUN,
  };
  if (train.drawn === null) return aloneMembers(first);
  const pull: PullTask = {
    ...first,
    hitch: train.drawn.hitch,
    inLine: task.straightHitch,
    mayFit: (alone, end) => spansRoad(alone, end, task),
  };
  return isPulledIn(task) ? pulledIn(pull) : pulledOut(pull);
}

/**
 * False when the drawing vehicle's front wheels go farther beyond their line along the road than the road is wide: then
 * no place across the road holds this path.
 */
function spansRoad(path: Path, end: State, { road, train }: LegTask): boolean {
  const { front, half } = train.drawing.wheels;
  const { off } = roadLine(road);
  const line = off.along * end.along + off.left * end.left;
  const most = road.width - half + TOUCH;
  return path.states.every(({ along, left, heading }) => {
    const [cos, sin] = [Math.cos(heading), Math.sin(heading)];
    const ahead = off.along * cos + off.left * sin;
    const aside = Math.abs(off.left * cos - off.along * sin);
    return off.along * along + off.left * left + ahead * front + aside * half - line <= most;
  });
}

/** State of the path's road end. */
function roadEnd(task: LegTask, member: Member): State {
  const state = isPulledIn(task) ? member.path.states[0] : member.path.states.at(-1);
  return state as State;
}

function startOfArc(task: LegTask, straight: number): PadPoint {
  const { stance, gear } = task;
  return {
    along: stance.along + gear * straight * Math.cos(stance.heading),
    left: stance.left + gear * straight * Math.sin(stance.heading),
  };
}

/** Straights that bring the drawing vehicle onto the road, nearest to the near edge first. */
function* straights(task: LegTask, member: Member): Generator<number> {
  const { road, train, stance, gear } = task;
  const half = train.drawing.wheels.half;
  const { off } = roadLine(road);
  const perMetre = gear * (off.along * Math.cos(stance.heading) + off.left * Math.sin(stance.heading));
  const end = roadEnd(task, member);
  const at = across({ along: stance.along + end.along, left: stance.left + end.left }, road);
  for (let step = 0; step < LATERAL_MOST; step += 1) {
    const lateral = half + step * LATERAL_STEP;
    if (lateral > road.width - half + TOUCH) return;
    const straight = (lateral - at) / perMetre;
    if (straight >= -task.beyond && straight <= LONGEST_STRAIGHT) yield straight;
  }
}

/** The straight between stance and arc, in the order of driving; for a trailer pulled in it begins bent. */
function straightPath(task: LegTask, member: Member, straight: number): Path {
  const hitch = task.train.drawn?.hitch ?? null;
  if (!isPulledIn(task)) return drive(task.stance, [{ distance: task.gear * straight, curvature: 0 }], hitch, STEP);
  const start = startOfArc(task, straight);
  const bent = member.path.states.at(-1) as State;
  return drive({ ...bent, ...start }, [{ distance: straight, curvature: 0 }], hitch, STEP);
}

/**
 * Traces of the straights of one task: all begin alike and differ only in how far they go, so each is driven once. From
 * the stance outwards for most; from the end of the turn for a trailer that is pulled in, bent as it then is.
 */
function straightTraces(task: LegTask): (member: Member, straight: number) => { trace: Trace; states: number } {
  const { train, stance, gear } = task;
  const hitch = train.drawn?.hitch ?? null;
  const kept = new Map<unknown, Trace>();
  const from = (key: unknown, start: State, distance: number): Trace => {
    const found = kept.get(key) ?? traceOf(drive(start, [{ distance, curvature: 0 }], hitch, STEP), train);
    kept.set(key, found);
    return found;
  };
  return (member, straight) => {
    const states = Math.floor(Math.abs(straight) / STEP) + 1;
    if (isPulledIn(task)) {
      return { trace: from(member, member.path.states.at(-1) as State, LONGEST_TRACE), states };
    }
    const way = straight < 0 ? -gear : gear;
    return { trace: from(way, stance, way * LONGEST_TRACE), states };
  };
}

function bentAt(state: State): number {
  return Math.abs(turnTo(state.trailer, state.heading));
}

/** Hitch angle after a straight: tan(angle / 2) falls as exp(-distance / length). */
function bentAfter(state: State, straight: number, { drawn }: Train): number {
  return drawn === null ? 0 : 2 * Math.atan(Math.tan(bentAt(state) / 2) * Math.exp(-straight / drawn.hitch.length));
}

/** The whole path in the order of driving; `bend` leads forward from the stance to the state that was searched from. */
function wholePath(task: LegTask, { member, straight }: Candidate, bend: Path | null): Path {
  const start = startOfArc(task, straight);
  const turning = shifted(member.path, start.along, start.left);
  const line = straightPath(task, member, straight);
  if (isPulledIn(task)) return joined(turning, line);
  const out = joined(line, turning);
  const all = bend === null ? out : joined(bend, out);
  return task.way === "out" ? all : backwards(all);
}

function noHint(): Hint {
  return { state: 0, watch: null, obstruction: null };
}

/** Members of the grid from this stance, each clearer than those before it; empty when none is clear. */
function betterMembers(task: LegTask, watched: ReturnType<typeof watches>): readonly Candidate[] {
  const { train, road, stance } = task;
  // What already stands closer at the stance is the stance's affair; it only must not get worse on the way.
  const standing = clearanceAt(stance, train, watched, ENOUGH);
  const parked = Math.min(0, standing) - TOUCH;
  const least = Math.min(LEAST, Math.max(0, standing)) - TOUCH;
  const [turnHint, lineHint]: [Hint, Hint] = [noHint(), noHint()];
  const unmoved = { along: 0, left: 0 };
  // A trailer that is pulled in still swings on its last straight: that is part of the turn.
  const swings = isPulledIn(task);
  const lineOf = straightTraces(task);
  const found: Candidate[] = [];
  for (const direction of task.directions) {
    if (road.oneWay !== null && road.oneWay !== direction) continue;
    const heading = direction === "left" ? road.angle : road.angle - Math.PI;
    for (const member of membersFor(task, heading)) {
      const trace = traceOf(member.path, train);
      if (trace.jammed) continue;
      for (const straight of straights(task, member)) {
        const floor = found.at(-1)?.clearance ?? least;
        if (floor >= ENOUGH) return found;
        if (swings && bentAfter(member.path.states.at(-1) as State, straight, train) > task.parkedHitch) continue;
        const shift = startOfArc(task, straight);
        const clearance = roughClearance(trace, shift, watched, floor, ENOUGH, turnHint);
        if (clearance <= floor) continue;
        const line = lineOf(member, straight);
        const at = swings ? shift : unmoved;
        const bar = swings ? floor : parked;
        const room = roughClearance(line.trace, at, watched, bar, ENOUGH, lineHint, line.states);
        if (room <= bar) continue;
        found.push({ member, straight, clearance: swings ? Math.min(room, clearance) : clearance, direction });
      }
    }
  }
  return found;
}

/** Forward from the stance by two equal arcs to a line `sideways` beside it. */
function bendAside(task: LegTask): Path | null {
  const { sideways, train } = task;
  if (sideways === 0 || train.drawn !== null) return null;
  const radius = train.radius * BEND_RADII;
  const turn = Math.acos(1 - Math.abs(sideways) / (2 * radius)) * Math.sign(sideways);
  const piece = (way: number) => ({ distance: Math.abs(turn) * radius, curvature: (way * Math.sign(turn)) / radius });
  return drive(task.stance, [piece(1), piece(-1)], null, STEP);
}

/** A bend aside is made this much wider than the tightest arc: a driver backs by it into the stance. Assumed. */
const BEND_RADII = 1.25;

/**
 * The best member, or null when none is clear. Where the stance lies beside the pad's middle and no member is clear by
 * `comfort`, a bend aside is put between: at the end of a way in the rig backs by it into the stance.
 */
export function searchLeg(task: LegTask, comfort: number): Found | null {
  const watched = watches(task.train, task.obstructions);
  const plain = firstProven(task, betterMembers(task, watched), null, watched);
  if (plain !== null && plain.turning >= comfort) return plain;
  const bend = bendAside(task);
  if (bend === null) return plain;
  const start = bend.states.at(-1) as State;
  const used = (start.along - task.stance.along) * Math.cos(task.stance.heading);
  const aside = { ...task, stance: start, beyond: task.beyond - (task.gear === 1 ? -used : used) };
  const bent = firstProven(aside, betterMembers(aside, watched), bend, watched);
  return bent !== null && (plain === null || bent.turning > plain.turning) ? bent : plain;
}

/** The best candidate whose clearance holds between its states too. */
function firstProven(
  task: LegTask,
  candidates: readonly Candidate[],
  bend: Path | null,
  watched: ReturnType<typeof watches>,
): Found | null {
  for (const candidate of [...candidates].reverse()) {
    const found = finished(task, candidate, bend, watched);
    if (found !== null) return found;
  }
  return null;
}

function finished(
  task: LegTask,
  best: Candidate,
  bend: Path | null,
  watched: ReturnType<typeof watches>,
): Found | null {
  const { train } = task;
  const path = wholePath(task, best, bend);
  const proven = provenClearance(path, train, watched);
  const standing = Math.min(0, clearanceAt(bend?.states[0] ?? task.stance, train, watched, ENOUGH));
  if (proven.clearance < standing - 2 * PROOF) return null;
  const stanceEnd = (task.way === "in" ? path.states.at(-1) : path.states[0]) as State;
  return {
    path,
    direction: best.direction,
    radius: best.member.radius,
    turning: best.clearance,
    proven,
    hitchAngle: train.drawn === null ? 0 : bentAt(stanceEnd),
  };
}
