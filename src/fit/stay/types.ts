/**
 * Words and numbers of a stay: what people use, what stands in the stores, and how long it lasts. Litres, watt-hours,
 * days.
 */
import type { Known } from "../../site/completed.ts";

export type Store = "fresh" | "grey" | "black" | "propane" | "battery" | "generatorFuel";
export type UseCase = "low" | "expected" | "high";

/** Every store, in the order in which it is told. */
export const STORES: readonly Store[] = ["fresh", "grey", "black", "propane", "battery", "generatorFuel"];

/** A rate at three uses, low <= expected <= high. */
export type Rate = Readonly<Record<UseCase, number>>;
/**
 * The least, the expected and the most. `expected` alone is null when it hangs on something that is not known (whether
 * a hose reaches); all three are null when nothing can be said (a tank of unknown size).
 */
export type Band = Readonly<Record<UseCase, number | null>>;

/** What people and rig use. Every member may be left out; then the table in data/supplies.json stands in. */
export interface UseGiven {
  /** A row of the table, for all three cases; or litres per person and day. */
  readonly water?: string | Rate | undefined;
  /** Litres per person and day of that water that go down the toilet. */
  readonly toilet?: Rate | undefined;
  /** Share of the other water that ends in no tank (drunk, boiled away); 0 to 1. */
  readonly offBoard?: number | undefined;
  /** Litres of liquid propane a day for the whole rig. */
  readonly propane?: Rate | undefined;
  /** Burners to reckon the propane from when `propane` is left out. */
  readonly burners?: readonly Burner[] | undefined;
  /** Watt-hours a day that are drawn from the battery where no power is connected. */
  readonly battery?: Rate | undefined;
  /** Hours a day that the generator runs where no power is connected. */
  readonly generatorHours?: Rate | undefined;
  /** Litres of fuel that the generator burns in an hour. */
  readonly generatorFuel?: Rate | undefined;
}

export interface Burner {
  readonly name: string;
  /** Input rating, watts of heat. */
  readonly watts: number;
  /** Hours a day that the flame is lit. */
  readonly hours: Rate;
}

/** What a site gives a rig that stays there. */
export interface SupplyHookups {
  readonly water: Known;
  readonly sewer: Known;
  readonly power: Known;
  /** Whether the fresh tank can be filled here with water that is recorded as drinkable. */
  readonly tankFill: Known;
}

/** What stands in each store: litres (watt-hours in the battery). */
export type Levels = Readonly<Record<Store, Band>>;

/** A tank of the rig at one site, for the party that was asked about. */
export interface StayTank {
  readonly store: "fresh" | "grey" | "black";
  /** Whether the site's own connection stands for it; `unknown` when nobody can tell whether that is joined. */
  readonly served: Known;
  readonly status: Remaining["status"];
  /** Days from arrival to empty (fresh) or full (grey, black) were nothing connected. */
  readonly days: Band;
  readonly why: string;
}

/** The party that a stay is asked for. */
export interface Party {
  readonly people: number;
  readonly nights: number | null;
  /** A row of data/supplies.json; null for the band of all of them. */
  readonly water: string | null;
}

/** Days until a store is empty or full. */
export interface Remaining {
  /** `endless` when nothing is drawn from it or goes into it. */
  readonly status: "known" | "unknown" | "endless";
  readonly days: Band;
}
