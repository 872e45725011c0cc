/** Fits of one rig at many sites, each asked once: what ranking, kit and cards of a trip are made from. */

import type { Fit } from "../fit/answer.ts";
import { fitRig } from "../fit/fit.ts";
import type { FitOptions } from "../fit/options.ts";
import { compareFits } from "../fit/search.ts";
import { completeRig } from "../rig/complete.ts";
import type { CompletedRig, KitItem } from "../rig/completed.ts";
import { completeSite } from "../site/complete.ts";
import type { CompletedSite } from "../site/completed.ts";
import { type CampgroundFeature, featureId } from "../site/feature.ts";
import type { RoseOf, TripCampground, TripRig } from "./place.ts";

/** Completed sites, shared by all rigs of a fleet. */
export class SiteBook {
  private readonly known = new Map<CampgroundFeature, CompletedSite>();
  constructor(readonly roseOf: RoseOf | null) {}

  site(place: TripCampground, feature: CampgroundFeature): CompletedSite {
    const known = this.known.get(feature);
    if (known !== undefined) return known;
    const made = completeSite(feature, place.campground, place.around, { base: "/site" });
    this.known.set(feature, made);
    return made;
  }
}

/** How a site is fitted: with this kit and nothing else, or as the rig's record has it (null). */
export interface Asked {
  readonly kit: readonly KitItem[] | null;
  readonly detail: FitOptions["detail"];
  readonly needs: FitOptions["needs"];
}

const keyOf = ({ kit, detail, needs }: Asked): string =>
  JSON.stringify([
    detail,
    needs,
    kit?.map(({ item, plug, receptacle, rating, addsLength, gauge }) => [
      item,
      plug,
      receptacle,
      rating,
      addsLength,
      gauge,
    ]) ?? null,
  ]);

export class Fitter {
  /** Fits that were really solved. */
  solved = 0;
  private readonly rigs = new Map<TripCampground | null, CompletedRig>();
  private readonly fits = new Map<CampgroundFeature, Map<string, Fit>>();

  constructor(
    readonly rig: TripRig,
    readonly options: FitOptions,
    readonly book: SiteBook,
  ) {}

  /** The rig as it stands in a campground: side of the road and supply system fill gaps of its record. */
  rigAt(place: TripCampground | null): CompletedRig {
    const known = this.rigs.get(place);
    if (known !== undefined) return known;
    const { drivesOn, electricalSystem } = place?.campground ?? {};
    const made = completeRig(this.rig.profile, {
      ...(drivesOn === undefined ? {} : { drivesOn }),
      electricalSystem: electricalSystem ?? null,
      units: this.options.units,
      warnings: this.rig.warnings,
    });
    this.rigs.set(place, made);
    return made;
  }

  fit(place: TripCampground, feature: CampgroundFeature, asked: Asked): Fit {
    const key = keyOf(asked);
    const ofSite = this.fits.get(feature) ?? new Map<string, Fit>();
    this.fits.set(feature, ofSite);
    const known = ofSite.get(key);
    if (known !== undefined) return known;
    const base = this.rigAt(place);
    const rig = asked.kit === null ? base : { ...base, kit: asked.kit };
    const options: FitOptions = {
      ...this.options,
      detail: asked.detail,
      needs: { ...this.options.needs, ...asked.needs },
      kitPolicy: asked.kit === null ? this.options.kitPolicy : "aboard",
    };
    const site = this.book.site(place, feature);
    const rose = this.book.roseOf?.(site, place.features) ?? null;
    const made = { ...fitRig({ rig, site, options, rose }), dataVersion: place.version };
    this.solved += 1;
    ofSite.set(key, made);
    return made;
  }
}

const idOf = (feature: CampgroundFeature): string => featureId(feature) ?? "";

/** Sites by how well they suit the rig as its record has it, the best first. Pauses after each site. */
export function* rankPlaces(
  fitter: Fitter,
  place: TripCampground,
  features: readonly CampgroundFeature[],
  needs: Asked["needs"],
): Generator<void, readonly CampgroundFeature[]> {
  const ranked: { feature: CampgroundFeature; fit: Fit }[] = [];
  for (const feature of features) {
    ranked.push({ feature, fit: fitter.fit(place, feature, { kit: null, detail: "summary", needs }) });
    yield;
  }
  ranked.sort((a, b) => compareFits(a.fit, b.fit) || (idOf(a.feature) < idOf(b.feature) ? -1 : 1));
  return ranked.map(({ feature }) => feature);
}
