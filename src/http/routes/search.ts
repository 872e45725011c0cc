/** POST /v1/search: one rig, many sites. */
import { BODY_PROBLEMS, type BodyRule, jsonBody } from "../body.ts";
import { digestOf, readCursor, writeCursor } from "../cursor.ts";
import { negotiate } from "../negotiate.ts";
import { EXAMPLE_SEARCH_REQUEST } from "../openapi/examples.ts";
import { refuseParameters } from "../parameters.ts";
import type { ProblemError } from "../problem.ts";
import { computed } from "../representation.ts";
import { readRig } from "../rig-input.ts";
import { type Call, type Route, schemaRef } from "../route.ts";
import { searchRequestSchema } from "../schemas/search.ts";
import type { SearchAnswer } from "../schemas/search-answer.ts";
import { searchSites } from "../search/search-sites.ts";
import { check } from "../validate.ts";
import { refusal } from "./fit.ts";

const JSON_TYPE = "application/json";
const GEOJSON_TYPE = "application/geo+json";
const PATH = "/v1/search";

export const searchRoute: Route = {
  method: "POST",
  path: PATH,
  operationId: "search",
  tag: "Fit",
  summary: "Which sites suit one rig",
  description:
    "Fits the rig at every site of a campground, a box, a circle or a strip along a route, and ranks them. A GeoJSON FeatureCollection with a summary of the fit for each site. A site whose record is broken comes last with its faults. For the next page send the same body with `nextCursor` as `cursor`, or post it to the address of `next` in the Link header.",
  parameters: [
    {
      name: "cursor",
      in: "query",
      description: "The nextCursor of the page before; instead of `cursor` in the body.",
      schema: { type: "string", maxLength: 512 },
    },
  ],
  requestBody: {
    description: "A rig and where to look.",
    content: {
      [JSON_TYPE]: {
        schema: schemaRef("SearchRequest"),
        examples: {
          campground: { summary: "The sites of one campground", value: EXAMPLE_SEARCH_REQUEST },
          circle: {
            summary: "Sites round a point",
            value: {
              rig: EXAMPLE_SEARCH_REQUEST.rig,
              near: { longitude: -106.2, latitude: 39.8 },
              radius: "25 mi",
              filters: { verdicts: ["fits", "fits with kit"] },
              sort: "distance",
            },
          },
        },
      },
    },
  },
  answer: { description: "A page of sites.", content: { [GEOJSON_TYPE]: { schema: schemaRef("SearchAnswer") } } },
  conditional: false,
  paged: true,
  problems: [
    ...BODY_PROBLEMS,
    "invalid-parameter",
    "invalid-cursor",
    "stale-cursor",
    "invalid-request",
    "too-many-sites",
  ],
  handle: answerSearch,
};

async function answerSearch(call: Call): Promise<Response> {
  const { request, url, store, limits } = call;
  const rule: BodyRule = { mediaTypes: [JSON_TYPE], maxBytes: limits.searchBodyBytes };
  const body: unknown = await jsonBody(request, rule, limits.jsonDepth);
  const mediaType = negotiate(request.headers.get("accept"), [GEOJSON_TYPE, JSON_TYPE]);
  refuseParameters(url, ["cursor"], limits.parameterLength);
  const envelope = check(searchRequestSchema, body);
  const errors: ProblemError[] = envelope.ok ? [] : [...envelope.errors];
  const rig = readRig(body, errors);
  const asked = envelope.ok ? envelope.value : null;
  if (asked?.campground !== undefined && (await store.get(asked.campground)) === null) {
    const expected = "an id from /v1/campgrounds";
    errors.push({ pointer: "/campground", code: "not-found", message: "There is no campground of this id.", expected });
  }
  if (asked === null || rig === null || errors.length > 0) throw refusal(errors);

  const { cursor: _cursor, limit: _limit, ...question } = body as Readonly<Record<string, unknown>>;
  const context = { version: await store.version(), query: await digestOf(question) };
  const cursor = url.searchParams.get("cursor") ?? asked.cursor ?? null;
  const after = cursor === null ? 0 : readCursor(cursor, context);
  const size = Math.min(asked.limit ?? limits.pageSizeDefault, limits.pageSize);
  const found = await searchSites(call, rig, asked, { after, size });
  const page = found.features.slice(after, after + size);
  // The order of an answer that is not complete still changes: a page of it has no next one.
  const hasNext = !found.incomplete && after + size < found.features.length;
  const nextCursor = hasNext ? writeCursor({ ...context, after: after + size }) : null;
  const links = [{ rel: "self", href: cursor === null ? PATH : `${PATH}?cursor=${cursor}`, type: GEOJSON_TYPE }];
  if (nextCursor !== null) links.push({ rel: "next", href: `${PATH}?cursor=${nextCursor}`, type: GEOJSON_TYPE });
  const answer: SearchAnswer = {
    type: "FeatureCollection",
    features: page,
    numberMatched: found.features.length,
    numberReturned: page.length,
    nextCursor,
    incomplete: found.incomplete,
    ranking: found.ranking,
    links,
    notShown: found.notShown,
    warnings: [...rig.warnings],
  };
  const header = links.map((link) => `<${link.href}>; rel="${link.rel}"`).join(", ");
  return computed(JSON.stringify(answer), mediaType, { Link: header });
}
