/** The places of a trip, once their records are read: what `planTrip` and `planDesk` take. */

import type { Need } from "../fit/answer.ts";
import type { ServiceName } from "../fit/options.ts";
import type { RigProfile } from "../rig/schema.ts";
import type { Around } from "../site/complete.ts";
import type { CompletedSite } from "../site/completed.ts";
import type { CampgroundFeature } from "../site/feature.ts";
import type { Campground } from "../site/schema.ts";
import type { Warning } from "../units/estimate.ts";
import type { Rose } from "../wind/rose.ts";
import type { LentThing } from "./request.ts";

/** A rig as its room read it. */
export interface TripRig {
  readonly profile: RigProfile;
  readonly warnings: readonly Warning[];
}

/** A campground with everything that its record holds; one object each, so that its sites are completed once. */
export interface TripCampground {
  /** Null for a site that came without a campground. */
  readonly id: string | null;
  readonly name: string | null;
  readonly campground: Campground | null;
  /** All features, for wind, dump stations and fill taps. */
  readonly features: readonly CampgroundFeature[];
  readonly around: Around | readonly CampgroundFeature[];
  /** Version of the stored record; null for one that was sent. */
  readonly version: string | null;
}

interface StayBase {
  readonly name: string;
  /** Local dates. */
  readonly arrive: string;
  readonly leave: string;
  readonly nights: number;
  readonly lends: readonly LentThing[];
  readonly needs: Partial<Readonly<Record<ServiceName, Need>>>;
  readonly temperature: { readonly low: number; readonly high: number } | null;
}

/** A stay at a named site; the next-best ones are looked for among `others`. */
export interface SiteStay extends StayBase {
  readonly kind: "site";
  readonly place: TripCampground;
  readonly site: CampgroundFeature;
  readonly others: readonly CampgroundFeature[];
}

/** A stay at the best of the sites that are free. */
export interface CampgroundStay extends StayBase {
  readonly kind: "campground";
  readonly place: TripCampground;
  readonly free: readonly CampgroundFeature[];
  readonly taken: number;
}

export interface OffGridStay extends StayBase {
  readonly kind: "off-grid";
}

export type Stay = SiteStay | CampgroundStay | OffGridStay;

/** How a site lies to the wind; null when its place on the earth is not known. */
export type RoseOf = (site: CompletedSite, features: readonly CampgroundFeature[]) => Rose | null;

/**
 * Port: ids of the sites of a campground that are not free from `arrive` to `leave` (local dates). Whoever keeps the
 * stays of a campground fills it.
 */
export type TakenSites = (campground: string, arrive: string, leave: string) => Promise<readonly string[]>;
