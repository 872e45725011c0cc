/**
 * The fit answer as it leaves the house: the same object as `Fit`, with angles in degrees and with null where a height
 * has no known end. This schema is what the published description says; `fitToWire` is held to it by its type.
 */
import * as z from "zod";
import { manoeuvreSchema } from "./manoeuvre.ts";
import { padPointSchema as point } from "./pad-point.ts";
import {
  awningHourSchema,
  awningWindSchema,
  exposureRoseSchema,
  exposureSchema,
  windAnswerSchema,
} from "./wind-parts.ts";

const metres = (meaning: string) => z.number().meta({ description: `${meaning}, metres` });
const list = <T extends z.ZodType>(schema: T) => z.array(schema).readonly();
const service = z.enum(["power", "water", "fill", "sewer", "cable"]);
const status = z.enum(["pass", "pass with kit", "tight", "fail", "unknown", "not applicable"]);
const need = z.enum(["required", "wanted", "ignored"]);
const wall = z.enum(["left", "right", "rear", "front"]);

export const siteVerdictSchema = z.enum(["does not fit", "unknown", "tight", "fits with kit", "fits"]).meta({
  id: "SiteVerdict",
  description: "Verdict of a rig on a site, from the deciding checks; the order here is the precedence.",
});

const stance = z
  .object({
    facing: z.enum(["out", "in"]).meta({ description: "out: nose to the exit; in: nose to the rear edge." }),
    along: metres("From the pad's rear edge to the rig's nearer end"),
    left: metres("Offset of the rig's centreline, positive to the left of the pad's axis"),
    yaw: z.number().meta({ description: "Degrees; positive turns the nose towards the pad's left" }),
  })
  .meta({ id: "Stance", description: "Where and how the rig is parked, in the pad frame." });

const line = z
  .object({
    service,
    need,
    connection: z.string().nullable(),
    hookup: z.string().nullable(),
    side: wall.nullable().meta({ description: "Wall of the rig that the line leaves from." }),
    route: z.enum(["direct", "around-rear", "around-front", "beneath"]).nullable(),
    path: list(point),
    needed: metres("Line needed when laid on the ground").nullable(),
    neededLeast: metres("Shortest path round the body in three dimensions, no allowance").nullable(),
    available: metres("Line available").nullable(),
    margin: metres("Available less needed").nullable(),
    sigma: metres("Standard deviation of the margin at this stance").optional(),
    marginLow: metres("Least margin over the ranges of what is only described or assumed").optional(),
    marginHigh: metres("Largest margin over the same ranges").optional(),
    probability: z.number().min(0).max(1).optional(),
    verdict: z.enum(["reaches", "tight", "short", "unknown", "not needed", "absent"]),
    why: z.string(),
  })
  .meta({ id: "FitLine", description: "One line from the rig to a hookup." });

const power = z
  .object({
    mating: z.enum(["direct", "adapter", "adapter with caution", "refused", "unknown", "none"]),
    receptacle: z.string().nullable(),
    receptacleType: z.string().nullable(),
    hookup: z.string().nullable(),
    why: z.string(),
    chain: list(
      z.object({
        item: z.string(),
        from: z.string().nullable(),
        to: z.string().nullable(),
        amps: z.number().nullable(),
        length: z.number().nullable(),
        ohmsPerMetre: z.number().nullable(),
        where: z.enum(["aboard", "depot", "to bring", "rig"]),
      }),
    ).meta({ description: "From the receptacle to the rig: adapter, protector, extension, cord." }),
    amps: z.number().nullable(),
    legs: z.number().nullable(),
    voltsToNeutral: z.number().nullable(),
    voltsLegToLeg: z.number().nullable(),
    voltAmperes: z.number().nullable(),
    continuousVoltAmperes: z.number().nullable(),
    weakestLink: z.string().nullable(),
    drop: z
      .object({
        volts: z.number(),
        ratio: z.number(),
        voltsAtRigFromNominal: z.number(),
        voltsAtRigFromLowest: z.number(),
        status: z.enum(["fine", "watch", "low", "stop", "unknown"]),
        why: z.string(),
      })
      .nullable(),
    canRun: list(z.object({ appliances: list(z.string()), watts: z.number(), runs: z.boolean(), why: z.string() })),
    alternatives: list(z.object({ receptacle: z.string(), type: z.string(), mating: z.string(), why: z.string() })),
  })
  .meta({ id: "FitPower", description: "How the rig mates with the site's supply, and what it then has." });

