/**
 * What a trip and a desk are asked, on the wire. The zod schemas are the source of the envelope; rigs and sites are
 * records of their own and are read by their own rooms. Rules between the fields stand in rules.ts.
 */
import * as z from "zod";
import { fitOptionsSchema } from "../fit/options.ts";
import { WATER_USES } from "../fit/stay/use.ts";
import { rigObject } from "../rig/schema.ts";
import { power, volume } from "../units/schema.ts";
import { LANGUAGES } from "./card/languages.ts";

/** Entries that the lists of a request may hold; quoted by the published limits. */
export const TRIP_LISTS = { stops: 14, among: 300, taken: 2000, lends: 40, stock: 300, units: 20, trips: 20 } as const;
/** Nights of one trip. */
export const MOST_NIGHTS = 92;

const LONGEST_ID = 200;
const MOST_PEOPLE = 60;
const MOST_ITEMS = 1000;
const COLDEST = -60;
const HOTTEST = 60;
const MOST_LITRES = 10_000;
const MOST_WATTS = 100_000;
const HOURS_OF_DAY = 24;
const MOST_BURNERS = 20;

const id = z.string().min(1).max(LONGEST_ID);
const date = z
  .string()
  .max(LONGEST_ID)
  .meta({ description: "Local date at the stop, YYYY-MM-DD.", examples: ["2025-07-04"] });

/** A thing of the kit in the wire form of a rig's `kit[]`. */
const kitThing = rigObject.shape.kit.unwrap().element;
const stockThing = kitThing.omit({ where: true }).extend({
  count: z.number().int().min(0).max(MOST_ITEMS).optional().meta({ description: "How many the depot has. Default 1." }),
});

export const stopSchema = z
  .strictObject({
    name: id.optional().meta({ description: "What the answer calls the stop." }),
    arrive: date,
    leave: date,
    site: z.unknown().optional(),
    campground: z.unknown().optional(),
    around: z.array(z.unknown()).max(TRIP_LISTS.among).optional(),
    offGrid: z.literal(true).optional().meta({ description: "A stay without a site and without hookups." }),
    among: z.array(id).min(1).max(TRIP_LISTS.among).optional().meta({
      description:
        "Ids of the sites that are on offer: the best is looked for among them. Default: the whole campground.",
    }),
    taken: z.array(id).max(TRIP_LISTS.taken).optional().meta({
      description: "Ids of sites that are not free on these dates.",
    }),
    lends: z
      .array(kitThing.omit({ where: true }))
      .max(TRIP_LISTS.lends)
      .optional()
      .meta({
        description: "What the campground lends for the stay.",
      }),
    needs: fitOptionsSchema.shape.needs,
    temperature: z
      .strictObject({ low: z.number().min(COLDEST).max(HOTTEST), high: z.number().min(COLDEST).max(HOTTEST) })
      .optional()
      .meta({ description: "Lowest and highest air temperature of the stay by the forecast, degrees Celsius." }),
  })
  .meta({ id: "TripStop", description: "A stay: at a site, at the best free site of a campground, or off the grid." });

const people = z.number().int().min(0).max(MOST_PEOPLE);
export const partySchema = z
  .strictObject({ adults: people, children: people.optional() })
  .meta({ id: "Party", description: "Who travels." });

const rate = (most: number) =>
  z.strictObject({
    low: z.number().min(0).max(most),
    expected: z.number().min(0).max(most),
    high: z.number().min(0).max(most),
  });

const useSchema = z
  .strictObject({
    water: z
      .union([z.enum(WATER_USES as [string, ...string[]]), rate(MOST_LITRES)])
      .optional()
      .meta({
        description: "A row of the table of water use, or litres per person and day.",
      }),
    toilet: rate(MOST_LITRES).optional().meta({ description: "Litres per person and day down the toilet." }),
    offBoard: z
      .number()
      .min(0)
      .max(1)
      .optional()
      .meta({ description: "Share of the other water that ends in no tank." }),
    propane: rate(MOST_LITRES).optional().meta({ description: "Litres of liquid propane a day, whole rig." }),
    burners: z
      .array(z.strictObject({ name: id, watts: power({ positive: true, max: MOST_WATTS }), hours: rate(HOURS_OF_DAY) }))
      .max(MOST_BURNERS)
      .optional(),
    battery: rate(MOST_WATTS).optional().meta({ description: "Watt-hours a day from the battery without power." }),
    generatorHours: rate(HOURS_OF_DAY).optional(),
    generatorFuel: rate(MOST_LITRES).optional().meta({ description: "Litres of fuel an hour." }),
  })
  .meta({ id: "TripUse", description: "What people and rig use; what is left out comes from the table." });

