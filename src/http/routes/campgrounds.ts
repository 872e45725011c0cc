/** Stored campgrounds: a paged list, and one as GeoJSON. */
import { digestOf, readCursor, writeCursor } from "../cursor.ts";
import { negotiate } from "../negotiate.ts";
import { pageSize, refuseParameters } from "../parameters.ts";
import { Problem } from "../problem.ts";
import { cacheable } from "../representation.ts";
import { type Route, schemaRef } from "../route.ts";
import type { CampgroundList } from "../schemas/records.ts";

const JSON_TYPE = "application/json";
const GEOJSON_TYPE = "application/geo+json";
const LIST = "/v1/campgrounds";

export const campgroundListRoute: Route = {
  method: "GET",
  path: LIST,
  operationId: "listCampgrounds",
  tag: "Records",
  summary: "The stored campgrounds",
  description: "In the order of their ids, in pages. Follow `next` in the Link header, or send `nextCursor` back.",
  parameters: [
    {
      name: "limit",
      in: "query",
      description: "Largest number of campgrounds in this page. More than the largest page is lowered to it.",
      schema: { type: "integer", minimum: 1, default: 20 },
      example: 10,
    },
    {
      name: "cursor",
      in: "query",
      description: "The nextCursor of the page before.",
      schema: { type: "string", maxLength: 512 },
    },
  ],
  answer: { description: "A page.", content: { [JSON_TYPE]: { schema: schemaRef("CampgroundList") } } },
  conditional: true,
  paged: true,
  problems: ["invalid-parameter", "invalid-cursor", "stale-cursor"],
  handle: async ({ request, url, store, limits }) => {
    negotiate(request.headers.get("accept"), [JSON_TYPE]);
    refuseParameters(url, ["limit", "cursor"], limits.parameterLength);
    const size = pageSize(url, limits);
    const context = { version: await store.version(), query: await digestOf(LIST) };
    const cursor = url.searchParams.get("cursor");
    const after = cursor === null ? 0 : readCursor(cursor, context);
    const all = await store.list();
    const page = all.slice(after, after + size);
    const next = after + size < all.length ? writeCursor({ ...context, after: after + size }) : null;
    const body: CampgroundList = {
      campgrounds: page.map(({ box, ...summary }) => ({
        ...summary,
        box: box === null ? null : [...box],
        href: `${LIST}/${encodeURIComponent(summary.id)}`,
      })),
      numberMatched: all.length,
      numberReturned: page.length,
      nextCursor: next,
    };
    const links = [`<${LIST}${url.search}>; rel="self"`];
    if (next !== null) links.push(`<${LIST}?limit=${size}&cursor=${next}>; rel="next"`);
    return cacheable(request, JSON.stringify(body), JSON_TYPE, { Link: links.join(", ") });
  },
};

export const campgroundRoute: Route = {
  method: "GET",
  path: `${LIST}/{id}`,
  operationId: "getCampground",
  tag: "Records",
  summary: "One campground as GeoJSON",
  description: "The record as it is kept: what was refused when it was read is left out, unknown members are kept.",
  parameters: [
    {
      name: "id",
      in: "path",
      description: "Id of the campground.",
      schema: { type: "string", minLength: 1, maxLength: 200 },
      example: "alder-flat",
    },
  ],
  answer: { description: "The record.", content: { [GEOJSON_TYPE]: { schema: schemaRef("Campground") } } },
  conditional: true,
  problems: ["invalid-parameter", "not-found"],
  handle: async ({ request, url, params, store }) => {
    const mediaType = negotiate(request.headers.get("accept"), [GEOJSON_TYPE, JSON_TYPE]);
    refuseParameters(url, []);
    const stored = await store.get(params["id"] ?? "");
    if (stored === null) throw new Problem("not-found", "There is no campground of this id.");
    return cacheable(request, JSON.stringify(stored.document), mediaType, {
      Link: '</schemas/campground.json>; rel="describedby"; type="application/schema+json"',
    });
  },
};
