/** The sites of a campground in their pad frames, made ready once for all collections. */
import { type PadFrame, type PadPoint, padFrame } from "../../../geo/pad-frame.ts";
import { isSite, type StoredCampground } from "../../../records/store.ts";
import { compileAround, completeSite } from "../../../site/complete.ts";
import type { CompletedSite } from "../../../site/completed.ts";
import { type CampgroundFeature, featureId, type WirePosition } from "../../../site/feature.ts";
import { expandPattern } from "../../../site/patterns.ts";
import { type SiteProperties, siteProperties } from "../../../site/schema.ts";

export interface PlacedSite {
  readonly id: string;
  readonly feature: CampgroundFeature;
  readonly site: CompletedSite;
  /** The record with its pattern filled in. */
  readonly expanded: SiteProperties;
  /** A point of the pad on the earth; null when the pad's place or direction is not on record. */
  readonly toEarth: ((point: PadPoint) => WirePosition) | null;
}

/** About a tenth of a millimetre on the earth. */
const DECIMALS = 9;

export function placedSites(stored: StoredCampground): readonly PlacedSite[] {
  const { campground } = stored;
  // What stands round a site is a matter of fits; the record of a site does not depend on it.
  const nothing = compileAround([], campground.patterns);
  return stored.features.filter(isSite).flatMap((feature) => {
    const id = featureId(feature);
    if (id === null) return [];
    const site = completeSite(feature, campground, nothing);
    const { site: expanded } = expandPattern(siteProperties.parse(feature.properties), campground.patterns, id);
    return [{ id, feature, site, expanded, toEarth: toEarthOf(site) }];
  });
}

/** Lengths of the pad frame lie on the surface: on the level they are shorter. */
function toEarthOf({ pad }: CompletedSite): PlacedSite["toEarth"] {
  const { origin, heading, grade, crossfall } = pad;
  if (origin === null || heading === null) return null;
  const frame: PadFrame = padFrame(origin, heading.value);
  const [slope, across] = [Math.hypot(1, grade?.value ?? 0), Math.hypot(1, crossfall?.value ?? 0)];
  return ({ along, left }) => {
    const { longitude, latitude } = frame.toLonLat({ along: along / slope, left: left / across });
    return [rounded(longitude), rounded(latitude)];
  };
}

export const rounded = (degrees: number): number => Number(degrees.toFixed(DECIMALS));
