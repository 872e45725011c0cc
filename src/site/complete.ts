/**
 * Completes a campsite record: everything in the pad frame, in metres and radians, each value with its basis.
 *
 * What the record does not say stays unknown, or becomes a range with its source listed under `assumed`. A place in the
 * pad frame without a basis counts as measured to 0.05 m, a position on the earth as mapped to 1 m, a phone's fix as
 * good to 5 m: standard deviations per axis, each listed.
 */
import type { PadPoint } from "../geo/pad-frame.ts";
import { type Around, type AroundFeature, compileAround } from "./complete/around.ts";
import { siteFrame } from "./complete/frame.ts";
import { completeHookups, type HookupContext, hookupOfCode, known } from "./complete/hookups.ts";
import { nearRoads } from "./complete/near-roads.ts";
import { Notes } from "./complete/notes.ts";
import { ownObstacles } from "./complete/obstacles.ts";
import { surfaceScale } from "./complete/place.ts";
import { accessOf, facingsOf, limitsOf, padSurface, rulesOf, stopOf, warnOfSizes } from "./complete/plain.ts";
import { type Parking, padSide } from "./complete/sides.ts";
import { surroundings } from "./complete/surroundings.ts";
import { surveyOf } from "./complete/tapes.ts";
import type { CompletedHookup, CompletedSite, Service } from "./completed.ts";
import { type CampgroundFeature, featureId } from "./feature.ts";
import { type ExpandedSite, expandPattern } from "./patterns.ts";
import { type Campground, type SiteProperties, siteProperties } from "./schema.ts";

export interface CompleteOptions {
  /** Date to which ages are counted, YYYY-MM-DD; without it age widens nothing. */
  readonly asOf?: string;
  /** JSON Pointer of the site's feature in the caller's document; put before every path. */
  readonly base?: string;
}

const SERVICES: readonly Service[] = ["power", "water", "fill", "sewer", "cable"];

/**
 * @param feature A feature of kind site as the reader keeps it; its properties must fit the schema, or this throws.
 * @param campground The campground's own data; null for a site that comes alone.
 * @param around Other features of the campground; those out of reach and the site itself are passed over. Whoever
 * completes many sites hands over `compileAround` of them.
 */
export function completeSite(
  feature: CampgroundFeature,
  campground: Campground | null,
  around: readonly CampgroundFeature[] | Around = [],
  options: CompleteOptions = {},
): CompletedSite {
  const notes = new Notes(options.base ?? "");
  const id = featureId(feature) ?? "unnamed";
  const expanded = expandPattern(siteProperties.parse(feature.properties), campground?.patterns, id);
  notePattern(expanded, notes);
  const { site } = expanded;
  const all = "features" in around ? around : compileAround(around, campground?.patterns);
  const facings = facingsOf(site);
  const noseIn = facings.facings.length === 1 && facings.facings[0] === "in";
  const parking: Parking = { drivesOn: campground?.drivesOn ?? null, noseIn };
  const base = { notes, asOf: options.asOf ?? null };
  const survey = surveyOf(site, parking, base);
  const frame = siteFrame(site, feature.geometry, all.roads, survey, base);
  const surface = padSurface(site, base);
  const context: HookupContext = {
    ...base,
    siteId: id,
    layout: site.layout ?? null,
    frame,
    scale: surfaceScale(surface.grade?.value ?? 0, surface.crossfall?.value ?? 0),
    parking,
    survey,
    code: campground?.sitingCode ?? null,
    sharedPedestals: sharedPedestals(all, id),
  };
  const recorded = completeHookups(site, expanded.hookupPaths, feature.geometry, context);
  const services = servicesOf(site, recorded);
  const hookups = [...recorded, ...byCode(recorded, services, context)];
  warnOfSizes(frame, base);
  const pedestals = new Set(hookups.flatMap(({ pedestal }) => (pedestal === null ? [] : [pedestal])));
  const vicinity = { ...context, hookups: hookups.flatMap(placed), pedestals };
  const nearby = surroundings(all, (one) => isSelf(one, feature, id), vicinity);
  return {
    id,
    name: site.name ?? id,
    layout: context.layout,
    ...facings,
    pad: { length: frame.length, width: frame.width, heading: frame.heading, origin: frame.origin, ...surface },
    stop: stopOf(site, survey, base),
    services,
    hookups,
    obstacles: [...ownObstacles(site, survey, base), ...nearby],
    patio: site.patio === undefined ? null : padSide(site.patio, parking),
    limits: limitsOf(site, `${notes.base}/properties`),
    access: { ...accessOf(site, all.roads, frame), roads: nearRoads(all.roads, vicinity) },
    ...plainWords(site),
    ...campgroundFacts(campground),
    assumed: notes.assumed,
    warnings: notes.warnings,
  };
}

