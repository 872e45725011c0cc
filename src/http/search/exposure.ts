/** How the sites of a search lie to the wind, without any forecast: for its filters and its order. */
import { exposureLevel } from "../../wind/exposure.ts";
import type { Rose } from "../../wind/rose.ts";
import { degreesOf } from "../degrees.ts";
import type { SearchRequest } from "../schemas/search.ts";
import type { SearchFeature } from "../schemas/search-answer.ts";

/** To the wind that the filter names, radians; null level where nothing is known of it. */
export type Sheltered = NonNullable<SearchFeature["properties"]["sheltered"]>;

export interface SiteInWind {
  /** To the wind of `shelteredFrom`; null when the filter names none. */
  readonly sheltered: Sheltered | null;
  /** Ratio by which the order goes: of that wind, else of the prevailing one on record, else over all directions. */
  readonly ratio: number | null;
  readonly passes: "yes" | "no" | "unknown";
}

type Filters = SearchRequest["filters"];

/** True when a search cannot be answered without looking at the wind. */
export function asksForWind({ filters, sort }: SearchRequest): boolean {
  return sort === "exposure" || filters?.shelteredFrom !== undefined || filters?.exposure !== undefined;
}

/** @param prevailing Of the campground's record, radians; null when it states none. */
export function siteInWind(
  rose: Rose | null,
  prevailing: number | null,
  filters: Filters,
  units: "us" | "metric",
): SiteInWind {
  const asked = filters?.shelteredFrom;
  const from = asked === "prevailing" ? prevailing : (asked ?? null);
  const all = rose === null ? null : exposureLevel(rose, { units });
  const there =
    rose === null || from === null ? null : exposureLevel(rose, { units, prevailing: from, called: "wind" });
  const usual = rose === null || prevailing === null ? null : exposureLevel(rose, { units, prevailing });
  const counted = asked === undefined ? (usual ?? all) : there;
  const answers: SiteInWind["passes"][] = [];
  if (asked !== undefined) answers.push(verdictOn(there?.level ?? "unknown", ["low", "moderate"]));
  if (filters?.exposure !== undefined) answers.push(verdictOn(all?.level ?? "unknown", filters.exposure));
  return {
    sheltered: asked === undefined ? null : shelteredOf(from, there),
    ratio: counted === null || counted.level === "unknown" ? null : counted.ratio,
    passes: answers.includes("no") ? "no" : answers.includes("unknown") ? "unknown" : "yes",
  };
}

function verdictOn(level: string, wanted: readonly string[]): SiteInWind["passes"] {
  if (wanted.includes(level)) return "yes";
  return level === "unknown" ? "unknown" : "no";
}

function shelteredOf(from: number | null, there: ReturnType<typeof exposureLevel> | null): Sheltered {
  if (from === null) {
    const why = "The campground's record does not say where the wind mostly comes from.";
    return { from: null, level: "unknown", ratio: null, why };
  }
  if (there === null) {
    const why = "Where the pad lies on the earth is not on record, so its exposure is not known.";
    return { from: degreesOf(from), level: "unknown", ratio: null, why };
  }
  const { level, ratio, why } = there;
  return { from: degreesOf(from), level, ratio, why };
}
