/** Where a rig stands at each stop: the site and the two that come after it. */
import type { Check, Fit } from "../fit/answer.ts";
import { PRECEDENCE } from "../fit/verdict.ts";
import type { CampgroundFeature } from "../site/feature.ts";
import { type Fitter, rankPlaces } from "./fitter.ts";
import type { PackTarget } from "./kit/pack.ts";
import { levelOf, WORKS } from "./kit/worth.ts";
import type { Stay } from "./place.ts";

/** Sites kept in hand at each stop beside the chosen one. */
const SPARES = 2;

export interface Settled {
  readonly stay: Stay;
  /** The chosen site first, then the next-best; empty off the grid and where no site is free. */
  readonly targets: readonly PackTarget[];
}

/** Chooses the sites of every stop. Pauses after each fit. */
export function* settleStops(fitter: Fitter, stays: readonly Stay[]): Generator<void, readonly Settled[]> {
  const settled: Settled[] = [];
  for (const [stop, stay] of stays.entries()) {
    if (stay.kind === "off-grid") {
      settled.push({ stay, targets: [] });
      continue;
    }
    const { place, needs } = stay;
    const ranked: readonly CampgroundFeature[] =
      stay.kind === "site"
        ? [stay.site, ...(yield* rankPlaces(fitter, place, stay.others, needs))]
        : yield* rankPlaces(fitter, place, stay.free, needs);
    const targets = ranked
      .slice(0, 1 + SPARES)
      .map((feature, index) => ({ stop, place, feature, needs, chosen: index === 0 }));
    settled.push({ stay, targets });
  }
  return settled;
}

/** Whether a stop or a trip works; `no` and `unknown` have a blocking check. */
export type Works = "yes" | "tight" | "unknown" | "no";
const WORKS_ORDER: readonly Works[] = ["no", "unknown", "tight", "yes"];

export const worksOf = (fit: Fit): Works => {
  const level = levelOf(fit.verdict);
  return level >= WORKS ? "yes" : (WORKS_ORDER[level] ?? "no");
};

/** Larger is better. */
export const worksRank = (works: Works): number => WORKS_ORDER.indexOf(works);

export const worstOf = (all: readonly Works[]): Works =>
  all.reduce<Works>((worst, next) => (worksRank(next) < worksRank(worst) ? next : worst), "yes");

/** The check that keeps a stop from working, with its numbers. */
export interface Blocking {
  /** Index of the stop. */
  readonly stop: number;
  readonly site: string | null;
  /** Id of the check; `site.free` when no site is free. */
  readonly check: string;
  readonly value: number | null;
  readonly limit: number | null;
  readonly margin: number | null;
  readonly unit: Check["unit"];
  readonly why: string;
}

/** Null when the fit works. */
export function blockingOf(stop: number, fit: Fit): Blocking | null {
  if (worksOf(fit) === "yes") return null;
  const status = PRECEDENCE.find(({ verdict }) => verdict === fit.verdict)?.status;
  const check = fit.checks.find((one) => one.deciding && one.status === status);
  if (check === undefined) return null;
  const { id, value, limit, margin, unit, why } = check;
  return { stop, site: fit.site.name, check: id, value, limit, margin, unit, why };
}

export function noFreeSite(stop: number, stay: Stay): Blocking {
  const taken = stay.kind === "campground" ? stay.taken : 0;
  const why = taken === 0 ? "No site is on offer." : `No site is free: ${taken} are taken on these dates.`;
  const none = { value: 0, limit: 1, margin: -1, unit: null };
  return { stop, site: null, check: "site.free", ...none, why: `${stay.name}: ${why}` };
}
