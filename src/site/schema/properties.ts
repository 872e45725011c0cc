/** The properties of a site: its pad, what it offers, what stands on it and what may be done there. */
import { z } from "zod";
import { angle, current, length, lengthOrRange, slope } from "../quantities.ts";
import { hookup } from "./hookup.ts";
import { accuracy, bearing, day, id, padPoint, position, provenance, side, text, third, word, yesNo } from "./parts.ts";

const LONGEST_PAD = 500;
const WIDEST_PAD = 200;
const HIGHEST = 100;
const STEEPEST = 1;
const MOST_AMPERES = 1000;
const MOST_VEHICLES = 100;
const MOST_HOOKUPS = 40;
const MOST_OBSTACLES = 200;
const MOST_CORNERS = 500;
const MOST_MEASUREMENTS = 500;
const FEWEST_CORNERS = 3;

export const pad = z.looseObject({
  origin: position.meta({ description: "Middle of the pad's rear edge, [longitude, latitude]." }).optional(),
  length: lengthOrRange({ min: 0, max: LONGEST_PAD })
    .meta({ description: "Metres from the rear edge to the exit, measured on the surface, or [low, high]." })
    .optional(),
  width: lengthOrRange({ min: 0, max: WIDEST_PAD }).meta({ description: "Metres across, or [low, high]." }).optional(),
  ...provenance,
  place: z
    .looseObject(provenance)
    .meta({
      description:
        "How the pad's place on the earth (outline, centre or origin) was come by, when that differs from its sizes.",
    })
    .optional(),
  surface: word.optional(),
  grade: slope({ min: -STEEPEST, max: STEEPEST })
    .meta({ description: "Rise per metre towards the exit, a ratio; positive when the surface rises along `along`." })
    .optional(),
  crossfall: slope({ min: -STEEPEST, max: STEEPEST })
    .meta({ description: "Rise per metre towards `left`, a ratio." })
    .optional(),
  overhangRear: length({ min: 0, max: LONGEST_PAD })
    .meta({ description: "Metres that a rear end may hang over behind the rear edge." })
    .optional(),
});

export const siteObstacle = z
  .looseObject({
    id: id.optional(),
    what: word.meta({
      description: "tree, post, table, wall, hedge, branch, roof, building, road, walkway, fire-ring, …",
    }),
    outline: z.array(padPoint).min(FEWEST_CORNERS).max(MOST_CORNERS).optional(),
    at: padPoint.optional(),
    radius: length({ min: 0, max: WIDEST_PAD }).optional(),
    from: length({ min: 0, max: HIGHEST }).meta({ description: "Metres above the ground; missing is 0." }).optional(),
    to: length({ min: 0, max: HIGHEST })
      .meta({ description: "Metres above the ground; missing is unknown." })
      .optional(),
    ...provenance,
  })
  .refine((value) => value.outline !== undefined || (value.at !== undefined && value.radius !== undefined), {
    message: "an outline, or at and radius",
  });

export const mark = z.looseObject({
  id,
  what: word.meta({ description: "With `radius`: an obstacle at the place that the tapes give." }).optional(),
  side: side.optional(),
  third: third.optional(),
  radius: length({ min: 0, max: WIDEST_PAD }).optional(),
  from: length({ min: 0, max: HIGHEST }).optional(),
  to: length({ min: 0, max: HIGHEST }).optional(),
});

export const measurement = z.looseObject({
  from: id,
  to: id,
  distance: length({ min: 0, max: LONGEST_PAD }),
  accuracy: accuracy.optional(),
});

const layout = z.enum(["back-in", "pull-through", "parallel"]);
const facing = z.enum(["out", "in"]).meta({
  description: "Which way the nose points: out to the exit, in to the rear edge.",
});

