/**
 * What the page and the workers that hold the core say to each other. All of it survives a structured clone. Places on
 * the earth are [longitude, latitude] in degrees; lengths are metres.
 */
import type { AnswerLine, AwningAnswer, Fit, FixChange, KitEntry, PowerAnswer, SiteVerdict } from "../../fit/answer.ts";
import type { FitOptionsInput } from "../../fit/options.ts";
import type { Stance } from "../../fit/stance/problem.ts";
import type { Touch } from "../../fit/try-stance.ts";
import type { WindAnswer } from "../../fit/wind/answer.ts";
import type { CompletedRig, Service } from "../../rig/completed.ts";
import type { Known, Layout } from "../../site/completed.ts";
import type { WireGeometry } from "../../site/feature.ts";
import type { Warning } from "../../units/estimate.ts";
import type { InputError } from "../../units/input-error.ts";
import type { ExposureWord } from "../../wind/exposure.ts";
import type { Questions } from "./questions.ts";
import type { DeskTold, PlanAsked, PlanProgress, TripAsked, TripTold } from "./trip-protocol.ts";

export type LonLat = readonly [number, number];

/** What a list and a map show of a site before anything is fitted. */
export interface SiteCard {
  readonly id: string;
  readonly name: string;
  readonly layout: Layout | null;
  readonly length: number | null;
  readonly width: number | null;
  readonly services: Readonly<Record<Service, Known>>;
  /** Amperes of the receptacles, largest first. */
  readonly amps: readonly number[];
  readonly accessible: Known;
  readonly shade: string | null;
  readonly closed: string | null;
  /** Outer ring of the pad; null when only a point or nothing is known. */
  readonly outline: readonly LonLat[] | null;
  readonly centre: LonLat | null;
}

/** Anything of the campground that is no site. */
export interface MapThing {
  readonly kind: string;
  readonly what: string | null;
  readonly name: string | null;
  readonly geometry: WireGeometry;
  readonly width: number | null;
  readonly radius: number | null;
}

export interface OpenedCampground {
  readonly id: string;
  readonly name: string;
  /** What the record says about itself in words. */
  readonly note: string | null;
  readonly drivesOn: "right" | "left" | null;
  readonly electricalSystem: string | null;
  readonly licence: string | null;
  /** True for a campground that says of itself that it is made up. */
  readonly invented: boolean;
  readonly sources: readonly string[];
  readonly sites: readonly SiteCard[];
  readonly things: readonly MapThing[];
  /** What of the record could not be read. */
  readonly refused: readonly { readonly id: string | null; readonly message: string; readonly expected: string }[];
}

/** One site in the ranked list. */
export interface SiteRow {
  readonly id: string;
  readonly name: string;
  readonly verdict: SiteVerdict;
  /** What decided, in words. */
  readonly reason: string;
  readonly headline: string;
  /** The line with the least margin, of those that have one. */
  readonly worst: { readonly service: Service; readonly margin: number } | null;
  readonly bestMargin: number | null;
  readonly probability: number | null;
  readonly lines: readonly Pick<AnswerLine, "service" | "need" | "verdict" | "margin">[];
  readonly mating: PowerAnswer["mating"];
  readonly kit: readonly Pick<KitEntry, "description" | "where">[];
  /** Larger is better: verdict first, then lines served. */
  readonly rank: number;
  /** How exposed the site is to wind; absent when its place on the earth is not known. */
  readonly wind?: RowWind;
}

export interface Exposed {
  readonly level: ExposureWord;
  /** Gust at the awning over the gust in open country. */
  readonly ratio: number;
}

export interface RowWind {
  /** From the prevailing wind, where the campground states one, else over all directions. */
  readonly usual: Exposed;
  /** From N, NE, E, ... NW. */
  readonly from: readonly Exposed[];
}

/** The question of one rig; rig and options in their wire forms. */
export interface Asked {
  readonly rig: unknown;
  readonly options: FitOptionsInput;
}

export interface FitAsked extends Asked {
  readonly site: string;
  readonly changes: readonly FixChange[];
  /** Width for which the plan is drawn, CSS pixels. */
  readonly planWidth: number;
}

export interface FitAnswer {
  readonly fit: Fit;
  readonly plan: string;
  /** The key to the plan, a drawing of its own. */
  readonly key: string;
  /** What to ask the campground and what to measure on the rig. */
  readonly questions: Questions;
  /** Name under which `try` finds this answer again. */
  readonly ticket: number;
}

export interface TryAsked {
  readonly ticket: number;
  readonly along: number;
  readonly left: number;
  readonly planWidth: number;
}

export interface TriedAnswer {
  readonly stance: Stance;
  readonly lines: readonly AnswerLine[];
  readonly contacts: readonly Touch[];
  readonly plan: string;
}

export interface WindAsked {
  readonly ticket: number;
  /** The `when` of a request as it is written; null to ask about the site alone. */
  readonly when: unknown;
  /** Width for which the rose is drawn, CSS pixels. */
  readonly roseWidth: number;
  /** Bearings of a wind that somebody else answered for, to be marked in the rose, radians. */
  readonly marked?: readonly number[];
}

export interface WindAwning extends Pick<AwningAnswer, "id" | "wind" | "hours"> {
  /** The awning as a request about the wind alone writes it: degrees and metres, what is unknown left out. */
  readonly asked: { readonly azimuth?: number; readonly class?: number; readonly height?: number };
}

export interface WindTold {
  /** Null when the site's place on the earth is not on record. */
  readonly rose: { readonly svg: string; readonly notes: readonly string[]; readonly key: string } | null;
  /** How the site lies to the wind, in sentences. */
  readonly exposure: readonly string[];
  /** Compass word of the prevailing wind on record; null without one. */
  readonly prevailing: string | null;
  /** What was asked and what the answer rests on; null when nothing was asked. */
  readonly wind: WindAnswer | null;
  readonly awnings: readonly WindAwning[];
  readonly caution: string;
}

export type RigCheck =
  | { readonly ok: true; readonly warnings: readonly Warning[]; readonly completed: CompletedRig }
  | { readonly ok: false; readonly errors: readonly InputError[] };

/** Every question with its answer; `part` is what comes before the answer, where anything does. */
export interface Exchange {
  open: { ask: { readonly text: string }; answer: OpenedCampground; part: never };
  /** The same without an answer worth sending: for a worker that only ranks. */
  load: { ask: { readonly text: string }; answer: null; part: never };
  checkRig: { ask: { readonly rig: unknown; readonly units: "us" | "metric" }; answer: RigCheck; part: never };
  rank: { ask: Asked & { readonly sites: readonly string[] }; answer: null; part: readonly SiteRow[] };
  fit: { ask: FitAsked; answer: FitAnswer; part: FitAnswer };
  try: { ask: TryAsked; answer: TriedAnswer | null; part: never };
  wind: { ask: WindAsked; answer: WindTold | null; part: never };
  /** Null when it was stopped. */
  desk: { ask: PlanAsked; answer: DeskTold | null; part: PlanProgress };
  trip: { ask: TripAsked; answer: TripTold | null; part: PlanProgress };
}

export type Kind = keyof Exchange;

export type ToWorker =
  | { readonly [K in Kind]: { readonly id: number; readonly kind: K; readonly ask: Exchange[K]["ask"] } }[Kind]
  | { readonly id: number; readonly kind: "stop" };

export type FromWorker =
  | { readonly id: number; readonly part: unknown }
  | { readonly id: number; readonly answer: unknown }
  | { readonly id: number; readonly fault: string };
