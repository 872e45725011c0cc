/** One site of a record under its own address. */
import { isSite, type StoredCampground, siteOf } from "../../../records/store.ts";
import { featureId } from "../../../site/feature.ts";
import { parseJsonText } from "../../body.ts";
import { negotiate } from "../../negotiate.ts";
import { refuseParameters } from "../../parameters.ts";
import { Problem } from "../../problem.ts";
import { cacheable, entityTag } from "../../representation.ts";
import { type Route, schemaRef } from "../../route.ts";
import { BASE, part, writeRoute } from "../describe.ts";
import { requireMatch, requireNew } from "../matching.ts";
import { MERGE_PATCH_TYPE, mergePatch } from "../merge-patch.ts";
import { keptRecord } from "../stored.ts";
import { type Effect, JSON_TYPE, type Writing } from "../writing.ts";
import { GEOJSON_TYPE, PREVIEW, RECORD_ANSWER, recordEffect, requirePresent } from "./records.ts";

const SITE = part("site", "Id of the site.");
const PATH = "/sites/{site}";
const DESCRIPTION =
  "The rest of the record stays as it is, and changes of other sites do not get in the way: the ETag is that of this site alone. The answer is that of a whole record.";

const getRoute: Route = {
  method: "GET",
  path: BASE + PATH,
  operationId: "getSite",
  tag: "Records",
  summary: "One site as a GeoJSON Feature",
  description: "As it is kept. Its ETag is what a change of the site wants as If-Match.",
  parameters: [{ name: "id", in: "path", description: "Id of the campground.", schema: { type: "string" } }, SITE],
  answer: { description: "The site.", content: { [GEOJSON_TYPE]: { schema: schemaRef("Site") } } },
  conditional: true,
  problems: ["invalid-parameter", "not-found"],
  handle: async ({ request, url, params, store }) => {
    const mediaType = negotiate(request.headers.get("accept"), [GEOJSON_TYPE, JSON_TYPE]);
    refuseParameters(url, []);
    const stored = await store.get(params["id"] ?? "");
    const feature = stored === null ? null : siteOf(stored, params["site"] ?? "");
    if (feature === null) throw new Problem("not-found", "There is no site of this id.");
    return cacheable(request, JSON.stringify(feature), mediaType);
  },
};

const putRoute = writeRoute(
  {
    method: "PUT",
    path: PATH,
    operationId: "putSite",
    scope: "records",
    summary: "Write one site",
    description: `${DESCRIPTION} For a site that is not there yet send If-None-Match: *.`,
    parameters: [SITE, PREVIEW],
    matched: true,
    body: {
      description: "The site.",
      content: { [GEOJSON_TYPE]: { schema: schemaRef("Site") }, [JSON_TYPE]: { schema: schemaRef("Site") } },
      most: "hostBodyBytes",
    },
    problems: ["invalid-record"],
    answer: RECORD_ANSWER,
  },
  async (writing) => {
    const feature: unknown = parseJsonText(writing.text, writing.call.limits.jsonDepth);
    const present = await presentSite(writing);
    if (present.tag === null) requireNew(writing.call.request);
    else requirePresent(writing.call.request, present.tag);
    return siteEffect(writing, present, feature);
  },
);

const patchRoute = writeRoute(
  {
    method: "PATCH",
    path: PATH,
    operationId: "patchSite",
    scope: "records",
    summary: "Change some members of one site",
    description: DESCRIPTION,
    parameters: [SITE, PREVIEW],
    matched: true,
    body: {
      description: "A merge patch (RFC 7396) of the Feature. A list takes the place of the whole list.",
      content: { [MERGE_PATCH_TYPE]: { schema: { type: "object" } } },
      most: "hostBodyBytes",
    },
    problems: ["invalid-record"],
    answer: RECORD_ANSWER,
  },
  async (writing) => {
    const patch = parseJsonText(writing.text, writing.call.limits.jsonDepth);
    const present = await presentSite(writing);
    if (present.tag === null) throw absentSite();
    requireMatch(writing.call.request, present.tag);
    const merged = mergePatch(present.kept.stored.features[present.index], patch);
    // A merge patch cannot say null; a feature without a place has a geometry that is null.
    const feature = typeof merged === "object" && merged !== null ? { geometry: null, ...merged } : merged;
    return siteEffect(writing, present, feature);
  },
);

const deleteRoute = writeRoute(
  {
    method: "DELETE",
    path: PATH,
    operationId: "deleteSite",
    scope: "records",
    summary: "Remove one site",
    description: `${DESCRIPTION} Refused while somebody has it today or later (409).`,
    parameters: [SITE, PREVIEW],
    matched: true,
    answer: RECORD_ANSWER,
  },
  async (writing) => {
    const present = await presentSite(writing);
    if (present.tag === null) throw absentSite();
    requireMatch(writing.call.request, present.tag);
    const features = present.kept.stored.features.filter((_, index) => index !== present.index);
    return recordEffect(
      writing,
      present.kept,
      { ...present.kept.stored.document, features },
      undefined,
      async () => ({}),
    );
  },
);

interface PresentSite {
  readonly id: string;
  readonly kept: { readonly version: number; readonly stored: StoredCampground };
  /** Place among the features; their number for a site that is not there. */
  readonly index: number;
  /** Null for a site that is not there. */
  readonly tag: string | null;
}

async function presentSite({ host, campground, call }: Writing): Promise<PresentSite> {
  const kept = await keptRecord(host, campground);
  const id = call.params["site"] ?? "";
  const { features } = kept.stored;
  const index = features.findIndex((feature) => isSite(feature) && featureId(feature) === id);
  if (index < 0) return { id, kept, index: features.length, tag: null };
  return { id, kept, index, tag: await siteTag(kept.stored, id) };
}

async function siteTag(stored: StoredCampground, site: string): Promise<string> {
  return entityTag(new TextEncoder().encode(JSON.stringify(siteOf(stored, site))));
}

function siteEffect(writing: Writing, { id, kept, index }: PresentSite, feature: unknown): Promise<Effect> {
  const features = [...kept.stored.features] as unknown[];
  features[index] = feature;
  const here = `/features/${index}`;
  const toBody = (path: string) => (path.startsWith(`${here}/`) ? path.slice(here.length) : path === here ? "" : path);
  const document = { ...kept.stored.document, features };
  return recordEffect(writing, kept, document, toBody, async (after) => {
    // Only now is it known to be a feature that has an id at all.
    if (siteOf(after, id) === null) {
      throw new Problem("invalid-record", "The feature is not the site of the address.", [
        { pointer: "/id", code: "conflict", message: "This is not the site of the address.", expected: id },
      ]);
    }
    return { ETag: await siteTag(after, id) };
  });
}

const absentSite = (): Problem => new Problem("not-found", "There is no site of this id.");

export const SITE_ROUTES: readonly Route[] = [getRoute, putRoute, patchRoute, deleteRoute];
