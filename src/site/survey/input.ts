/** What a tape survey is solved from. */
import type { Wish } from "./wish.ts";

export interface TapeMeasurement {
  readonly from: string;
  readonly to: string;
  readonly distance: number;
  /** Standard deviation, metres; a default is taken when it is missing. */
  readonly accuracy?: number | undefined;
}

export interface SurveyInput {
  readonly measurements: readonly TapeMeasurement[];
  /** What the record says of length and width already; null when nothing. */
  readonly length: { readonly value: number; readonly sigma: number } | null;
  readonly width: { readonly value: number; readonly sigma: number } | null;
  /** On which side and third of the pad a mark lies, as far as stated. */
  readonly wishes: ReadonlyMap<string, Wish>;
}
