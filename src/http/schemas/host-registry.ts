/** The schemas of the routes for hosts, as components of the description. */

import * as z from "zod";
import { optionsRequestSchema, proposeRequestSchema } from "./assignment.ts";
import { assignmentAnswerSchema, optionsAnswerSchema } from "./assignment-answer.ts";
import * as requests from "./host.ts";
import * as answers from "./host-answer.ts";

const proposalSchema = assignmentAnswerSchema.extend({
  planVersion: z.number().int().meta({ description: "Number of the plan that it was made from." }),
});

interface Named {
  readonly name: string;
  readonly schema: z.ZodType;
  readonly io: "input" | "output";
  readonly description: string;
}

const request = (name: string, schema: z.ZodType, description: string): Named => ({
  name,
  schema,
  io: "input",
  description,
});
const answer = (name: string, schema: z.ZodType, description: string): Named => ({
  name,
  schema,
  io: "output",
  description,
});

export const HOST_SCHEMAS: readonly Named[] = [
  request("StayRequest", requests.stayRequestSchema, "A stay as a host enters it."),
  request("HoldRequest", requests.holdRequestSchema, "A site that is kept free."),
  request("ClosureRequest", requests.closureRequestSchema, "What nobody may have from a night on."),
  request("MovesRequest", requests.movesRequestSchema, "Moves that are all made or none."),
  request("ReleaseRequest", requests.releaseRequestSchema, "Stays that give their sites back."),
  request("LockRequest", requests.lockRequestSchema, "Stays whose sites are locked or unlocked."),
  request("AcceptRequest", requests.acceptRequestSchema, "A plan that the host accepts."),
  request("ProposeRequest", proposeRequestSchema, "How to search for a plan."),
  request("OptionsRequest", optionsRequestSchema, "What is to be changed, by moving as few as may be."),
  answer("OptionsAnswer", optionsAnswerSchema, "Small changes of the plan that would do."),
  answer("Proposal", proposalSchema, "A plan, its bound, the reasons, and the plan that it was made from."),
  answer("Stay", answers.staySchema, "A stay: what was entered, and where it stands."),
  answer("StayList", answers.stayListSchema, "A page of stays."),
  answer("TableReport", answers.tableReportSchema, "What became of every row of a table."),
  answer("RecordWritten", answers.recordWrittenSchema, "What a change of a record does."),
  answer("VersionList", answers.versionListSchema, "A page of versions."),
  answer("OutletList", answers.outletListSchema, "Receptacles and tap outlets."),
  answer("Plan", answers.planSchema, "Which stay stands where."),
  answer("Placed", answers.placedSchema, "Where stays stand now, and how their rigs fit."),
  answer("Hold", answers.holdSchema, "A site that is kept free."),
  answer("HoldList", answers.holdListSchema, "Sites that are kept free."),
  answer("Closure", answers.closureSchema, "What nobody may have, and whom that meets."),
  answer("ClosureList", answers.closureListSchema, "What is closed."),
  answer("Removed", answers.removedSchema, "The id of what is gone."),
  answer("ChangeList", answers.changeListSchema, "What has changed."),
  answer("AuditList", answers.auditListSchema, "Who changed what."),
];
