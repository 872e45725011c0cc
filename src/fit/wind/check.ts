/** The wind asked about as one check: a risk that informs and never makes a fit a no. */
import type { AwningAnswer, Check, CheckStatus } from "../answer.ts";
import { check, notApplicable } from "../clearance/check.ts";
import type { AwningWindAnswer, WindAnswer } from "./answer.ts";

const ID = "awning.wind";
const SOURCE = "EN 13561 nominal pressure of the awning's class as a yardstick; the awning's own handbook goes first";

const STATUS: Readonly<Record<AwningWindAnswer["level"], CheckStatus>> = {
  low: "pass",
  moderate: "tight",
  high: "tight",
  retract: "fail",
  unknown: "unknown",
};
const ORDER: readonly AwningWindAnswer["level"][] = ["low", "moderate", "unknown", "high", "retract"];

/** The awning that the wind presses most; unknown while an hour is unknown and none calls for more. */
export function windCheck(awnings: readonly AwningAnswer[], asked: WindAnswer | null): Check {
  if (awnings.length === 0) return notApplicable(ID, "The rig has no awning on record.");
  if (asked === null) return notApplicable(ID, "Neither a stay nor a wind was asked about.");
  const level = awnings.map(levelOf).reduce((a, b) => (ORDER.indexOf(b) > ORDER.indexOf(a) ? b : a));
  const worst = awnings.find((one) => levelOf(one) === level);
  const wind = worst?.wind ?? null;
  const hour = wind?.hour == null ? "" : `Worst hour ${wind.hour}: `;
  const unknown = (worst?.hours ?? []).filter(({ signal }) => signal === "unknown").length;
  const doubt = unknown === 0 ? "" : ` ${unknown} of ${worst?.hours?.length ?? 0} hours are unknown.`;
  const told = wind === null ? (asked.problem?.text ?? "No wind is known for this time.") : `${hour}${wind.why}`;
  return check({
    id: ID,
    family: "risk",
    deciding: false,
    status: STATUS[level],
    value: wind?.pressure ?? null,
    limit: wind?.limit ?? null,
    unit: "Pa",
    source: SOURCE,
    why: `${told}${doubt} ${asked.caution}`,
  });
}

function levelOf({ wind, hours }: AwningAnswer): AwningWindAnswer["level"] {
  const level = wind?.level ?? "unknown";
  const open = (hours ?? []).some(({ signal }) => signal === "unknown");
  return open && ORDER.indexOf(level) < ORDER.indexOf("unknown") ? "unknown" : level;
}
