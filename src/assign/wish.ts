/** Words by which a stay says what its site must be, or would better be. */
import type { CompletedSite, Known } from "../site/completed.ts";

const LARGE_SUPPLY = 50;

/** Largest working receptacle of a site, amperes; null when none is on record with its amperes. */
export function largestAmps(site: CompletedSite): number | null {
  const amps = site.hookups
    .flatMap(({ receptacles }) => receptacles)
    .flatMap((one) => (one.state === "failed" || one.amps === null ? [] : [one.amps]));
  return amps.length === 0 ? null : Math.max(...amps);
}

/**
 * Whether a site answers to a word; unknown when its record does not say. Words with a meaning of their own are those
 * below; any other is looked for in the site's id and at the front of its name.
 */
export function meetsWord(site: CompletedSite, word: string): Known {
  const yes = (is: boolean): Known => (is ? "yes" : "no");
  switch (word) {
    case "pull-through":
    case "back-in":
    case "parallel":
      return site.layout === null ? "unknown" : yes(site.layout === word);
    case "power":
    case "water":
    case "sewer":
    case "cable":
      return site.services[word];
    case "50-amp": {
      const amps = largestAmps(site);
      if (amps !== null) return yes(amps >= LARGE_SUPPLY);
      return site.services.power === "no" ? "no" : "unknown";
    }
    case "shade":
      return site.shade === null ? "unknown" : yes(site.shade !== "none");
    case "accessible":
      return site.accessible;
    case "patio":
      return site.patio === null ? "unknown" : "yes";
    default: {
      const wanted = word.toLowerCase();
      return yes(site.id.toLowerCase() === wanted || site.name.toLowerCase().startsWith(wanted));
    }
  }
}
