/**
 * The question that a host asks: which stay on which site, for which nights. Everything that can decide it is in here;
 * the optimiser, the checker and the explanation read nothing else.
 *
 * A night is a day number: whole days since 1970-01-01 in the calendar of the campground (see nights.ts). Spans are
 * half open: a stay holds its site from the night of `arrival` up to, and without, the night of `departure`, so that
 * one may leave and the next arrive on one day.
 */

/** Nights `from` (included) to `until` (excluded). */
export interface NightSpan {
  readonly from: number;
  readonly until: number;
}

export interface Closure extends NightSpan {
  /** In the host's words; shown in explanations. */
  readonly why: string | null;
}

/**
 * A thing that one stay at a time can hold: a receptacle, or an outlet of a shared tap. A failed receptacle is closed
 * for its nights; the site beside it stays open to whoever can do without.
 */
export interface AssignmentResource {
  readonly id: string;
  readonly kind: "receptacle" | "tap";
  readonly name: string;
  readonly closures: readonly Closure[];
}

export interface AssignmentSite {
  readonly id: string;
  readonly name: string;
  readonly closures: readonly Closure[];
  /** Every resource at this site, as indices into `resources`. Who stays here by the host's word alone holds them all. */
  readonly resources: readonly number[];
  /** Metres east and north within the campground; null when the place is not known. */
  readonly place: { readonly east: number; readonly north: number } | null;
}

/** One term of a score, in points; `value` is what was looked at (a margin in metres, amperes, a word). */
export interface ScoreTerm {
  readonly term: ScoreTermCode;
  readonly points: number;
  readonly value: number | string | null;
}

export type ScoreTermCode =
  | "verdict"
  | "margin"
  | "wanted-line"
  | "wish"
  | "scarce-power"
  | "scarce-pull-through"
  | "scarce-length"
  | "scarce-accessible"
  | "kit-to-bring"
  | "by-hand";

/** One way to stand on a site: which resources it holds, and what it is worth. */
export interface Way {
  /** Indices into `resources`, ascending. */
  readonly resources: readonly number[];
  /** Points; the sum of `terms`. */
  readonly score: number;
  readonly terms: readonly ScoreTerm[];
}

/**
 * Why a pair of stay and site is out: `fit:<check>` names a deciding check of the fit that fails, `unknown:<check>` one
 * that cannot be decided (a check is named by its id in the fit), the others are the host's.
 */
export type RuleCode = `fit:${string}` | `unknown:${string}` | "tight" | "needs-accessible" | "must-have" | "by-hand";

/** One profile at one site. No way: the pair is out for the reasons in `rules`. */
export interface SiteOption {
  /** Best first. */
  readonly ways: readonly Way[];
  readonly rules: readonly RuleCode[];
}

export interface AssignmentStay {
  readonly id: string;
  readonly arrival: number;
  readonly departure: number;
  /** Row of `options`: stays with the same rig, needs and wishes share one. */
  readonly profile: number;
  /** 0 is usual; each step makes it as bad again to leave this stay without a site. */
  readonly priority: number;
  /** The guests are on their site now: they are not asked to move. Their site is `accepted`. */
  readonly inHouse: boolean;
  /** Index of the site that the host has promised, or null. It binds even where the fit would say no. */
  readonly locked: number | null;
  /** Index of the site in the accepted plan, or null when the stay has none. */
  readonly accepted: number | null;
  /** Stays of one party want sites near each other; null when alone. */
  readonly party: string | null;
}

/** Points and limits of the objective; the published ones are in data/assignment-weights.json (see weights.ts). */
export interface AssignmentWeights {
  /** Lost when a stay has no site: once, and for each of its nights. */
  readonly unplaced: number;
  readonly unplacedNight: number;
  /** Lost for each hole between two stays that is shorter than `minimumStay`. */
  readonly shortGap: number;
  /** Nights; a hole shorter than this cannot be sold. 1 counts no hole. */
  readonly minimumStay: number;
  /** Lost for each stay that leaves the site of the accepted plan. */
  readonly move: number;
  /** Lost for each pair of one party, both there on one night, at `nearDistance` metres or more; less in proportion. */
  readonly apart: number;
  readonly nearDistance: number;
}

export interface AssignmentProblem {
  /** Nights before it are over: a stay that arrived earlier counts from here. */
  readonly firstNight: number;
  readonly sites: readonly AssignmentSite[];
  readonly resources: readonly AssignmentResource[];
  readonly stays: readonly AssignmentStay[];
  /** `options[profile][site]`. */
  readonly options: readonly (readonly SiteOption[])[];
  readonly weights: AssignmentWeights;
  /** Most stays that may leave the site of the accepted plan; null for no cap. */
  readonly maxMoves: number | null;
}

/** Where a stay stands: indices of the site and of the way in its option. */
export interface Placement {
  readonly site: number;
  readonly way: number;
}

/** A placement for each stay, or null for a stay without a site. In the order of `stays`. */
export type Plan = readonly (Placement | null)[];

/** The site that a stay may not leave: where it is in house, or what the host has promised; null when free. */
export function boundSite(stay: AssignmentStay): number | null {
  return stay.locked ?? (stay.inHouse ? stay.accepted : null);
}
