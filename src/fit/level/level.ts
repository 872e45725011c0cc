/**
 * How a rig comes level on a sloping pad: slope along and across it, what goes under which wheel, and how much higher
 * every part of it then stands over its own ground.
 *
 * Blocks are advised only when the steepest slope under the rig exceeds the limit (the rig's own, else 1:48); up to it
 * the rig stands as the ground lies and nothing is raised. Above it the rig is brought to true level, both ways: the
 * low wheels of a motor vehicle rise to its highest wheel; a trailer's low wheel rises to its other wheel and the jack
 * brings the nose to the same height, up or down.
 */
import levelLimits from "../../../data/level-limits.json" with { type: "json" };
import type { RigClass } from "../../rig/completed.ts";
import type { Estimate } from "../../units/estimate.ts";
import type { Check, LevelAnswer } from "../answer.ts";
import { check } from "../clearance/check.ts";
import { judge, type Quantity, total } from "../clearance/compare.ts";
import type { Say } from "../say.ts";
import { noseVector } from "../stance/frame.ts";
import type { Facing } from "../stance/problem.ts";
import { TOUCH_TOLERANCE } from "../stance/tolerance.ts";
import { valueWords } from "../value-words.ts";
import { type Corner, supports } from "./wheels.ts";

export interface LevelInput {
  /** Rise of the pad's surface per metre along `along` and towards `left`; null when unknown. */
  readonly grade: Estimate | null;
  readonly crossfall: Estimate | null;
  readonly facing: Facing;
  /** Radians; positive turns the nose towards pad `left`. */
  readonly yaw: number;
  readonly rig: {
    readonly class: RigClass;
    readonly width: Estimate;
    readonly wheelbase: Estimate;
    readonly rearOverhang: Estimate;
    /** Largest slope the rig may stand at, ratio; null when nobody said. */
    readonly offLevelLimit: number | null;
  };
}

export interface Levelling {
  readonly answer: LevelAnswer;
  readonly check: Check;
  /** Name of the wheel that stays on the ground; null when nothing is raised or the slope is unknown. */
  readonly stays: string | null;
  /** Metres by which a trailer's jack extends beyond level ground (negative: retracts); null without a jack. */
  readonly jack: number | null;
  /** Blocks to bring; null when none are called for. */
  readonly kit: { readonly item: "blocks"; readonly heights: readonly number[] } | null;
  /** True when the steepest slope passes what absorption refrigerators are said to bear. */
  readonly refrigerator: boolean;
  /**
   * Metres that levelling adds to the height of a rig point above the ground right under it; negative where the point
   * overhangs uphill of the wheel that stays. 0 when unlevelled; null when the slope is unknown.
   */
  readonly raiseAt: (fromRear: number, left: number) => number | null;
}

interface Slopes {
  /** Positive when the nose is higher. */
  readonly along: Quantity | null;
  /** Positive when the rig's left is higher. */
  readonly across: Quantity | null;
}

/** A share smaller than this of a slope is rounding: a straight rig does not wait for the slope beside it. */
const NO_SHARE = 1e-12;

function mix(
  first: Estimate | null,
  firstShare: number,
  second: Estimate | null,
  secondShare: number,
): Quantity | null {
  const terms = [
    { of: first, times: firstShare },
    { of: second, times: secondShare },
  ].filter((term) => Math.abs(term.times) > NO_SHARE);
  if (terms.some((term) => term.of === null)) return null;
  return total(terms as { of: Estimate; times: number }[]);
}

/** Slopes of the pad seen from the rig. */
function slopesUnder({ grade, crossfall, facing, yaw }: LevelInput): Slopes {
  const { cos, sin } = noseVector(facing, yaw);
  return { along: mix(grade, cos, crossfall, sin), across: mix(grade, -sin, crossfall, cos) };
}

/** Steepest slope from its two parts: ends of the box of ranges, errors to first order. */
function steepest(along: Quantity, across: Quantity): Quantity {
  const value = Math.hypot(along.value, across.value);
  const least = ({ low, high }: Quantity): number =>
    low <= 0 && high >= 0 ? 0 : Math.min(Math.abs(low), Math.abs(high));
  const most = ({ low, high }: Quantity): number => Math.max(Math.abs(low), Math.abs(high));
  const sigma =
    value === 0
      ? Math.max(along.sigma, across.sigma)
      : Math.hypot(along.value * along.sigma, across.value * across.sigma) / value;
  const doubt =
    along.sigma + along.high - along.low >= across.sigma + across.high - across.low ? along.doubt : across.doubt;
  return {
    value,
    low: Math.hypot(least(along), least(across)),
    high: Math.hypot(most(along), most(across)),
    sigma,
    doubt,
  };
}

function limitOf(rig: LevelInput["rig"]): { value: number; source: string } {
  return rig.offLevelLimit === null
    ? { value: levelLimits.good.value, source: levelLimits.good.source }
    : { value: rig.offLevelLimit, source: "the rig's own limit, /rig/limits/offLevel" };
}

function unknownLevel(slopes: Slopes, input: LevelInput): Levelling {
  const limit = limitOf(input.rig);
  const path = input.grade === null ? "/site/properties/pad/grade" : "/site/properties/pad/crossfall";
  const missing =
    input.grade === null && input.crossfall === null
      ? "grade and crossfall"
      : input.grade === null
        ? "grade"
        : "crossfall";
  const why = `The pad's ${missing} is not on record, so nobody can say whether the rig stands level there.`;
  const answer: LevelAnswer = {
    status: "unknown",
    alongRig: slopes.along?.value ?? null,
    acrossRig: slopes.across?.value ?? null,
    blocks: [],
    why,
  };
  const made = check({
    id: "level",
    family: "risk",
    deciding: false,
    status: "unknown",
    value: null,
    limit: limit.value,
    unit: "ratio",
    source: limit.source,
    why,
    change: `Measure ${valueWords(path)}.`,
  });
  return { answer, check: made, stays: null, jack: null, kit: null, refrigerator: false, raiseAt: () => null };
}

