/** POST …/assignment/propose: a plan for the stays of the ledger. It writes nothing: accepting a plan is another act. */
import { schemaRef } from "../../route.ts";
import { solve } from "../../routes/assignment.ts";
import { proposeRequestSchema } from "../../schemas/assignment.ts";
import { askRoute } from "../asking.ts";
import { ledgerQuestion } from "../ledger-question.ts";
import { JSON_TYPE } from "../writing.ts";
import { planTag } from "./assignment.ts";

const EVENT_STREAM = "text/event-stream";

export const proposeRoute = askRoute(
  {
    path: "/assignment/propose",
    operationId: "proposePlan",
    summary: "A plan for the stays of the campground, with its reasons",
    description:
      "Reads stays, places, locks, holds and closures of one moment and answers like /v1/assignment: how far from the best, for each stay why this site, for each without a site what would help. Nothing is written. To take the plan, send those of `places` that are not `bound` to …/assignment/accept with the ETag of this answer (with a stream: `planVersion`) as If-Match.",
    asks: "How to search; an empty object will do.",
    component: "ProposeRequest",
    schema: proposeRequestSchema,
    most: "importBodyBytes",
    mediaTypes: [JSON_TYPE, EVENT_STREAM],
    answer: {
      description: "The plan, or progress and then the plan.",
      content: { [JSON_TYPE]: { schema: schemaRef("Proposal") }, [EVENT_STREAM]: { schema: { type: "string" } } },
    },
  },
  async ({ call, host, campground, asked: { firstNight, ...more }, mediaType }) => {
    const question = await ledgerQuestion(host, campground);
    const asked = { ...question.asked, ...more, firstNight: firstNight ?? question.asked.firstNight };
    const extend = { body: { planVersion: question.planVersion }, headers: { ETag: planTag(question.planVersion) } };
    return solve(call, { ...question, asked }, mediaType, extend);
  },
);
