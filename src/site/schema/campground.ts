/** A campground as open GeoJSON: one FeatureCollection with the foreign member `campground`. */
import { z } from "zod";
import { direction } from "../../geo/compass.ts";
import { length } from "../quantities.ts";
import { id, position, provenance, text, word } from "./parts.ts";
import { pattern, siteProperties } from "./properties.ts";
import { dump, fill, gate, ground, obstacle, propane, road, shelter } from "./surroundings.ts";

const LOWEST = -500;
const HIGHEST = 9000;
const FEWEST_RING_POSITIONS = 4;

export const campground = z.looseObject({
  id,
  name: text.optional(),
  timeZone: word.meta({ description: "IANA name, for instance America/Denver." }).optional(),
  electricalSystem: word.meta({ description: "120/240, 120/208, 120, 230, …; nominal volts." }).optional(),
  drivesOn: z.enum(["right", "left"]).optional(),
  sitingCode: word
    .meta({ description: "Siting rule that places hookups nobody measured, for instance NEC-551.77." })
    .optional(),
  elevation: length({ min: LOWEST, max: HIGHEST }).meta({ description: "Metres above sea level." }).optional(),
  prevailingWind: z
    .looseObject({ from: direction("True direction that the wind mostly comes from."), ...provenance })
    .meta({ description: "For instance of the season in which the campground is open." })
    .optional(),
  patterns: z.record(z.string(), pattern).optional(),
  licence: text.optional(),
  sources: z.array(z.union([text, z.looseObject({})])).optional(),
});

const point = z.looseObject({ type: z.literal("Point"), coordinates: position });
const line = z.looseObject({ type: z.literal("LineString"), coordinates: z.array(position).min(2) });
const ring = z.array(position).min(FEWEST_RING_POSITIONS);
const polygon = z.looseObject({ type: z.literal("Polygon"), coordinates: z.array(ring).min(1) });
const multiPolygon = z.looseObject({
  type: z.literal("MultiPolygon"),
  coordinates: z.array(z.array(ring).min(1)).min(1),
});

function feature<P extends z.ZodType, G extends z.ZodType>(properties: P, geometry: G) {
  return z.looseObject({
    type: z.literal("Feature"),
    id: z.union([z.string(), z.number()]).optional(),
    geometry,
    properties,
  });
}

const anywhere = z.union([point, line, polygon, multiPolygon]);
export const siteFeature = feature(
  siteProperties.extend({ kind: z.literal("site") }),
  z.union([polygon, multiPolygon, point, z.null()]).meta({
    description: "The pad's outline (a MultiPolygon only when cut at the antimeridian), its centre, or null.",
  }),
);
export const obstacleFeature = feature(obstacle, anywhere);
export const shelterFeature = feature(shelter, anywhere);
export const groundFeature = feature(ground, z.union([polygon, multiPolygon]));
export const roadFeature = feature(road, line);
export const dumpFeature = feature(dump, anywhere);
export const fillFeature = feature(fill, anywhere);
export const gateFeature = feature(gate, anywhere);
export const propaneFeature = feature(propane, anywhere);

/** The properties and the geometry types of each kind of feature. */
export const KINDS = {
  site: { properties: siteProperties, geometries: ["Polygon", "MultiPolygon", "Point", null] },
  obstacle: { properties: obstacle, geometries: ["Point", "LineString", "Polygon", "MultiPolygon"] },
  shelter: { properties: shelter, geometries: ["Point", "LineString", "Polygon", "MultiPolygon"] },
  ground: { properties: ground, geometries: ["Polygon", "MultiPolygon"] },
  road: { properties: road, geometries: ["LineString"] },
  dump: { properties: dump, geometries: ["Point", "LineString", "Polygon", "MultiPolygon"] },
  fill: { properties: fill, geometries: ["Point", "LineString", "Polygon", "MultiPolygon"] },
  gate: { properties: gate, geometries: ["Point", "LineString", "Polygon", "MultiPolygon"] },
  propane: { properties: propane, geometries: ["Point", "LineString", "Polygon", "MultiPolygon"] },
} as const;

export type Kind = keyof typeof KINDS;

export const campgroundCollection = z.looseObject({
  type: z.literal("FeatureCollection"),
  campground,
  features: z.array(
    z.union([
      siteFeature,
      obstacleFeature,
      shelterFeature,
      groundFeature,
      roadFeature,
      dumpFeature,
      fillFeature,
      gateFeature,
      propaneFeature,
    ]),
  ),
});

export type Campground = z.output<typeof campground>;
