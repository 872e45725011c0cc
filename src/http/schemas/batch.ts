/** A batch: rigs by sites, answered one row after another. */
import * as z from "zod";
import { fitOptionsSchema } from "../../fit/options.ts";
import { whenSchema } from "../../fit/wind/when.ts";
import { DEFAULT_LIMITS } from "../limits.ts";
import { external } from "../openapi/components.ts";
import { fitAnswerSchema } from "./answer.ts";
import { siteMembers } from "./fit-request.ts";
import { fitSummarySchema } from "./search-answer.ts";

const LONGEST_ID = 200;

export const batchRequestSchema = z
  .strictObject({
    rigs: z.array(external("Rig", "A rig.")).min(1).max(DEFAULT_LIMITS.rigsPerBatch),
    sites: z
      .array(siteMembers.site)
      .min(1)
      .max(DEFAULT_LIMITS.sitesPerBatch)
      .optional()
      .meta({ description: "Sites as GeoJSON Features or as the ids of stored ones; instead of `campgrounds`." }),
    campgrounds: z
      .array(z.string().min(1).max(LONGEST_ID))
      .min(1)
      .max(DEFAULT_LIMITS.campgroundsPerBatch)
      .optional()
      .meta({ description: "Ids of stored campgrounds, of which every site is meant; instead of `sites`." }),
    campground: siteMembers.campground,
    around: siteMembers.around,
    options: fitOptionsSchema.optional(),
    when: whenSchema.optional(),
    answers: z.enum(["summary", "full"]).optional().meta({
      description:
        "What a row holds of its fit: the summary that a search gives, or the whole. Default summary, and then `options.detail` is summary too unless it is given.",
    }),
  })
  .refine((value) => (value.sites === undefined) !== (value.campgrounds === undefined), {
    message: "either sites or campgrounds",
  })
  .meta({ id: "BatchRequest", description: "Rigs and sites, every rig at every site." });

const rowError = z.object({
  pointer: z.string().meta({ description: "JSON Pointer in the request." }),
  code: z.string(),
  message: z.string(),
});

export const batchRowSchema = z
  .object({
    row: z.number().int().meta({ description: "Number of the row, from 0." }),
    of: z.number().int().meta({ description: "Rows in all: the one with the number of - 1 is the last." }),
    rig: z.number().int().meta({ description: "Index of the rig in the request." }),
    site: z
      .number()
      .int()
      .meta({ description: "Index of the site: in the request, or among those of its campgrounds." }),
    campground: z
      .string()
      .nullable()
      .meta({ description: "Id of the stored campground; null for a site that was sent." }),
    siteId: z.string().nullable(),
    fit: z.union([fitSummarySchema, fitAnswerSchema]).nullable().meta({ description: "Null when there are errors." }),
    errors: z.array(rowError).meta({ description: "Why this row has no fit; the other rows have theirs." }),
  })
  .meta({ id: "BatchRow", description: "One rig at one site. As NDJSON each line of the answer is one." });

export const batchFeatureSchema = z
  .object({
    type: z.literal("Feature"),
    id: z.string(),
    geometry: z.looseObject({ type: z.string() }).nullable(),
    properties: batchRowSchema,
  })
  .meta({ id: "BatchFeature", description: "A row with its site's geometry; a sequence of them is the answer." });

export type BatchRequest = z.infer<typeof batchRequestSchema>;
export type BatchRow = z.infer<typeof batchRowSchema>;
