/** POST /v1/fit: one rig, one site. */
import { drawPlan } from "../../draw/plan.ts";
import { drawWayIn } from "../../draw/way-in.ts";
import type { Fit } from "../../fit/answer.ts";
import { completeOptions } from "../../fit/options.ts";
import { BODY_PROBLEMS, type BodyRule, jsonBody } from "../body.ts";
import { fitCase } from "../fit-case.ts";
import { negotiate } from "../negotiate.ts";
import { EXAMPLE_FIT_REQUEST } from "../openapi/examples.ts";
import { refuseParameters } from "../parameters.ts";
import { Problem, type ProblemError } from "../problem.ts";
import { computed, DRAWING_POLICY } from "../representation.ts";
import { readRig } from "../rig-input.ts";
import { type Call, type Route, schemaRef } from "../route.ts";
import { fitRequestSchema } from "../schemas/fit-request.ts";
import { readSite } from "../site-input.ts";
import { check } from "../validate.ts";
import { whenOf } from "../weather.ts";
import { fitToWire } from "../wire.ts";

const JSON_TYPE = "application/json";
const SVG_TYPE = "image/svg+xml";
const PICTURES = ["plan", "way-in"] as const;

export const fitRoute: Route = {
  method: "POST",
  path: "/v1/fit",
  operationId: "fit",
  tag: "Fit",
  summary: "Whether one rig fits one site",
  description:
    "The whole answer: verdict, stance and its window, every line with its margin, power, sewer, every check, kit, fixes, cautions, and what is assumed, unknown or not checked. With `when` the wind at the awning, or the hours of the stay in the campground's time zone; without a forecast the hours are unknown and everything else stands. Ask for image/svg+xml to get the plan of the same answer, or its way in and out. `does not fit` is an answer, not an error.",
  parameters: [
    {
      name: "picture",
      in: "query",
      description:
        "Which picture of the answer: the plan of the hookups, or the way in and out. Only with image/svg+xml.",
      schema: { type: "string", enum: [...PICTURES], default: "plan" },
    },
  ],
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
          wind: {
            summary: "With a wind by hand",
            value: { ...EXAMPLE_FIT_REQUEST, when: { wind: "20 mph from SW" } },
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
  problems: [...BODY_PROBLEMS, "invalid-parameter", "invalid-request"],
  handle: answerFit,
};

async function answerFit({ request, url, store, limits, weather }: Call): Promise<Response> {
  const rule: BodyRule = { mediaTypes: [JSON_TYPE], maxBytes: limits.fitBodyBytes };
  const body: unknown = await jsonBody(request, rule, limits.jsonDepth);
  const mediaType = negotiate(request.headers.get("accept"), [JSON_TYPE, SVG_TYPE]);
  refuseParameters(url, ["picture"]);
  const draw = pictureOf(url);
  const envelope = check(fitRequestSchema, body);
  const errors: ProblemError[] = envelope.ok ? [] : [...envelope.errors];
  const rig = readRig(body, errors);
  const isObject = typeof body === "object" && body !== null && !Array.isArray(body);
  const site = isObject ? await readSite(body as Readonly<Record<string, unknown>>, store, errors) : null;
  if (!envelope.ok || rig === null || site === null || errors.length > 0) throw refusal(errors);
  const when = await whenOf(envelope.value.when, site.feature, weather);
  const fit = fitCase(rig, site, completeOptions(envelope.value.options), when);
  if (mediaType === SVG_TYPE) {
    return computed(draw(fit), SVG_TYPE, DRAWING_POLICY);
  }
  return computed(JSON.stringify(fitToWire(fit)), JSON_TYPE);
}

function pictureOf(url: URL): (fit: Fit) => string {
  const asked = url.searchParams.get("picture") ?? "plan";
  if (asked === "plan") return (fit) => drawPlan(fit);
  if (asked === "way-in") return (fit) => drawWayIn(fit);
  const expected = PICTURES.join(", ");
  throw new Problem("invalid-parameter", "The query asks for a picture that there is not.", [
    { parameter: "picture", code: "unknown-word", message: "This picture is not known.", expected },
  ]);
}

export function refusal(errors: readonly ProblemError[]): Problem {
  const first = errors[0];
  const where = first === undefined ? "" : ` First at ${first.pointer || "the whole body"}: ${first.message}`;
  const count = errors.length === 1 ? "One fault" : `${errors.length} faults`;
  return new Problem("invalid-request", `${count} in the request.${where}`, errors);
}
