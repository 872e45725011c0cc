/** One rig against many sites: a summary each, ranked. */
import type { CompletedRig } from "../rig/completed.ts";
import type { CompletedSite } from "../site/completed.ts";
import type { Rose } from "../wind/rose.ts";
import type { Fit } from "./answer.ts";
import { fitRig } from "./fit.ts";
import type { FitOptions } from "./options.ts";
import { verdictRank } from "./verdict.ts";

export interface Ranked {
  readonly site: CompletedSite;
  readonly fit: Fit;
}

/** Wanted lines that are served, for the order of sites with one verdict. */
function served(fit: Fit): number {
  return fit.lines.filter((line) => line.verdict === "reaches").length;
}

/** Order of a list of answers: verdict, then lines served, then the best margin, then the name. */
export function compareFits(a: Fit, b: Fit): number {
  return (
    verdictRank(b.verdict) - verdictRank(a.verdict) ||
    served(b) - served(a) ||
    (b.bestMargin ?? Number.NEGATIVE_INFINITY) - (a.bestMargin ?? Number.NEGATIVE_INFINITY) ||
    a.site.name.localeCompare(b.site.name, "en", { numeric: true })
  );
}

/**
 * Fits the rig at every site and ranks. `progress` hears the number done after each site; it may be used to show a
 * bar and has no other effect. `roseOf` gives how a site lies to the wind.
 */
export function rankSites(
  rig: CompletedRig,
  sites: readonly CompletedSite[],
  options: FitOptions,
  progress?: (done: number) => void,
  roseOf?: (site: CompletedSite) => Rose | null,
): Ranked[] {
  const summary: FitOptions = { ...options, detail: "summary" };
  const ranked = sites.map((site, index) => {
    const fit = fitRig({ rig, site, options: summary, rose: roseOf?.(site) ?? null });
    progress?.(index + 1);
    return { site, fit };
  });
  return ranked.sort((a, b) => compareFits(a.fit, b.fit));
}