const sewer = z
  .object({
    status: z.enum(["drains", "marginal", "poor", "uphill", "fall not checked", "none"]),
    outlet: z.string().nullable(),
    fall: metres("Fall from outlet to rim").nullable(),
    run: metres("Run of the hose").nullable(),
    slope: z.number().nullable().meta({ description: "Fall per metre of run" }),
    requiredSlope: z.number(),
    longestRun: metres("Longest run that the required slope permits").nullable(),
    why: z.string(),
    source: z.string(),
  })
  .meta({ id: "FitSewer", description: "Whether the sewer line drains." });

const checkRow = z
  .object({
    id: z.string(),
    family: z.enum(["cannot", "must-not", "may-not", "risk"]).meta({
      description: "cannot: physics; must-not: a hazard; may-not: a rule of the place; risk: informs only.",
    }),
    deciding: z.boolean().meta({ description: "Deciding checks make the verdict; the others inform." }),
    status,
    value: z.number().nullable(),
    limit: z.number().nullable(),
    margin: z.number().nullable(),
    unit: z.enum(["m", "A", "V", "VA", "deg", "ratio", "Pa"]).nullable(),
    source: z.string().meta({ description: "Where the limit comes from." }),
    why: z.string(),
    change: z.string().optional().meta({ description: "What would change it." }),
  })
  .meta({ id: "FitCheck", description: "One check. Every check is listed, in a fixed order." });

export const kitEntrySchema = z.object({
  item: z.string(),
  description: z.string(),
  for: z.enum(["power", "water", "fill", "sewer", "cable", "level", "all"]),
  where: z.enum(["aboard", "to bring"]),
  why: z.string(),
  withoutIt: z.string(),
});

const dayBand = z
  .object({ low: z.number().nullable(), expected: z.number().nullable(), high: z.number().nullable() })
  .meta({ description: "Fewest, expected and most days; null where nobody can tell." });
const stayTank = z.object({
  store: z.enum(["fresh", "grey", "black"]),
  served: z.enum(["yes", "no", "unknown"]).meta({ description: "Whether the site's own connection stands for it." }),
  status: z.enum(["known", "unknown", "endless"]),
  days: dayBand.meta({ description: "Days from arrival to empty or full, were nothing connected." }),
  why: z.string(),
});

const fix = z
  .object({
    kind: z.enum(["facing", "longer line", "item", "close slide", "awning in"]),
    title: z.string(),
    change: z
      .object({
        options: z
          .object({
            facings: list(z.enum(["out", "in"])).optional(),
            awning: z.enum(["required", "wanted", "in"]).optional(),
            closeSlides: list(z.string()).optional(),
            needs: z.partialRecord(service, need).optional(),
          })
          .optional()
          .meta({ description: "Members to set in `options`." }),
        kit: list(
          z.object({
            item: z.string(),
            plug: z.string().optional(),
            receptacle: z.string().optional(),
            rating: z.number().optional(),
            length: z.number().optional(),
            gauge: z.string().optional(),
            where: z.enum(["aboard", "depot"]),
          }),
        )
          .optional()
          .meta({ description: "Items to add to the rig's `kit`." }),
      })
      .meta({ description: "What to change in the request so that solving again gives `verdictAfter`." }),
    free: z.boolean(),
    verdictAfter: siteVerdictSchema,
    why: z.string(),
  })
  .meta({ id: "FitFix", description: "A change after which the whole fit was solved again." });

