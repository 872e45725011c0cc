/** One way in or out: every road that may be there, the widest and the tightest turns that the rig may have. */
import type { CompletedSite } from "../../site/completed.ts";
import type { Say } from "../say.ts";
import type { PadPoint } from "../stance/problem.ts";
import type { ManoeuvreLeg, ManoeuvreMove, ManoeuvreStatus } from "./answer.ts";
import { closestAt, doubtful, overVerge, watches } from "./clearance.ts";
import type { Gear } from "./family.ts";
import {
  backToPad,
  type End,
  type Obstruction,
  type PadSize,
  type Road,
  roadLine,
  seenFrom,
  turnOf,
  verges,
} from "./ground.ts";
import type { State } from "./motion.ts";
import type { RoadFinding } from "./roads.ts";
import { ENOUGH, type Found, searchLeg } from "./search.ts";
import { type Area, makeArea } from "./separation.ts";
import { LIMITS, type Trains } from "./trains.ts";
import { outlineOf, placed, reach, type Train, units } from "./vehicle.ts";

/** A thing that stands on the ground, in the pad frame. */
export interface Thing {
  readonly what: string;
  readonly outline: readonly PadPoint[];
  readonly from: number;
  readonly to: number;
  readonly sigma: number;
}

export interface LegInput {
  readonly end: End;
  readonly way: "in" | "out";
  readonly gear: Gear;
  readonly finding: RoadFinding;
  readonly pad: PadSize;
  readonly things: readonly Thing[];
  readonly trains: Trains;
  /** Drawing vehicle at the stance, pad frame. */
  readonly stanceOf: (train: Train) => State;
  readonly drivesOn: CompletedSite["drivesOn"];
  /** True when the rig may go beyond the stance on the pad and come straight back. */
  readonly mayOvershoot: boolean;
}

interface Judged {
  readonly found: Found | null;
  readonly train: Train;
  readonly road: Road;
  readonly status: ManoeuvreStatus;
  readonly doubt: string | null;
  readonly obstructions: readonly Obstruction[];
}

/** Farthest that a body gets from where wheels may be, metres. */
function hangOf(train: Train): number {
  const { body, wheels } = train.drawing;
  const hang = Math.max(-body.rear, body.front - wheels.front);
  return train.drawn === null ? hang : hang + train.drawn.hitch.length + reach(train.drawn.unit.body);
}

/** True when a thing may matter: it stands near the pad's strip or the road. */
function mayMatter(area: Area, road: Road, pad: PadSize, hang: number): boolean {
  const { off, way, near } = roadLine(road);
  const { centre, radius } = area;
  const reachOf = radius + hang + ENOUGH;
  const across = off.along * centre.along + off.left * centre.left - near;
  const along = way.along * centre.along + way.left * centre.left;
  const byRoad = across > -reachOf && across < road.width + reachOf && Math.abs(along) < ROAD_USED + radius;
  const half = Math.max(pad.width, pad.mouth ?? 0) / 2;
  return byRoad || (Math.abs(centre.left) < half + reachOf && across < reachOf);
}

/** Metres of road to either side that a manoeuvre can use at most. */
const ROAD_USED = 60;

function obstructionsFor(input: LegInput, road: Road, train: Train): Obstruction[] {
  const { end, pad, things } = input;
  const { height, underside } = train.drawing;
  const hang = hangOf(train);
  const standing = things.flatMap((thing): Obstruction[] => {
    if (thing.from >= height) return [];
    const area = makeArea(thing.outline.map((point) => seenFrom(end, pad.length, point)));
    const against = thing.to <= underside ? "wheels" : "body";
    if (!mayMatter(area, road, pad, hang)) return [];
    return [{ what: thing.what, area, against, verge: false, sigma: thing.sigma }];
  });
  return [...verges(road, pad, end), ...standing];
}

/** A stance farther than this from the pad's middle may be reached by a bend aside, metres. */
const ASIDE = 0.15;

/** Room on the pad to overshoot the stance and come straight back; none for what is never reversed or at a wheel stop. */
function beyondOf({ gear, way, pad, mayOvershoot }: LegInput, train: Train, at: PadPoint): number {
  if (!mayOvershoot) return 0;
  const { drawing, drawn } = train;
  // A trailer is lined up by pulling; pushing it straight back afterwards is no move to count on.
  if (drawn !== null && (gear === -1 || way === "out")) return 0;
  const last = drawn === null ? (gear === 1 ? -drawing.body.rear : drawing.body.front) : drawnTail(train);
  return pad.length + at.along - last;
}