const storesSchema = z
  .strictObject({
    battery: z.number().min(0).max(MOST_WATTS).optional().meta({ description: "Watt-hours of the full battery." }),
    charger: power({ min: 0, max: MOST_WATTS }).optional(),
    generatorFuel: volume({ min: 0, max: MOST_LITRES })
      .optional()
      .meta({ description: "Fuel that the generator draws." }),
  })
  .meta({ id: "TripStores", description: "Stores that the rig's record does not know." });

const level = volume({ min: 0, max: MOST_LITRES });
const startSchema = z
  .strictObject({ fresh: level.optional(), grey: level.optional(), black: level.optional(), propane: level.optional() })
  .meta({ id: "TripStart", description: "What stands in the tanks at departure. Default: full, waste tanks empty." });

const tripMembers = {
  id: id.optional(),
  name: id.optional(),
  from: date.optional().meta({ description: "First day of the hire; nights before the first stop are then told." }),
  to: date.optional().meta({ description: "Last day of the hire." }),
  stops: z.array(stopSchema).min(1).max(TRIP_LISTS.stops),
  party: partySchema,
  use: useSchema.optional(),
  stores: storesSchema.optional(),
  start: startSchema.optional(),
};

const stockSchema = z.array(stockThing).max(TRIP_LISTS.stock).optional().meta({
  description: "What the depot has on the shelf, to be packed.",
});

export const fleetUnitSchema = z
  .strictObject({ id, name: id.optional(), rig: z.unknown() })
  .meta({ id: "FleetUnit", description: "A rig of the fleet." });
const fleetSchema = z.array(fleetUnitSchema).min(1).max(TRIP_LISTS.units);

export const tripSchema = z
  .strictObject({
    rig: z.unknown().optional(),
    fleet: fleetSchema.optional().meta({ description: "In place of `rig`, with `unit`." }),
    unit: id.optional().meta({ description: "Id of the unit of `fleet` that goes on the trip." }),
    ...tripMembers,
    stock: stockSchema,
    options: fitOptionsSchema.optional(),
    language: z.enum(LANGUAGES).optional().meta({ description: "Language of the cards. Default en." }),
  })
  .meta({ id: "TripRequest", description: "One rig, its stops in order, and who travels." });

const bookingSchema = z
  .strictObject({
    ...tripMembers,
    id,
    unit: id.optional().meta({ description: "Unit that the booking has already." }),
  })
  .meta({ id: "Booking", description: "A trip that wants a unit of the fleet." });

export const deskSchema = z
  .strictObject({
    fleet: fleetSchema,
    trips: z.array(bookingSchema).min(1).max(TRIP_LISTS.trips),
    stock: stockSchema,
    turnaroundDays: z.number().int().min(0).max(MOST_NIGHTS).optional().meta({
      description: "Days from the return until unit and kit can go out again. Default 1: not on the day of the return.",
    }),
    options: fitOptionsSchema.optional(),
  })
  .meta({ id: "DeskRequest", description: "A fleet, bookings and the depot's stock." });

export type TripRequest = z.output<typeof tripSchema>;
export type DeskRequest = z.output<typeof deskSchema>;
export type TripMembers = Pick<
  TripRequest,
  "id" | "name" | "from" | "to" | "stops" | "party" | "use" | "stores" | "start"
>;
export type StopRequest = z.output<typeof stopSchema>;
export type StockThing = z.output<typeof stockThing>;
export type LentThing = NonNullable<StopRequest["lends"]>[number];
export type Party = z.output<typeof partySchema>;
