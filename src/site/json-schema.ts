/** JSON Schemas (2020-12) of the campsite record, made from the zod schemas: what a writer may send. */
import { z } from "zod";
import { campground, campgroundCollection, siteFeature } from "./schema.ts";

const SCHEMAS = {
  campground: { schema: campgroundCollection, title: "A campground: one GeoJSON FeatureCollection" },
  "campground-member": { schema: campground, title: "The campground member of the collection" },
  site: { schema: siteFeature, title: "A site: one GeoJSON Feature" },
} as const;

export type SiteSchemaName = keyof typeof SCHEMAS;

export const SITE_SCHEMA_NAMES = Object.keys(SCHEMAS) as readonly SiteSchemaName[];

/**
 * The JSON Schema of one part of the record, in its input form: quantities as numbers or as strings with units.
 *
 * @param name Which part.
 * @param base Address under which the schemas are served; gives `$id`.
 */
export function siteJsonSchema(name: SiteSchemaName, base = ""): Record<string, unknown> {
  const { schema, title } = SCHEMAS[name];
  const made = z.toJSONSchema(schema, { io: "input", target: "draft-2020-12", reused: "ref" });
  return { ...made, ...(base === "" ? {} : { $id: `${base}/${name}.json` }), title };
}
