/**
 * What may run at a stop: what is asked and what is answered. Watts, volts, amperes, metres.
 *
 * Entry: `whatMayRun(input: RunningInput): RunningPlan` (plan.ts).
 */
import type { Fit } from "../../fit/answer.ts";
import type { LoadAnswer } from "../../fit/power/load.ts";
import type { CompletedRig } from "../../rig/completed.ts";
import type { CompletedSite } from "../../site/completed.ts";
import type { Assumption } from "../../units/estimate.ts";
import type { UnitSystem } from "../../units/print.ts";

export interface RunningInput {
  readonly rig: CompletedRig;
  /** Power of the fit at this stop; null for a night without a site. */
  readonly fit: Pick<Fit, "power"> | null;
  /** Rules and elevation of the site; null for a night without a site. */
  readonly site: Pick<CompletedSite, "rules" | "elevation" | "electricalSystem"> | null;
  /** Metres above the sea where the site's record does not tell; for a night without a site. */
  readonly elevation?: number | null;
  readonly units: UnitSystem;
}

/** An appliance as it is reckoned with. */
export interface RunningAppliance {
  readonly name: string;
  readonly watts: number;
  readonly starts: number | null;
  readonly fuel: "electric" | "gas" | "either";
  readonly bothLegs: boolean;
  /** True when the rig's record does not list it and its class usually has it. */
  readonly assumed: boolean;
  /** For hours (air conditioner), or for minutes (microwave). */
  readonly duty: "hours" | "minutes";
}

/** One thing to do over the day: what to switch off before what. */
export interface StaggerStep {
  readonly appliance: string;
  readonly watts: number;
  /** Switch these off first, in this order; empty when nothing has to go. */
  readonly off: readonly string[];
  /** Watts that run together then. */
  readonly together: number;
  /** False when it does not run here even alone. */
  readonly runs: boolean;
  readonly why: string;
}

export interface VoltageAnswer {
  /** Lawful volts to neutral at the supply: what a reading before plugging in should lie between. */
  readonly supply: { readonly low: number; readonly high: number };
  /** At the rig under full load, from the nominal and from the lowest lawful supply; null when the drop is unknown. */
  readonly atRig: { readonly fromNominal: number; readonly fromLowest: number } | null;
  readonly status: "fine" | "watch" | "low" | "stop" | "unknown";
  readonly why: string;
  readonly source: string;
}

export interface TransferAnswer {
  readonly through: "transfer-switch" | "cord-in-box";
  /** In the order in which they are done. */
  readonly steps: readonly string[];
  readonly why: string;
  readonly source: string;
}

export interface RunningSupply {
  readonly from: "site" | "generator";
  readonly title: string;
  /** Watts at most, and for three hours or more; null when the supply is not known. */
  readonly watts: number | null;
  readonly continuousWatts: number | null;
  readonly load: LoadAnswer | null;
  /** Runs for hours from the start: everything else is switched against it. */
  readonly base: readonly string[];
  readonly day: readonly StaggerStep[];
  readonly voltage: VoltageAnswer | null;
  readonly transfer: TransferAnswer | null;
  readonly why: string;
  readonly notes: readonly { readonly text: string; readonly source: string }[];
}

export interface GeneratorHours {
  /** The host's words; null when the record has none. */
  readonly words: string | null;
  /** Hours of the day in which it may run, 0 to 24, when the words can be read. */
  readonly allowed: readonly { readonly from: number; readonly to: number }[] | null;
  readonly why: string;
}

export interface RunningPlan {
  readonly appliances: readonly RunningAppliance[];
  /** The site's supply, then the generator; empty when there is neither. */
  readonly supplies: readonly RunningSupply[];
  /** Null without a generator. */
  readonly generatorHours: GeneratorHours | null;
  readonly cautions: readonly { readonly id: string; readonly text: string; readonly source: string }[];
  readonly assumed: readonly Assumption[];
}
