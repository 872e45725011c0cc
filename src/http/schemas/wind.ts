/** The wind at one site alone: request and answer. */
import * as z from "zod";
import { whenSchema } from "../../fit/wind/when.ts";
import { direction } from "../../geo/compass.ts";
import { length } from "../../units/schema.ts";
import { fitAnswerSchema } from "./answer.ts";
import { siteMembers } from "./fit-request.ts";
import {
  awningHourSchema,
  awningWindSchema,
  exposureRoseSchema,
  exposureSchema,
  windAnswerSchema,
} from "./wind-parts.ts";

const HIGHEST_CLASS = 6;
const LOWEST_AWNING = 0.5;
const HIGHEST_AWNING = 6;

export const awningGivenSchema = z
  .strictObject({
    padSide: z.enum(["left", "right", "rear", "exit"]).optional().meta({
      description: "Side of the pad that it opens to, seen from the pad's rear edge; needs the pad's heading.",
    }),
    azimuth: direction("True direction out over the open awning; instead of padSide.").optional(),
    class: z.number().int().min(0).max(HIGHEST_CLASS).optional().meta({
      description: "EN 13561 wind class. Default: unknown, judged as class 1.",
    }),
    height: length({ min: LOWEST_AWNING, max: HIGHEST_AWNING })
      .optional()
      .meta({ description: "Middle of the open fabric above the ground. Default 2.5 m; assumed." }),
  })
  .superRefine(({ padSide, azimuth }, context) => {
    if (padSide === undefined || azimuth === undefined) return;
    const params = { fault: "conflict", expected: "padSide or azimuth" };
    context.addIssue({ code: "custom", message: "The awning's side is given twice.", path: ["azimuth"], params });
  })
  .meta({ id: "AwningGiven", description: "The awning; what is left out is taken at its worst." });

export const windRequestSchema = z
  .strictObject({
    ...siteMembers,
    awning: awningGivenSchema.optional(),
    when: whenSchema.optional(),
    options: z
      .strictObject({ units: z.enum(["us", "metric"]).optional() })
      .optional()
      .meta({ description: "Units of the sentences. Default metric." }),
  })
  .meta({ id: "WindRequest", description: "One site, and what is known of the awning." });

const fit = fitAnswerSchema.shape;

export const windReportSchema = z
  .object({
    site: fit.site,
    headline: z.string(),
    exposure: exposureSchema.nullable(),
    exposureRose: exposureRoseSchema.nullable(),
    awning: z.object({
      azimuth: z.number().nullable().meta({ description: "True bearing out over the open awning, degrees" }),
      windClass: z.number().int().nullable(),
      wind: awningWindSchema.nullable(),
      hours: z.array(awningHourSchema).readonly().nullable(),
    }),
    wind: windAnswerSchema.nullable(),
    notModelled: z.array(z.string()).readonly(),
    caution: z.string(),
    warnings: fit.warnings,
    units: fit.units,
    engineVersion: z.string(),
    dataVersion: z.string().nullable(),
  })
  .meta({ id: "WindReport", description: "The wind at one site. Numbers are SI, angles are degrees." });
