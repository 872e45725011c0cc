/**
 * What the supplies of a trip are asked and what they answer. Litres, watt-hours, days, degrees Celsius, metres. Every
 * level is a band: the least, the expected and the most that it comes to over low to high use.
 *
 * Entry: `planSupplies(input: SuppliesInput): SuppliesPlan` (plan.ts). What it is asked comes from
 * `hookupsOfFit(fit: Fit | null): SupplyHookups` (src/fit/stay/connections.ts) and
 * `solveStations(input: StationsInput): readonly StationVisit[]` (stations.ts).
 */
import type { Check, KitEntry, SiteVerdict } from "../../fit/answer.ts";
import type { Band, Levels, Rate, Remaining, Store, SupplyHookups, UseCase, UseGiven } from "../../fit/stay/types.ts";
import type { CompletedRig } from "../../rig/completed.ts";
import type { Known } from "../../site/completed.ts";
import type { CampgroundFeature } from "../../site/feature.ts";
import type { Campground } from "../../site/schema.ts";
import type { Assumption } from "../../units/estimate.ts";
import type { UnitSystem } from "../../units/print.ts";

/** Stores that the rig profile does not know; left out is unknown. */
export interface StoresGiven {
  /** Watt-hours that may be drawn from the full battery. */
  readonly battery?: number | undefined;
  /** Watts that the charger puts into the battery while power is on. */
  readonly charger?: number | undefined;
  /** Litres of fuel that the generator can draw. */
  readonly generatorFuel?: number | undefined;
}

/** Shares of each store's size at departure, 0 to 1; null is not known. Default: full, waste tanks empty. */
export type StartGiven = Partial<Readonly<Record<Store, number | null>>>;

export interface SupplyStop {
  readonly id: string;
  readonly name: string;
  readonly nights: number;
  readonly hookups: SupplyHookups;
  /** Dump stations and fill taps that are passed on leaving, as `solveStations` gives them. */
  readonly stations: readonly StationVisit[];
  /** Lowest and highest air temperature of the stay; null without a forecast. */
  readonly temperature: { readonly low: number; readonly high: number } | null;
}

/** The dump stations and fill taps of a campground and the rig that is to use them. */
export interface StationsInput {
  readonly rig: CompletedRig;
  readonly campground: Pick<Campground, "drivesOn" | "sitingCode"> | null;
  readonly features: readonly CampgroundFeature[];
  readonly kitPolicy: "any" | "aboard";
  readonly units: UnitSystem;
}

export interface SuppliesInput {
  readonly rig: CompletedRig;
  readonly people: number;
  readonly stops: readonly SupplyStop[];
  readonly use?: UseGiven;
  readonly stores?: StoresGiven;
  readonly start?: StartGiven;
  /** When the black tank is emptied at a sewer connection, whichever comes first. Default two thirds, 1.5 days. */
  readonly blackRule?: { readonly share?: number; readonly days?: number | null };
  readonly units: UnitSystem;
}

/** What a named local rule says of a station; lengths in metres. */
export type StationCheck = Pick<Check, "id" | "status" | "value" | "limit" | "margin" | "source" | "why">;

/** A dump station or fill tap, solved for this rig like a site: a lane that is driven through. */
export interface StationVisit {
  readonly id: string;
  readonly name: string;
  readonly kind: "dump" | "fill";
  /** As of a site; `absent` when the rig's record names no outlet or inlet for it. */
  readonly verdict: SiteVerdict | "absent";
  /** Whether it serves this rig: a `tight` that hangs clear of the ground and an `unknown` are not known. */
  readonly usable: Known;
  /** Side of the lane on which it stands, as driven; null when not on record. */
  readonly inletSide: "left" | "right" | null;
  /** Metres; null when no stance can be reckoned. */
  readonly needed: number | null;
  readonly available: number | null;
  readonly margin: number | null;
  readonly kit: readonly KitEntry[];
  readonly drinkable: Known;
  readonly hours: string | null;
  readonly fee: string | null;
  readonly season: string | null;
  /** Metres from this tap to the nearest dump station of the campground, or back; null when not known. */
  readonly apart: number | null;
  readonly checks: readonly StationCheck[];
  readonly why: string;
  /** What to measure or ask. */
  readonly unknowns: readonly string[];
  /** What was taken for granted about the lane. */
  readonly assumed: readonly Assumption[];
}

