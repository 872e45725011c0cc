/** An assignment that is asked for with everything in the request: records, stays, closures, feeders, a plan to judge. */
import * as z from "zod";
import { external } from "../openapi/components.ts";
import { date, hostId, stayRequestSchema } from "./host.ts";

const MOST_STAYS = 3000;
const MOST_CLOSURES = 2000;
const MOST_FEEDERS = 100;
const MOST_SITES = 700;
const MOST_OUTLETS = 12;
const LONGEST_MINIMUM = 14;
const LARGEST_SEED = 2_147_483_647;
const LONGEST_TEXT = 2000;
const LONGEST_SEARCH = 120;

const siteId = z.string().min(1).max(200);
const text = z.string().max(LONGEST_TEXT);

export const assignmentStaySchema = z.strictObject({
  ...stayRequestSchema.shape,
  id: hostId,
  site: siteId.optional().meta({ description: "Its site in the accepted plan." }),
  locked: z.boolean().optional().meta({ description: "True when that site is promised. Guests in house stay anyway." }),
});

const closure = z.strictObject({
  site: siteId.optional(),
  outlet: z.string().min(1).max(300).optional().meta({ description: "A receptacle or tap outlet by its id." }),
  firstNight: date,
  until: date.nullable().optional().meta({ description: "First night on which it is open again; null: unknown." }),
  why: text.optional(),
});

const feeder = z.strictObject({
  id: z.string().min(1).max(100),
  name: text.optional(),
  sites: z.array(siteId).min(1).max(MOST_SITES),
  voltAmperes: z.number().positive().max(1e8).optional().meta({ description: "What it may carry, as the host knows." }),
});

export const assignmentOptionsSchema = z.strictObject({
  effort: z.enum(["quick", "usual", "thorough"]).optional().meta({
    description: "How long to search: rounds and evaluations are fixed, so that a seed repeats. Default usual.",
  }),
  seed: z.number().int().min(0).max(LARGEST_SEED).optional().meta({ description: "Default 1." }),
  seconds: z.number().positive().max(LONGEST_SEARCH).optional().meta({
    description: "The search ends by then, with the best plan so far. Default 30.",
  }),
  maxMoves: z.number().int().min(0).max(MOST_STAYS).optional().meta({
    description: "Most stays that may leave the site of the accepted plan. Default: no cap.",
  }),
  minimumStay: z.number().int().min(1).max(LONGEST_MINIMUM).optional().meta({
    description: "Nights; shorter holes between stays cannot be sold. Default 2.",
  }),
  unknown: z.enum(["refuse", "allow"]).optional().meta({
    description: "Whether a stay may get a site whose fit cannot be decided. Default refuse.",
  }),
  editionYear: z.number().int().min(1971).max(2100).optional().meta({ description: "NEC edition for feeders." }),
});

export const assignmentRequestSchema = z
  .strictObject({
    campground: z
      .union([z.string().min(1).max(200), external("Campground", "A campground that is sent along.")])
      .meta({ description: "Id of a stored campground, or the record itself." }),
    firstNight: date.optional().meta({ description: "Nights before it are over. Default: the first arrival." }),
    stays: z
      .array(assignmentStaySchema)
      .min(1)
      .max(MOST_STAYS)
      .meta({ description: "Stays; those that are cancelled or departed are left out." }),
    closures: z.array(closure).max(MOST_CLOSURES).optional(),
    feeders: z.array(feeder).max(MOST_FEEDERS).optional(),
    plan: z
      .array(
        z.strictObject({
          stay: hostId,
          site: siteId.nullable(),
          outlets: z.array(z.string().min(1).max(300)).max(MOST_OUTLETS).optional(),
        }),
      )
      .max(MOST_STAYS)
      .optional()
      .meta({ description: "A plan of the caller's own: the answer tells what it breaks and what it is worth." }),
    options: assignmentOptionsSchema.optional(),
  })
  .meta({ id: "AssignmentRequest", description: "Stays and sites to be brought together." });

export type AssignmentRequest = z.output<typeof assignmentRequestSchema>;
export type AssignmentOptions = z.output<typeof assignmentOptionsSchema>;
export type AssignmentStayWire = z.output<typeof assignmentStaySchema>;

/** What a host says besides what the ledger holds. */
export const proposeRequestSchema = z
  .strictObject({
    firstNight: assignmentRequestSchema.shape.firstNight.meta({
      description: "Nights before it are over. Default: today at the campground.",
    }),
    feeders: assignmentRequestSchema.shape.feeders,
    plan: assignmentRequestSchema.shape.plan,
    options: assignmentRequestSchema.shape.options,
  })
  .meta({ id: "ProposeRequest", description: "How to search for a plan." });

const MOST_MOVED = 3;
const MOST_ASKED = 20;

/** A small change of the plan as it stands. */
export const optionsRequestSchema = z
  .strictObject({
    stays: z.array(hostId).min(1).max(MOST_ASKED).optional().meta({
      description:
        "Stays without a site that are to get one. Default: those whose site or outlet is closed to them now.",
    }),
    mostMoves: z.number().int().min(0).max(MOST_MOVED).optional().meta({
      description: "Most other stays that may be moved. Default 3.",
    }),
  })
  .meta({ id: "OptionsRequest", description: "What is to be changed, by moving as few as may be." });
