/** What the answers of trips and desks share. */
import * as z from "zod";

const list = <T extends z.ZodType>(schema: T) => z.array(schema).readonly();
export const worksSchema = z.enum(["yes", "tight", "unknown", "no"]).meta({
  id: "Works",
  description:
    "Whether a stop or a trip works with the kit packed: yes (fits), tight, unknown, or no; a trip is as good as its worst stop.",
});
export const kitWhereSchema = z.enum(["aboard", "to pack", "lent", "to buy"]).meta({
  id: "KitWhere",
  description: "Where a thing comes from: it is aboard, lies in the depot, is lent by the campground, or is to buy.",
});

export const blockingSchema = z
  .object({
    stop: z.number().int().meta({ description: "Index of the stop." }),
    site: z.string().nullable(),
    check: z.string().meta({ description: "Id of the check; `site.free` when no site is free." }),
    value: z.number().nullable(),
    limit: z.number().nullable(),
    margin: z.number().nullable(),
    unit: z.enum(["m", "A", "V", "VA", "deg", "ratio", "Pa"]).nullable(),
    why: z.string(),
  })
  .meta({ id: "Blocking", description: "The check that keeps a stop from working, with its numbers." });

const pointer = z.string().nullable().meta({
  description: "JSON Pointer of the thing in the request, or of the table of what is sold; null when it is to buy.",
});

export const baseEntrySchema = z
  .object({
    id: z.string(),
    items: list(z.string()).meta({ description: "Item words, one of which is enough." }),
    title: z.string(),
    where: kitWhereSchema,
    path: pointer,
    box: z.string(),
    place: z.string().meta({ description: "Where it is used at the site." }),
    why: z.string(),
    withoutIt: z.string(),
    source: z.string(),
    mark: z.string(),
  })
  .meta({ id: "BaseKitEntry", description: "A thing that goes along whatever the sites are like." });

export const boxSchema = z
  .object({ id: z.string(), title: z.string(), holds: list(z.string()) })
  .meta({ id: "KitBox", description: "A box and what travels in it; sewage and drinking water never share one." });
export const boxListSchema = list(boxSchema);
export const pickPath = pointer;
