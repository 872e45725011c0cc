/** From what was read to one answer: completes rig and site for each other and fits them. */
import type { Fit } from "../fit/answer.ts";
import { fitRig } from "../fit/fit.ts";
import type { FitOptions } from "../fit/options.ts";
import { roseQuery } from "../fit/wind/rose-query.ts";
import type { When } from "../fit/wind/when.ts";
import { roseOf } from "../records/surroundings.ts";
import { completeRig } from "../rig/complete.ts";
import { completeSite } from "../site/complete.ts";
import type { ReadRig } from "./rig-input.ts";
import type { ReadSite } from "./site-input.ts";

/** The rig is completed for the campground, because its side of the road and its supply fill gaps in the rig. */
export function fitCase(rig: ReadRig, read: ReadSite, options: FitOptions, when: When | null = null): Fit {
  const { campground } = read;
  const completedRig = completeRig(rig.profile, {
    ...(campground?.drivesOn === undefined ? {} : { drivesOn: campground.drivesOn }),
    electricalSystem: campground?.electricalSystem ?? null,
    units: options.units,
    warnings: rig.warnings,
  });
  const site = completeSite(read.feature, campground, read.around, { base: "/site" });
  // Whoever asks about a wind gets it judged over open land when nothing round the site was sent.
  const features = read.features ?? (when === null ? null : [read.feature]);
  const rose = features === null ? null : roseOf(site, features, roseQuery(completedRig, when));
  const fit = fitRig({ rig: completedRig, site, options, rose, when });
  return { ...fit, warnings: [...read.warnings, ...fit.warnings], dataVersion: read.version };
}
