/** What the catalogue knows of a campground without reading its record: enough to leave it alone when it cannot serve. */
import { compileAround, completeSite } from "../../site/complete.ts";
import type { CompletedSite } from "../../site/completed.ts";
import type { Estimate } from "../../units/estimate.ts";
import type { Box } from "../place.ts";
import { isSite, type StoredCampground } from "../store.ts";

/**
 * The most that any site of a campground offers. Null is no bound: some site's record does not say, or says it so
 * loosely that nothing can be left out for it.
 */
export interface Envelope {
  /** Longest body that a pad takes with the overhang behind it, metres. */
  readonly longestPad: number | null;
  /** Highest rig that some site lets in, metres. */
  readonly highest: number | null;
  /** Receptacle types of all sites in the order of the alphabet; null when a site with power names none. */
  readonly receptacles: readonly string[] | null;
  /** False when every site's record says that it has no sewer. */
  readonly sewer: boolean;
  readonly power: boolean;
}

export interface CatalogueEntry {
  readonly id: string;
  readonly name: string;
  /** Name of the object that holds the record. */
  readonly object: string;
  readonly version: string;
  readonly sites: number;
  readonly brokenSites: number;
  /** Null for a campground of which nobody knows where it lies: found by its id only. */
  readonly box: Box | null;
  readonly envelope: Envelope;
}

/** Errors are allowed for to this many standard deviations. */
const SIGMAS = 4;

function high({ high: end, sigma, sigmaShared }: Estimate): number {
  return end + SIGMAS * Math.hypot(sigma, sigmaShared);
}

export function envelopeOf(stored: StoredCampground): Envelope {
  // What stands round a site takes nothing from what it offers at the most.
  const nothing = compileAround([], stored.campground.patterns);
  const sites = stored.features
    .filter(isSite)
    .map((feature) => completeSite(feature, stored.campground, nothing, { base: "/site" }));
  const named = sites.map(receptaclesOf);
  return {
    longestPad: most(sites.map(longestBody)),
    highest: most(sites.map(({ limits }) => (limits.height === null ? null : high(limits.height)))),
    receptacles: named.includes(null) ? null : [...new Set(named.flatMap((types) => types ?? []))].sort(),
    sewer: sites.some((site) => mayHave(site, "sewer")),
    power: sites.some((site) => mayHave(site, "power")),
  };
}

function most(values: readonly (number | null)[]): number | null {
  return values.reduce<number | null>(
    (greatest, value) => (value === null || greatest === null ? null : Math.max(greatest, value)),
    0,
  );
}

/** Null where the pad's length or how far a rear end may hang over is not on record. */
function longestBody({ pad }: CompletedSite): number | null {
  if (pad.length === null || pad.overhangRear === null) return null;
  return high(pad.length) + Math.max(0, high(pad.overhangRear));
}

function mayHave(site: CompletedSite, service: "power" | "sewer"): boolean {
  return site.services[service] !== "no" || site.hookups.some((hookup) => hookup.service === service);
}

/** Null for a site that may have power and of which some receptacle is not named. */
function receptaclesOf(site: CompletedSite): string[] | null {
  if (!mayHave(site, "power")) return [];
  const hookups = site.hookups.filter((hookup) => hookup.service === "power");
  if (hookups.length === 0 || hookups.some((hookup) => hookup.receptacles.length === 0)) return null;
  return hookups.flatMap((hookup) => hookup.receptacles.map((receptacle) => receptacle.type));
}
