/** The desk: the request with its records described, and the answer. */
import * as z from "zod";
import { deskSchema, partySchema } from "../../trip/request.ts";
import { siteVerdictSchema } from "./answer.ts";
import { baseEntrySchema, blockingSchema, boxListSchema, kitWhereSchema, pickPath, worksSchema } from "./trip-parts.ts";
import { describedFleet, describedStop } from "./trips.ts";

const list = <T extends z.ZodType>(schema: T) => z.array(schema).readonly();

/** For the description only: requests are read by `parseDesk`. */
export const deskRequestSchema = deskSchema
  .extend({
    fleet: describedFleet.min(1),
    trips: z.array(deskSchema.shape.trips.element.extend({ stops: z.array(describedStop).min(1) })).min(1),
  })
  .meta({ id: "DeskRequest", description: "A fleet, bookings and the depot's stock." });

const cell = z
  .object({
    unit: z.string(),
    name: z.string(),
    rank: z.number().int(),
    works: worksSchema,
    stops: list(
      z.object({
        stop: z.number().int(),
        site: z.string().nullable(),
        verdict: siteVerdictSchema.nullable(),
        bestMargin: z.number().nullable().meta({ description: "Metres." }),
      }),
    ),
    kit: list(z.object({ item: z.string(), description: z.string(), where: kitWhereSchema, path: z.string() })).meta({
      description: "Beyond what is aboard and beyond the base kit.",
    }),
    base: list(baseEntrySchema),
    counts: z.object({ toBuy: z.number().int(), toPack: z.number().int(), lent: z.number().int() }),
    proven: z.boolean(),
    blocking: list(blockingSchema),
    why: z.string(),
  })
  .meta({ id: "DeskCell", description: "One unit on one trip." });

const trip = z
  .object({
    id: z.string(),
    name: z.string(),
    party: partySchema,
    from: z.string(),
    to: z.string(),
    units: list(cell).meta({ description: "Every unit of the fleet, the best first." }),
    unit: z.string().nullable().meta({ description: "The unit that the booking has or that is proposed." }),
    given: z.boolean(),
    why: z.string(),
    clashes: list(z.string()).meta({ description: "Trips that have the same unit at the same time." }),
    pick: list(
      z.object({
        id: z.string(),
        item: z.string(),
        description: z.string(),
        where: kitWhereSchema,
        path: pickPath,
        box: z.string(),
      }),
    ).meta({ description: "What goes along in that unit." }),
    boxes: boxListSchema,
  })
  .meta({ id: "DeskTrip", description: "One booking." });

const stock = z
  .object({
    stock: z.number().int().meta({ description: "Index in the request's stock." }),
    item: z.string(),
    description: z.string(),
    count: z.number().int(),
    periods: list(
      z.object({
        from: z.string(),
        to: z.string().meta({ description: "Local date, included." }),
        out: z.number().int(),
        left: z.number().int(),
        short: z.number().int(),
        trips: list(z.string()),
      }),
    ),
    shortFrom: z.string().nullable(),
  })
  .meta({ id: "DeskStock", description: "One thing of the stock over time." });

export const deskAnswerSchema = z.object({
  trips: list(trip).meta({ description: "In the order of departure." }),
  stock: list(stock),
  proven: z.boolean().meta({
    description: "True when no allotment serves more trips, or as many with better units.",
  }),
  fits: z.number().int(),
});

export type DeskAnswer = z.infer<typeof deskAnswerSchema>;
