/** Everything about the wind in one answer: exposure, rose, awnings with their hours, and the checks. */
import type { CompletedAwning } from "../../rig/completed.ts";
import type { AwningAnswer, AwningRoomAnswer, Check, Fit } from "../answer.ts";
import type { FitInput } from "../arrange.ts";
import { awningExposure } from "../awning-exposure.ts";
import { azimuthOf } from "../clearance/awning-room.ts";
import type { Stance } from "../stance/problem.ts";
import { windCheck } from "./check.ts";
import { windHeadline } from "./headline.ts";
import { judgeAwning, type WindQuestion, windAnswer } from "./judge.ts";
import { exposureRoseAnswer, siteExposure } from "./site-exposure.ts";

export interface WindOfFit extends Pick<Fit, "exposure" | "exposureRose" | "wind" | "awning"> {
  readonly checks: readonly Check[];
  /** What the headline says about the wind asked about; null for nothing. */
  readonly words: string | null;
}

/** @param rooms The awnings at the stance; empty when there is no stance. */
export function windOfFit(input: FitInput, rooms: readonly AwningRoomAnswer[], stance: Stance | null): WindOfFit {
  const { rig, site, options, rose = null, when = null } = input;
  const { units } = options;
  const question: WindQuestion | null = when === null ? null : { when, rose, timeZone: site.timeZone ?? null, units };
  const exposed = awningExposure(rose, rig.awnings.length > 0, units);
  const awning = rig.awnings.map((one): AwningAnswer => {
    const azimuth = azimuthAt(one, stance, site.pad.heading?.value ?? null);
    const judged =
      question === null ? { wind: null, hours: null } : judgeAwning(question, { azimuth, windClass: one.windClass });
    const room = rooms.find(({ id }) => id === one.id) ?? unplaced(one);
    return { ...room, exposure: exposed.level, azimuth, ...judged };
  });
  const asked = question === null ? null : windAnswer(question);
  return {
    exposure: rose === null ? null : siteExposure(rose, site.prevailingWind ?? null, units),
    exposureRose: rose === null || options.detail !== "full" ? null : exposureRoseAnswer(rose),
    wind: asked,
    awning,
    checks: [exposed.check, windCheck(awning, asked)],
    words: asked === null ? null : windHeadline(asked, awning),
  };
}

function azimuthAt({ wall }: CompletedAwning, stance: Stance | null, heading: number | null): number | null {
  return stance === null || heading === null ? null : azimuthOf(wall, stance, heading);
}

function unplaced({ id, wall }: CompletedAwning): AwningRoomAnswer {
  const why = "There is no stance, so the room for the awning is not judged.";
  return { id, side: wall, padSide: null, room: "unknown", needed: null, clear: null, why };
}