const outline = list(point);
const scene = z
  .object({
    pad: z.object({ length: z.number(), width: z.number(), heading: z.number().nullable() }).nullable(),
    stop: z.object({ kind: z.string(), along: z.number() }).nullable(),
    rig: z
      .object({
        stance,
        length: z.number(),
        width: z.number(),
        body: outline,
        nose: outline,
        slides: list(z.object({ id: z.string(), outline })),
        awnings: list(z.object({ id: z.string(), outline, open: z.boolean() })),
        doors: list(z.object({ id: z.string(), at: point, outward: point, width: z.number(), given: z.boolean() })),
        hotOutlets: list(z.object({ id: z.string(), what: z.string(), at: point })),
        connections: list(z.object({ id: z.string(), service, at: point })),
      })
      .nullable(),
    hookups: list(
      z.object({
        id: z.string(),
        service,
        at: point,
        sigma: z.number(),
        region: z
          .object({ alongLow: z.number(), alongHigh: z.number(), leftLow: z.number(), leftHigh: z.number() })
          .nullable(),
        pedestal: z.string().nullable(),
        label: z.string(),
      }),
    ),
    obstacles: list(
      z.object({
        id: z.string(),
        what: z.string(),
        outline,
        from: z.number(),
        to: z.number().nullable().meta({ description: "Top, metres; null when its height is not known." }),
        bars: z.enum(["rig", "line", "both"]),
      }),
    ),
    patio: z.enum(["left", "right"]).nullable(),
  })
  .meta({ id: "FitScene", description: "Everything that a picture needs, in the pad frame; headings in degrees." });

const range = z.object({ from: z.number(), to: z.number() });

export const fitAnswerSchema = z
  .object({
    rig: z.object({ id: z.string().nullable(), name: z.string().nullable() }),
    site: z.object({
      id: z.string(),
      name: z.string(),
      campground: z.string().nullable(),
      campgroundName: z.string().nullable(),
    }),
    verdict: siteVerdictSchema,
    headline: z.string(),
    probability: z.number().min(0).max(1).optional(),
    bestMargin: metres("Largest worst margin over the required lines, over all allowed stances").nullable(),
    proven: z.boolean().meta({ description: "True when no better stance exists within the published yaw list." }),
    bestMarginBound: metres("Upper bound of bestMargin when it is not proven").nullable(),
    stance: stance.nullable(),
    window: z.object({ along: range, left: range, why: z.string() }).nullable(),
    lines: list(line),
    power,
    sewer,
    checks: list(checkRow),
    kit: list(kitEntrySchema),
    awning: list(
      z.object({
        id: z.string(),
        side: z.enum(["left", "right", "rear"]),
        padSide: z.enum(["left", "right", "rear", "exit"]).nullable(),
        room: status,
        needed: z.number().nullable(),
        clear: z.number().nullable(),
        why: z.string(),
        exposure: z.enum(["low", "moderate", "high", "unknown"]).nullable(),
        azimuth: z.number().nullable().meta({ description: "True bearing out over the open awning, degrees" }),
        wind: awningWindSchema.nullable(),
        hours: list(awningHourSchema).nullable().meta({ description: "Null when no stay was asked about." }),
      }),
    ),
    exposure: exposureSchema.nullable(),
    exposureRose: exposureRoseSchema.nullable().meta({ description: "Null in a summary." }),
    wind: windAnswerSchema.nullable().meta({ description: "Null when nothing was asked about the wind." }),
    level: z.object({
      status,
      alongRig: z.number().nullable(),
      acrossRig: z.number().nullable(),
      blocks: list(z.object({ wheel: z.string(), height: z.number() })),
      why: z.string(),
    }),
    manoeuvre: manoeuvreSchema.nullable().meta({ description: "Null in a summary, and without a stance." }),
    stay: z.object({
      water: z.string().nullable(),
      tanks: list(stayTank).nullable().meta({ description: "Null when no party was given." }),
      why: z.string().nullable(),
    }),
    fixes: list(fix),
    cautions: list(z.object({ id: z.string(), text: z.string(), source: z.string() })),
    assumed: list(z.object({ path: z.string(), value: z.string(), source: z.string() })),
    unknowns: list(
      z.object({
        path: z.string(),
        measure: z.string(),
        decides: list(z.string()),
        weight: z.number().min(0).max(1).nullable(),
      }),
    ),
    notChecked: list(z.object({ id: z.string(), why: z.string() })),
    warnings: list(
      z.object({
        code: z.enum(["ignored", "assumed", "estimated", "implausible", "stale", "contradiction", "repaired"]),
        path: z.string(),
        text: z.string(),
      }),
    ),
    sources: list(z.string()),
    scene,
    units: z.enum(["us", "metric"]),
    engineVersion: z.string(),
    dataVersion: z.string().nullable(),
  })
  .meta({ id: "Fit", description: "The answer to one rig on one site. Numbers are SI, angles are degrees." });

export type FitAnswer = z.infer<typeof fitAnswerSchema>;
