/** What a change of the record does to the stays that have a site: whose verdict changes, told before and after. */
import type { Stay } from "../../ledger/stays.ts";
import { aroundOf, type StoredCampground, siteOf } from "../../records/store.ts";
import { completeSite } from "../../site/complete.ts";
import type { Call } from "../route.ts";
import { briefOf, type FitBrief, stayFit } from "./stay-fit.ts";

interface FitChange {
  readonly stay: string;
  readonly site: string;
  readonly before: FitBrief | null;
  readonly after: FitBrief | null;
}

export interface FitChanges {
  readonly changed: readonly FitChange[];
  readonly compared: number;
  readonly notCompared: number;
}

/**
 * Compares the fits of the stays whose site comes out differently. A site is judged by what the fit reads of it, with
 * its surroundings, so that a wall beside it or a rule of the campground counts as much as its own record.
 */
export async function fitChanges(
  call: Call,
  stays: readonly Stay[],
  before: StoredCampground | null,
  after: StoredCampground,
): Promise<FitChanges> {
  const placed = before === null ? [] : stays.filter((stay) => stay.place !== null);
  const differs = new Map<string, boolean>();
  const touched: Stay[] = [];
  for (const stay of placed) {
    const site = stay.place?.site ?? "";
    if (!differs.has(site)) {
      await nextTurn();
      differs.set(site, completedText(before, site) !== completedText(after, site));
    }
    if (differs.get(site) === true) touched.push(stay);
  }
  const compared = touched.slice(0, call.limits.fitsCompared);
  const changed: FitChange[] = [];
  for (const stay of compared) {
    const site = stay.place?.site ?? "";
    await nextTurn();
    const [one, other] = [briefIn(call, before, stay, site), briefIn(call, after, stay, site)];
    if (one?.verdict !== other?.verdict) changed.push({ stay: stay.id, site, before: one, after: other });
  }
  return { changed, compared: compared.length, notCompared: touched.length - compared.length };
}

function completedText(stored: StoredCampground | null, site: string): string | null {
  const feature = stored === null ? null : siteOf(stored, site);
  if (stored === null || feature === null) return null;
  return JSON.stringify(completeSite(feature, stored.campground, aroundOf(stored), { base: "" }));
}

/** One stay that breaks the engine must not keep the record from being put right; the fault is logged. */
function briefIn(call: Call, stored: StoredCampground | null, stay: Stay, site: string): FitBrief | null {
  try {
    return stored === null ? null : briefOf(stayFit(stored, stay, site));
  } catch (fault) {
    call.report(fault);
    return null;
  }
}

const nextTurn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));
