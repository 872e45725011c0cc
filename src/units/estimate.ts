/**
 * A number together with how it was come by (design: accuracy and basis).
 *
 * `measured` (tape, survey), `mapped` (imagery, open map) and `gps` carry standard deviations; `described` (words),
 * `code` (a siting rule) and `assumed` (a class default) are ranges without a probability.
 */
export type Basis = "measured" | "mapped" | "gps" | "described" | "code" | "assumed";

export interface Estimate {
  /** Nominal value in SI; for a range its middle. */
  readonly value: number;
  /** Ends of the range; both equal `value` unless the basis is described, code or assumed. */
  readonly low: number;
  readonly high: number;
  /** Standard deviation of this value's own error, SI; 0 for a range or an exact value. */
  readonly sigma: number;
  /** Standard deviation of the error that it shares with the rest of its survey, SI. */
  readonly sigmaShared: number;
  /** Survey whose shared error it carries; values of one survey move together. */
  readonly survey?: string;
  readonly basis: Basis;
  /** JSON Pointer of the field in the rig or site record: what to measure when this value decides. */
  readonly path: string;
  /** Where a code, assumed or described value comes from. */
  readonly source?: string;
}

/** Something that the answer rests on although nobody gave it. */
export interface Assumption {
  readonly path: string;
  /** The value in words with units, for instance "2.44 m to 2.59 m". */
  readonly value: string;
  /** Named source, or "common practice, no source", or "from memory". */
  readonly source: string;
}

/** A remark on the input that does not refuse it. Classes as in the vocabulary. */
export interface Warning {
  readonly code: "ignored" | "assumed" | "estimated" | "implausible" | "stale" | "contradiction" | "repaired";
  /** JSON Pointer of the field. */
  readonly path: string;
  /** A sentence in the caller's units that says what was found and asks what to check. */
  readonly text: string;
}