/** Metres from the drawing vehicle's rear axle back to the tail of what it draws, in line. */
function drawnTail({ drawn }: Train): number {
  return drawn === null ? 0 : drawn.hitch.behind + drawn.hitch.length - drawn.unit.body.rear;
}

function tryTrain(input: LegInput, road: Road, train: Train): { found: Found | null; obstructions: Obstruction[] } {
  const { end, way, gear, pad } = input;
  const obstructions = obstructionsFor(input, road, train);
  const stance = input.stanceOf(train);
  const turn = turnOf(end);
  const at = seenFrom(end, pad.length, stance);
  const found = searchLeg(
    {
      stance: { ...at, heading: stance.heading + turn, trailer: stance.trailer + turn },
      train,
      road,
      obstructions,
      way,
      gear,
      // A driver looks back best on the driver's side: that side first where both are as good.
      beyond: beyondOf(input, train, at),
      sideways: input.mayOvershoot && Math.abs(at.left) > ASIDE ? -at.left * Math.cos(stance.heading + turn) : 0,
      directions: input.drivesOn === "left" ? ["right", "left"] : ["left", "right"],
      parkedHitch: LIMITS.parked,
      straightHitch: LIMITS.straight,
    },
    LIMITS.comfort,
  );
  return { found, obstructions };
}

function judge(input: LegInput, road: Road): Judged {
  const { worst, best, settled } = input.trains;
  const first = tryTrain(input, road, worst);
  if (first.found !== null) {
    const watched = watches(worst, first.obstructions);
    const doubt = doubtful(first.found.path, worst, watched, input.way === "in");
    return { ...first, train: worst, road, doubt, status: doubt === null ? "ok in one move" : "unknown" };
  }
  if (settled) return { ...first, train: worst, road, status: "needs a shunt", doubt: null };
  const second = tryTrain(input, road, best);
  const status = second.found === null ? "needs a shunt" : "unknown";
  return { ...second, train: best, road, status, doubt: null };
}

const RANK: Readonly<Record<ManoeuvreStatus, number>> = {
  cannot: 0,
  "needs a shunt": 1,
  unknown: 2,
  "ok in one move": 3,
};

export function worseOf(a: ManoeuvreStatus, b: ManoeuvreStatus): ManoeuvreStatus {
  return RANK[a] <= RANK[b] ? a : b;
}

const MILLIMETRES = 1000;

function rounded(point: PadPoint): PadPoint {
  const round = (metres: number): number => Math.round(metres * MILLIMETRES) / MILLIMETRES + 0;
  return { along: round(point.along), left: round(point.left) };
}

const EMPTY = { margin: null, closest: null, overVerge: null, hitchAngle: null, moves: [], outlines: [], track: [] };

export function legWithout(status: ManoeuvreStatus, why: string): ManoeuvreLeg {
  return { ...EMPTY, status, why };
}

/** Curvatures this close are one steering angle, 1/m. */
const SAME_STEERING = 1e-9;

function movesOf(found: Found): ManoeuvreMove[] {
  const moves: { gear: "forward" | "reverse"; curvature: number; distance: number }[] = [];
  for (const { distance, curvature } of found.path.pieces) {
    if (distance === 0) continue;
    const gear = distance > 0 ? "forward" : "reverse";
    const last = moves.at(-1);
    if (last !== undefined && last.gear === gear && Math.abs(last.curvature - curvature) < SAME_STEERING) {
      last.distance += Math.abs(distance);
    } else moves.push({ gear, curvature, distance: Math.abs(distance) });
  }
  return moves.map(({ gear, curvature, distance }) => ({
    gear,
    steer: curvature === 0 ? "straight" : curvature > 0 ? "left" : "right",
    distance,
    radius: curvature === 0 ? null : 1 / Math.abs(curvature),
    turn: Math.abs(curvature) * distance,
  }));
}

/** Metres between the bodies that are drawn, and how many at most. */
const OUTLINE_STEP = 1.2;
const OUTLINES_MOST = 22;

