/** The shape that every forecast feed is brought into. */

/** One stretch of a forecast, at 10 m over open country. */
export interface WindStretch {
  /** Milliseconds since 1970, UTC; `end` is not part of it. */
  readonly start: number;
  readonly end: number;
  /** Highest gust in it, metres per second; null when the feed gives none. */
  readonly gust: number | null;
  /** Highest mean in it, metres per second. */
  readonly mean: number | null;
  /** True bearings that it comes from, radians; empty when the feed gives none. */
  readonly directions: readonly number[];
  /** Words for hazards in it. */
  readonly hazards: readonly string[];
}

export interface WindForecast {
  /** Who made it, and the words that must be shown with it. */
  readonly source: string;
  readonly attribution: string;
  /** When it was made, milliseconds since 1970; null when the feed does not say. */
  readonly issuedAt: number | null;
  /** When it was last known to be the newest; not a number when nobody knows. */
  readonly checkedAt: number;
  /** In order of time, without overlaps; there may be gaps. */
  readonly stretches: readonly WindStretch[];
  /** What it leaves out, in sentences. */
  readonly notes: readonly string[];
}
