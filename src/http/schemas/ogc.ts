/** Answers of the geodata interface (OGC 17-069r4). */
import * as z from "zod";

const link = z
  .object({
    rel: z.string(),
    href: z.string(),
    type: z.string(),
    title: z.string(),
  })
  .meta({ id: "OgcLink", description: "A link, as in RFC 8288." });

const links = z.array(link);

const extent = z
  .object({
    spatial: z.object({
      bbox: z.array(z.array(z.number()).length(4)).min(1).meta({
        description: "[west, south, east, north] in degrees; west above east crosses the antimeridian.",
      }),
      crs: z.string(),
    }),
  })
  .meta({ description: "A box that holds every geometry of the collection." });

export const ogcLandingSchema = z
  .object({ title: z.string(), description: z.string(), links })
  .meta({ id: "OgcLanding", description: "Where everything of the geodata interface is." });

export const ogcConformanceSchema = z
  .object({ conformsTo: z.array(z.string()), links })
  .meta({ id: "OgcConformance", description: "Conformance classes that hold." });

const collection = z
  .object({
    id: z.string(),
    title: z.string(),
    description: z.string(),
    itemType: z.string(),
    crs: z.array(z.string()),
    extent: extent.optional(),
    links,
  })
  .meta({ id: "OgcCollection", description: "A collection of features." });

export const ogcCollectionSchema = collection;

export const ogcCollectionsSchema = z
  .object({ collections: z.array(collection), links })
  .meta({ id: "OgcCollections", description: "The collections." });

const feature = z
  .object({
    type: z.literal("Feature"),
    id: z.string(),
    geometry: z.looseObject({ type: z.string() }).nullable(),
    properties: z.looseObject({ record: z.looseObject({}).nullable() }),
    links: links.optional(),
  })
  .meta({ id: "OgcFeature", description: "A GeoJSON Feature (RFC 7946); its properties are those of its collection." });

export const ogcFeatureSchema = feature;

export const ogcItemsSchema = z
  .object({
    type: z.literal("FeatureCollection"),
    numberMatched: z.number().int().optional().meta({
      description: "Features that match in all; left out where counting them would mean to read a whole catalogue.",
    }),
    numberReturned: z.number().int(),
    links,
    features: z.array(feature),
  })
  .meta({ id: "OgcItems", description: "A page of a collection." });

/** Name, schema and meaning of each, for the description. */
export const OGC_SCHEMAS = [
  ["OgcLanding", ogcLandingSchema],
  ["OgcConformance", ogcConformanceSchema],
  ["OgcCollections", ogcCollectionsSchema],
  ["OgcCollection", ogcCollectionSchema],
  ["OgcItems", ogcItemsSchema],
  ["OgcFeature", ogcFeatureSchema],
] as const;
