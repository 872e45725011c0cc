/** POST /v1/fit: one rig, one site. */
import { drawPlan } from "../../draw/plan.ts";
import { completeOptions } from "../../fit/options.ts";
import { type BodyRule, jsonBody } from "../body.ts";
import { fitCase } from "../fit-case.ts";
import { negotiate } from "../negotiate.ts";
import { EXAMPLE_FIT_REQUEST } from "../openapi/examples.ts";
import { refuseParameters } from "../parameters.ts";
import { Problem, type ProblemError } from "../problem.ts";
import { computed } from "../representation.ts";
import { readRig } from "../rig-input.ts";
import { type Call, type Route, schemaRef } from "../route.ts";
import { fitRequestSchema } from "../schemas/fit-request.ts";
import { readSite } from "../site-input.ts";
import { check } from "../validate.ts";
import { fitToWire } from "../wire.ts";

const JSON_TYPE = "application/json";
const SVG_TYPE = "image/svg+xml";
/** A plan styles its own parts and loads nothing. */
const PLAN_POLICY = "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'";

export const fitRoute: Route = {
  method: "POST",
  path: "/v1/fit",
  operationId: "fit",
  tag: "Fit",
  summary: "Whether one rig fits one site",
  description:
    "The whole answer: verdict, stance and its window, every line with its margin, power, sewer, every check, kit, fixes, cautions, and what is assumed, unknown or not checked. Ask for image/svg+xml to get the plan of the same answer. `does not fit` is an answer, not an error.",
  requestBody: {
    description: "A rig, and a site as a GeoJSON Feature or as the ids of a stored one.",
    content: {
      [JSON_TYPE]: {
        schema: schemaRef("FitRequest"),
        examples: {
          sent: { summary: "A site that is sent along", value: EXAMPLE_FIT_REQUEST },
          stored: {
            summary: "A stored site",
            value: { rig: EXAMPLE_FIT_REQUEST.rig, site: { campground: "alder-flat", site: "A7" } },
          },
        },
      },
    },
  },
  answer: {
    description: "The answer, or its plan.",
    content: { [JSON_TYPE]: { schema: schemaRef("Fit") }, [SVG_TYPE]: { schema: { type: "string" } } },
  },
  conditional: false,
  problems: [
    "empty-body",
    "malformed-json",
    "refused-json",
    "invalid-encoding",
    "invalid-parameter",
    "body-too-large",
    "unsupported-media-type",
    "unsupported-encoding",
    "invalid-request",
  ],
  handle: answerFit,
};

async function answerFit({ request, url, store, limits }: Call): Promise<Response> {
  const rule: BodyRule = { mediaTypes: [JSON_TYPE], maxBytes: limits.fitBodyBytes };
  const body: unknown = await jsonBody(request, rule, limits.jsonDepth);
  const mediaType = negotiate(request.headers.get("accept"), [JSON_TYPE, SVG_TYPE]);
  refuseParameters(url, []);
  const envelope = check(fitRequestSchema, body);
  const errors: ProblemError[] = envelope.ok ? [] : envelope.errors.map(wordLaterMember);
  const rig = readRig(body, errors);
  const isObject = typeof body === "object" && body !== null && !Array.isArray(body);
  const site = isObject ? await readSite(body as Readonly<Record<string, unknown>>, store, errors) : null;
  if (!envelope.ok || rig === null || site === null || errors.length > 0) throw refusal(errors);
  const fit = fitCase(rig, site, completeOptions(envelope.value.options));
  if (mediaType === SVG_TYPE) {
    return computed(drawPlan(fit), SVG_TYPE, { "Content-Security-Policy": PLAN_POLICY });
  }
  return computed(JSON.stringify(fitToWire(fit)), JSON_TYPE);
}

export function refusal(errors: readonly ProblemError[]): Problem {
  const first = errors[0];
  const where = first === undefined ? "" : ` First at ${first.pointer || "the whole body"}: ${first.message}`;
  const count = errors.length === 1 ? "One fault" : `${errors.length} faults`;
  return new Problem("invalid-request", `${count} in the request.${where}`, errors);
}

/** A member that the description of a fit may grow is refused by name, so that nobody believes it was used. */
function wordLaterMember(error: ProblemError): ProblemError {
  if (error.pointer !== "/when" || error.code !== "unknown-key") return error;
  return { ...error, message: "A fit is judged without date or forecast: leave `when` out." };
}
