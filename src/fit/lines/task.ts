/** From a line choice to the solver's LineTask: heights, allowance and fall become a reach law. */

import type { Estimate } from "../../units/estimate.ts";
import { REQUIRED_SLOPE } from "../sewer/drain.ts";
import type { LineTask, PadPoint, ReachLaw } from "../stance/problem.ts";
import { type LineChoice, nominal, type Pick } from "./choice.ts";

/**
 * Height that a drain hose may have to bridge when the outlet's height is not on record, metres. Only the length of
 * the hose is judged with it, never the fall. From memory, low confidence: outlets stand 8 to 24 inches high.
 */
export const UNRECORDED_FALL = 0.6096;

/** Ground and levelling that a line meets at one facing. */
export interface GroundAtFacing {
  /** Rise per metre along the pad and towards its left; null when unknown. */
  readonly grade: Estimate | null;
  readonly crossfall: Estimate | null;
  /** Metres that levelling adds under a rig point. */
  readonly raiseAt: (fromRear: number, left: number) => number;
}

/** `laid` is the line as it should lie; `least` the shortest that physics allows, without allowance. */
export type Manner = "laid" | "least";

/** True when the fall of this drain can be judged at all. */
export function fallIsKnown(choice: LineChoice, ground: GroundAtFacing): boolean {
  return (
    choice.inletHeight !== null && choice.hookupHeight !== null && ground.grade !== null && ground.crossfall !== null
  );
}

function sewerLaw(choice: LineChoice, ground: GroundAtFacing, manner: Manner, pick: Pick): ReachLaw {
  const length = choice.own === null ? 0 : pick(choice.own);
  const allowance = manner === "laid" ? choice.allowance : 0;
  const budget = length + choice.added - choice.fittings - allowance;
  if (!fallIsKnown(choice, ground)) {
    const fall = manner === "laid" ? UNRECORDED_FALL : 0;
    return { budget, fallAtLevel: fall, slopeAlong: 0, slopeLeft: 0 };
  }
  const raise = ground.raiseAt(pick(choice.connection.fromRear), pick(choice.connection.left));
  const law: ReachLaw = {
    budget,
    fallAtLevel: pick(choice.inletHeight!) + raise - pick(choice.hookupHeight!),
    slopeAlong: pick(ground.grade!),
    slopeLeft: pick(ground.crossfall!),
  };
  return manner === "laid" ? { ...law, requiredSlope: REQUIRED_SLOPE } : law;
}

function droppedLaw(choice: LineChoice, ground: GroundAtFacing, manner: Manner, pick: Pick): ReachLaw {
  const length = (choice.own === null ? 0 : pick(choice.own)) + choice.added;
  const raise = ground.raiseAt(pick(choice.connection.fromRear), pick(choice.connection.left));
  const inlet = (choice.inletHeight === null ? 0 : pick(choice.inletHeight)) + raise;
  const hookup = choice.hookupHeight === null ? 0 : pick(choice.hookupHeight);
  if (manner === "least") {
    // Without a height on either side the vertical part is at least nothing.
    const known = choice.inletHeight !== null && choice.hookupHeight !== null;
    return { budget: length, fallAtLevel: known ? inlet - hookup : 0, slopeAlong: 0, slopeLeft: 0 };
  }
  return { budget: length - inlet - hookup - choice.allowance, fallAtLevel: 0, slopeAlong: 0, slopeLeft: 0 };
}

/** The law that a line obeys, see ReachLaw. Lengths in metres. */
export function reachLaw(choice: LineChoice, ground: GroundAtFacing, manner: Manner, pick: Pick = nominal): ReachLaw {
  return choice.service === "sewer" ? sewerLaw(choice, ground, manner, pick) : droppedLaw(choice, ground, manner, pick);
}

/** The line as the solver sees it. */
export function lineTask(choice: LineChoice, ground: GroundAtFacing, manner: Manner, pick: Pick = nominal): LineTask {
  const target: PadPoint = { along: pick(choice.along), left: pick(choice.left) };
  return {
    id: choice.service,
    inlet: { fromRear: pick(choice.connection.fromRear), left: pick(choice.connection.left) },
    wall: choice.connection.wall,
    mayRunBeneath: choice.connection.mayRunBeneath,
    target,
    law: reachLaw(choice, ground, manner, pick),
  };
}