export const siteProperties = z.looseObject({
  kind: z.literal("site").optional(),
  id: id.optional(),
  name: z.union([word, z.number()]).transform(String).optional(),
  layout: layout.optional(),
  facings: z.array(facing).min(1).meta({ description: "The ways a rig may face here." }).optional(),
  entry: z
    .union([z.looseObject({ position }), z.looseObject({ bearing })])
    .meta({ description: "Where rigs drive in: a position, or the bearing from the pad's centre." })
    .optional(),
  heading: bearing.meta({ description: "True bearing from the rear edge to the exit, degrees." }).optional(),
  headingAccuracy: angle({ min: 0, max: Math.PI }).meta({ description: "Its standard deviation, degrees." }).optional(),
  pad: pad.optional(),
  stop: z
    .looseObject({
      kind: z.enum(["wheelStop", "kerb"]).optional(),
      along: length({ min: -LONGEST_PAD, max: LONGEST_PAD }).optional(),
      height: length({ min: 0, max: HIGHEST }).optional(),
      clearBehind: length({ min: 0, max: LONGEST_PAD }).optional(),
    })
    .meta({
      description: "What stops the wheels: its distance from the rear edge, height and the clear strip behind it.",
    })
    .optional(),
  services: z
    .looseObject({
      power: yesNo.optional(),
      water: yesNo.optional(),
      fill: yesNo.optional(),
      sewer: yesNo.optional(),
      cable: yesNo.optional(),
    })
    .meta({ description: "yes or no; missing is unknown." })
    .optional(),
  hookups: z.array(hookup).max(MOST_HOOKUPS).optional(),
  obstacles: z.array(siteObstacle).max(MOST_OBSTACLES).optional(),
  limits: z
    .looseObject({
      length: length({ min: 0, max: LONGEST_PAD }).optional(),
      width: length({ min: 0, max: WIDEST_PAD }).optional(),
      height: length({ min: 0, max: HIGHEST }).optional(),
      amps: current({ min: 0, max: MOST_AMPERES }).optional(),
    })
    .meta({ description: "Limits that the host states for rigs." })
    .optional(),
  access: z
    .looseObject({
      roadWidth: length({ min: 0, max: WIDEST_PAD }).optional(),
      angle: angle({ min: 0, max: Math.PI }).meta({ description: "Between road and pad, degrees." }).optional(),
      mouth: length({ min: 0, max: WIDEST_PAD })
        .meta({ description: "Width of the opening at the road's edge, metres; missing: as wide as the pad." })
        .optional(),
      exit: text.optional(),
      clearHeight: length({ min: 0, max: HIGHEST })
        .meta({ description: "Least clear height on the way in." })
        .optional(),
    })
    .optional(),
  patio: side.meta({ description: "The side on which people sit." }).optional(),
  extraVehicle: z
    .union([
      z.enum(["none", "elsewhere"]),
      z.looseObject({ outline: z.array(padPoint).min(FEWEST_CORNERS).max(MOST_CORNERS) }),
    ])
    .meta({ description: "Where a second vehicle stands: its outline on the pad, elsewhere, or none allowed." })
    .optional(),
  rules: z
    .looseObject({
      noseIn: yesNo.optional(),
      awning: yesNo.optional(),
      generatorHours: text.optional(),
      maxVehicles: z.number().int().min(0).max(MOST_VEHICLES).optional(),
      largerBreaker: yesNo.meta({ description: "Whether a rig may hang on a breaker larger than its own." }).optional(),
    })
    .optional(),
  accessible: yesNo.optional(),
  shade: text.optional(),
  closed: z.union([text, z.boolean()]).meta({ description: "When or why it is closed; false is open." }).optional(),
  measurements: z
    .array(measurement)
    .max(MOST_MEASUREMENTS)
    .meta({
      description:
        "Tape distances on the ground between marks: hookup and mark ids, wheel-stop, and the pad's corners rear-left, " +
        "rear-right, exit-left, exit-right. Kept as entered; solved into the pad frame.",
    })
    .optional(),
  marks: z.array(mark).meta({ description: "Marks that are no hookup: a tree, the site post." }).optional(),
  pattern: id.meta({ description: "Id of a pattern of the campground that this site copies." }).optional(),
  mirror: z.boolean().meta({ description: "True when left and right of the pattern are swapped." }).optional(),
  observedAt: day.optional(),
});

/** A pattern: the properties of a site, drawn once and copied. */
export const pattern = siteProperties.extend({
  measuredOn: text.meta({ description: "The site on which it was measured." }).optional(),
});

export type SiteProperties = z.output<typeof siteProperties>;
export type Pattern = z.output<typeof pattern>;
export type WireHookup = z.output<typeof hookup>;
export type WireObstacle = z.output<typeof siteObstacle>;
