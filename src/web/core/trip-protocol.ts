/** What page and worker say to each other about trips and the desk. All of it survives a structured clone. */
import type { Store } from "../../fit/stay/types.ts";
import type { DeskPlan } from "../../trip/desk/desk.ts";
import type { BaseEntry } from "../../trip/kit/base-kit.ts";
import type { TripPlan } from "../../trip/plan.ts";

export interface PlanAsked {
  /** The request as it goes over the wire: of a trip, or of a desk. */
  readonly body: unknown;
  /** GeoJSON texts of the campgrounds that its stops name. */
  readonly campgrounds: readonly string[];
}

export interface TripAsked extends PlanAsked {
  /** True to hear what is wrong with the request and nothing else. */
  readonly checkOnly: boolean;
}

export interface PlanProgress {
  readonly done: number;
  /** Steps in all, as far as they can be foreseen. */
  readonly of: number;
}

/** What is wrong with a request, at its place. */
export interface PlanFault {
  /** JSON Pointer into the body. */
  readonly pointer: string;
  readonly message: string;
  readonly expected: string;
}

export interface Refused {
  readonly ok: false;
  readonly errors: readonly PlanFault[];
}

/** Words of a thing that is loaded, by trip and by the id of the pick. */
export type LoadWords = Readonly<
  Record<string, Readonly<Record<string, Pick<BaseEntry, "place" | "why" | "withoutIt">>>>
>;

export type DeskTold = { readonly ok: true; readonly plan: DeskPlan; readonly words: LoadWords } | Refused;

export type TripTold =
  | {
      readonly ok: true;
      /** Null when only a check was asked for. */
      readonly plan: TripPlan | null;
      /** Size of each store, litres (watt-hours of the battery); null when it is not known. */
      readonly sizes: Readonly<Record<Store, number | null>>;
    }
  | Refused;
