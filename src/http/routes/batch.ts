/** POST /v1/fit/batch: many rigs, many sites, answered as a stream. */
import { batchRows, planBatch } from "../batch/rows.ts";
import { NDJSON_TYPE, rowStream, SEQUENCE_TYPE } from "../batch/stream.ts";
import { BODY_PROBLEMS, type BodyRule, jsonBody } from "../body.ts";
import { negotiate } from "../negotiate.ts";
import { EXAMPLE_FIT_REQUEST } from "../openapi/examples.ts";
import { refuseParameters } from "../parameters.ts";
import { type Call, type Route, schemaRef } from "../route.ts";
import { batchRequestSchema } from "../schemas/batch.ts";
import { check } from "../validate.ts";
import { refusal } from "./fit.ts";

const JSON_TYPE = "application/json";
/** Fits that count as one unit of a caller's limit. */
const FITS_PER_UNIT = 20;

const example = {
  rigs: [EXAMPLE_FIT_REQUEST.rig],
  sites: [{ campground: "alder-flat", site: "A7" }],
  options: { units: "us" },
};

export const batchRoute: Route = {
  method: "POST",
  path: "/v1/fit/batch",
  operationId: "fitBatch",
  tag: "Fit",
  summary: "Every rig at every site, as a stream",
  description:
    "One row for each pair, as NDJSON or, for application/geo+json-seq, as a sequence of Features (RFC 8142). Rows come one by one in the order of the sites, of each site all rigs; each says its number and how many there are. They are computed as they are read and no further when the caller goes away. A rig or a site that cannot be used is an error in its rows; the others have their answers. With `when` the wind of each site is judged too.",
  requestBody: {
    description: "Rigs, and sites or campgrounds.",
    content: {
      [JSON_TYPE]: {
        schema: schemaRef("BatchRequest"),
        examples: {
          sites: { summary: "Stored sites", value: example },
          campground: {
            summary: "Every site of a campground",
            value: { rigs: [EXAMPLE_FIT_REQUEST.rig], campgrounds: ["alder-flat"] },
          },
        },
      },
    },
  },
  answer: {
    description: "The rows.",
    content: {
      [NDJSON_TYPE]: { schema: schemaRef("BatchRow") },
      [SEQUENCE_TYPE]: { schema: schemaRef("BatchFeature") },
    },
  },
  conditional: false,
  problems: [...BODY_PROBLEMS, "invalid-parameter", "invalid-request", "too-many-sites"],
  handle: answerBatch,
};

async function answerBatch(call: Call): Promise<Response> {
  const { request, url, limits } = call;
  const rule: BodyRule = { mediaTypes: [JSON_TYPE], maxBytes: limits.batchBodyBytes };
  const body: unknown = await jsonBody(request, rule, limits.jsonDepth);
  const type = negotiate(request.headers.get("accept"), [NDJSON_TYPE, SEQUENCE_TYPE]);
  refuseParameters(url, []);
  const asked = check(batchRequestSchema, body);
  if (!asked.ok) throw refusal(asked.errors);
  const batch = await planBatch(call, asked.value);
  const units = Math.ceil((batch.rigs.length * batch.sites.length) / FITS_PER_UNIT);
  if (units > 1) await call.charge(units - 1);
  return new Response(rowStream(batchRows(call, batch), type), {
    headers: { "Content-Type": type, "Cache-Control": "no-store", Vary: "Accept" },
  });
}
