/** How a site lies to the wind: over all directions, to the prevailing wind on record, and direction by direction. */
import type { UnitSystem } from "../../units/print.ts";
import { exposureLevel, exposureWord } from "../../wind/exposure.ts";
import type { Rose, Sector } from "../../wind/rose.ts";
import type { ExposureRose, SiteExposure } from "./answer.ts";

/** @param prevailing True bearing that the wind mostly comes from, radians; null when the record does not say. */
export function siteExposure(rose: Rose, prevailing: number | null, units: UnitSystem): SiteExposure {
  const { level, ratio, why } = exposureLevel(rose, { units });
  if (prevailing === null) return { level, ratio, why, prevailing: null };
  const there = exposureLevel(rose, { units, prevailing });
  return {
    level,
    ratio,
    why,
    prevailing: { level: there.level, ratio: there.ratio, why: there.why, from: prevailing },
  };
}

/** The rose with the word of each direction alone, as the answer carries it. */
export function exposureRoseAnswer(rose: Rose): ExposureRose {
  const silent = rose.flags.includes("nothing-recorded");
  return {
    ...rose,
    sectors: rose.sectors.map((sector) => ({ ...sector, level: silent ? "unknown" : wordOf(sector) })),
  };
}

/** Shelter that is a guess never makes a direction low. */
function wordOf({ ratio, ratioSound }: Sector): "low" | "moderate" | "high" {
  const word = exposureWord(ratio);
  return word === "low" && exposureWord(ratioSound) !== "low" ? "moderate" : word;
}
