/** What the reading of a campground tells: what was taken, what was refused and why, what was repaired. */
import type { CampgroundFeature } from "../site/feature.ts";
import type { Campground } from "../site/schema.ts";
import type { Warning } from "../units/estimate.ts";
import { pointerStep } from "./json.ts";

export interface Refusal {
  /** Place in `features`; null when the fault is in the document or its `campground` member. */
  readonly index: number | null;
  /** Id of the feature; null when it has none or cannot be read. */
  readonly id: string | null;
  /** JSON Pointer of the fault. */
  readonly path: string;
  /** Word of the fault: closed vocabulary in lower case with hyphens. */
  readonly code: string;
  /** What was found. */
  readonly message: string;
  /** What would be read. */
  readonly expected: string;
}

export interface CampgroundReport {
  /** Features taken. */
  readonly accepted: number;
  /** Features of the document, taken or not; null when the document was refused before its features were read. */
  readonly features: number | null;
  readonly refused: readonly Refusal[];
  readonly warnings: readonly Warning[];
}

export interface CampgroundReading {
  /** The `campground` member, read; null when it is missing or refused. */
  readonly campground: Campground | null;
  /** Features taken, cleaned, in the wire form. */
  readonly features: readonly CampgroundFeature[];
  /** The cleaned document without what was refused: what a store keeps; null when the document was refused. */
  readonly document: Readonly<Record<string, unknown>> | null;
  readonly report: CampgroundReport;
}

/** Gathers refusals and warnings of one feature or of the document. */
export class Findings {
  readonly refused: Refusal[] = [];
  readonly warnings: Warning[] = [];

  constructor(
    readonly index: number | null,
    readonly id: string | null,
    private readonly most: number,
  ) {}

  refuse(path: string, code: string, message: string, expected: string): void {
    if (this.refused.length < this.most) {
      this.refused.push({ index: this.index, id: this.id, path, code, message, expected });
    }
  }

  warn(code: Warning["code"], path: string, text: string): void {
    if (this.warnings.length < this.most) this.warnings.push({ code, path, text });
  }
}

/** A path of keys and indices as a JSON Pointer below `base`. */
export function pointer(base: string, steps: readonly PropertyKey[]): string {
  return base + steps.map((step) => pointerStep(String(step))).join("");
}
