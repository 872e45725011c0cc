/** What hosts are told. */
import * as z from "zod";
import { STAY_STATUSES } from "../../ledger/stays.ts";
import { COMPONENT_REFERENCE } from "../openapi/components.ts";

const count = z.number().int();
const date = z.string().meta({ format: "date" });

export const placeSchema = z
  .object({
    site: z.string(),
    locked: z.boolean().meta({ description: "True when the site is promised to the stay." }),
    outlets: z.array(z.string()).meta({ description: "Shared receptacles and tap outlets that the stay holds." }),
  })
  .meta({ id: "StayPlace", description: "Where a stay stands." });

export const staySchema = z
  .looseObject({
    id: z.string(),
    version: count.meta({ description: "The ETag is this number in quotes. Grows also when the place changes." }),
    arrival: date,
    departure: date,
    nights: count,
    status: z.enum(STAY_STATUSES),
    rig: z.unknown().meta({ description: "As it was entered.", $ref: `${COMPONENT_REFERENCE}Rig` }),
    place: placeSchema.nullable(),
  })
  .meta({ id: "Stay", description: "A stay: what was entered, and where it stands." });

export const stayListSchema = z.object({ stays: z.array(staySchema), nextCursor: z.string().nullable() });

export const rowErrorSchema = z
  .object({
    line: count.meta({ description: "Line of the table on which the row begins, from 1." }),
    column: count.nullable().meta({ description: "Character of that line at which the cell begins, from 1." }),
    name: z.string().nullable().meta({ description: "Name of the column." }),
    code: z.string(),
    message: z.string(),
    expected: z.string().nullable(),
  })
  .meta({ id: "RowError", description: "What is wrong with one row of a table." });

export const tableReportSchema = z.object({
  written: z.boolean().meta({ description: "False for a preview." }),
  rows: count,
  created: count,
  updated: count,
  unchanged: count,
  refused: count.meta({ description: "Rows with an error; the others were taken." }),
  errors: z.array(rowErrorSchema),
  errorCount: count,
});

const fitBriefSchema = z
  .object({ verdict: z.string(), headline: z.string() })
  .meta({ id: "FitBrief", description: "A fit in one sentence." });

export const fitChangeSchema = z
  .object({
    stay: z.string(),
    site: z.string(),
    before: fitBriefSchema.nullable().meta({ description: "Null when the site was not there or broke the engine." }),
    after: fitBriefSchema.nullable().meta({ description: "Null when the site goes or breaks the engine." }),
  })
  .meta({ id: "FitChange", description: "A stay whose fit on its site changes with the record." });

export const recordWrittenSchema = z.object({
  written: z.boolean().meta({ description: "False for a preview." }),
  version: count.meta({ description: "Number of the version that was written, or would be." }),
  sites: z.object({ added: z.array(z.string()), changed: z.array(z.string()), removed: z.array(z.string()) }),
  fits: z.object({
    changed: z.array(fitChangeSchema).meta({ description: "Stays with a site whose verdict changes." }),
    compared: count.meta({ description: "Stays whose site differs and whose fits were compared." }),
    notCompared: count.meta({ description: "Stays beyond the cap: ask for a fit of each." }),
  }),
  warnings: z.array(z.object({ code: z.string(), path: z.string(), text: z.string() })),
});

export const versionListSchema = z.object({
  versions: z.array(z.object({ version: count, at: z.string(), actor: z.string() })),
  nextCursor: z.string().nullable(),
});

export const outletListSchema = z.object({
  outlets: z.array(
    z.object({
      id: z.string(),
      service: z.enum(["power", "water", "fill"]),
      type: z.string().nullable().meta({ description: "Receptacle of the vocabulary; null for a tap." }),
      sites: z.array(z.string()).meta({ description: "Sites that it serves." }),
      shared: z.boolean(),
      state: z.string().nullable(),
    }),
  ),
});

export const planSchema = z.object({
  planVersion: count.meta({
    description: "Grows whenever a site, its nights or a lock changes; the ETag is made of it.",
  }),
  places: z.array(z.object({ stay: z.string(), arrival: date, departure: date, ...placeSchema.shape })),
});

export const placedSchema = z.object({
  planVersion: count,
  stays: z.array(
    z.object({
      id: z.string(),
      version: count,
      place: placeSchema.nullable(),
      fit: fitBriefSchema.nullable().meta({ description: "Of the rig on its new site; null without a site." }),
    }),
  ),
});

export const holdSchema = z
  .object({
    id: z.string(),
    site: z.string(),
    arrival: date,
    departure: date,
    why: z.string().nullable(),
    expiresAt: z.string().nullable(),
  })
  .meta({ id: "Hold", description: "A site that is kept free." });
export const holdListSchema = z.object({ holds: z.array(holdSchema) });

export const closureSchema = z
  .object({
    id: z.string(),
    version: count,
    site: z.string().nullable(),
    outlet: z.string().nullable(),
    firstNight: date,
    until: date.nullable(),
    why: z.string().nullable(),
    stays: z.array(z.string()).meta({ description: "Stays that stand on it while it is closed, from today on." }),
  })
  .meta({ id: "Closure", description: "What nobody may have, and whom that meets." });
export const closureListSchema = z.object({ closures: z.array(closureSchema) });

export const removedSchema = z.object({ removed: z.string() });

export const changeListSchema = z.object({
  changes: z.array(
    z.object({
      number: count,
      at: z.string(),
      kind: z.string(),
      subject: z.string(),
      action: z.string(),
      version: count.nullable(),
    }),
  ),
  cursor: z.string().meta({ description: "Send it back as `since` for what comes after." }),
  more: z.boolean().meta({ description: "True when there is more already." }),
});

export const auditListSchema = z.object({
  entries: z.array(
    z.object({
      number: count,
      at: z.string(),
      actor: z.string().meta({ description: "Subject of the token." }),
      kind: z.string(),
      subject: z.string(),
      action: z.string(),
      version: count.nullable(),
      before: z.unknown(),
      after: z.unknown(),
    }),
  ),
  cursor: z.string(),
  more: z.boolean(),
});
