/** The hookup card as it leaves the house, and the request for one. */
import * as z from "zod";
import { type Card, WORD_KEYS, type WordKey } from "../../trip/card/card.ts";
import { LANGUAGES } from "../../trip/card/languages.ts";
import { siteVerdictSchema } from "./answer.ts";
import { fitRequestSchema } from "./fit-request.ts";

const list = <T extends z.ZodType>(schema: T) => z.array(schema).readonly();
const service = z.enum(["power", "water", "fill", "sewer", "cable"]);
const said = list(z.string()).meta({ description: "Ids of cautions of the fit that this says in its own words." });
const source = z.string().meta({ description: "Where it comes from; `common practice, no source` where nowhere." });

const note = z
  .object({ id: z.string(), text: z.string(), cautions: said, source })
  .meta({ id: "CardNote", description: "One sentence of the card." });

const reading = z
  .object({
    id: z.string(),
    text: z.string(),
    low: z.number().nullable().meta({ description: "Lower limit, SI; of a line the length that is needed." }),
    high: z.number().nullable().meta({ description: "Upper limit, SI; of a line the length that is there." }),
    unit: z.enum(["V", "Pa", "m", "ratio"]),
    source,
  })
  .meta({ id: "CardReading", description: "What an instrument, a tape or a level should show." });

const step = z
  .object({
    id: z.string(),
    service: service.nullable().meta({ description: "The service that it joins or takes off." }),
    text: z.string(),
    why: z.string(),
    ifNot: z.string().nullable().meta({ description: "What stops the order here, and what to do then." }),
    bars: z.string().nullable().meta({ description: "Id of the step that is refused until this one is done." }),
    expected: list(reading),
    cautions: said,
    source,
  })
  .meta({ id: "CardStep", description: "One step; the order of steps is the order of the list." });

const kit = z.object({
  items: list(z.string()).meta({ description: "Words of `kitItems`; one of several is enough." }),
  text: z.string(),
  where: z.enum(["aboard", "to bring"]),
  whereText: z.string(),
});

const run = z.object({
  supply: z.string(),
  hours: list(z.string()),
  briefly: list(z.string()),
  never: list(z.string()),
});

export const cardSchema: z.ZodType<Card> = z
  .object({
    language: z.enum(LANGUAGES),
    units: z.enum(["us", "metric"]),
    translation: z.string().nullable().meta({ description: "Says that nobody has reviewed the translation." }),
    rig: z.string(),
    site: z.string(),
    campground: z.string().nullable(),
    verdict: siteVerdictSchema,
    verdictText: z.string(),
    banner: z.object({ text: z.string(), reasons: list(note) }).nullable(),
    approves: z.boolean().meta({ description: "False: the card has no place to stop, no kit and no steps." }),
    stop: list(note),
    arrival: list(step),
    departure: list(step),
    leaveFast: list(step).meta({ description: "For storm and flood." }),
    checks: list(reading),
    notConnected: list(z.object({ service, name: z.string(), text: z.string() })),
    kit: list(kit),
    run: run.nullable(),
    rules: list(note),
    cautions: list(note),
    trip: list(note),
    instead: list(note),
    unchecked: list(note),
    planLabels: z
      .record(z.string(), list(z.string()))
      .meta({ description: "Rows of the plan's labels by the label's key, or by the part of it before the colon." }),
    words: z
      .object(Object.fromEntries(WORD_KEYS.map((key) => [key, z.string()])) as Record<WordKey, z.ZodString>)
      .meta({ description: "Titles of the parts, by part." }),
  })
  .meta({ id: "HookupCard", description: "What to do on arrival and departure, in the language asked for." });

export const cardRequestSchema = fitRequestSchema
  .extend({
    language: z
      .enum(LANGUAGES)
      .optional()
      .meta({ description: "Language of the card. Default en. Names and labels stay as the records have them." }),
  })
  .meta({ id: "CardRequest", description: "One rig, one site and a language." });
