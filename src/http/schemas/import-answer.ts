/** The answer of an import: the record, and what became of everything in the data. */
import * as z from "zod";
import { COMPONENT_REFERENCE } from "../openapi/components.ts";

const count = z.number().int();

export const importAnswerSchema = z.object({
  collection: z.looseObject({ type: z.literal("FeatureCollection") }).meta({
    description: "The record, as /v1/fit, /v1/search and the store read it.",
    $ref: `${COMPONENT_REFERENCE}Campground`,
  }),
  report: z
    .object({
      format: z.enum(["xml", "overpass", "geojson"]),
      elements: z.object({ nodes: count, ways: count, relations: count }),
      kinds: z.record(z.string(), count).meta({ description: "Features of the record, by kind." }),
      withoutPart: count.meta({ description: "Elements with tags that have no part in a campground's record." }),
      beyondBox: count.meta({ description: "Elements beyond the box that was asked for." }),
      takenForPitches: count.meta({ description: "Campgrounds of the tags that were taken for single pitches." }),
      pedestals: z.object({ assigned: count, unassigned: count }),
      tags: z.array(z.object({ key: z.string(), read: count, kept: count, ignored: count })).readonly(),
      warnings: z
        .array(
          z.object({ code: z.string(), element: z.string().nullable(), key: z.string().nullable(), text: z.string() }),
        )
        .readonly(),
      warningsLeftOut: count.meta({ description: "Warnings beyond the cap." }),
      unknown: z
        .array(z.object({ what: z.string(), sites: count }))
        .readonly()
        .meta({ description: "What is missing, and on how many sites." }),
    })
    .meta({ id: "ImportReport", description: "What was taken, what became of every tag, what stays unknown." }),
});

export type ImportAnswer = z.infer<typeof importAnswerSchema>;
