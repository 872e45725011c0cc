/** The answer of a search: a GeoJSON FeatureCollection with a summary of the fit for each site. */
import * as z from "zod";
import { siteVerdictSchema } from "./answer.ts";
import { exposureSchema } from "./wind-parts.ts";

export const fitSummarySchema = z
  .object({
    verdict: siteVerdictSchema,
    headline: z.string(),
    probability: z.number().min(0).max(1).optional(),
    bestMargin: z.number().nullable().meta({ description: "Metres." }),
    proven: z.boolean(),
    facing: z.enum(["out", "in"]).nullable(),
    lines: z
      .array(z.object({ service: z.string(), need: z.string(), verdict: z.string(), margin: z.number().nullable() }))
      .meta({ description: "One for each service; margins in metres." }),
    mating: z.string(),
    kit: z.array(z.object({ item: z.string(), where: z.enum(["aboard", "to bring"]) })),
    exposure: exposureSchema.nullable(),
    measure: z.array(z.string()).meta({ description: "What to measure where the answer is unknown or tight." }),
  })
  .meta({ id: "FitSummary", description: "A fit in few words; ask /v1/fit for the whole." });

const searchFeature = z
  .object({
    type: z.literal("Feature"),
    id: z.string(),
    geometry: z.looseObject({ type: z.string() }).nullable(),
    properties: z.object({
      campground: z.string(),
      campgroundName: z.string(),
      site: z.string().nullable(),
      name: z.string().nullable(),
      rank: z.number().int().meta({ description: "Place in the whole answer, from 1." }),
      distance: z.number().nullable().meta({ description: "Metres to `near` or to the route." }),
      sheltered: z
        .object({
          from: z.number().nullable().meta({ description: "True bearing in degrees." }),
          level: z.enum(["low", "moderate", "high", "unknown"]),
          ratio: z.number().nullable().meta({ description: "Gust at the awning over the gust in open country." }),
          why: z.string(),
        })
        .nullable()
        .meta({ description: "Exposure to the wind of `filters.shelteredFrom`; null without it." }),
      nominal: z
        .object({
          state: z.enum(["reaches", "short", "cannot", "unknown"]),
          margin: z.number().nullable().meta({ description: "Metres." }),
          bound: z.enum(["exact", "at least", "at most"]),
          facing: z.enum(["out", "in"]).nullable(),
        })
        .nullable()
        .meta({
          description:
            "The quick look by nominal values that made the order; null where every site was fitted. `cannot` holds whatever the true values are.",
        }),
      fit: fitSummarySchema.nullable().meta({ description: "Null when the site's record is broken." }),
      errors: z
        .array(z.object({ pointer: z.string(), code: z.string(), message: z.string() }))
        .meta({ description: "Why a site could not be judged; empty otherwise." }),
    }),
  })
  .meta({ id: "SearchFeature", description: "A site with its fit, or with the faults of its record." });

export const searchAnswerSchema = z.object({
  type: z.literal("FeatureCollection"),
  features: z.array(searchFeature),
  numberMatched: z.number().int(),
  numberReturned: z.number().int(),
  nextCursor: z.string().nullable(),
  incomplete: z.boolean().meta({
    description:
      "True when time ran out: some sites carry the error out-of-time and there is no next page. The same request goes on from there.",
  }),
  ranking: z.enum(["whole", "nominal"]).meta({
    description: "Whether the order comes from the whole fits or from quick looks by nominal values.",
  }),
  links: z.array(z.object({ rel: z.string(), href: z.string(), type: z.string() })),
  notShown: z
    .object({
      filteredOut: z.number().int().meta({ description: "Sites that a filter left out." }),
      filterUnknown: z
        .number()
        .int()
        .meta({ description: "Of those, sites whose record does not say what a filter asks." }),
      withoutPlace: z.number().int().meta({ description: "Sites without any recorded place, in a search by area." }),
      cannotServe: z
        .object({ campgrounds: z.number().int(), sites: z.number().int() })
        .meta({ description: "Campgrounds left unread because the catalogue knows that no site of theirs can serve." }),
    })
    .meta({ description: "Sites of the area that are not in the answer, and why." }),
  warnings: z
    .array(z.object({ code: z.string(), path: z.string(), text: z.string() }))
    .meta({ description: "Remarks on the rig." }),
});

export type FitSummary = z.infer<typeof fitSummarySchema>;
export type SearchFeature = z.infer<typeof searchFeature>;
export type SearchAnswer = z.infer<typeof searchAnswerSchema>;
