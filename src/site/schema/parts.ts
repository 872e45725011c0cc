/** Parts that several records share: words, short texts, dates, positions and how a value was come by. */
import { z } from "zod";
import { angle, length } from "../quantities.ts";

const SHORT_TEXT = 200;
const LONG_TEXT = 4000;
const MOST_METRES_OFF = 10_000;
const LONGEST_SIDE = 1000;
const HALF_TURN = 180;
const QUARTER_TURN = 90;

/** An id: text, or a number that is read as its text. */
export const id = z.union([z.string().min(1).max(SHORT_TEXT), z.number()]).transform((value) => String(value));
export const word = z.string().min(1).max(SHORT_TEXT);
export const text = z.string().max(LONG_TEXT);

/** `yes` or `no`; a boolean is read as the word. Missing is unknown. */
export const yesNo = z
  .union([z.enum(["yes", "no"]), z.boolean()])
  .transform((value): "yes" | "no" => (value === true || value === "yes" ? "yes" : "no"));

/** A date or a date with a time: 2026-05-04 or 2026-05-04T10:00:00Z. */
export const day = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}(T[\d:.]+(Z|[+-]\d{2}:\d{2})?)?$/, "a date such as 2026-05-04")
  .refine((value) => !Number.isNaN(Date.parse(value)), "a date that exists");

/** [longitude, latitude] in degrees, WGS 84. */
export const position = z
  .tuple([z.number().min(-HALF_TURN).max(HALF_TURN), z.number().min(-QUARTER_TURN).max(QUARTER_TURN)], z.number())
  .meta({ description: "[longitude, latitude] in degrees, WGS 84; a height after them is not used." });

export const basis = z.enum(["measured", "mapped", "gps", "described", "code", "assumed"]).meta({
  description:
    "How the value was come by: measured (tape, survey), mapped (imagery, open map) and gps carry `accuracy`; " +
    "described (words), code (a siting rule) and assumed are ranges without a probability.",
});

export const accuracy = length({ min: 0, max: MOST_METRES_OFF }).meta({
  description:
    "Standard deviation per horizontal axis, metres. A radius that holds 95 % is 2.448 of it, 68 % is 1.510.",
});

/** Members that say how a value was come by. */
export const provenance = {
  basis: basis.optional(),
  accuracy: accuracy.optional(),
  accuracyShared: length({ min: 0, max: MOST_METRES_OFF })
    .meta({ description: "Standard deviation of the error common to everything of the same `survey`, metres." })
    .optional(),
  survey: id.meta({ description: "Survey whose common error the value carries." }).optional(),
  observedAt: day.meta({ description: "When it was seen or measured." }).optional(),
  source: text.meta({ description: "Where the value comes from, in words." }).optional(),
};

/** A point of the pad frame: `along` from the rear edge to the exit, `left` of someone looking along it, metres. */
export const padPoint = z.looseObject({
  along: length({ min: -LONGEST_SIDE, max: LONGEST_SIDE }),
  left: length({ min: -LONGEST_SIDE, max: LONGEST_SIDE }),
});

export const bearing = angle({ min: -Math.PI, max: 2 * Math.PI }).meta({
  description: "True bearing in degrees, clockwise from north.",
});

/** Sides in the pad frame, or by the people in a parked rig. */
export const side = z.enum(["left", "right", "driver", "passenger"]).meta({
  description:
    "left and right of the pad frame (looking from the rear edge to the exit), or the driver's or passenger's side of a " +
    "rig parked there, which needs the campground's `drivesOn`.",
});

export const third = z.enum(["behind", "rear", "middle", "front", "ahead"]).meta({
  description:
    "rear, middle and front are thirds of the pad from the rear edge; behind is behind the rear edge, ahead beyond the exit.",
});
