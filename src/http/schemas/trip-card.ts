/** The card of a stop, as it leaves the house. */
import * as z from "zod";
import type { Card } from "../../trip/card/card.ts";
import { LANGUAGES } from "../../trip/card/languages.ts";
import { siteVerdictSchema } from "./answer.ts";

const list = <T extends z.ZodType>(schema: T) => z.array(schema).readonly();
const service = z.enum(["power", "water", "fill", "sewer", "cable"]);
const note = z
  .object({ id: z.string(), text: z.string(), cautions: list(z.string()), source: z.string() })
  .meta({ id: "CardNote" });
const reading = z
  .object({
    id: z.string(),
    text: z.string(),
    low: z.number().nullable(),
    high: z.number().nullable(),
    unit: z.enum(["V", "Pa", "m", "ratio", "days"]),
    source: z.string(),
  })
  .meta({ id: "CardReading", description: "What an instrument, a tape or a level should show." });
const step = z
  .looseObject({
    id: z.string(),
    service: service.nullable(),
    text: z.string(),
    why: z.string(),
    ifNot: z.string().nullable(),
    bars: z.string().nullable().meta({ description: "Id of the step that is refused until this one is done." }),
    expected: list(reading),
  })
  .meta({ id: "CardStep" });
const label = z.looseObject({ service, name: z.string(), text: z.string() });

const loose = z
  .looseObject({
    language: z.enum(LANGUAGES),
    units: z.enum(["us", "metric"]),
    translation: z.string().nullable(),
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
    notConnected: list(label),
    rules: list(note),
    cautions: list(note),
    trip: list(note),
    instead: list(note),
    unchecked: list(note),
  })
  .meta({ id: "HookupCard", description: "What to do on arrival and departure, in the language asked for." });

/** Loose at run time, so that a card may grow; its type is the card's own. */
export const cardSchema = loose as unknown as z.ZodType<Card>;
