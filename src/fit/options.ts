/**
 * Options of a fit with their published defaults. The wire form is checked by `fitOptionsSchema` (lengths as
 * quantities, yaws in degrees); `completeOptions` gives the form that the fit reads (metres, radians).
 */
import { z } from "zod";
import { length } from "../units/schema.ts";
import type { Need } from "./answer.ts";
import type { Facing } from "./stance/problem.ts";
import type { Party } from "./stay/types.ts";
import { WATER_USES } from "./stay/use.ts";

const DEGREE = Math.PI / 180;

const needSchema = z.enum(["required", "wanted", "ignored"]);
const zeroLength = { min: 0, max: 100 };

const needsSchema = z.strictObject({
  power: needSchema.optional(),
  water: needSchema.optional(),
  sewer: needSchema.optional(),
  cable: needSchema.optional(),
  fill: needSchema.optional(),
});

const allowanceSchema = z.strictObject({
  power: length(zeroLength).optional(),
  water: length(zeroLength).optional(),
  sewer: length(zeroLength).optional(),
  cable: length(zeroLength).optional(),
  fill: length(zeroLength).optional(),
});

const parkingSchema = z.strictObject({
  along: length(zeroLength).optional(),
  across: length(zeroLength).optional(),
  yaw: z.number().min(0).max(10).optional().meta({ description: "Degrees." }),
});

const MOST_PEOPLE = 50;
const MOST_NIGHTS = 365;
const partySchema = z.strictObject({
  people: z.int().min(0).max(MOST_PEOPLE),
  nights: z.int().min(0).max(MOST_NIGHTS).optional(),
  water: z
    .enum(WATER_USES as [string, ...string[]])
    .optional()
    .meta({ description: "Use of water per person; default a band from 5 to 15 gal (19 to 57 L) a day." }),
});

const workspaceSchema = z.strictObject({
  pedestal: length(zeroLength).optional(),
  side: length(zeroLength).optional(),
});

export const fitOptionsSchema = z
  .strictObject({
    units: z.enum(["us", "metric"]).optional().meta({ description: "Units of the sentences. Default metric." }),
    detail: z
      .enum(["summary", "full"])
      .optional()
      .meta({ description: "summary leaves out fixes, window and probability. Default full." }),
    needs: needsSchema.optional().meta({
      description: "Default: power required when the rig has a cord and the site has power; the rest wanted.",
    }),
    kitPolicy: z
      .enum(["any", "aboard"])
      .optional()
      .meta({ description: "aboard counts only kit that is in the rig now. Default any." }),
    policy: z
      .strictObject({ largerBreaker: z.enum(["allow", "refuse"]).optional() })
      .optional()
      .meta({ description: "largerBreaker: a 30 A rig on a 50 A receptacle by a listed adapter. Default allow." }),
    allowance: allowanceSchema.optional().meta({
      description: "Metres kept in hand per line. Defaults 0.6 (sewer 0.3); common practice, no source.",
    }),
    clearance: length(zeroLength)
      .optional()
      .meta({ description: "Kept round the rig against obstacles and devices. Default 0.1 m; assumed." }),
    devices: z.enum(["assumed", "given", "ignore"]).optional().meta({
      description: "Whether hookup devices without a recorded body are solid at their usual size. Default assumed.",
    }),
    workspace: z.union([z.boolean(), workspaceSchema]).optional().meta({
      description: "Working space before a pedestal (0.75 m) and along the service side (0.6 m); false ignores it.",
    }),
    yaws: z
      .array(z.number().min(-15).max(15))
      .min(1)
      .max(61)
      .optional()
      .meta({ description: "Degrees tried; positive turns the nose to the pad's left. Default [0]." }),
    facings: z
      .array(z.enum(["out", "in"]))
      .min(1)
      .max(2)
      .optional(),
    comfort: length(zeroLength)
      .optional()
      .meta({ description: "Margin beyond which more is no better. Default 0.5 m; assumed." }),
    parking: parkingSchema.optional().meta({
      description:
        "Scatter of a driver that a yes must survive. Default 0.3 m along, 0.15 m across, 1 degree; assumed.",
    }),
    awning: z.enum(["required", "wanted", "in"]).optional().meta({ description: "Default wanted." }),
    party: partySchema.optional().meta({
      description: "Who stays and for how long: days on the rig's tanks are told under `stay`. Default: not asked.",
    }),
    closeSlides: z.array(z.string().max(100)).max(12).optional().meta({ description: "Slides kept closed, by id." }),
  })
  .meta({ id: "FitOptions" });

