/** How sure each line is: required lines parked for themselves, wanted ones beside them. */
import type { Service } from "../../rig/completed.ts";
import type { Arrangement } from "../arrange.ts";
import { bestOver, isSolved } from "../park.ts";
import { stanceProblem } from "../setup.ts";
import { type Certainty, judgeCertainty, type Parking } from "../uncertainty/certainty.ts";
import type { LineChoice, Pick } from "./choice.ts";
import type { Manner } from "./task.ts";
import { SURE } from "./verdict.ts";

export type { Manner } from "./task.ts";

/** Certainty as laid and by the shortest path, and the line's place in their lists. */
export type CertaintyByService = ReadonlyMap<
  Service,
  { readonly laid: Certainty; readonly least: Certainty; readonly index: number }
>;

const NOWHERE: Parking = { worst: Number.NEGATIVE_INFINITY, margins: [] };

/** Parks anew for these lines, whichever way round serves best, with every number read by `pick`. */
function parker(arrangement: Arrangement, lines: readonly LineChoice[], manner: Manner) {
  return (pick: Pick): Parking => {
    let best = NOWHERE;
    for (const facing of arrangement.facings) {
      const outcome = bestOver(arrangement.setup, facing, lines, manner, pick);
      if (!isSolved(outcome) || outcome.worst <= best.worst) continue;
      best = { worst: outcome.worst, margins: outcome.lines.map((line) => line.margin) };
    }
    return best;
  };
}

/** `draw` false leaves the errors out: of a line that is not served, only what its ranges do is told. */
function certaintyOf(
  arrangement: Arrangement,
  lines: readonly LineChoice[],
  weigh: boolean,
  draw = true,
): Record<Manner, Certainty> {
  const judge = (manner: Manner, effects?: Certainty["effects"]) =>
    judgeCertainty({
      build: (pick) =>
        arrangement.facings.map((facing) => stanceProblem(arrangement.setup, facing, lines, manner, pick)),
      parkAnew: parker(arrangement, lines, manner),
      lineCount: lines.length,
      weigh,
      draw,
      ...(effects === undefined ? {} : { effects }),
    });
  const laid = judge("laid");
  // A line that surely reaches as laid surely reaches through the air.
  if (laid.marginLow.every((margin, line) => margin >= 0 && (laid.lineProbability[line] ?? 1) >= SURE)) {
    return { laid, least: laid };
  }
  // What moves the line as laid moves its shortest path the same way.
  return { laid, least: judge("least", laid.effects) };
}

/** Probability that the rig stands at all, at the most favourable ends of the ranges; 1 or 0 without errors. */
export function chanceToStand(arrangement: Arrangement): number {
  const { laid } = certaintyOf(arrangement, [], false);
  return laid.probabilityHigh ?? (laid.high > 0 ? 1 : 0);
}

/** How far below zero a margin counts for a line that finds no permitted way at all, metres. */
const NO_WAY = -1;

/**
 * Probability that some clear stance lets all these lines out, however short they are, at the most favourable ends of
 * the ranges; 1 or 0 without errors.
 */
export function chanceToLetOut(arrangement: Arrangement, lines: readonly LineChoice[]): number {
  const { facings, setup } = arrangement;
  const parkAnew = parker(arrangement, lines, "laid");
  const { probabilityHigh, high } = judgeCertainty({
    build: (pick) => facings.map((facing) => stanceProblem(setup, facing, lines, "laid", pick)),
    parkAnew: (pick) => ({ worst: Number.isFinite(parkAnew(pick).worst) ? 1 : NO_WAY, margins: [] }),
    lineCount: 0,
    weigh: false,
  });
  return probabilityHigh ?? (high > 0 ? 1 : 0);
}

/** True when every line reaches whatever the ranges and, to all digits, whatever the errors. */
function isSure(laid: Certainty): boolean {
  return (
    laid.probabilityHigh === laid.probabilityLow &&
    (laid.probabilityLow ?? 1) === 1 &&
    laid.marginLow.every((margin) => margin >= 0)
  );
}

export interface Certainties {
  readonly required: Certainty | null;
  readonly served: Certainty;
  readonly entries: CertaintyByService;
}

/**
 * Required lines are judged parked for them alone, so that a wanted line never makes them doubtful; wanted lines
 * beside the required ones; a line that is not served beside the others parked for it alone.
 */
export function certainties(
  arrangement: Arrangement,
  served: readonly LineChoice[],
  all: readonly LineChoice[],
  full: boolean,
): Certainties {
  const judge = (lines: readonly LineChoice[]) => certaintyOf(arrangement, lines, full);
  const required = served.filter((line) => line.need === "required");
  const ofServed = judge(served);
  // What surely serves all lines together surely serves the required ones, which ask for less.
  const sure = required.length > 0 && isSure(ofServed.laid);
  const alone = required.length === 0 || required.length === served.length || sure;
  const ofRequired = required.length === 0 ? null : alone ? ofServed : judge(required);
  const entries = all.map((line) => {
    if (ofRequired !== null && ofRequired !== ofServed && required.includes(line))
      return [line.service, { ...ofRequired, index: required.indexOf(line) }] as const;
    if (served.includes(line)) return [line.service, { ...ofServed, index: served.indexOf(line) }] as const;
    return [line.service, { ...certaintyOf(arrangement, [line], false, false), index: 0 }] as const;
  });
  return { required: ofRequired?.laid ?? null, served: ofServed.laid, entries: new Map(entries) };
}
