/** The answer to an assignment. */
import * as z from "zod";

const points = z.number().meta({ description: "Points." });
const day = z.string().meta({ format: "date" });
const term = z.object({
  term: z.string(),
  points,
  value: z.union([z.number(), z.string()]).nullable(),
});
const move = z.object({ stay: z.string(), from: z.string().nullable(), to: z.string().nullable() });

const placedSchema = z.object({
  stay: z.string(),
  site: z.string(),
  outlets: z.array(z.string()).meta({ description: "Shared receptacles and taps that it holds." }),
  bound: z.boolean().meta({ description: "In house, or promised: nothing was weighed." }),
  moved: z.boolean(),
  points,
  terms: z.array(term).meta({ description: "What the points are made of." }),
  possible: z.number().int().meta({ description: "Sites that it could have by its fit and its nights." }),
  alternatives: z
    .array(z.object({ site: z.string(), cost: points, moves: z.array(move) }))
    .meta({ description: "The next two sites, what they would cost, and who would have to go where." }),
});

const unplacedSchema = z.object({
  stay: z.string(),
  site: z.null(),
  eligible: z.number().int().meta({ description: "Sites that it may have by its fit, whoever stands there." }),
  blocking: z
    .array(z.object({ rule: z.string(), sites: z.number().int() }))
    .meta({ description: "Sites by the rule that bars them: fit:<check>, unknown:<check>, held, closed and others." }),
  change: z.looseObject({ kind: z.enum(["place", "move-others", "other-nights", "waive-rule", "none"]) }).meta({
    description: "The smallest change that would place it; told only when a plan with it passed the checker.",
  }),
});

export const stayExplanationSchema = z
  .union([placedSchema, unplacedSchema])
  .meta({ id: "StayExplanation", description: "Why a stay has its site, or none." });

const breach = z.object({
  code: z.string(),
  stay: z.string().nullable(),
  site: z.string().nullable(),
  other: z.string().nullable(),
  resource: z.string().nullable(),
  rules: z.array(z.string()),
  night: day.nullable(),
  isHard: z.boolean().meta({ description: "False for what the host has decided against the fit." }),
});

const worth = {
  value: points,
  points: z.object({ fit: points, unplaced: points, gaps: points, moves: points, apart: points }),
  counts: z.object({
    stays: z.number().int(),
    placed: z.number().int(),
    unplaced: z.number().int(),
    shortGaps: z.number().int(),
    moved: z.number().int(),
  }),
};

const feederSchema = z.object({
  feeder: z.string(),
  name: z.string(),
  capacity: z.number().nullable(),
  sites: z.number().int(),
  connected: z.number(),
  factor: z.number().nullable(),
  design: z.number().meta({ description: "Volt-amperes by NEC 551.73." }),
  prudent: z.number().meta({ description: "The largest of the same figure over the highest-rated sites alone." }),
  unknownSites: z.array(z.string()),
  designExceeds: z.boolean().nullable(),
  nights: z.array(
    z.object({
      night: day,
      occupied: z.number().int(),
      unknownRigs: z.number().int(),
      voltAmperes: z.number().meta({ description: "Advice, no design load." }),
      exceeds: z.boolean().nullable(),
    }),
  ),
  editionYear: z.number().int(),
  warnings: z.array(day).meta({ description: "Planned nights above what the feeder may carry." }),
  notes: z.array(z.string()),
});

export const assignmentAnswerSchema = z
  .object({
    status: z
      .enum(["optimal", "feasible", "bound-unknown"])
      .meta({ description: "optimal: value and bound meet. feasible: the gap is between them." }),
    bound: points.nullable().meta({ description: "No plan is worth more." }),
    gap: points.nullable(),
    gapShare: z.number().nullable().meta({ description: "The gap as a share of the points of fit." }),
    ...worth,
    places: z.array(placedSchema),
    unplaced: z.array(unplacedSchema),
    unexplained: z.array(z.string()).meta({ description: "Further stays without a site." }),
    released: z
      .array(z.object({ stay: z.string(), site: z.string(), why: z.string(), by: z.string().nullable() }))
      .meta({ description: "Stays that cannot be kept where they were promised or are." }),
    breaches: z.array(breach),
    work: z.object({
      seed: z.number().int(),
      rounds: z.number().int(),
      evaluations: z.number().int(),
      repairs: z.number().int(),
      cutShort: z.boolean(),
      exactSolver: z.string().nullable(),
    }),
    given: z
      .object({ sound: z.boolean(), ...worth, gap: points.nullable(), breaches: z.array(breach) })
      .nullable()
      .meta({ description: "The caller's own plan; null when none was sent." }),
    feeders: z.array(feederSchema),
    refused: z
      .array(z.object({ site: z.string().nullable(), faults: z.array(z.string()) }))
      .optional()
      .meta({ description: "Records that could not be read: nobody was given such a site." }),
  })
  .meta({ id: "AssignmentAnswer", description: "A plan, its bound, and the reasons." });

export const optionsAnswerSchema = z.object({
  planVersion: z.number().int(),
  options: z
    .array(
      z.object({
        moved: z.number().int().meta({ description: "Stays that leave a site which they could have kept." }),
        gain: points.meta({ description: "Points of the plan with it above those of the plan as it stands." }),
        moves: z
          .array(z.object({ ...move.shape, outlets: z.array(z.string()) }))
          .meta({ description: "As \u2026/assignment/move takes them, those to a site." }),
      }),
    )
    .meta({ description: "Fewest moves first, best first among them. Each was checked as a whole plan." }),
  unplaced: z.array(z.string()).meta({ description: "Stays among those asked for that no option places." }),
  complete: z.boolean().meta({ description: "False when not every chain of moves could be tried." }),
});
