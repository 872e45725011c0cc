/** Routes about the interface itself: health, limits, vocabulary. */
import { LIMIT_MEANINGS, type Limits } from "../limits.ts";
import { METRICS_FORMS, type MetricsForm } from "../metrics.ts";
import { negotiate } from "../negotiate.ts";
import { refuseParameters } from "../parameters.ts";
import { Problem } from "../problem.ts";
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

export const readyRoute: Route = {
  method: "GET",
  path: "/readyz",
  operationId: "ready",
  tag: "About",
  summary: "Whether requests may be sent here",
  description:
    "Whether the ledger and the catalogue can be read now, and whether forecasts are set up. 503 when something that is set up fails, and while the service is being stopped.",
  answer: { description: "They may.", content: { [JSON_TYPE]: { schema: schemaRef("Readiness") } } },
  conditional: false,
  problems: ["invalid-parameter", "busy"],
  handle: async (call) => {
    negotiate(call.request.headers.get("accept"), [JSON_TYPE]);
    refuseParameters(call.url, []);
    const checks = await call.readiness();
    const failing = checks.filter(({ state }) => state === "failing").map(({ name }) => name);
    if (failing.length > 0) {
      throw new Problem("busy", `Not ready: ${failing.join(", ")}.`, [], { "Retry-After": READY_AGAIN });
    }
    return new Response(JSON.stringify({ status: "ready", checks }), { headers: UNKEPT });
  },
};

/** Seconds. */
const READY_AGAIN = "5";
const UNKEPT = { "Content-Type": JSON_TYPE, "Cache-Control": "no-store" };
const OPENMETRICS_TYPE = "application/openmetrics-text";
const PLAIN_TYPE = "text/plain";

export const metricsRoute: Route = {
  method: "GET",
  path: "/metrics",
  operationId: "metrics",
  tag: "About",
  summary: "Figures for a collector",
  description:
    "Requests by method, route template and status, with the times that they took, since this process started; at the edge, of one place of it.",
  answer: {
    description: "Prometheus text, or OpenMetrics for who asks for it.",
    content: { [PLAIN_TYPE]: { schema: { type: "string" } }, [OPENMETRICS_TYPE]: { schema: { type: "string" } } },
  },
  conditional: false,
  problems: ["invalid-parameter", "not-found"],
  handle: async ({ request, url, metrics }) => {
    const type = negotiate(request.headers.get("accept"), [PLAIN_TYPE, OPENMETRICS_TYPE]);
    refuseParameters(url, []);
    if (metrics === null) throw new Problem("not-found", "No figures are kept here.");
    const form: MetricsForm = type === OPENMETRICS_TYPE ? "openmetrics" : "prometheus";
    const headers = { "Content-Type": METRICS_FORMS[form], "Cache-Control": "no-store", Vary: "Accept" };
    return new Response(metrics.text(form), { headers });
  },
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
function limitList({ limits, weather, ratePolicy, exact }: Call) {
  const rows = (Object.keys(LIMIT_MEANINGS) as (keyof Limits)[]).map((name) => ({
    name,
    value: limits[name],
    ...LIMIT_MEANINGS[name],
  }));
  const rateLimit = ratePolicy === null ? null : { units: ratePolicy.quota, seconds: ratePolicy.window };
  const exactSolver = exact === undefined ? "none" : "highs";
  return { limits: rows, exactSolver, rateLimit, forecastFeeds: weather.forecasts?.feeds ?? [] };
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
