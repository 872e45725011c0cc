/** What may run at a stop, as it leaves the house. */
import * as z from "zod";

const list = <T extends z.ZodType>(schema: T) => z.array(schema).readonly();
const note = z.object({ text: z.string(), source: z.string() });
const sets = list(
  z.object({
    appliances: list(z.string()),
    watts: z.number(),
    runs: z.boolean(),
    continuous: z.boolean(),
    why: z.string(),
  }),
);
const load = z.object({ canRun: sets, dependsOnSplit: sets, dead: list(z.string()), notes: list(z.string()) });

const supply = z
  .object({
    from: z.enum(["site", "generator"]),
    title: z.string(),
    watts: z.number().nullable(),
    continuousWatts: z.number().nullable().meta({ description: "For three hours or more." }),
    load: load.nullable(),
    base: list(z.string()).meta({ description: "Runs for hours from the start." }),
    day: list(
      z.object({
        appliance: z.string(),
        watts: z.number(),
        off: list(z.string()).meta({ description: "Switch these off first, in this order." }),
        together: z.number(),
        runs: z.boolean(),
        why: z.string(),
      }),
    ),
    voltage: z
      .object({
        supply: z.object({ low: z.number(), high: z.number() }),
        atRig: z.object({ fromNominal: z.number(), fromLowest: z.number() }).nullable(),
        status: z.enum(["fine", "watch", "low", "stop", "unknown"]),
        why: z.string(),
        source: z.string(),
      })
      .nullable(),
    transfer: z
      .object({
        through: z.enum(["transfer-switch", "cord-in-box"]),
        steps: list(z.string()),
        why: z.string(),
        source: z.string(),
      })
      .nullable(),
    why: z.string(),
    notes: list(note),
  })
  .meta({ id: "RunningSupply", description: "One supply and what runs on it." });

export const runningSchema = z
  .object({
    appliances: list(
      z.object({
        name: z.string(),
        watts: z.number(),
        starts: z.number().nullable(),
        fuel: z.enum(["electric", "gas", "either"]),
        bothLegs: z.boolean(),
        assumed: z.boolean(),
        duty: z.enum(["hours", "minutes"]),
      }),
    ),
    supplies: list(supply),
    generatorHours: z
      .object({
        words: z.string().nullable(),
        allowed: list(z.object({ from: z.number(), to: z.number() })).nullable(),
        why: z.string(),
      })
      .nullable(),
    cautions: list(z.object({ id: z.string(), text: z.string(), source: z.string() })),
    assumed: list(z.object({ path: z.string(), value: z.string(), source: z.string() })),
  })
  .meta({ id: "TripRunning", description: "What may run together at a stop." });
