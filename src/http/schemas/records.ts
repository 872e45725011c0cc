/** Answers about stored records. */
import * as z from "zod";

export const campgroundListSchema = z.object({
  campgrounds: z.array(
    z.object({
      id: z.string(),
      name: z.string(),
      sites: z.number().int().meta({ description: "Sites that can be fitted." }),
      brokenSites: z.number().int().meta({ description: "Sites whose record was refused." }),
      box: z
        .array(z.number())
        .length(4)
        .nullable()
        .meta({ description: "[west, south, east, north] in degrees; null when no place is recorded." }),
      version: z.string(),
      href: z.string(),
    }),
  ),
  numberMatched: z.number().int(),
  numberReturned: z.number().int(),
  nextCursor: z.string().nullable(),
});

export type CampgroundList = z.infer<typeof campgroundListSchema>;
