/**
 * The hookup card as data: what the one who hooks up does, reads and minds at one site, in one language. Everything on
 * it is made from the fields of the answer and of the rig; its order is the order in which it is read. Page, print,
 * drawing and command line only lay it out.
 */
import type { Fit, SiteVerdict } from "../../fit/answer.ts";
import type { CompletedRig, Service } from "../../rig/completed.ts";

export type Language = "en" | "es" | "fr" | "de";

/** What a number on the card counts, in SI. */
type ReadingUnit = "V" | "Pa" | "m" | "ratio";

/** What an instrument, a tape or a level should show. An end that is null has no limit. */
export interface CardReading {
  readonly id: string;
  readonly text: string;
  readonly low: number | null;
  readonly high: number | null;
  readonly unit: ReadingUnit;
  /** Where the limits come from. */
  readonly source: string;
}

export interface CardStep {
  readonly id: string;
  /** The service that it joins or takes off; null for a step of the rig itself. */
  readonly service: Service | null;
  readonly text: string;
  readonly why: string;
  /** What stops the order here, and what to do then. */
  readonly ifNot: string | null;
  /** Id of the step that is refused until this one is done; null when none is. */
  readonly bars: string | null;
  /** What must be read before the order goes on. */
  readonly expected: readonly CardReading[];
  /** Ids of cautions of the answer that this step says. */
  readonly cautions: readonly string[];
  readonly source: string;
}

export interface CardNote {
  readonly id: string;
  readonly text: string;
  /** Ids of cautions of the answer that this note says. */
  readonly cautions: readonly string[];
  readonly source: string;
}

export interface CardKit {
  /** Item words of data/kit.json; several when one of them is enough. */
  readonly items: readonly string[];
  readonly text: string;
  readonly where: "aboard" | "to bring";
  readonly whereText: string;
}

export interface CardRun {
  readonly supply: string;
  /** Together for hours. */
  readonly hours: readonly string[];
  /** Together, but not for three hours or more. */
  readonly briefly: readonly string[];
  /** Never together. */
  readonly never: readonly string[];
}

/** Titles of the parts and the few words between them, in the card's language. */
export type CardWords = Readonly<Record<WordKey, string>>;
export const WORD_KEYS = [
  "card",
  "arrival",
  "departure",
  "leaveFast",
  "stop",
  "kit",
  "run",
  "runHours",
  "runBriefly",
  "runNever",
  "checks",
  "rules",
  "notConnected",
  "cautions",
  "trip",
  "instead",
  "measureFirst",
  "unchecked",
  "noSteps",
  "stopHere",
  "powerOrder",
  "rig",
  "colon",
  "plan",
] as const;
export type WordKey = (typeof WORD_KEYS)[number];

export interface Card {
  readonly language: Language;
  readonly units: Fit["units"];
  /** Says that nobody but the project has read this translation; null in the language that it was written in. */
  readonly translation: string | null;
  readonly rig: string;
  readonly site: string;
  readonly campground: string | null;
  readonly verdict: SiteVerdict;
  readonly verdictText: string;
  /** Large words when this is no plain yes, with the reasons. */
  readonly banner: { readonly text: string; readonly reasons: readonly CardNote[] } | null;
  /** False: a card without place to stop, kit and steps, so that nothing on it can be taken for an approval. */
  readonly approves: boolean;
  readonly stop: readonly CardNote[];
  readonly arrival: readonly CardStep[];
  readonly departure: readonly CardStep[];
  /** For storm and flood. */
  readonly leaveFast: readonly CardStep[];
  readonly checks: readonly CardReading[];
  readonly notConnected: readonly { readonly service: Service; readonly name: string; readonly text: string }[];
  readonly kit: readonly CardKit[];
  readonly run: CardRun | null;
  /** Standing rules: tanks, gas, generator, hot outlets, awning. */
  readonly rules: readonly CardNote[];
  readonly cautions: readonly CardNote[];
  /** What the trip adds: days that tanks last, what the next stop lacks. */
  readonly trip: readonly CardNote[];
  /** For a no: changes that would mend it. For an unknown: what to measure. */
  readonly instead: readonly CardNote[];
  readonly unchecked: readonly CardNote[];
  /** Rows of the plan's labels by the label's key, or by the part of it before the colon. */
  readonly planLabels: Readonly<Record<string, readonly string[]>>;
  readonly words: CardWords;
}

/** A supply carried along, and the days until it runs out or is full; both ends alike when there is no band. */
export interface CardSupply {
  readonly what: "fresh" | "grey" | "black" | "propane" | "battery" | "fuel";
  readonly daysLow: number;
  /** Null: lasts beyond what was reckoned. */
  readonly daysHigh: number | null;
}

/** What a trip knows of a stop beyond its fit. */
export interface CardTrip {
  /** People; null when nobody said. */
  readonly party: number | null;
  readonly nights: number | null;
  readonly next: { readonly name: string; readonly services: Readonly<Partial<Record<Service, boolean>>> } | null;
  readonly supplies: readonly CardSupply[];
}

export interface CardInput {
  readonly fit: Fit;
  /** The rig that the fit was made for. */
  readonly rig: CompletedRig;
  /** What people call the campground; the fit's own name of it when it is left out. */
  readonly campground?: string | null;
  readonly trip?: CardTrip;
}