function notePattern({ missing, copied }: ExpandedSite, notes: Notes): void {
  const path = `${notes.base}/properties/pattern`;
  if (copied !== null) notes.assume(path, copied, "pattern of the campground");
  if (missing === null) return;
  notes.warn("ignored", path, `The campground has no pattern "${missing}": the site has only its own members.`);
}

function plainWords(site: SiteProperties) {
  return {
    extraVehicle: typeof site.extraVehicle === "object" ? ("outline" as const) : (site.extraVehicle ?? null),
    rules: rulesOf(site),
    accessible: known(site.accessible),
    shade: site.shade ?? null,
    closed: typeof site.closed === "string" ? site.closed : site.closed === true ? "closed" : null,
  };
}

function campgroundFacts(campground: Campground | null) {
  return {
    campgroundId: campground?.id ?? null,
    campgroundName: campground?.name ?? null,
    timeZone: campground?.timeZone ?? null,
    prevailingWind: campground?.prevailingWind?.from ?? null,
    electricalSystem: campground?.electricalSystem ?? null,
    drivesOn: campground?.drivesOn ?? null,
    sitingCode: campground?.sitingCode ?? null,
    elevation: campground?.elevation ?? null,
    sources: sourcesOf(campground),
  };
}

/** The site itself, or another copy of its record. */
function isSelf({ feature, id }: AroundFeature, self: CampgroundFeature, selfId: string): boolean {
  return feature === self || (id === selfId && feature.properties["kind"] === "site");
}

function sharedPedestals({ pedestals }: Around, id: string): Set<string> {
  const others = [...pedestals].filter(([, sites]) => [...sites].some((site) => site !== id));
  return new Set(others.map(([pedestal]) => pedestal));
}

function placed({ along, left }: CompletedHookup): PadPoint[] {
  return along === null || left === null ? [] : [{ along: along.value, left: left.value }];
}

type Services = CompletedSite["services"];

/** What the record says; a hookup of a service says yes for it. */
function servicesOf(site: SiteProperties, hookups: readonly CompletedHookup[]): Services {
  const entries = SERVICES.map((service) => {
    const has = hookups.some((hookup) => hookup.service === service);
    return [service, known(site.services?.[service] ?? (has ? "yes" : undefined))] as const;
  });
  return Object.fromEntries(entries) as Services;
}

/** A service that is there without a hookup in the record stands where the siting code puts it. */
function byCode(recorded: readonly CompletedHookup[], services: Services, context: HookupContext): CompletedHookup[] {
  return SERVICES.flatMap((service) => {
    if (services[service] !== "yes" || recorded.some((hookup) => hookup.service === service)) return [];
    const hookup = hookupOfCode(service, context);
    return hookup === null ? [] : [hookup];
  });
}

function sourcesOf(campground: Campground | null): string[] {
  return (campground?.sources ?? []).map((source) => {
    if (typeof source === "string") return source;
    const { title, name, url } = source as Record<string, unknown>;
    const told = [title ?? name, url].filter((part) => typeof part === "string");
    return told.length > 0 ? told.join(", ") : JSON.stringify(source);
  });
}

export { type Around, compileAround } from "./complete/around.ts";
