/** Gathers what an import has to tell while it runs: errors that end it, warnings, counts of tags. */
import { OSM_LIMITS } from "./limits.ts";

/** A fault that ends the import. */
export interface OsmError {
  /** JSON Pointer of the fault; empty for the text as a whole and for XML. */
  readonly path: string;
  readonly code: string;
  readonly message: string;
  readonly expected: string;
}

type OsmWarningCode =
  | "deprecated-tag"
  | "taken-for-pitch"
  | "bad-value"
  | "unlisted-value"
  | "contradiction"
  | "missing-reference"
  | "incomplete-geometry"
  | "bad-geometry"
  | "bad-position"
  | "duplicate-element"
  | "duplicate-name"
  | "unassigned-pedestal"
  | "unknown-receptacle"
  | "no-direction"
  | "not-a-hookup"
  | "for-boats"
  | "outside-campground"
  | "far-apart"
  | "several-campgrounds"
  | "no-pitches"
  | "truncated-data"
  | "ignored-tag"
  | "ignored-element"
  | "refused-record"
  | "no-licence";

export interface OsmWarning {
  readonly code: OsmWarningCode;
  /** `node/12`; null when it is of the whole. */
  readonly element: string | null;
  /** The tag's key; null when it is of the element. */
  readonly key: string | null;
  readonly text: string;
}

export interface TagCount {
  readonly key: string;
  /** Times that it shaped the record. */
  readonly read: number;
  /** Times that it was kept beside the record under `osm`, without effect. */
  readonly kept: number;
  /** Times that its element became no record. */
  readonly ignored: number;
}

export class OsmNotes {
  readonly errors: OsmError[] = [];
  readonly warnings: OsmWarning[] = [];
  warningsLeftOut = 0;
  private readonly counts = new Map<string, { read: number; kept: number; ignored: number }>();

  fail(code: string, message: string, expected: string, path = ""): void {
    this.errors.push({ path, code, message, expected });
  }

  warn(code: OsmWarningCode, element: string | null, key: string | null, text: string): void {
    if (this.warnings.length < OSM_LIMITS.warnings) this.warnings.push({ code, element, key, text });
    else this.warningsLeftOut += 1;
  }

  count(key: string, as: "read" | "kept" | "ignored"): void {
    const known = this.counts.get(key);
    if (known !== undefined) known[as] += 1;
    else if (this.counts.size < OSM_LIMITS.reportedKeys) {
      this.counts.set(key, { read: 0, kept: 0, ignored: 0, [as]: 1 });
    } else if (key !== OTHER_KEYS) this.count(OTHER_KEYS, as);
    else this.counts.set(OTHER_KEYS, { read: 0, kept: 0, ignored: 0, [as]: 1 });
  }

  tagCounts(): TagCount[] {
    return [...this.counts]
      .map(([key, counts]) => ({ key, ...counts }))
      .sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0));
  }
}

/** Under this key the report counts all beyond the cap. */
const OTHER_KEYS = "(other keys)";

const LONGEST_QUOTE = 60;

/** A text from outside in a message, short. */
export function quoted(text: string): string {
  return JSON.stringify(text.length > LONGEST_QUOTE ? `${text.slice(0, LONGEST_QUOTE)}…` : text);
}
