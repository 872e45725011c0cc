/**
 * The rig record on the wire. The zod schema is the source: the JSON Schema and the types are made from it. Rules
 * between fields stand in rules.ts; `parseRig` (parse.ts) applies both.
 */
import * as z from "zod";
import { gaugeSchema } from "../units/gauge.ts";
import { current, length, power, slope, volume } from "../units/schema.ts";
import {
  awning,
  connection,
  door,
  hotOutlet,
  IMPOSSIBLE,
  identifier,
  lineLength,
  name,
  partLength,
  plug,
  shortAwning,
  shortPower,
  slideout,
  word,
} from "./parts.ts";
import { couplings, fuels, kitPlaces, rigClasses, supplyPaths } from "./vocabulary.ts";

/** Entries that each list may hold. */
export const rigListLimits = {
  connections: 24,
  slideouts: 12,
  doors: 12,
  hotOutlets: 24,
  awnings: 8,
  appliances: 60,
  kit: 120,
} as const;
const tank = (what: string) => volume({ min: 0, max: IMPOSSIBLE.litres, description: what }).optional();
const watts = (what: string) => power({ positive: true, max: IMPOSSIBLE.watts, description: what });
const amperes = current({ positive: true, max: IMPOSSIBLE.amperes, description: "Rating of an electric item." });

const appliance = z.strictObject({
  name,
  watts: watts("Running watts."),
  starts: watts("Watts for the moment of starting.").optional(),
  fuel: z.enum(fuels).meta({ description: "Default electric." }).optional(),
  bothLegs: z
    .boolean()
    .meta({ description: "True when it needs both legs (208 V or 240 V). Default false." })
    .optional(),
});

const kitItem = z.strictObject({
  item: word.meta({ description: "What it is, in the words of the kit table." }),
  plug: plug.optional(),
  receptacle: plug.optional(),
  rating: amperes.optional(),
  addsLength: length({
    min: 0,
    max: IMPOSSIBLE.line,
    description: "Metres that it adds to the line. Default: its length.",
  }).optional(),
  length: lineLength("Its own length.").optional(),
  gauge: gaugeSchema.optional(),
  where: z.enum(kitPlaces).meta({ description: "Default aboard." }).optional(),
});

/** The fields of a rig record, without the rules between them. */
export const rigObject = z
  .strictObject({
    id: identifier.optional(),
    name: name.optional(),
    class: z.enum(rigClasses),
    length: partLength("Foremost to rearmost point as a tape finds it: ladder, rack, spare wheel and tongue included."),
    modelLength: partLength("Length in the model's name; never used for clearance.").optional(),
    width: partLength("Body width, slides in, mirrors folded.", IMPOSSIBLE.width).optional(),
    height: partLength("Ground to the highest point, roof units included.", IMPOSSIBLE.height).optional(),
    wheelbase: partLength("Front to rear axle; for a trailer, coupling to the middle of its axles.").optional(),
    rearOverhang: partLength("Rear axle, or middle of a trailer's axles, to the rearmost point.").optional(),
    groundClearance: partLength("Lowest part of the body above the ground.", IMPOSSIBLE.width).optional(),
    turningRadius: partLength(
      "Of a motor vehicle: least radius of the outer front wheel's track, half of the turning circle between kerbs.",
    ).optional(),
    towing: z
      .strictObject({
        what: word,
        length: partLength("Length of the other vehicle.").optional(),
        coupling: z.enum(couplings),
        width: partLength("Its width.", IMPOSSIBLE.width).optional(),
        wheelbase: partLength("Its front to rear axle; of a trailer, coupling to the middle of its axles.").optional(),
        rearOverhang: partLength("Its rear axle, or middle of its axles, to its rearmost point.").optional(),
        turningRadius: partLength("Of a vehicle that draws the rig: as for the rig.").optional(),
      })
      .meta({ description: "The other vehicle of the combination and how it couples." })
      .optional(),
    power: shortPower.optional(),
    waterHose: lineLength("Short form: length of the drinking-water hose.").optional(),
    sewerHose: lineLength("Short form: label length of the sewer hose.").optional(),
    cableCord: lineLength("Short form: length of the television cable.").optional(),
    awning: shortAwning.optional(),
    connections: z.array(connection).max(rigListLimits.connections).optional(),
    slideouts: z.array(slideout).max(rigListLimits.slideouts).optional(),
    doors: z.array(door).max(rigListLimits.doors).optional(),
    hotOutlets: z.array(hotOutlet).max(rigListLimits.hotOutlets).optional(),
    awnings: z.array(awning).max(rigListLimits.awnings).optional(),
    tanks: z
      .strictObject({
        fresh: tank("Fresh water."),
        grey: tank("Grey water."),
        black: tank("Black water."),
        propane: tank("Propane, as liquid."),
      })
      .optional(),
    appliances: z.array(appliance).max(rigListLimits.appliances).optional(),
    generator: z.strictObject({ watts: watts("Continuous output."), suppliesThrough: z.enum(supplyPaths) }).optional(),
    kit: z.array(kitItem).max(rigListLimits.kit).optional(),
    limits: z
      .strictObject({
        offLevel: slope({
          positive: true,
          max: IMPOSSIBLE.slope,
          description: "Largest slope at which the rig may stand; a bare number is a ratio.",
        }).optional(),
      })
      .optional(),
  })
  .meta({
    title: "Rig",
    description: "A motorhome or trailer as its owner knows it. A bare number is in SI; a text carries its unit.",
  });

/** A rig record that was read: SI numbers, words of the vocabulary. */
export type RigProfile = z.output<typeof rigObject>;
export type RigConnection = NonNullable<RigProfile["connections"]>[number];
