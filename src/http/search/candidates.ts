/** The sites that a search has to judge: those of the area, less those whose record the filters leave out. */
import { completeOptions } from "../../fit/options.ts";
import { type Area, boxesOf, metresToRoute } from "../../records/catalogue/area.ts";
import { mayServe } from "../../records/catalogue/may-serve.ts";
import { type Box, isInBox, metresBetween, type Place, placeOf } from "../../records/place.ts";
import {
  type BrokenSite,
  type CampgroundStore,
  type CampgroundSummary,
  isSite,
  type StoredCampground,
} from "../../records/store.ts";
import { completeRig } from "../../rig/complete.ts";
import type { CampgroundFeature } from "../../site/feature.ts";
import { type SiteProperties, siteProperties } from "../../site/schema.ts";
import { Problem } from "../problem.ts";
import type { ReadRig } from "../rig-input.ts";
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
  /** Campgrounds that the catalogue knows to have no site for this rig, with their sites. */
  readonly cannotServe: { readonly campgrounds: number; readonly sites: number };
}

/** Throws a problem as soon as the sites are more than a search may fit. */
export async function findCandidates(
  store: CampgroundStore,
  asked: SearchRequest,
  rig: ReadRig,
  most: number,
): Promise<Candidates> {
  const sites: Candidate[] = [];
  const broken: { stored: StoredCampground; site: BrokenSite }[] = [];
  let [filteredOut, filterUnknown, withoutPlace] = [0, 0, 0];
  const { found, cannotServe } = await campgroundsOf(store, asked, rig);
  for (const stored of found) {
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
      if (sites.length > most) throw tooManySites(most, "Narrow the area or the filters.");
    }
    // A broken site has no place that could be trusted: it is named wherever its campground has another site.
    if (touched) broken.push(...stored.brokenSites.map((site) => ({ stored, site })));
  }
  return { sites, broken, filteredOut, filterUnknown, withoutPlace, cannotServe };
}

export function tooManySites(most: number, message: string): Problem {
  return new Problem("too-many-sites", `The search covers more than ${most} sites.`, [
    { pointer: "", code: "too-many-sites", message, expected: `at most ${most} sites` },
  ]);
}

/** Records that are read at the same time: enough to hide the way to the object store, few enough to be polite. */
const AT_ONCE = 6;

async function campgroundsOf(store: CampgroundStore, asked: SearchRequest, rig: ReadRig) {
  const summaries = asked.campground === undefined ? await summariesOf(store, asked) : [];
  const served = summaries.filter((summary) => mayHaveSite(summary, asked, rig));
  const left = summaries.filter((summary) => !served.includes(summary));
  const ids = asked.campground === undefined ? served.map(({ id }) => id) : [asked.campground];
  const found: StoredCampground[] = [];
  for (let start = 0; start < ids.length; start += AT_ONCE) {
    const read = await Promise.all(ids.slice(start, start + AT_ONCE).map((id) => store.get(id)));
    found.push(...read.filter((stored) => stored !== null));
  }
  const sites = left.reduce((sum, summary) => sum + summary.sites, 0);
  return { found, cannotServe: { campgrounds: left.length, sites } };
}

async function summariesOf(store: CampgroundStore, asked: SearchRequest): Promise<readonly CampgroundSummary[]> {
  const area = areaOf(asked);
  if (area !== null && store.meeting !== undefined) return store.meeting(area);
  return (await store.list()).filter((summary) => mayTouch(summary, area));
}

function areaOf({ bbox, near, radius, along }: SearchRequest): Area | null {
  if (bbox !== undefined) return { box: bbox as unknown as Box };
  if (near !== undefined && radius !== undefined) return { middle: near, radius };
  return along === undefined ? null : { route: routeOf(along), aside: along.corridor };
}

const routeOf = ({ route }: NonNullable<SearchRequest["along"]>): Place[] =>
  route.map(([longitude, latitude]) => ({ longitude, latitude }));

/** Only who asks for no site that does not fit is spared the campgrounds that have no other. */
function mayHaveSite({ envelope }: CampgroundSummary, asked: SearchRequest, rig: ReadRig): boolean {
  const verdicts = asked.filters?.verdicts;
  if (envelope === undefined || verdicts === undefined || verdicts.includes("does not fit")) return true;
  const options = completeOptions({
    ...asked.options,
    ...(asked.needs === undefined ? {} : { needs: asked.needs }),
  });
  const completed = completeRig(rig.profile, { electricalSystem: null, units: options.units, warnings: [] });
  return mayServe(envelope, completed, options);
}

/** A cheap look at the campground's box before its record is read; when in doubt it is read. */
function mayTouch({ box }: CampgroundSummary, area: Area | null): boolean {
  if (box === null || area === null) return true;
  return boxesOf(area).some(
    ([west, south, east, north]) =>
      box[1] <= north && box[3] >= south && longitudesMeet([box[0], box[2]], [west, east]),
  );
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
  if (asked.along !== undefined) {
    const aside = metresToRoute(place, routeOf(asked.along));
    return aside <= asked.along.corridor ? { distance: aside } : "outside";
  }
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
