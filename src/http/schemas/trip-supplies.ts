/** Tanks and energy through the stops of a trip, as they leave the house. */
import * as z from "zod";
import { kitEntrySchema, siteVerdictSchema } from "./answer.ts";

const list = <T extends z.ZodType>(schema: T) => z.array(schema).readonly();
const store = z.enum(["fresh", "grey", "black", "propane", "battery", "generatorFuel"]);
const band = z
  .object({ low: z.number().nullable(), expected: z.number().nullable(), high: z.number().nullable() })
  .meta({
    id: "UseBand",
    description: "The least, the expected and the most over low to high use; null where it cannot be told.",
  });
const rate = z.object({ low: z.number(), expected: z.number(), high: z.number() });
const levels = z.object({
  fresh: band,
  grey: band,
  black: band,
  propane: band,
  battery: band,
  generatorFuel: band,
});
const note = z.object({ id: z.string(), text: z.string(), source: z.string() });
const remaining = z.object({ status: z.enum(["known", "unknown", "endless"]), days: band });
const chance = z
  .object({
    stop: z.string(),
    station: z.string().nullable(),
    name: z.string(),
    day: z.number(),
    sure: z.boolean(),
  })
  .nullable();

const lane = z
  .object({
    verdict: z.union([siteVerdictSchema, z.literal("absent")]),
    usable: z.enum(["yes", "no", "unknown"]),
    inletSide: z.enum(["left", "right"]).nullable().meta({ description: "Side of the lane as it is driven." }),
    needed: z.number().nullable().meta({ description: "Metres of hose." }),
    available: z.number().nullable().meta({ description: "Metres of hose." }),
    margin: z.number().nullable().meta({ description: "Metres." }),
    kit: list(kitEntrySchema),
    checks: list(
      z.object({
        id: z.string(),
        status: z.enum(["pass", "pass with kit", "tight", "fail", "unknown", "not applicable"]),
        value: z.number().nullable(),
        limit: z.number().nullable(),
        margin: z.number().nullable(),
        source: z.string(),
        why: z.string(),
      }),
    ).meta({ description: "What a named local rule says; metres." }),
    apart: z.number().nullable().meta({ description: "Metres between fill tap and dump station." }),
    unknowns: list(z.string()),
  })
  .meta({ description: "The dump station or fill tap, solved for this rig as a lane that is driven through." });

const stop = z.object({
  id: z.string(),
  name: z.string(),
  from: z.number().meta({ description: "Days since the start of the trip." }),
  to: z.number(),
  days: list(z.object({ day: z.number(), levels })),
  after: levels.meta({ description: "When driving off." }),
  remaining: z
    .object({
      fresh: remaining,
      grey: remaining,
      black: remaining,
      propane: remaining,
      battery: remaining,
      generatorFuel: remaining,
    })
    .meta({ description: "Days from arrival until empty or full, were nothing connected." }),
  black: z.object({ emptied: band, why: z.string() }),
  grey: z.object({ valve: z.enum(["may run", "closed"]), why: z.string() }),
  visits: list(
    z.object({
      station: z.string(),
      name: z.string(),
      kind: z.enum(["dump", "fill"]),
      lane,
      needed: z.boolean().nullable(),
      why: z.string(),
      steps: list(z.string()),
    }),
  ),
  nextDump: chance,
  nextFill: chance,
  notes: list(note),
});

const ledger = z.object({
  fromTank: z.number(),
  fromSite: z.number(),
  filled: z.number().nullable(),
  toGrey: z.number(),
  toBlack: z.number(),
  toSewer: z.number(),
  offBoard: z.number(),
  dumpedGrey: z.number(),
  dumpedBlack: z.number(),
  unmet: z.number(),
});

export const suppliesSchema = z
  .object({
    people: z.number().int(),
    use: z.object({ water: rate, toilet: rate, offBoard: z.number() }),
    stops: list(stop),
    events: list(
      z.object({
        store,
        kind: z.enum(["empty", "full", "two-thirds"]),
        stop: z.string(),
        day: band,
        certain: z.boolean(),
        why: z.string(),
      }),
    ),
    lasts: z.object({ day: band, withoutTanks: list(store), why: z.string() }),
    ledger: z.object({ low: ledger, expected: ledger, high: ledger }).meta({ description: "Litres over the trip." }),
    assumed: list(z.object({ path: z.string(), value: z.string(), source: z.string() })),
    unknowns: list(z.object({ path: z.string(), measure: z.string() })),
    cautions: list(note),
  })
  .meta({ id: "TripSupplies", description: "Tanks (litres) and battery (watt-hours) carried through the stops." });
