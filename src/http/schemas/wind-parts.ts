/** The wind on the wire: exposure, rose, awnings, hours. Bearings in degrees, speeds in metres per second. */
import * as z from "zod";

const list = <T extends z.ZodType>(schema: T) => z.array(schema).readonly();
const bearing = (meaning: string) => z.number().meta({ description: `${meaning}, true bearing in degrees` });
const speed = (meaning: string) => z.number().meta({ description: `${meaning}, metres per second` });
const pressure = (meaning: string) => z.number().meta({ description: `${meaning}, newtons per square metre` });
const iso = (meaning: string) => z.string().meta({ description: `${meaning}, ISO 8601` });

const exposureWord = z.enum(["low", "moderate", "high", "unknown"]);
const awningLevel = z.enum(["low", "moderate", "high", "retract", "unknown"]);
const hourSignal = z.enum(["no retract signal", "retract", "unknown"]);
const confidence = z.enum(["high", "medium", "low"]);
const flags = list(z.object({ id: z.string(), text: z.string() }));
const band = z.object({ low: z.number(), high: z.number() });

const shelteredBy = z
  .object({
    id: z.string(),
    name: z.string().nullable(),
    kind: z.enum(["trees", "wood", "hedge", "wall", "fence", "building"]),
    height: z.number().meta({ description: "Metres" }),
    heightGiven: z.boolean(),
    distance: z.number().meta({ description: "Metres upwind; 0 when the site is among the trees" }),
  })
  .meta({ id: "ShelteredBy", description: "The barrier that shelters most from one direction." });

const exposed = {
  level: exposureWord,
  ratio: z.number().meta({ description: "Gust at the awning over the gust in open country" }),
  why: z.string(),
};

export const exposureSchema = z
  .object({
    ...exposed,
    prevailing: z
      .object({ ...exposed, from: bearing("The prevailing wind") })
      .nullable()
      .meta({ description: "To the prevailing wind that the campground's record states." }),
  })
  .meta({ id: "SiteExposure", description: "How the site lies to the wind, without any forecast." });

export const exposureRoseSchema = z
  .object({
    height: z.number().meta({ description: "Height judged above the ground, metres" }),
    season: z.enum(["on", "off", "unknown"]).meta({ description: "Whether deciduous trees are taken as in leaf" }),
    flags,
    sectors: list(
      z.object({
        from: bearing("Where the wind comes from"),
        word: z.string().meta({ description: "Compass word" }),
        category: z.enum(["0", "I", "II", "III", "IV"]).meta({ description: "Terrain category of EN 1991-1-4 upwind" }),
        shelter: z.number().meta({ description: "Share of the wind taken by the barrier that shelters most" }),
        ratio: z.number().meta({ description: "Gust at the awning over the gust at 10 m in open country" }),
        ratioLow: z.number().meta({ description: "With the optimistic shelter" }),
        ratioHigh: z.number().meta({ description: "With the shelter that a cautious reading counts on" }),
        by: shelteredBy.nullable(),
        confidence,
        level: exposureWord,
      }),
    ).meta({ description: "Sixteen, north first, clockwise." }),
  })
  .meta({ id: "ExposureRose", description: "Exposure by direction; what the drawing of the rose shows." });

export const awningWindSchema = z
  .object({
    of: z.enum(["wind by hand", "worst hour"]),
    hour: iso("Local time of the hour").nullable(),
    level: awningLevel,
    gust: speed("Gust at 10 m over open country").nullable(),
    from: list(bearing("Where it comes from")),
    speed: speed("Gust at the awning from the worst direction near `from`").nullable(),
    expectedSpeed: speed("The same from the nearest direction alone").nullable(),
    pressure: pressure("Pressure on the awning").nullable(),
    band: band.nullable(),
    limit: pressure("Nominal pressure of the class"),
    utilisation: z.number().nullable(),
    windClass: z.number().int(),
    classAssumed: z.boolean(),
    sector: z.string().nullable(),
    shelterBy: shelteredBy.nullable(),
    confidence: confidence.nullable(),
    flags,
    why: z.string(),
  })
  .meta({ id: "AwningWind", description: "The wind by hand, or that of the worst hour, at one awning." });

export const awningHourSchema = z
  .object({
    local: iso("Local time of the campground with its offset"),
    start: iso("UTC"),
    end: iso("UTC"),
    signal: hourSignal,
    level: awningLevel,
    gust: speed("Gust at 10 m over open country").nullable(),
    from: list(bearing("Where it comes from")),
    speed: speed("Gust at the awning").nullable(),
    band: band.nullable().meta({ description: "Ends of the pressure, newtons per square metre" }),
    why: z.string(),
  })
  .meta({ id: "AwningHour", description: "One hour of a stay. `no retract signal` is never a permission." });

export const windAnswerSchema = z
  .object({
    asked: z.enum(["wind by hand", "stay"]),
    stay: z
      .object({
        from: z.string(),
        to: z.string(),
        timeZone: z.string(),
        timeZoneGiven: z.boolean().meta({ description: "False when the record names no known zone: UTC stands in" }),
        start: iso("UTC"),
        end: iso("UTC"),
        asOf: iso("The moment from which the age of the forecast counts"),
      })
      .nullable(),
    forecast: z
      .object({
        source: z.string(),
        attribution: z.string().meta({ description: "Words that must be shown with it" }),
        issuedAt: iso("When it was made").nullable(),
        checkedAt: iso("When it was last known to be the newest").nullable(),
        notes: list(z.string()),
      })
      .nullable(),
    problem: z
      .object({ code: z.string(), text: z.string() })
      .nullable()
      .meta({ description: "Why there is no forecast, or why it is not newer." }),
    notModelled: list(z.string()),
    caution: z.string(),
  })
  .meta({ id: "WindAsked", description: "What was asked about the wind, and what the answer rests on." });