export type FitOptionsInput = z.input<typeof fitOptionsSchema>;
type Parsed = z.output<typeof fitOptionsSchema>;

export type ServiceName = "power" | "water" | "fill" | "sewer" | "cable";

export interface FitOptions {
  readonly units: "us" | "metric";
  readonly detail: "summary" | "full";
  readonly needs: Partial<Readonly<Record<ServiceName, Need>>>;
  readonly kitPolicy: "any" | "aboard";
  readonly policy: { readonly largerBreaker: "allow" | "refuse" };
  /** Metres. */
  readonly allowance: Readonly<Record<ServiceName, number>>;
  readonly clearance: number;
  readonly devices: "assumed" | "given" | "ignore";
  /** Metres; 0 asks for none. */
  readonly workspace: { readonly pedestal: number; readonly side: number };
  /** Radians. */
  readonly yaws: readonly number[];
  /** Null: those that the record allows. */
  readonly facings: readonly Facing[] | null;
  readonly comfort: number;
  /** Metres, metres, radians. */
  readonly parking: { readonly along: number; readonly across: number; readonly yaw: number };
  readonly awning: "required" | "wanted" | "in";
  readonly closeSlides: readonly string[];
  /** Null: days on the tanks are not asked for. */
  readonly party: Party | null;
}

/** Every default in one place. Lengths metres, angles radians. */
export const DEFAULT_OPTIONS: FitOptions = {
  units: "metric",
  detail: "full",
  needs: {},
  kitPolicy: "any",
  policy: { largerBreaker: "allow" },
  allowance: { power: 0.6, water: 0.6, fill: 0.6, sewer: 0.3, cable: 0.6 },
  clearance: 0.1,
  devices: "assumed",
  workspace: { pedestal: 0.75, side: 0.6 },
  yaws: [0],
  facings: null,
  comfort: 0.5,
  parking: { along: 0.3, across: 0.15, yaw: DEGREE },
  awning: "wanted",
  closeSlides: [],
  party: null,
};

/** Members that are present and not undefined, so that a spread keeps the default for the others. */
function given<T extends object>(value: T | undefined): { [K in keyof T]?: Exclude<T[K], undefined> } {
  const entries = Object.entries(value ?? {}).filter(([, member]) => member !== undefined);
  return Object.fromEntries(entries) as { [K in keyof T]?: Exclude<T[K], undefined> };
}

function workspaceOf(value: Parsed["workspace"]): FitOptions["workspace"] {
  if (value === undefined || value === true) return DEFAULT_OPTIONS.workspace;
  if (value === false) return { pedestal: 0, side: 0 };
  return { ...DEFAULT_OPTIONS.workspace, ...given(value) };
}

/** Fills the defaults in and turns degrees into radians. */
export function completeOptions(parsed: Parsed | undefined): FitOptions {
  const value = parsed ?? {};
  const defaults = DEFAULT_OPTIONS;
  const parking = given(value.parking);
  return {
    ...defaults,
    ...given({
      units: value.units,
      detail: value.detail,
      kitPolicy: value.kitPolicy,
      clearance: value.clearance,
      devices: value.devices,
      facings: value.facings,
      comfort: value.comfort,
      awning: value.awning,
      closeSlides: value.closeSlides,
    }),
    party:
      value.party === undefined
        ? null
        : { people: value.party.people, nights: value.party.nights ?? null, water: value.party.water ?? null },
    needs: given(value.needs),
    policy: { ...defaults.policy, ...given(value.policy) },
    allowance: { ...defaults.allowance, ...given(value.allowance) },
    workspace: workspaceOf(value.workspace),
    yaws: value.yaws === undefined ? defaults.yaws : value.yaws.map((yaw) => yaw * DEGREE),
    parking: {
      along: parking.along ?? defaults.parking.along,
      across: parking.across ?? defaults.parking.across,
      yaw: parking.yaw === undefined ? defaults.parking.yaw : parking.yaw * DEGREE,
    },
  };
}
