/** Routes about the interface itself: health, limits, vocabulary. */
import { LIMIT_MEANINGS, type Limits } from "../limits.ts";
import { negotiate } from "../negotiate.ts";
import { refuseParameters } from "../parameters.ts";
import { cacheable } from "../representation.ts";
import { type Call, type Route, schemaRef } from "../route.ts";
import { vocabulary } from "../vocabulary.ts";

const JSON_TYPE = "application/json";

/** A GET that gives one JSON object and takes no parameter. */
async function jsonAnswer(call: Call, body: unknown): Promise<Response> {
  negotiate(call.request.headers.get("accept"), [JSON_TYPE]);
  refuseParameters(call.url, []);
  return cacheable(call.request, JSON.stringify(body), JSON_TYPE);
}

export const healthRoute: Route = {
  method: "GET",
  path: "/healthz",
  operationId: "health",
  tag: "About",
  summary: "Whether the service answers and which records it holds",
  description: "Reads the version of the records, so that a store out of reach shows as a failure.",
  answer: { description: "It answers.", content: { [JSON_TYPE]: { schema: schemaRef("Health") } } },
  conditional: true,
  problems: ["invalid-parameter"],
  handle: async (call) =>
    jsonAnswer(call, { status: "ok", version: call.version, recordsVersion: await call.store.version() }),
};

export const limitsRoute: Route = {
  method: "GET",
  path: "/v1/limits",
  operationId: "limits",
  tag: "About",
  summary: "Every cap of this interface",
  description:
    "Caps on bodies, pages and searches, whether an exact solver stands by, and which forecast feeds are set up.",
  answer: { description: "The caps.", content: { [JSON_TYPE]: { schema: schemaRef("LimitList") } } },
  conditional: true,
  problems: ["invalid-parameter"],
  handle: (call) => jsonAnswer(call, limitList(call)),
};

/** The caps in force, each with its unit and meaning. */
function limitList({ limits, weather, ratePolicy }: Call) {
  const rows = (Object.keys(LIMIT_MEANINGS) as (keyof Limits)[]).map((name) => ({
    name,
    value: limits[name],
    ...LIMIT_MEANINGS[name],
  }));
  const rateLimit = ratePolicy === null ? null : { units: ratePolicy.quota, seconds: ratePolicy.window };
  return { limits: rows, exactSolver: "none", rateLimit, forecastFeeds: weather.forecasts?.feeds ?? [] };
}

export const vocabularyRoute: Route = {
  method: "GET",
  path: "/v1/vocabulary",
  operationId: "vocabulary",
  tag: "About",
  summary: "Every word that requests and answers use",
  description:
    "Plugs and receptacles, adapters, kit items, services, verdicts, check ids, warning and problem codes, read from the tables that the fit itself reads.",
  answer: { description: "The words.", content: { [JSON_TYPE]: { schema: schemaRef("Vocabulary") } } },
  conditional: true,
  problems: ["invalid-parameter"],
  handle: (call) => jsonAnswer(call, vocabulary()),
};
