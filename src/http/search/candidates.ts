/** The sites that a search has to judge: those of the area, less those whose record the filters leave out. */
import { type Box, isInBox, metresBetween, type Place, placeOf } from "../../records/place.ts";
import {
  type BrokenSite,
  type CampgroundStore,
  type CampgroundSummary,
  isSite,
  type StoredCampground,
} from "../../records/store.ts";
import type { CampgroundFeature } from "../../site/feature.ts";
import { type SiteProperties, siteProperties } from "../../site/schema.ts";
import { Problem } from "../problem.ts";
import type { SearchRequest } from "../schemas/search.ts";

export interface Candidate {
  readonly stored: StoredCampground;
  readonly feature: CampgroundFeature;
  /** Metres to `near`; null without it. */
  readonly distance: number | null;
}

export interface Candidates {
  readonly sites: readonly Candidate[];
  readonly broken: readonly { readonly stored: StoredCampground; readonly site: BrokenSite }[];
  readonly filteredOut: number;
  readonly filterUnknown: number;
  readonly withoutPlace: number;
}

/** Throws a problem as soon as the sites are more than a search may fit. */
export async function findCandidates(store: CampgroundStore, asked: SearchRequest, most: number): Promise<Candidates> {
  const sites: Candidate[] = [];
  const broken: { stored: StoredCampground; site: BrokenSite }[] = [];
  let [filteredOut, filterUnknown, withoutPlace] = [0, 0, 0];
  for (const stored of await campgroundsOf(store, asked)) {
    let touched = asked.campground !== undefined;
    for (const feature of stored.features.filter(isSite)) {
      const where = placeIn(feature, asked);
      if (where === "outside") continue;
      if (where === "nowhere") {
        withoutPlace += 1;
        continue;
      }
      touched = true;
      const kept = passes(feature, asked);
      if (kept !== "yes") filteredOut += 1;
      if (kept === "unknown") filterUnknown += 1;
      if (kept === "yes") sites.push({ stored, feature, distance: where.distance });
      if (sites.length > most) {
        throw new Problem("too-many-sites", `The search covers more than ${most} sites.`, [
          {
            pointer: "",
            code: "too-many-sites",
            message: "Narrow the area or the filters.",
            expected: `at most ${most} sites`,
          },
        ]);
      }
    }
    // A broken site has no place that could be trusted: it is named wherever its campground has another site.
    if (touched) broken.push(...stored.brokenSites.map((site) => ({ stored, site })));
  }
  return { sites, broken, filteredOut, filterUnknown, withoutPlace };
}

async function campgroundsOf(store: CampgroundStore, asked: SearchRequest): Promise<StoredCampground[]> {
  const ids =
    asked.campground === undefined
      ? (await store.list()).filter((summary) => mayTouch(summary, asked)).map((summary) => summary.id)
      : [asked.campground];
  const found: StoredCampground[] = [];
  for (const id of ids) {
    const stored = await store.get(id);
    if (stored !== null) found.push(stored);
  }
  return found;
}

/** A cheap look at the campground's box before its record is read; when in doubt it is read. */
function mayTouch({ box }: CampgroundSummary, { bbox }: SearchRequest): boolean {
  if (box === null || bbox === undefined) return true;
  const [west, south, east, north] = bbox;
  return box[1] <= north && box[3] >= south && longitudesMeet([box[0], box[2]], [west, east]);
}

function longitudesMeet(a: readonly [number, number], b: readonly [number, number]): boolean {
  const within = (longitude: number, [west, east]: readonly [number, number]) =>
    west <= east ? longitude >= west && longitude <= east : longitude >= west || longitude <= east;
  return within(a[0], b) || within(b[0], a);
}

/** A site without a place of its own is asked for by its campground only. */
function placeIn(
  feature: CampgroundFeature,
  asked: SearchRequest,
): { distance: number | null } | "outside" | "nowhere" {
  if (asked.campground !== undefined) return { distance: null };
  const place: Place | null = placeOf(feature);
  const middle = asked.near;
  if (place === null) return "nowhere";
  if (asked.bbox !== undefined) return isInBox(place, asked.bbox as unknown as Box) ? { distance: null } : "outside";
  if (middle === undefined || asked.radius === undefined) return "outside";
  const distance = metresBetween(place, middle);
  return distance <= asked.radius ? { distance } : "outside";
}

type Answer = "yes" | "no" | "unknown";

/** Whether the record meets the filters that need no fit. A record that does not say is `unknown`, kept only on demand. */
function passes(feature: CampgroundFeature, { filters }: SearchRequest): Answer {
  if (filters === undefined) return "yes";
  const parsed = siteProperties.safeParse(feature.properties);
  if (!parsed.success) return "unknown";
  const answers = recordAnswers(parsed.data, filters);
  if (answers.includes("no")) return "no";
  if (answers.includes("unknown") && filters.unknown !== "keep") return "unknown";
  return "yes";
}

function recordAnswers(site: SiteProperties, filters: NonNullable<SearchRequest["filters"]>): Answer[] {
  const answers: Answer[] = (filters.services ?? []).map((service) => site.services?.[service] ?? "unknown");
  if (filters.layout !== undefined)
    answers.push(said(site.layout, (layout) => filters.layout?.includes(layout) ?? false));
  if (filters.accessible !== undefined) answers.push(site.accessible ?? "unknown");
  if (filters.shade !== undefined) {
    answers.push(said(site.shade, (shade) => shade.toLowerCase() === filters.shade?.toLowerCase()));
  }
  return answers;
}

function said<T>(value: T | undefined, test: (value: T) => boolean): Answer {
  if (value === undefined) return "unknown";
  return test(value) ? "yes" : "no";
}
