/** Search: one rig, many sites. */
import * as z from "zod";
import { fitOptionsSchema } from "../../fit/options.ts";
import { DIRECTION_FORM, direction } from "../../geo/compass.ts";
import { length } from "../../units/schema.ts";
import { external } from "../openapi/components.ts";
import { siteVerdictSchema } from "./answer.ts";

const LONGEST_ID = 200;
const HALF_TURN = 180;
const QUARTER_TURN = 90;
const LARGEST_PAGE = 100;
const LONGEST_CURSOR = 512;
const LONGEST_SEARCH_RADIUS = 500_000;
const MARGIN_END = 100;
const LONGEST_ROUTE = 500;

const longitude = z.number().min(-HALF_TURN).max(HALF_TURN);
const latitude = z.number().min(-QUARTER_TURN).max(QUARTER_TURN);
const service = z.enum(["power", "water", "fill", "sewer", "cable"]);
const layout = z.enum(["back-in", "pull-through", "parallel"]);

const filtersSchema = z
  .strictObject({
    services: z.array(service).max(5).optional().meta({ description: "Services that the record must have." }),
    layout: z.array(layout).min(1).max(3).optional().meta({ description: "Any of these." }),
    accessible: z.literal(true).optional().meta({ description: "Only sites recorded as accessible." }),
    shade: z.string().min(1).max(LONGEST_ID).optional().meta({ description: "The record's own word for shade." }),
    verdicts: z.array(siteVerdictSchema).min(1).max(5).optional().meta({ description: "Any of these." }),
    minMargin: length({ min: -MARGIN_END, max: MARGIN_END })
      .optional()
      .meta({ description: "Least `bestMargin`. A site whose margin is unknown does not pass." }),
    shelteredFrom: z
      .union([z.literal("prevailing"), direction("A true direction.")], {
        error: `This must be ${DIRECTION_FORM}, or "prevailing".`,
      })
      .optional()
      .meta({
        description:
          'Low or moderate exposure to a wind from there, or from the prevailing wind that the campground\'s record states ("prevailing"). Without any forecast.',
        examples: ["SW", "prevailing"],
      }),
    exposure: z
      .array(z.enum(["low", "moderate", "high"]))
      .min(1)
      .max(3)
      .optional()
      .meta({ description: "Any of these, over all directions." }),
    unknown: z.enum(["drop", "keep"]).optional().meta({
      description:
        "What becomes of a site whose record does not say what services, layout, accessible, shade, shelteredFrom or exposure ask. Default drop; the answer counts them.",
    }),
  })
  .meta({ id: "SearchFilters", description: "Conditions that narrow a search; all must hold." });

const sortSchema = z.enum(["rank", "margin", "distance", "name", "exposure"]).meta({
  description:
    "rank: by verdict, then by what is missing and by margin; margin: largest bestMargin first; distance: nearest to `near` or to the route first; name: by name; exposure: least exposed first, to the wind of shelteredFrom, else to the prevailing one on record, else over all directions. Default rank.",
});

export const searchRequestSchema = z
  .strictObject({
    rig: external("Rig", "The rig."),
    campground: z.string().min(1).max(LONGEST_ID).optional().meta({ description: "Id of a stored campground." }),
    bbox: z.tuple([longitude, latitude, longitude, latitude]).optional().meta({
      description: "[west, south, east, north] in degrees; west above east crosses the antimeridian.",
      minItems: 4,
      maxItems: 4,
    }),
    near: z
      .strictObject({ longitude, latitude })
      .optional()
      .meta({ description: "Middle of a circle; wants `radius`." }),
    radius: length({ positive: true, max: LONGEST_SEARCH_RADIUS }).optional(),
    along: z
      .strictObject({
        route: z
          .array(z.tuple([longitude, latitude]))
          .min(2)
          .max(LONGEST_ROUTE)
          .meta({ description: "Positions of the way in order, [longitude, latitude] in degrees." }),
        corridor: length({ positive: true, max: LONGEST_SEARCH_RADIUS }).meta({
          description: "How far aside of the route a site may lie.",
        }),
      })
      .optional()
      .meta({ description: "A strip on both sides of a route." }),
    needs: fitOptionsSchema.shape.needs,
    filters: filtersSchema.optional(),
    sort: sortSchema.optional(),
    ranking: z.enum(["whole", "nominal"]).optional().meta({
      description:
        "whole: every site is fitted and ranked by its fit. nominal: every site gets a quick look by nominal values and only the sites of the page are fitted. Default: whole up to sitesPerSearch of /v1/limits, nominal above.",
    }),
    limit: z.number().int().min(1).max(LARGEST_PAGE).optional(),
    cursor: z
      .string()
      .min(1)
      .max(LONGEST_CURSOR)
      .optional()
      .meta({ description: "The nextCursor of the page before." }),
    options: fitOptionsSchema.optional(),
  })
  .superRefine((request, context) => {
    const places = (["campground", "bbox", "near", "along"] as const).filter((key) => request[key] !== undefined);
    const fault = (message: string, expected: string, path: string[]) =>
      context.addIssue({ code: "custom", message, path, params: { fault: "where", expected } });
    if (places.length === 0) fault("Say where to search.", "one of campground, bbox, near with radius, along", []);
    if (places.length > 1)
      fault("Only one place can be searched at a time.", "one of campground, bbox, near, along", [places[1] ?? ""]);
    if (request.near !== undefined && request.radius === undefined)
      fault("A circle wants its radius.", 'a length such as "40 km"', ["radius"]);
    if (request.radius !== undefined && request.near === undefined)
      fault("A radius wants its middle.", "near", ["near"]);
    if (request.bbox !== undefined && request.bbox[1] > request.bbox[3])
      fault("South lies above north.", "[west, south, east, north]", ["bbox", "1"]);
    if (request.needs !== undefined && request.options?.needs !== undefined)
      fault("Needs are given twice.", "needs or options.needs", ["options", "needs"]);
    if (request.sort === "distance" && request.near === undefined && request.along === undefined)
      fault("Distance wants a point or a route.", "near with radius, or along", ["sort"]);
  })
  .meta({ id: "SearchRequest", description: "One rig, and where to look." });

export type SearchRequest = z.output<typeof searchRequestSchema>;
