/** The fit of a stay's rig on a site of a record. */

import type { Fit } from "../../fit/answer.ts";
import { completeOptions } from "../../fit/options.ts";
import type { Stay } from "../../ledger/stays.ts";
import { type StoredCampground, siteOf } from "../../records/store.ts";
import { parseRig } from "../../rig/parse.ts";
import { fitCase } from "../fit-case.ts";
import { stayOptionsSchema } from "../schemas/host.ts";
import { storedRead } from "../site-input.ts";
import { check } from "../validate.ts";

export interface FitBrief {
  readonly verdict: string;
  readonly headline: string;
}

export const briefOf = (fit: Fit | null): FitBrief | null =>
  fit === null ? null : { verdict: fit.verdict, headline: fit.headline };

/**
 * Null when the record has no such site, or the rig, which was read when it was entered, cannot be read any more.
 * Throws what the engine throws.
 */
export function stayFit(stored: StoredCampground, stay: Pick<Stay, "asks">, site: string): Fit | null {
  const feature = siteOf(stored, site);
  const rig = parseRig(stay.asks["rig"]);
  if (feature === null || !rig.ok) return null;
  const asked = check(stayOptionsSchema, { needs: stay.asks["needs"], kitPolicy: stay.asks["kitPolicy"] });
  return fitCase(
    { profile: rig.rig, warnings: rig.warnings },
    storedRead(stored, feature),
    completeOptions({ ...(asked.ok ? asked.value : {}), detail: "summary" }),
  );
}
