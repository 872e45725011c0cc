/** What the office asks the worker that plans. All of it survives a structured clone. */
import type { explainStay } from "../../../http/assignment/answer.ts";
import type { HostClosure, HostHold, HostStay } from "../book.ts";

/** The book as far as a plan reads it: no guests. */
export interface PlanBook {
  readonly today: string;
  readonly stays: readonly HostStay[];
  readonly holds: readonly HostHold[];
  readonly closures: readonly HostClosure[];
}

export type Edit =
  /** A stay of the book, or one that is not in it yet, wants a site. */
  | { readonly kind: "place"; readonly stay: HostStay }
  /** `sites`: those that what is closed serves. */
  | { readonly kind: "closure"; readonly closure: HostClosure; readonly sites: readonly string[] }
  | { readonly kind: "later"; readonly stay: string; readonly departure: string };

export interface WireMove {
  readonly stay: string;
  readonly from: string | null;
  readonly to: string | null;
}

export interface EditOptionTold {
  /** Stays that leave a site that they could have kept. */
  readonly moved: number;
  readonly moves: readonly WireMove[];
  readonly gain: number;
}

export interface EditTold {
  /** Best first for each number of moves, fewest first. */
  readonly options: readonly EditOptionTold[];
  /** True when nobody has to move and nobody wants a site. */
  readonly nothingToDo: boolean;
  /** Stays in house, or promised their site, that cannot keep it: somebody has to talk to them first. */
  readonly bound: readonly string[];
  /** Stays for which no option has a site. */
  readonly unplaced: readonly string[];
  /** False when not every chain of moves could be tried. */
  readonly complete: boolean;
}

export type StayTold = ReturnType<typeof explainStay>;

export type PlannerAsk =
  | { readonly kind: "open"; readonly text: string }
  | { readonly kind: "edit"; readonly book: PlanBook; readonly edit: Edit }
  /** Fits the stays of the next nights beforehand; answers nothing. */
  | { readonly kind: "warm"; readonly book: PlanBook; readonly until: string }
  | { readonly kind: "explain"; readonly book: PlanBook; readonly stay: string };

export interface ToPlanner {
  readonly id: number;
  readonly ask: PlannerAsk;
}

export type FromPlanner =
  | { readonly id: number; readonly done: number }
  | { readonly id: number; readonly answer: unknown }
  | { readonly id: number; readonly fault: string };
