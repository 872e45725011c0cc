/** What stands round the sites of a campground, made ready for the wind once and kept for all of them. */
import { padFrame } from "../geo/pad-frame.ts";
import type { CompletedSite } from "../site/completed.ts";
import type { CampgroundFeature } from "../site/feature.ts";
import { exposureRose, type Rose } from "../wind/rose.ts";
import { compileSurroundings, type Surroundings } from "../wind/surroundings.ts";
import { boxOf, placeOf } from "./place.ts";

/** A weak store: it saves time only, no answer depends on it. */
const compiled = new WeakMap<readonly CampgroundFeature[], Surroundings | null>();

function surroundingsOf(features: readonly CampgroundFeature[]): Surroundings | null {
  const known = compiled.get(features);
  if (known !== undefined) return known;
  const box = boxOf(features.flatMap((feature) => placeOf(feature) ?? []));
  const made =
    box === null
      ? null
      : compileSurroundings(features, { longitude: (box[0] + box[2]) / 2, latitude: (box[1] + box[3]) / 2 });
  compiled.set(features, made);
  return made;
}

/** The exposure rose at the middle of a site's pad; null when the pad's place on the earth is not on record. */
export function roseOf(site: CompletedSite, features: readonly CampgroundFeature[]): Rose | null {
  const { origin, heading, length } = site.pad;
  const surroundings = surroundingsOf(features);
  if (origin === null || surroundings === null) return null;
  const middle =
    heading === null || length === null
      ? origin
      : padFrame(origin, heading.value).toLonLat({ along: length.value / 2, left: 0 });
  return exposureRose(surroundings, middle);
}
