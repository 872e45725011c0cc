/** The request of one fit. Rig, site and campground are checked by their own rooms; this schema holds the envelope. */
import * as z from "zod";
import { fitOptionsSchema } from "../../fit/options.ts";
import { whenSchema } from "../../fit/wind/when.ts";
import { DEFAULT_LIMITS } from "../limits.ts";
import { external } from "../openapi/components.ts";

const LONGEST_ID = 200;
const storedId = z.string().min(1).max(LONGEST_ID);

/** A site of the store, by the ids of its campground and of itself. */
export const siteReferenceSchema = z
  .strictObject({ campground: storedId, site: storedId })
  .meta({ id: "SiteReference", description: "A site of a stored campground." });

/** A site with what belongs to it, as every request of one site takes it. */
export const siteMembers = {
  site: external("SiteOrReference", "A site as a GeoJSON Feature, or the ids of a stored one."),
  campground: external(
    "CampgroundMember",
    "What holds for the whole campground; only beside a site that is a Feature.",
  ).optional(),
  around: z
    .array(external("AroundFeature", "An obstacle, road, shelter or other site nearby."))
    .max(DEFAULT_LIMITS.aroundFeatures)
    .optional()
    .meta({ description: "Features around the site; only beside a site that is a Feature." }),
};

export const fitRequestSchema = z
  .strictObject({
    rig: external("Rig", "The rig."),
    ...siteMembers,
    options: fitOptionsSchema.optional(),
    when: whenSchema.optional(),
  })
  .meta({ id: "FitRequest", description: "One rig and one site." });