export interface SupplyNote {
  readonly id: string;
  readonly text: string;
  readonly source: string;
}

/** A visit to a dump station or fill tap on leaving a stop. */
export interface PlannedVisit {
  readonly station: string;
  readonly name: string;
  readonly kind: "dump" | "fill";
  /** The lane as it was solved for this rig: verdict, side, metres of line, kit, local rules, distance apart. */
  readonly lane: Pick<
    StationVisit,
    "verdict" | "usable" | "inletSide" | "needed" | "available" | "margin" | "kit" | "checks" | "apart" | "unknowns"
  >;
  /** True when something runs out or fills up before the next chance without it; null when nobody can tell. */
  readonly needed: boolean | null;
  readonly why: string;
  readonly steps: readonly string[];
}

export interface DaySupplies {
  /** Days since the start of the trip. */
  readonly day: number;
  readonly levels: Levels;
}

/** The first place at or after a stop, on leaving it, where a tank is emptied or filled. */
export interface NextChance {
  readonly stop: string;
  /** A station's id, or null for the site's own connection. */
  readonly station: string | null;
  readonly name: string;
  readonly day: number;
  /** False when it is not known whether it serves this rig. */
  readonly sure: boolean;
}

export interface StopSupplies {
  readonly id: string;
  readonly name: string;
  readonly from: number;
  readonly to: number;
  /** At arrival and at the end of each day, before anything is done on leaving. */
  readonly days: readonly DaySupplies[];
  /** When driving off, after what is done on leaving. */
  readonly after: Levels;
  /** From arrival, were nothing connected here: fresh, propane, battery and fuel to empty, grey and black to full. */
  readonly remaining: Readonly<Record<Store, Remaining>>;
  readonly black: { readonly emptied: Band; readonly why: string };
  readonly grey: { readonly valve: "may run" | "closed"; readonly why: string };
  readonly visits: readonly PlannedVisit[];
  readonly nextDump: NextChance | null;
  readonly nextFill: NextChance | null;
  readonly notes: readonly SupplyNote[];
}

export type EventKind = "empty" | "full" | "two-thirds";

/** A store runs out or fills up. */
export interface SupplyEvent {
  readonly store: Store;
  readonly kind: EventKind;
  readonly stop: string;
  /** Days since the start: earliest, at expected use, latest; null where it does not happen or cannot be told. */
  readonly day: Band;
  /** True when it happens at every use. */
  readonly certain: boolean;
  readonly why: string;
}

/** Litres over the whole trip in one case. `used` = toGrey + toBlack + toSewer + offBoard. */
export interface WaterLedger {
  readonly fromTank: number;
  readonly fromSite: number;
  /** Null when a tank of unknown content was filled. */
  readonly filled: number | null;
  readonly toGrey: number;
  readonly toBlack: number;
  /** Grey water let straight into the sewer. */
  readonly toSewer: number;
  readonly offBoard: number;
  readonly dumpedGrey: number;
  readonly dumpedBlack: number;
  /** Litres wanted and not to be had, for want of water or of room. */
  readonly unmet: number;
}

/** How long the party lasts. */
export interface Lasts {
  /** Days until water, or room for used water, first fails; null in a case in which it lasts the whole trip. */
  readonly day: Band;
  /** Tanks that no one can judge because their size or content is not known: it may fail earlier by them. */
  readonly withoutTanks: readonly Store[];
  readonly why: string;
}

export interface SuppliesPlan {
  readonly people: number;
  /** Litres per person and day. */
  readonly use: { readonly water: Rate; readonly toilet: Rate; readonly offBoard: number };
  readonly stops: readonly StopSupplies[];
  readonly events: readonly SupplyEvent[];
  readonly lasts: Lasts;
  /** At each use, with every doubtful connection failing. */
  readonly ledger: Readonly<Record<UseCase, WaterLedger>>;
  readonly assumed: readonly Assumption[];
  readonly unknowns: readonly { readonly path: string; readonly measure: string }[];
  readonly cautions: readonly SupplyNote[];
}
