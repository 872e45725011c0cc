/** The site of a fit request: a Feature with what is around it, or the ids of a stored one. */
import { type CampgroundReport, readCampground } from "../records/geojson.ts";
import { aroundOf, type CampgroundStore, isSite, type StoredCampground, siteOf } from "../records/store.ts";
import type { Around } from "../site/complete.ts";
import type { CampgroundFeature } from "../site/feature.ts";
import type { Campground } from "../site/schema.ts";
import type { Warning } from "../units/estimate.ts";
import { shorten } from "../units/input-error.ts";
import type { ProblemError } from "./problem.ts";
import { siteReferenceSchema } from "./schemas/fit-request.ts";
import { check, shortPointer } from "./validate.ts";

export interface ReadSite {
  readonly feature: CampgroundFeature;
  /** What holds for the whole campground; null beside a bare Feature without it. */
  readonly campground: Campground | null;
  /** The features of the campground, or those that were sent. */
  readonly around: Around | readonly CampgroundFeature[];
  /** The same as records, for the wind; null when nothing but the site is known. */
  readonly features: readonly CampgroundFeature[] | null;
  readonly warnings: readonly Warning[];
  /** Version of the stored record; null for a record that was sent. */
  readonly version: string | null;
}

type Body = Readonly<Record<string, unknown>>;

/** Adds the site's faults to `errors`; null when it has any or is missing. */
export async function readSite(body: Body, store: CampgroundStore, errors: ProblemError[]): Promise<ReadSite | null> {
  const { site } = body;
  if (site === undefined) return null;
  if (typeof site !== "object" || site === null || Array.isArray(site)) {
    const message = "This must be a GeoJSON Feature, or the ids of a stored site.";
    const expected = "a Feature, or {campground, site}";
    errors.push({ pointer: "/site", code: "wrong-type", message, expected, got: shorten(site) });
    return null;
  }
  const isReference = !("type" in site) && ("campground" in site || "site" in site);
  return isReference ? storedSite(body, store, errors) : sentSite(body, site, errors);
}

async function storedSite(body: Body, store: CampgroundStore, errors: ProblemError[]): Promise<ReadSite | null> {
  for (const key of ["campground", "around"] as const) {
    if (body[key] === undefined) continue;
    const message = "A stored site brings its own campground and surroundings.";
    errors.push({ pointer: `/${key}`, code: "conflict", message, expected: "nothing beside a stored site" });
  }
  const reference = check(siteReferenceSchema, body["site"], "/site");
  if (!reference.ok) {
    errors.push(...reference.errors);
    return null;
  }
  const stored = await store.get(reference.value.campground);
  if (stored === null) {
    const message = "There is no campground of this id.";
    errors.push({ pointer: "/site/campground", code: "not-found", message, expected: "an id from /v1/campgrounds" });
    return null;
  }
  const feature = siteOf(stored, reference.value.site);
  if (feature === null) {
    errors.push(...missingSite(stored, reference.value.site));
    return null;
  }
  return storedRead(stored, feature);
}

/** A site as its store holds it. */
export function storedRead(stored: StoredCampground, feature: CampgroundFeature): ReadSite {
  const { campground, summary } = stored;
  return {
    feature,
    campground,
    around: aroundOf(stored),
    features: stored.features,
    warnings: [],
    version: summary.version,
  };
}

/** Why a stored campground has no such site: it never had, or its record was refused. */
function missingSite(stored: StoredCampground, id: string): ProblemError[] {
  const broken = stored.brokenSites.find((site) => site.id === id);
  if (broken === undefined) {
    const expected = `an id of a site of /v1/campgrounds/${encodeURIComponent(stored.summary.id)}`;
    return [{ pointer: "/site/site", code: "not-found", message: "There is no site of this id.", expected }];
  }
  return broken.faults.map(({ code, message, expected, path }) => ({
    pointer: "/site/site",
    code,
    message: `The stored record was refused at ${shortPointer(path)}: ${message}`,
    expected,
  }));
}

/** Id of the campground that stands in when a bare Feature is sent; it never reaches the answer. */
const NO_CAMPGROUND = "none";

function sentSite(body: Body, site: object, errors: ProblemError[]): ReadSite | null {
  const around: readonly unknown[] = Array.isArray(body["around"]) ? body["around"] : [];
  const campground = body["campground"];
  const reading = readCampground({
    type: "FeatureCollection",
    campground: campground ?? { id: NO_CAMPGROUND },
    features: [site, ...around],
  });
  const before = errors.length;
  errors.push(...refusals(reading.report));
  const kind = kindOf(site);
  if (kind !== "site") {
    const message = kind === undefined ? "The kind is missing." : "This feature is no site.";
    errors.push({ pointer: "/site/properties/kind", code: "wrong-kind", message, expected: '"site"' });
  }
  const [feature, ...others] = reading.features;
  if (errors.length > before || feature === undefined || !isSite(feature)) return null;
  return {
    feature,
    campground: campground === undefined ? null : reading.campground,
    around: others,
    features: others.length > 0 ? reading.features : null,
    warnings: reading.report.warnings.map((one) => ({ ...one, path: requestPath(one.path) })),
    version: null,
  };
}

function kindOf(site: object): unknown {
  const properties = "properties" in site ? site.properties : null;
  return typeof properties === "object" && properties !== null && "kind" in properties ? properties.kind : undefined;
}

function refusals(report: CampgroundReport): ProblemError[] {
  return report.refused.map(({ path, code, message, expected }) => ({
    pointer: shortPointer(requestPath(path)),
    code,
    message,
    expected,
  }));
}

/** From a pointer in the collection that was made of the parts to the pointer in the request. */
function requestPath(path: string): string {
  const match = /^\/features\/(\d+)(.*)$/s.exec(path);
  if (match === null) return path;
  const index = Number(match[1]);
  return index === 0 ? `/site${match[2]}` : `/around/${index - 1}${match[2]}`;
}
