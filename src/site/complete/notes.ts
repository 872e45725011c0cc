/** Gathers what the completion assumed and what it wonders about, each once. */
import type { Assumption, Warning } from "../../units/estimate.ts";

export const NO_SOURCE = "common practice, no source";

export class Notes {
  readonly assumed: Assumption[] = [];
  readonly warnings: Warning[] = [];

  /** @param base JSON Pointer of the site's feature in the caller's document. */
  constructor(readonly base: string) {}

  assume(path: string, value: string, source: string = NO_SOURCE): void {
    const known = this.assumed.some((other) => other.path === path && other.value === value);
    if (!known) this.assumed.push({ path, value, source });
  }

  warn(code: Warning["code"], path: string, text: string): void {
    this.warnings.push({ code, path, text });
  }
}

/** Metres for a sentence. */
export function metres(value: number): string {
  const hundred = 100;
  return `${Math.round(value * hundred) / hundred} m`;
}
