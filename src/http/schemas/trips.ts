/** Trips: the request with its records described, and the answer. */
import * as z from "zod";
import { fleetUnitSchema, partySchema, stopSchema, tripSchema } from "../../trip/request.ts";
import { external } from "../openapi/components.ts";
import { siteVerdictSchema } from "./answer.ts";
import { cardSchema } from "./trip-card.ts";
import { baseEntrySchema, blockingSchema, boxListSchema, kitWhereSchema, worksSchema } from "./trip-parts.ts";
import { runningSchema } from "./trip-running.ts";
import { suppliesSchema } from "./trip-supplies.ts";

const list = <T extends z.ZodType>(schema: T) => z.array(schema).readonly();

export const describedStop = stopSchema.extend({
  site: external("SiteOrReference", "A site as a GeoJSON Feature, or the ids of a stored one.").optional(),
  campground: z
    .union([z.string(), external("CampgroundMember", "Beside a site that is sent along.")])
    .optional()
    .meta({ description: "Id of a stored campground: the best free site is looked for." }),
  around: z.array(external("AroundFeature", "Beside a site that is sent along.")).optional(),
});
export const describedFleet = z.array(fleetUnitSchema.extend({ rig: external("Rig", "The rig.") }));

/** For the description only: requests are read by `parseTrip`. */
export const tripRequestSchema = tripSchema
  .extend({
    rig: external("Rig", "The rig; or `fleet` and `unit`.").optional(),
    fleet: describedFleet.optional(),
    stops: z.array(describedStop).min(1),
  })
  .meta({ id: "TripRequest", description: "One rig, its stops in order, and who travels." });

const neededFor = z.object({
  stop: z.number().int().meta({ description: "Index of the stop." }),
  site: z.string(),
  chosen: z.boolean().meta({ description: "False for a next-best site." }),
  verdictWithout: siteVerdictSchema,
  headlineWithout: z.string(),
});

const item = z
  .object({
    id: z.string(),
    item: z.string(),
    description: z.string(),
    plug: z.string().nullable(),
    receptacle: z.string().nullable(),
    rating: z.number().nullable().meta({ description: "Amperes." }),
    length: z.number().nullable().meta({ description: "Metres." }),
    where: kitWhereSchema,
    lentAt: z.number().int().nullable().meta({ description: "Index of the stop whose campground lends it." }),
    path: z.string(),
    box: z.string(),
    neededFor: list(neededFor).meta({ description: "Sites that fail without this one thing, fitted without it." }),
    withoutIt: z.string(),
  })
  .meta({ id: "KitChoice", description: "A thing that the stops rest on." });

const kit = z
  .object({
    base: list(baseEntrySchema),
    items: list(item).meta({ description: "Aboard and needed, then to pack, lent and to buy." }),
    alternatives: list(
      z.object({
        insteadOf: list(z.string()).meta({ description: "Ids of items that it replaces." }),
        item: z.string(),
        description: z.string(),
        where: kitWhereSchema,
        why: z.string(),
      }),
    ),
    boxes: boxListSchema,
    proven: z.boolean().meta({
      description:
        "True when no set serves the same sites with fewer to buy, then fewer to carry, fewer to borrow, less length.",
    }),
  })
  .meta({ id: "TripKit", description: "What goes along." });

const nextSite = z.object({
  id: z.string(),
  name: z.string(),
  verdict: siteVerdictSchema.meta({ description: "With the trip's kit." }),
  headline: z.string(),
  bestMargin: z.number().nullable(),
  served: z.boolean(),
});

const stopAnswer = z
  .object({
    index: z.number().int(),
    kind: z.enum(["site", "campground", "off-grid"]),
    name: z.string(),
    arrive: z.string(),
    leave: z.string(),
    nights: z.number().int(),
    works: worksSchema,
    fit: external("Fit", "At the chosen site with the trip's kit aboard.").nullable(),
    served: z.boolean().meta({
      description: "False when the kit, fitted again as a whole, did not bring the site up to what its parts promised.",
    }),
    blocking: blockingSchema.nullable(),
    next: list(nextSite).meta({ description: "The next-best sites, served by the same kit." }),
    card: cardSchema.nullable(),
    running: runningSchema,
  })
  .meta({ id: "TripStopAnswer", description: "One stop." });

export const tripAnswerSchema = z.object({
  rig: z.object({ id: z.string().nullable(), name: z.string().nullable() }),
  party: partySchema,
  from: z.string(),
  to: z.string(),
  nights: z.number().int(),
  works: worksSchema,
  headline: z.string(),
  stops: list(stopAnswer),
  kit,
  supplies: suppliesSchema,
  fits: z.number().int().meta({ description: "Fits that were solved for this answer." }),
});

export type TripAnswer = z.infer<typeof tripAnswerSchema>;
