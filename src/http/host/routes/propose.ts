/** POST …/assignment/propose: a plan for the stays of the ledger. It writes nothing: accepting a plan is another act. */
import { jsonBody } from "../../body.ts";
import { negotiate } from "../../negotiate.ts";
import { refuseParameters } from "../../parameters.ts";
import { Problem } from "../../problem.ts";
import { type Call, type Route, schemaRef } from "../../route.ts";
import { solve } from "../../routes/assignment.ts";
import { proposeRequestSchema } from "../../schemas/assignment.ts";
import { check } from "../../validate.ts";
import { admit, requireCampground } from "../admit.ts";
import { BASE, jsonContent } from "../describe.ts";
import { ledgerQuestion } from "../ledger-question.ts";
import { hostOf, JSON_TYPE } from "../writing.ts";
import { planTag } from "./assignment.ts";

const EVENT_STREAM = "text/event-stream";

export const proposeRoute: Route = {
  method: "POST",
  path: `${BASE}/assignment/propose`,
  operationId: "proposePlan",
  tag: "Hosts",
  scope: "read",
  summary: "A plan for the stays of the campground, with its reasons",
  description:
    "Reads stays, places, locks, holds and closures of one moment and answers like /v1/assignment: how far from the best, for each stay why this site, for each without a site what would help. Nothing is written. To take the plan, send those of `places` that are not `bound` to …/assignment/accept with the ETag of this answer (with a stream: `planVersion`) as If-Match.",
  parameters: [
    {
      name: "id",
      in: "path",
      description: "Id of the campground.",
      schema: { type: "string", minLength: 1, maxLength: 200 },
    },
  ],
  requestBody: { description: "How to search; an empty object will do.", content: jsonContent("ProposeRequest") },
  answer: {
    description: "The plan, or progress and then the plan.",
    content: { [JSON_TYPE]: { schema: schemaRef("Proposal") }, [EVENT_STREAM]: { schema: { type: "string" } } },
  },
  conditional: false,
  problems: [
    "unauthorized",
    "forbidden",
    "not-found",
    "busy",
    "empty-body",
    "malformed-json",
    "refused-json",
    "invalid-encoding",
    "invalid-parameter",
    "body-too-large",
    "unsupported-media-type",
    "unsupported-encoding",
    "invalid-request",
    "too-many-sites",
    "too-many-jobs",
  ],
  handle: answerPropose,
};

async function answerPropose(call: Call): Promise<Response> {
  const host = hostOf(call);
  const campground = call.params["id"] ?? "";
  await admit(call, host, campground, "read");
  requireCampground(host, campground);
  const rule = { mediaTypes: [JSON_TYPE], maxBytes: call.limits.importBodyBytes };
  const body = await jsonBody(call.request, rule, call.limits.jsonDepth);
  const mediaType = negotiate(call.request.headers.get("accept"), [JSON_TYPE, EVENT_STREAM]);
  refuseParameters(call.url, []);
  const checked = check(proposeRequestSchema, body);
  if (!checked.ok) throw new Problem("invalid-request", "The request cannot be used as it stands.", checked.errors);
  const { firstNight, ...more } = checked.value;
  const question = await ledgerQuestion(host, campground);
  const asked = { ...question.asked, ...more, firstNight: firstNight ?? question.asked.firstNight };
  const extend = { body: { planVersion: question.planVersion }, headers: { ETag: planTag(question.planVersion) } };
  return solve(call, { ...question, asked }, mediaType, extend);
}
