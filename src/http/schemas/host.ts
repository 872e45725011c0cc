/** What hosts send: stays, holds, closures, moves and plans. Rigs are checked by their own room. */
import * as z from "zod";
import { nightOfDate } from "../../assign/nights.ts";
import { fitOptionsSchema } from "../../fit/options.ts";
import { countNights, MOST_NIGHTS } from "../../ledger/dates.ts";
import { STAY_STATUSES } from "../../ledger/stays.ts";
import { DEFAULT_LIMITS } from "../limits.ts";
import { external } from "../openapi/components.ts";

const LONGEST_ID = 100;
const LONGEST_WORD = 100;
const LONGEST_TEXT = 2000;
const MOST_WORDS = 20;
const MOST_OUTLETS = 12;
const HIGHEST_PRIORITY = 9;
const MOST_PEOPLE = 100;

/** An id that a host chooses: it stands in addresses, so that spaces and slashes are left out. */
export const hostId = z
  .string()
  .max(LONGEST_ID)
  .regex(/^[A-Za-z0-9][A-Za-z0-9._~-]*$/, "letters, digits, and - . _ ~ between them");
const siteId = z.string().min(1).max(200);
const outletId = z.string().min(1).max(300);
const word = z.string().min(1).max(LONGEST_WORD);
const text = z.string().max(LONGEST_TEXT);

export const date = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/, "a date such as 2027-06-01")
  .refine((value) => nightOfDate(value) !== null, {
    message: "There is no such date.",
    params: { fault: "bad-form", expected: "a date that exists, such as 2027-06-01" },
  })
  .meta({ description: "Local date of the campground, YYYY-MM-DD.", format: "date" });

const spanFault = { fault: "impossible", expected: `1 to ${MOST_NIGHTS - 1} nights after the arrival` };

/** Adds a fault when the nights are none, or more than a year. */
function checkSpan(value: { readonly arrival: string; readonly departure: string }, context: z.RefinementCtx): void {
  if (nightOfDate(value.arrival) === null || nightOfDate(value.departure) === null) return;
  const nights = countNights(value.arrival, value.departure);
  if (nights >= 1 && nights < MOST_NIGHTS) return;
  const message = nights < 1 ? "The departure is not after the arrival." : "This is longer than a year.";
  context.addIssue({ code: "custom", message, path: ["departure"], params: spanFault });
}

/** The options of a fit that a stay brings with it. */
export const stayOptionsSchema = z.strictObject({
  needs: fitOptionsSchema.shape.needs,
  kitPolicy: fitOptionsSchema.shape.kitPolicy,
});

const partySchema = z
  .strictObject({
    name: text.optional(),
    phone: word.optional(),
    email: word.optional(),
    people: z.number().int().min(0).max(MOST_PEOPLE).optional(),
    plate: word.optional(),
    note: text.optional(),
  })
  .meta({
    id: "Guests",
    description: "The guests. Given to hosts alone, never logged, and gone when the stay is removed.",
  });

const stayMembers = {
  arrival: date,
  departure: date.meta({ description: "Local date on which they leave: its night is not theirs." }),
  status: z.enum(STAY_STATUSES).optional().meta({ description: "Default expected." }),
  rig: external("Rig", "The rig that comes."),
  ...stayOptionsSchema.shape,
  accessible: z.boolean().optional().meta({ description: "True when only an accessible site will do." }),
  tight: z.boolean().optional().meta({ description: "True when they take a site where it is tight." }),
  mustHave: z.array(word).max(MOST_WORDS).optional().meta({ description: "Words that the site must answer to." }),
  wishes: z.array(word).max(MOST_WORDS).optional().meta({ description: "Words that would please them." }),
  group: word.optional().meta({ description: "Stays of one group want sites near each other." }),
  priority: z.number().int().min(0).max(HIGHEST_PRIORITY).optional().meta({ description: "0 is usual." }),
  party: partySchema.optional(),
};

export const stayRequestSchema = z
  .strictObject({ id: hostId.optional().meta({ description: "Default: a fresh one." }), ...stayMembers })
  .superRefine(checkSpan)
  .meta({ id: "StayRequest", description: "A stay as a host enters it." });

export type StayRequest = z.output<typeof stayRequestSchema>;

export const holdRequestSchema = z
  .strictObject({
    id: hostId.optional(),
    site: siteId,
    arrival: date,
    departure: date,
    why: text.optional(),
    expiresAt: z.iso.datetime().optional().meta({ description: "Instant in UTC at which it ends by itself." }),
  })
  .superRefine(checkSpan)
  .meta({ id: "HoldRequest", description: "A site that is kept free." });

export const closureRequestSchema = z
  .strictObject({
    id: hostId.optional(),
    site: siteId.optional(),
    outlet: outletId.optional().meta({ description: "A receptacle or tap outlet, by its id at /outlets." }),
    firstNight: date,
    until: date.nullable().optional().meta({ description: "First night on which it is open again; null: unknown." }),
    why: text.optional(),
  })
  .superRefine((closure, context) => {
    if ((closure.site === undefined) === (closure.outlet === undefined)) {
      const params = { fault: "conflict", expected: "site or outlet" };
      context.addIssue({ code: "custom", message: "Say what is closed, one thing.", path: [], params });
    }
    if (typeof closure.until === "string" && closure.until <= closure.firstNight) {
      const params = { fault: "impossible", expected: "a date after firstNight" };
      context.addIssue({ code: "custom", message: "It would end before it begins.", path: ["until"], params });
    }
  })
  .meta({ id: "ClosureRequest", description: "What nobody may have from a night on." });

const outlets = z.array(outletId).max(MOST_OUTLETS).optional();
const stays = z.array(hostId).min(1).max(DEFAULT_LIMITS.movesAtOnce);

export const movesRequestSchema = z
  .strictObject({
    moves: z
      .array(
        z.strictObject({
          stay: hostId,
          from: siteId.nullable().meta({ description: "The site on which you have seen it; null: none." }),
          to: siteId,
          outlets: outlets.meta({
            description:
              "Shared receptacles and tap outlets that it holds. Default: the first free one that the fit would use.",
          }),
          hold: hostId
            .optional()
            .meta({ description: "A hold that the stay takes the place of: it ends with the move." }),
          lock: z.boolean().optional().meta({ description: "True to promise the site to the stay. Default false." }),
        }),
      )
      .min(1)
      .max(DEFAULT_LIMITS.movesAtOnce),
  })
  .meta({ id: "MovesRequest", description: "Moves that are all made or none." });

export const releaseRequestSchema = z
  .strictObject({
    stays: z
      .array(
        z.strictObject({ stay: hostId, from: siteId.meta({ description: "The site on which you have seen it." }) }),
      )
      .min(1)
      .max(DEFAULT_LIMITS.movesAtOnce),
  })
  .meta({ id: "ReleaseRequest", description: "Stays that give their sites back." });

export const lockRequestSchema = z
  .strictObject({ stays })
  .meta({ id: "LockRequest", description: "Stays whose sites are locked or unlocked." });

export const acceptRequestSchema = z
  .strictObject({
    entries: z
      .array(z.strictObject({ stay: hostId, site: siteId.nullable(), outlets }))
      .min(1)
      .max(DEFAULT_LIMITS.planEntries),
    about: z
      .looseObject({})
      .optional()
      .meta({ description: "What is kept with the plan: its status, value and bound." }),
  })
  .meta({ id: "AcceptRequest", description: "A plan that the host accepts; stays that it does not name stay put." });
