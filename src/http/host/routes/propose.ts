/** POST …/assignment/propose: a plan for the stays of the ledger. It writes nothing: accepting a plan is another act. */
import { type Snapshot, snapshot } from "../../../ledger/snapshot.ts";
import type { Stay } from "../../../ledger/stays.ts";
import { aroundOf } from "../../../records/store.ts";
import { parseRig } from "../../../rig/parse.ts";
import type { ReadStay } from "../../assignment/read.ts";
import { jsonBody } from "../../body.ts";
import { negotiate } from "../../negotiate.ts";
import { refuseParameters } from "../../parameters.ts";
import { Problem } from "../../problem.ts";
import { type Call, type Route, schemaRef } from "../../route.ts";
import { solve } from "../../routes/assignment.ts";
import { type AssignmentRequest, assignmentStaySchema, proposeRequestSchema } from "../../schemas/assignment.ts";
import { check } from "../../validate.ts";
import { absentCampground, admit, requireCampground } from "../admit.ts";
import { BASE, jsonContent } from "../describe.ts";
import { wireOf } from "../stay-input.ts";
import { storedRecord } from "../stored.ts";
import { todayAt } from "../today.ts";
import { hostOf, JSON_TYPE } from "../writing.ts";
import { planTag } from "./assignment.ts";

const EVENT_STREAM = "text/event-stream";
const HELD = "held";

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
  const stored = await storedRecord(host, campground);
  const taken = snapshot(host.ledger, campground, todayAt(host.ledger, stored));
  if (taken === null) throw absentCampground();
  const stays = taken.stays.map(readKept);
  const { firstNight = taken.today, ...asked } = checked.value;
  const request: AssignmentRequest = {
    ...asked,
    campground,
    firstNight,
    stays: stays.map(({ wire }) => wire),
    closures: closuresOf(taken),
  };
  const parts = { campground: stored.campground, features: stored.features, around: aroundOf(stored) };
  const extend = { body: { planVersion: taken.planVersion }, headers: { ETag: planTag(taken.planVersion) } };
  return solve(call, { asked: request, parts, stays }, mediaType, extend);
}

/** A stay of the ledger as one that is sent: without its guests, with its place. */
function readKept(stay: Stay): ReadStay {
  const { party: _party, ...wire } = wireOf(stay);
  const place = stay.place === null ? {} : { site: stay.place.site, locked: stay.place.locked };
  const read = assignmentStaySchema.safeParse({ ...wire, id: stay.id, ...place });
  const rig = parseRig(stay.asks["rig"]);
  // Both were read before the stay was kept: this means a changed reader or a damaged file.
  if (!read.success || !rig.ok) throw new Error(`The stay ${stay.id} cannot be read.`);
  return { wire: read.data, rig: rig.rig };
}

/** What is closed, and what is held for nobody yet: neither can be given to a stay. */
function closuresOf({ closures, holds }: Snapshot): NonNullable<AssignmentRequest["closures"]> {
  return [
    ...closures.map(({ site, outlet, firstNight, until, why }) => ({
      ...(site === null ? {} : { site }),
      ...(outlet === null ? {} : { outlet }),
      firstNight,
      until,
      ...(why === null ? {} : { why }),
    })),
    ...holds.map(({ site, arrival, departure, why }) => ({
      site,
      firstNight: arrival,
      until: departure,
      why: why ?? HELD,
    })),
  ];
}