/** Slopes, blocks and raise of a rig at one facing and yaw; the place on the pad does not matter on a plane. */
export function levelRig(input: LevelInput, say: Say): Levelling {
  const slopes = slopesUnder(input);
  const { along, across } = slopes;
  if (along === null || across === null) return unknownLevel(slopes, input);
  const { rig } = input;
  const limit = limitOf(rig);
  const steep = steepest(along, across);
  const judged = judge(marginBelow(limit.value, steep));
  const levelled = steep.value > limit.value + TOUCH_TOLERANCE;
  const rise = (corner: Corner): number => along.value * corner.fromRear + across.value * corner.left;
  const { wheels, jack } = supports(rig);
  const top = wheels.reduce((best, wheel) => (rise(wheel) > rise(best) + TOUCH_TOLERANCE ? wheel : best));
  const reference = rise(top);
  const blocks = levelled
    ? wheels
        .map((wheel) => ({ wheel: wheel.name, height: reference - rise(wheel) }))
        .filter((block) => block.height > TOUCH_TOLERANCE)
    : [];
  const jackBy = jack === null ? null : levelled ? reference - rise(jack) : 0;
  const tallest = Math.max(0, ...blocks.map((block) => block.height));
  const status =
    judged === "unknown" || judged === "tight"
      ? judged
      : !levelled
        ? "pass"
        : tallest > levelLimits.blockHeight.value || Math.abs(jackBy ?? 0) > levelLimits.jackTravel.value
          ? "tight"
          : blocks.length === 0
            ? "pass"
            : "pass with kit";
  const refrigerator = Math.atan(steep.value) > levelLimits.refrigerator.value;
  const stays = levelled ? top.name : null;
  const why = sentence(
    { along, across, limit: limit.value, blocks, jackBy, stays, tallest, refrigerator, judged },
    say,
  );
  const answer: LevelAnswer = { status, alongRig: along.value, acrossRig: across.value, blocks, why };
  return {
    answer,
    check: check({
      id: "level",
      family: "risk",
      deciding: false,
      status,
      value: steep.value,
      limit: limit.value,
      unit: "ratio",
      source: limit.source,
      why,
      ...(status === "pass" ? {} : { change: changeFor(judged, steep.doubt) }),
    }),
    stays,
    jack: jackBy,
    kit: blocks.length === 0 ? null : { item: "blocks", heights: blocks.map((block) => block.height) },
    refrigerator,
    raiseAt: (fromRear, left) => (levelled ? reference - rise({ name: "", fromRear, left }) : 0),
  };
}

function marginBelow(limit: number, steep: Quantity): Quantity {
  return {
    value: limit - steep.value,
    low: limit - steep.high,
    high: limit - steep.low,
    sigma: steep.sigma,
    doubt: steep.doubt,
  };
}

function changeFor(judged: string, doubt: string | null): string {
  if (judged === "unknown" || judged === "tight")
    return `Measure ${doubt === null ? "the pad's slopes" : valueWords(doubt)}.`;
  return "Blocks under the wheels named, or another place or facing on the pad.";
}

interface Told {
  readonly along: Quantity;
  readonly across: Quantity;
  readonly limit: number;
  readonly blocks: readonly { readonly wheel: string; readonly height: number }[];
  readonly jackBy: number | null;
  readonly stays: string | null;
  readonly tallest: number;
  readonly refrigerator: boolean;
  readonly judged: string;
}

function sentence(told: Told, say: Say): string {
  const nose = told.along.value >= 0 ? "nose high" : "nose low";
  const side = told.across.value >= 0 ? "left side high" : "right side high";
  const slope = `The ground slopes ${say.slope(Math.abs(told.along.value))} along the rig (${nose}) and ${say.slope(Math.abs(told.across.value))} across it (${side})`;
  const parts = [`${slope}; up to ${say.slope(told.limit)} in all it may stand without blocks.`];
  if (told.judged === "unknown" || told.judged === "tight") {
    parts.push("The slope is not known well enough to say on which side of that it lies.");
  }
  if (told.stays !== null) {
    const under = told.blocks.map((block) => `${say.fine(block.height, "up")} under the ${block.wheel}`);
    if (under.length > 0)
      parts.push(
        `Blocks: ${under.join(", ")}; the ${told.stays} ${String(told.stays).endsWith("s") ? "stay" : "stays"} on the ground.`,
      );
    if (told.jackBy !== null && Math.abs(told.jackBy) > TOUCH_TOLERANCE) {
      const way = told.jackBy > 0 ? "up" : "down";
      parts.push(`Jack: bring the nose ${way} by ${say.fine(Math.abs(told.jackBy), "up")}.`);
    }
    if (told.tallest > levelLimits.blockHeight.value) {
      parts.push(
        `That is more than the ${say.fine(levelLimits.blockHeight.value)} that ramps and blocks usually give (${levelLimits.blockHeight.source}).`,
      );
    }
  }
  if (told.refrigerator) {
    parts.push(
      `Unlevelled it stands beyond ${levelLimits.refrigerator.inWords} (${levelLimits.refrigerator.source}). ${levelLimits.refrigerator.advice}`,
    );
  }
  return parts.join(" ");
}
