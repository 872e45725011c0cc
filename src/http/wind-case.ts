/** From what was read to the wind at one site alone: rose, exposure, the awning's wind and hours, without any rig. */
import { padSideAzimuth } from "../fit/clearance/awning-room.ts";
import { ENGINE_VERSION } from "../fit/version.ts";
import type { AwningHourAnswer, AwningWindAnswer, ExposureRose, SiteExposure, WindAnswer } from "../fit/wind/answer.ts";
import { windHeadline } from "../fit/wind/headline.ts";
import { judgeAwning, type WindQuestion, windAnswer } from "../fit/wind/judge.ts";
import { exposureRoseAnswer, siteExposure } from "../fit/wind/site-exposure.ts";
import type { When } from "../fit/wind/when.ts";
import { roseOf } from "../records/surroundings.ts";
import { completeSite } from "../site/complete.ts";
import type { CompletedSite } from "../site/completed.ts";
import type { Warning } from "../units/estimate.ts";
import type { UnitSystem } from "../units/print.ts";
import { AWNING_CAUTION, WIND_NOT_MODELLED } from "../wind/flags.ts";
import type { ReadSite } from "./site-input.ts";

/** The awning that the wind is judged for; what nobody gives is taken at its worst, its class as the lowest tested. */
export interface AwningGiven {
  readonly padSide?: "left" | "right" | "rear" | "exit" | undefined;
  /** True bearing out over the open awning, radians. */
  readonly azimuth?: number | undefined;
  readonly class?: number | undefined;
  /** Middle of the open fabric above the ground, metres. */
  readonly height?: number | undefined;
}

export interface SiteWind {
  readonly site: {
    readonly id: string;
    readonly name: string;
    readonly campground: string | null;
    readonly campgroundName: string | null;
  };
  readonly headline: string;
  readonly exposure: SiteExposure | null;
  readonly exposureRose: ExposureRose | null;
  readonly azimuth: number | null;
  readonly windClass: number | null;
  readonly judged: { readonly wind: AwningWindAnswer | null; readonly hours: readonly AwningHourAnswer[] | null };
  readonly wind: WindAnswer | null;
  readonly notModelled: readonly string[];
  readonly caution: string;
  readonly warnings: readonly Warning[];
  readonly units: UnitSystem;
  readonly engineVersion: string;
  readonly dataVersion: string | null;
}

const NO_PLACE = "Where the pad lies on the earth is not on record, so its exposure is not known.";

export function windCase(read: ReadSite, awning: AwningGiven, when: When | null, units: UnitSystem): SiteWind {
  const { campground } = read;
  const site = completeSite(read.feature, campground, read.around, { base: "/site" });
  const rose = roseOf(site, read.features ?? [read.feature], {
    ...(awning.height === undefined ? {} : { height: awning.height }),
    ...(when?.kind === "stay" ? { days: [when.from, when.to] } : {}),
  });
  const azimuth = azimuthOf(awning, site);
  const windClass = awning.class ?? null;
  const question: WindQuestion | null = when === null ? null : { when, rose, timeZone: site.timeZone ?? null, units };
  const judged = question === null ? { wind: null, hours: null } : judgeAwning(question, { azimuth, windClass });
  const asked = question === null ? null : windAnswer(question);
  const exposure = rose === null ? null : siteExposure(rose, site.prevailingWind ?? null, units);
  const words = windHeadline(asked, [judged]);
  return {
    site: {
      id: site.id,
      name: site.name,
      campground: site.campgroundId,
      campgroundName: site.campgroundName ?? null,
    },
    headline: [exposure?.why ?? NO_PLACE, ...(words === null ? [] : [`${words}.`])].join(" "),
    exposure,
    exposureRose: rose === null ? null : exposureRoseAnswer(rose),
    azimuth,
    windClass,
    judged,
    wind: asked,
    notModelled: WIND_NOT_MODELLED,
    caution: AWNING_CAUTION,
    warnings: [...read.warnings, ...site.warnings],
    units,
    engineVersion: ENGINE_VERSION,
    dataVersion: read.version,
  };
}

function azimuthOf({ azimuth, padSide }: AwningGiven, site: CompletedSite): number | null {
  if (azimuth !== undefined) return azimuth;
  const { heading } = site.pad;
  return padSide === undefined || heading === null ? null : padSideAzimuth(padSide, heading.value);
}
