/** What stands round the sites of a campground, made ready for the wind once and kept for all of them. */
import { padFrame } from "../geo/pad-frame.ts";
import type { CompletedSite } from "../site/completed.ts";
import type { CampgroundFeature } from "../site/feature.ts";
import { exposureRose, type Rose, type RoseOptions, roseKey } from "../wind/rose.ts";
import { type Hemisphere, leafSeason } from "../wind/season.ts";
import { compileSurroundings, type Surroundings } from "../wind/surroundings.ts";
import { boxOf, placeOf } from "./place.ts";

interface Compiled {
  readonly surroundings: Surroundings;
  /** Roses by their key. */
  readonly roses: Map<string, Rose>;
}

/** Roses kept for one campground. */
const MOST_ROSES = 2000;
/** A weak store: it saves time only, no answer depends on it. */
const compiled = new WeakMap<readonly CampgroundFeature[], Compiled | null>();

function compiledOf(features: readonly CampgroundFeature[]): Compiled | null {
  const known = compiled.get(features);
  if (known !== undefined) return known;
  const box = boxOf(features.flatMap((feature) => placeOf(feature) ?? []));
  const made =
    box === null
      ? null
      : {
          surroundings: compileSurroundings(features, {
            longitude: (box[0] + box[2]) / 2,
            latitude: (box[1] + box[3]) / 2,
          }),
          roses: new Map<string, Rose>(),
        };
  compiled.set(features, made);
  return made;
}

export interface RoseQuery {
  /** Middle of the open awning above the ground, metres; left out, the usual one. */
  readonly height?: number;
  /** First and last day, YYYY-MM-DD: trees count as in leaf only when they are on both. */
  readonly days?: readonly [from: string, to: string];
}

/** The exposure rose at the middle of a site's pad; null when the pad's place on the earth is not on record. */
export function roseOf(
  site: CompletedSite,
  features: readonly CampgroundFeature[],
  query: RoseQuery = {},
): Rose | null {
  const { origin, heading, length } = site.pad;
  const ready = compiledOf(features);
  if (origin === null || ready === null) return null;
  const middle =
    heading === null || length === null
      ? origin
      : padFrame(origin, heading.value).toLonLat({ along: length.value / 2, left: 0 });
  const options = roseOptions(query, origin.latitude < 0 ? "south" : "north");
  const { surroundings, roses } = ready;
  const key = roseKey(surroundings, surroundings.plane.toPlane(middle), options);
  const kept = roses.get(key);
  if (kept !== undefined) return kept;
  const rose = exposureRose(surroundings, middle, options);
  if (roses.size >= MOST_ROSES) roses.clear();
  roses.set(key, rose);
  return rose;
}

function roseOptions({ height, days }: RoseQuery, hemisphere: Hemisphere): RoseOptions {
  const tall = height === undefined ? {} : { height };
  if (days === undefined) return tall;
  const bare = days.find((day) => leafSeason(day, hemisphere) === "off");
  return { ...tall, hemisphere, date: bare ?? days[0] };
}
