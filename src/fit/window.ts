/**
 * The window of a stance: how far a driver may be off and every served line still reaches and nothing touches. It is
 * a rectangle round the stance: a range of `along` that holds for every sideways place within the tolerance.
 */
import type { StanceWindow } from "./answer.ts";
import { evaluateStance } from "./stance/index.ts";
import type { Stance, StanceProblem } from "./stance/problem.ts";

/** Steps of the search outward; the rig is longer than a step, so no obstacle fits between two. Metres. */
const STEP = 0.2;
/** Ends are refined to this, metres. */
const RESOLUTION = 1e-4;
/** A touch shallower than this is rounding, metres. */
const TOUCH = 1e-6;
/** Looked at most this far from the stance, metres. */
const FARTHEST = 40;

function holds(problem: StanceProblem, stance: Stance): boolean {
  const seen = evaluateStance(problem, stance);
  return seen.contacts.every((contact) => contact.depth <= TOUCH) && seen.lines.every((line) => line.margin >= -TOUCH);
}

/** Largest offset in [0, limit] such that every offset up to it holds. */
function reachOutward(holdsAt: (offset: number) => boolean, limit: number): number {
  let inside = 0;
  while (inside < limit) {
    const next = Math.min(limit, inside + STEP);
    if (holdsAt(next)) {
      inside = next;
      continue;
    }
    let outside = next;
    while (outside - inside > RESOLUTION) {
      const middle = (inside + outside) / 2;
      if (holdsAt(middle)) inside = middle;
      else outside = middle;
    }
    return inside;
  }
  return limit;
}

/**
 * The window round `stance`, or null when the stance itself does not hold. `tolerance` is the sideways scatter that
 * the window should allow; it is narrowed when there is less room.
 */
function windowOf(problem: StanceProblem, stance: Stance, tolerance: number): Omit<StanceWindow, "why"> | null {
  if (!holds(problem, stance)) return null;
  const sideways = (offset: number) => ({ ...stance, left: stance.left + offset });
  const toLeft = reachOutward((offset) => holds(problem, sideways(offset)), tolerance);
  const toRight = reachOutward((offset) => holds(problem, sideways(-offset)), tolerance);
  const lanes = [stance.left, stance.left + toLeft, stance.left - toRight];
  const inLanes = (along: number) => lanes.every((left) => holds(problem, { ...stance, along, left }));
  const forward = reachOutward((offset) => inLanes(stance.along + offset), FARTHEST);
  const back = reachOutward((offset) => inLanes(stance.along - offset), FARTHEST);
  return {
    along: { from: stance.along - back, to: stance.along + forward },
    left: { from: -toRight, to: toLeft },
  };
}

export interface WindowInput {
  /** With every line that is served, and with the required lines alone. */
  readonly served: StanceProblem;
  readonly required: StanceProblem;
  readonly stance: Stance;
  /** Scatter that the window should allow sideways, and half the length that makes it worth having, metres. */
  readonly across: number;
  readonly along: number;
}

/**
 * The window in which every served line holds; where that is narrower than a driver's scatter, the one in which the
 * required lines hold. `why` names the lines.
 */
export function stanceWindow(input: WindowInput): StanceWindow | null {
  const names = (problem: StanceProblem) => problem.lines.map((line) => line.id).join(", ") || "no line";
  const told = (problem: StanceProblem) =>
    `Anywhere in this range these lines still reach and nothing touches: ${names(problem)}.`;
  const served = windowOf(input.served, input.stance, input.across);
  const roomy = served !== null && served.along.to - served.along.from >= 2 * input.along;
  if (served !== null && (roomy || input.served.lines.length === input.required.lines.length)) {
    return { ...served, why: told(input.served) };
  }
  const required = windowOf(input.required, input.stance, input.across);
  return required === null ? null : { ...required, why: told(input.required) };
}

/** The stance turned about the middle of the rig: a driver who is off by a degree is off about it, not about one end. */
function turnedAboutMiddle(stance: Stance, length: number, turn: number): Stance {
  const sign = stance.facing === "out" ? 1 : -1;
  const half = length / 2;
  const yaw = stance.yaw + turn;
  // From the nearer end to the middle: the nose direction facing out, its opposite facing in.
  const along = half * (Math.cos(stance.yaw) - Math.cos(yaw));
  const left = sign * half * (Math.sin(stance.yaw) - Math.sin(yaw));
  return { facing: stance.facing, along: stance.along + along, left: stance.left + left, yaw };
}

/**
 * True when the stance still holds at every corner of the driver's scatter. `alongAtStop` is where tyres at a wheel stop
 * put the rig: nobody is off beyond it.
 */
export function survivesScatter(
  problem: StanceProblem,
  stance: Stance,
  scatter: { readonly along: number; readonly across: number; readonly yaw: number },
  alongAtStop: number | null,
): boolean {
  const stopAt = alongAtStop ?? Number.NEGATIVE_INFINITY;
  const signs = [0, -1, 1] as const;
  return signs.every((turn) => {
    const turned = turnedAboutMiddle(stance, problem.length, turn * scatter.yaw);
    // Turned, one tyre touches the stop before the other.
    const sideways = (problem.width / 2) * Math.sin(Math.abs(turned.yaw));
    const foreshortened = problem.length * (1 - Math.cos(turned.yaw));
    const farthestBack = stopAt + sideways + foreshortened;
    return signs.every((a) =>
      signs.every((b) =>
        holds(problem, {
          ...turned,
          along: Math.max(turned.along + a * scatter.along, farthestBack),
          left: turned.left + b * scatter.across,
        }),
      ),
    );
  });
}
