/** Answers about the interface and errors. */
import * as z from "zod";
import { PROBLEMS, type ProblemCode } from "../problem.ts";

const [firstCode, ...otherCodes] = Object.keys(PROBLEMS) as [ProblemCode, ...ProblemCode[]];

export const healthSchema = z.object({
  status: z.literal("ok"),
  version: z.string(),
  recordsVersion: z.string().meta({ description: "Changes whenever a stored record changes." }),
});

export const readinessSchema = z.object({
  status: z.literal("ready"),
  checks: z
    .array(
      z.object({
        name: z.enum(["ledger", "catalogue", "forecasts", "service"]),
        state: z.enum(["ready", "failing", "not set up"]),
      }),
    )
    .readonly(),
});

export const limitListSchema = z.object({
  limits: z.array(z.object({ name: z.string(), value: z.number(), unit: z.string(), meaning: z.string() })),
  exactSolver: z.enum(["none", "highs"]).meta({
    description: "Solver that proves assignments optimal. None: a plan carries the distance to the pure bound.",
  }),
  rateLimit: z
    .object({ units: z.number().int(), seconds: z.number().int() })
    .nullable()
    .meta({ description: "What one caller may ask in a window of time; null: no limit is set." }),
  forecastFeeds: z.array(z.string()).readonly().meta({
    description: "Forecasts that a stay may be judged by, in the order in which they are asked; empty: none is set up.",
  }),
});

export const schemaListSchema = z.object({
  schemas: z.array(z.object({ name: z.string(), href: z.string(), description: z.string() })),
});

const word = z.object({ id: z.string(), meaning: z.string() });

export const vocabularySchema = z.object({
  plugs: z
    .array(
      z.object({
        id: z.string(),
        name: z.string(),
        system: z.string(),
        volts: z.number().nullable(),
        amps: z.number().nullable(),
      }),
    )
    .meta({ description: "Plugs, and the receptacles that bear the same name." }),
  adapters: z.array(
    z.object({
      id: z.string(),
      description: z.string(),
      plug: z.string().nullable(),
      receptacle: z.string().nullable(),
      rating: z.number().nullable(),
      source: z.string(),
    }),
  ),
  kitItems: z.array(word),
  rigClasses: z.array(word),
  services: z.array(word),
  needs: z.array(word),
  layouts: z.array(word),
  siteVerdicts: z.array(word).meta({ description: "In order of precedence: the first that applies is given." }),
  lineVerdicts: z.array(word),
  checkStatuses: z.array(word),
  checkFamilies: z.array(word),
  checks: z.array(word).meta({ description: "In the order in which every answer lists them." }),
  manoeuvres: z.array(word),
  exposures: z.array(word).meta({ description: "How a site lies to the wind, without any forecast." }),
  awningLevels: z.array(word).meta({ description: "A wind against the awning's class." }),
  hourSignals: z.array(word).meta({ description: "What an hour of a stay calls for." }),
  windFlags: z.array(word).meta({ description: "What an answer about the wind rests on or leaves out." }),
  works: z.array(word).meta({ description: "Whether a stop or a trip works." }),
  kitPlaces: z.array(word).meta({ description: "Where a thing of a trip's kit comes from." }),
  bases: z.array(word),
  warningCodes: z.array(word),
  problemCodes: z.array(z.object({ id: z.string(), status: z.number(), meaning: z.string() })),
});

export type Vocabulary = z.infer<typeof vocabularySchema>;

const problemErrorSchema = z
  .object({
    pointer: z.string().optional().meta({ description: "JSON Pointer in the body; the empty text is the whole body." }),
    parameter: z.string().optional().meta({ description: "Query or path parameter." }),
    header: z.string().optional().meta({ description: "Request header." }),
    code: z.string(),
    message: z.string(),
    expected: z.string().optional(),
    got: z.string().optional().meta({ description: "What was found, when it is short." }),
    line: z.number().int().optional(),
    column: z.number().int().optional(),
  })
  .meta({ id: "ProblemError", description: "One fault of a request." });

export const problemSchema = z
  .object({
    type: z.string().meta({ description: "Address of the paragraph on the reference page." }),
    title: z.string(),
    status: z.number().int(),
    detail: z.string(),
    instance: z.string().meta({ description: "urn:uuid: and the request id." }),
    code: z.enum([firstCode, ...otherCodes]),
    errors: z.array(problemErrorSchema),
    errorCount: z.number().int().meta({ description: "All faults found, also those beyond the ones listed." }),
  })
  .meta({ id: "Problem", description: "Problem details, RFC 9457." });
