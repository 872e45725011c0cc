/** Features round the sites: obstacles, shelter, ground, roads and the campground's own services. */
import { z } from "zod";
import { length } from "../quantities.ts";
import { bearing, id, provenance, side, text, word, yesNo } from "./parts.ts";

const HIGHEST = 200;
const WIDEST = 1000;

const named = { id: id.optional(), name: text.optional(), ...provenance };
const height = length({ min: 0, max: HIGHEST });
const width = length({ min: 0, max: WIDEST });

export const obstacle = z.looseObject({
  kind: z.literal("obstacle"),
  what: word.meta({ description: "tree, post, table, wall, hedge, branch, roof, building, walkway, fire-ring, …" }),
  radius: length({ min: 0, max: WIDEST }).meta({ description: "Of a Point, metres." }).optional(),
  width: width.meta({ description: "Of a LineString, metres." }).optional(),
  from: height.meta({ description: "Metres above the ground; missing is 0." }).optional(),
  to: height.meta({ description: "Metres above the ground; missing is unknown." }).optional(),
  ...named,
});

export const shelter = z.looseObject({
  kind: z.literal("shelter"),
  what: word.meta({ description: "trees, hedge, wall, building" }).optional(),
  height: height.optional(),
  width: width.optional(),
  radius: length({ min: 0, max: WIDEST }).optional(),
  porosity: z.number().min(0).max(1).meta({ description: "Open share of its face, 0 to 1." }).optional(),
  leaf: z.enum(["evergreen", "deciduous"]).optional(),
  ...named,
});

export const ground = z.looseObject({
  kind: z.literal("ground"),
  what: z.enum(["water", "open", "wood", "built"]),
  ...named,
});

export const road = z.looseObject({
  kind: z.literal("road"),
  width: width.optional(),
  oneWay: z.boolean().optional(),
  clearHeight: height.meta({ description: "Least clear height over it, metres." }).optional(),
  ...named,
});

const facility = {
  direction: bearing.meta({ description: "True bearing in which the lane is driven, degrees." }).optional(),
  inletSide: side.optional(),
  width: width.optional(),
  clearHeight: height.optional(),
  hours: text.optional(),
  fee: text.optional(),
  season: text.optional(),
  drinkable: yesNo.optional(),
  ...named,
};
export const dump = z.looseObject({ kind: z.literal("dump"), ...facility });
export const fill = z.looseObject({ kind: z.literal("fill"), ...facility });
export const gate = z.looseObject({ kind: z.literal("gate"), ...facility });
export const propane = z.looseObject({ kind: z.literal("propane"), ...facility });
