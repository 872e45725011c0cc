/** How exposed an awning is at a site, from the surroundings alone and without a forecast. A risk, never a no. */
import type { UnitSystem } from "../units/print.ts";
import { type ExposureWord, exposureLevel } from "../wind/exposure.ts";
import { AWNING_CAUTION } from "../wind/flags.ts";
import type { Rose } from "../wind/rose.ts";
import type { Check, CheckStatus } from "./answer.ts";
import { check, notApplicable } from "./clearance/check.ts";

const SOURCE =
  "EN 1991-1-4 terrain by fetch and a wake formula behind barriers (Taylor and Salmon 1993, read in coded form); a model, not a measurement";

const STATUS: Readonly<Record<ExposureWord, CheckStatus>> = {
  low: "pass",
  moderate: "tight",
  high: "tight",
  unknown: "unknown",
};

export interface AwningExposure {
  readonly level: ExposureWord | null;
  readonly check: Check;
}

/** Exposure over all directions with its check; `level` is null when no rose was worked out. */
export function awningExposure(rose: Rose | null, hasAwning: boolean, units: UnitSystem): AwningExposure {
  const id = "awning.exposure";
  if (!hasAwning) return { level: null, check: notApplicable(id, "The rig has no awning on record.") };
  const exposure = rose === null ? null : exposureLevel(rose, { units });
  const why =
    exposure === null
      ? "Where the pad lies on the earth is not on record, so its exposure is not known."
      : exposure.why;
  const made = check({
    id,
    family: "risk",
    deciding: false,
    status: exposure === null ? "unknown" : STATUS[exposure.level],
    value: exposure?.ratio ?? null,
    limit: null,
    unit: "ratio",
    source: SOURCE,
    why: `${why} ${AWNING_CAUTION}`,
  });
  return { level: exposure?.level ?? null, check: made };
}
