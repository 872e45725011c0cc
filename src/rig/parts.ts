/** The parts of a rig record on the wire: connections and what sticks out of the walls. */
import * as z from "zod";
import { RADIANS_PER_DEGREE } from "../units/factors.ts";
import { gaugeSchema } from "../units/gauge.ts";
import { angle, length, lengthOrRange } from "../units/schema.ts";
import { lineRating } from "./line-rating.ts";
import { bases, hotOutletKinds, openingWalls, plugIds, services, walls } from "./vocabulary.ts";

/**
 * What no rig can exceed, SI. Values beyond are refused; what is merely unusual is kept and asked about (see the
 * plausible bands in data/rig-classes.json). Chosen far outside every rig on a road; common practice, no source.
 */
export const IMPOSSIBLE = {
  length: 60,
  width: 6,
  height: 20,
  offset: 3,
  line: 500,
  fittings: 5,
  diameter: 0.2,
  projection: 10,
  accuracy: 10,
  litres: 10_000,
  watts: 100_000,
  amperes: 200,
  slope: 0.3,
  pitchDegrees: 89,
  windClass: 6,
} as const;
const RADIANS_OF_PITCH = IMPOSSIBLE.pitchDegrees * RADIANS_PER_DEGREE;

const WORD_LENGTH = 64;
const NAME_LENGTH = 160;

export const identifier = z
  .string()
  .min(1)
  .max(WORD_LENGTH)
  .regex(/^[A-Za-z0-9][A-Za-z0-9._:-]*$/, {
    error:
      "An id is made of letters, digits, dots, colons, hyphens and underscores, and starts with a letter or digit.",
  });
export const name = z.string().min(1).max(NAME_LENGTH);
export const word = z.string().min(1).max(WORD_LENGTH);
export const plug = z
  .enum(plugIds as [string, ...string[]])
  .meta({ description: "Plug id; a receptacle bears the same id as its plug." });
const date = z
  .union([z.iso.date(), z.iso.datetime({ offset: true })], {
    error: 'This must be a date or a time with its zone, for instance "2024-05-17".',
  })
  .meta({ description: "When it was observed.", examples: ["2024-05-17"] });

const fromRear = lengthOrRange({
  min: 0,
  max: IMPOSSIBLE.length,
  description: "Distance from the rig's rearmost point forward; one value or a range [low, high].",
  examples: ["6 ft 4 in", 1.93],
});
const left = lengthOrRange({
  min: -IMPOSSIBLE.offset,
  max: IMPOSSIBLE.offset,
  description: "Offset from the rig's centreline towards its own left (negative: right). Default: on its wall.",
  examples: ["3 ft 9 in", -1.1],
});
const heightAboveGround = (what: string) =>
  lengthOrRange({
    min: 0,
    max: IMPOSSIBLE.height,
    description: `Height of ${what} above level ground.`,
    examples: ["2 ft 6 in", 0.76],
  });
export const lineLength = (what: string) =>
  length({ positive: true, max: IMPOSSIBLE.line, description: what, examples: ["25 ft", 7.62] });
export const partLength = (what: string, max: number = IMPOSSIBLE.length) =>
  length({ positive: true, max, description: what, examples: ["8 ft", 2.44] });

const line = z
  .strictObject({
    length: lineLength("Label length of the cord or hose."),
    workingLength: lineLength(
      "Length that may be counted on; a sewer hose without it counts nine tenths of its label.",
    ).optional(),
    gauge: gaugeSchema.optional(),
    diameter: length({
      positive: true,
      max: IMPOSSIBLE.diameter,
      description: "Inside diameter of a hose.",
      examples: ["5/8 in", "12 mm"],
    }).optional(),
    drinkingWater: z.boolean().meta({ description: "True for a hose made for drinking water." }).optional(),
    rating: lineRating.optional(),
    fittings: length({
      min: -IMPOSSIBLE.fittings,
      max: IMPOSSIBLE.fittings,
      description: "Run that fittings take (positive) or give (negative).",
      examples: ["6 in", 0.15],
    }).optional(),
  })
  .meta({ description: "The cord or hose that the rig carries for this connection." });

