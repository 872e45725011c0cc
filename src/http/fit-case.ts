/** From what was read to one answer: completes rig and site for each other and fits them. */
import type { Fit } from "../fit/answer.ts";
import { fitRig } from "../fit/fit.ts";
import type { FitOptions } from "../fit/options.ts";
import { roseQuery } from "../fit/wind/rose-query.ts";
import type { When } from "../fit/wind/when.ts";
import { roseOf } from "../records/surroundings.ts";
import { completeRig } from "../rig/complete.ts";
import type { CompletedRig } from "../rig/completed.ts";
import { completeSite } from "../site/complete.ts";
import type { CompletedSite } from "../site/completed.ts";
import type { Rose } from "../wind/rose.ts";
import type { ReadRig } from "./rig-input.ts";
import type { ReadSite } from "./site-input.ts";

/** What a fit is asked with, made ready. */
export interface ReadyCase {
  readonly rig: CompletedRig;
  readonly site: CompletedSite;
  /** Null when nobody knows how the site lies to the wind. */
  readonly rose: Rose | null;
}

/** The rig is completed for the campground, because its side of the road and its supply fill gaps in the rig. */
export function readyCase(rig: ReadRig, read: ReadSite, options: FitOptions, when: When | null = null): ReadyCase {
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
  return { rig: completedRig, site, rose };
}

export function fitCase(rig: ReadRig, read: ReadSite, options: FitOptions, when: When | null = null): Fit {
  return fitReady(readyCase(rig, read, options, when), read, options, when);
}

/** The answer to a case that is ready. */
export function fitReady(ready: ReadyCase, read: ReadSite, options: FitOptions, when: When | null = null): Fit {
  const fit = fitRig({ ...ready, options, when });
  return { ...fit, warnings: [...read.warnings, ...fit.warnings], dataVersion: read.version };
}