function drawn(found: Found, train: Train, end: End, length: number): Pick<ManoeuvreLeg, "outlines" | "track"> {
  const { states, pieces } = found.path;
  const whole = pieces.reduce((sum, { distance }) => sum + Math.abs(distance), 0);
  const step = Math.max(OUTLINE_STEP, whole / OUTLINES_MOST);
  const toPad = (point: PadPoint): PadPoint => rounded(backToPad(end, length, point));
  const outlines: ManoeuvreLeg["outlines"][number][] = [];
  let since = step;
  states.forEach((state, index) => {
    const [before, after] = [pieces[index - 1], pieces[index]];
    since += Math.abs(before?.distance ?? 0);
    const turns = before !== undefined && after !== undefined && before.distance * after.distance < 0;
    if (since < step && !turns && after !== undefined) return;
    since = 0;
    const gear = (before ?? after)?.distance ?? 0;
    const at = placed(state, train);
    units(train).forEach((unit, which) => {
      const place = at[which];
      if (place === undefined) return;
      outlines.push({
        unit: unit.name,
        gear: gear < 0 ? "reverse" : "forward",
        outline: outlineOf(place, unit.body).map(toPad),
      });
    });
  });
  return { outlines, track: states.map(toPad) };
}

function told(judged: Judged, input: LegInput, say: Say): string {
  const { found, status, doubt, train } = judged;
  const going = input.way === "in" ? "in" : "out";
  if (found === null) {
    return `No single move of those that were tried gets the rig ${going}: it needs a shunt, or the verge. Other moves may do.`;
  }
  const margin = say.available(Math.max(0, found.proven.clearance));
  if (status === "unknown") {
    return doubt === null
      ? `A path ${going} was found with the tightest turns that the rig may have (${margin} clear), none with the widest.`
      : `A path ${going} was found with ${margin} clear, but where ${doubt} lies is not known that well.`;
  }
  const closest = closestAt(found.proven.state, train, watches(train, judged.obstructions));
  const over = overVerge(found.path, train, judged.obstructions);
  const hang = over > 0 ? ` A body hangs ${say.needed(over)} over the verge: see that nothing stands there.` : "";
  const nearest = closest === null ? "" : `, from ${closest.obstruction.what}`;
  return `A clear path ${going} was found: ${margin} at the least${nearest}.${hang}`;
}

/** Judges one leg; of two roads that may be there the worse counts. */
export function judgeLeg(input: LegInput, say: Say): ManoeuvreLeg {
  const { finding, end, pad } = input;
  if (!finding.known) return legWithout("unknown", finding.why);
  const [first, ...others] = finding.roads.map((road) => judge(input, road));
  if (first === undefined) return legWithout("unknown", "No road is on record.");
  const clear = (one: Judged): number => one.found?.turning ?? 0;
  const judged = others.reduce(
    (worst, one) =>
      RANK[one.status] < RANK[worst.status] || (one.status === worst.status && clear(one) < clear(worst)) ? one : worst,
    first,
  );
  const { found, train, status } = judged;
  const why = told(judged, input, say);
  if (found === null) return legWithout(status, why);
  const closest = closestAt(found.proven.state, train, watches(train, judged.obstructions));
  return {
    status,
    margin: Math.max(0, found.proven.clearance),
    closest:
      closest === null
        ? null
        : {
            at: rounded(backToPad(end, pad.length, closest.at)),
            unit: closest.unit,
            what: closest.obstruction.what,
          },
    overVerge: overVerge(found.path, train, judged.obstructions),
    hitchAngle: train.drawn === null ? null : found.hitchAngle,
    moves: movesOf(found),
    ...drawn(found, train, end, pad.length),
    why,
  };
}

/** The same leg driven the other way: how a train that was backed in is pulled out. */
export function drivenBack(leg: ManoeuvreLeg): ManoeuvreLeg {
  const other = { forward: "reverse", reverse: "forward" } as const;
  return {
    ...leg,
    moves: [...leg.moves].reverse().map((move) => ({ ...move, gear: other[move.gear] })),
    outlines: [...leg.outlines].reverse().map((one) => ({ ...one, gear: other[one.gear] })),
    track: [...leg.track].reverse(),
    why: leg.outlines.length === 0 ? leg.why : `Out by the same path, driven forward. ${leg.why}`,
  };
}