export const connection = z.strictObject({
  id: identifier.optional(),
  service: z.enum(services),
  side: z.enum(walls).meta({ description: "Wall of the rig, left and right as seen facing forward." }),
  fromRear: fromRear.optional(),
  left: left.optional(),
  height: heightAboveGround("the connection").optional(),
  plug: plug.optional(),
  line: line.optional(),
  mayRunBeneath: z
    .boolean()
    .meta({ description: "True when its line may lie under the rig. Default false." })
    .optional(),
  basis: z.enum(bases).meta({ description: "How the position was come by. Default measured." }).optional(),
  accuracy: length({
    min: 0,
    max: IMPOSSIBLE.accuracy,
    description: "Standard deviation of the position.",
    examples: ["1 in", 0.02],
  }).optional(),
  accuracyShared: length({
    min: 0,
    max: IMPOSSIBLE.accuracy,
    description: "Standard deviation of the error common to one whole survey of the rig.",
    examples: [0.01],
  }).optional(),
  observedAt: date.optional(),
});

export const shortPower = z
  .strictObject({
    plug,
    cord: lineLength("Usable length of the supply cord, from the rig to the face of the plug."),
    gauge: gaugeSchema.optional(),
    height: heightAboveGround("the power inlet").optional(),
    fromRear: fromRear.optional(),
    side: z.enum(walls).optional(),
  })
  .meta({ description: "Short form of a power connection; refused beside a power entry in connections." });

export const slideout = z.strictObject({
  id: identifier.optional(),
  side: z.enum(openingWalls),
  fromRear: fromRear.optional(),
  left: left.optional().meta({
    description: "For a rear slide: its right edge, from the centreline towards the rig's left. Default: centred.",
  }),
  length: partLength("Length along the wall."),
  depth: partLength("How far it comes out.", IMPOSSIBLE.projection),
  bottom: heightAboveGround("its lower edge").optional(),
  top: heightAboveGround("its upper edge").optional(),
  required: z
    .boolean()
    .meta({ description: "False when the rig can be lived in with it closed. Default true." })
    .optional(),
});

export const door = z.strictObject({
  id: identifier.optional(),
  side: z.enum(walls),
  fromRear: fromRear
    .optional()
    .meta({ description: "Rear edge of the door along the wall; needed on the left and right walls." }),
  width: partLength("Width of the opening.", IMPOSSIBLE.width).optional(),
});

export const hotOutlet = z.strictObject({
  id: identifier.optional(),
  what: z.enum(hotOutletKinds),
  side: z.enum(walls),
  fromRear: fromRear.optional().meta({ description: "Place along the wall; needed on the left and right walls." }),
});

const windClass = z
  .int()
  .min(0)
  .max(IMPOSSIBLE.windClass)
  .meta({ description: "Wind resistance class of EN 13561, when the maker states one." });
const awningParts = {
  projection: partLength("How far the open awning reaches from the wall.", IMPOSSIBLE.projection),
  length: partLength("Length along the wall.").optional(),
  height: heightAboveGround("the awning's rail").optional(),
  windClass: windClass.optional(),
};
export const shortAwning = z
  .strictObject({ ...awningParts, side: z.enum(openingWalls).optional() })
  .meta({ description: "Short form of one awning; refused beside awnings." });
export const awning = z.strictObject({
  id: identifier.optional(),
  side: z.enum(openingWalls),
  fromRear: fromRear.optional(),
  left: left.optional().meta({
    description: "For a rear awning: its right edge, from the centreline towards the rig's left. Default: centred.",
  }),
  ...awningParts,
  pitch: angle({
    min: 0,
    max: RADIANS_OF_PITCH,
    description: "Fall of the fabric from rail to front bar; a bare number is in degrees.",
  }).optional(),
});
