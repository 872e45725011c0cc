/** The collections of the geodata interface, and the features of one campground in each of them. */
import type { StoredCampground } from "../../records/store.ts";
import type { Column } from "./columns.ts";
import { CAMPGROUND_COLUMNS, campgroundFeatures } from "./features/campgrounds.ts";
import type { OgcFeature } from "./features/feature.ts";
import { HOOKUP_COLUMNS, hookupFeatures } from "./features/hookups.ts";
import { OBSTACLE_COLUMNS, obstacleFeatures } from "./features/obstacles.ts";
import { SITE_COLUMNS, siteFeatures } from "./features/sites.ts";

export interface Collection {
  readonly id: string;
  readonly title: string;
  readonly description: string;
  readonly columns: readonly Column[];
  readonly featuresOf: (stored: StoredCampground) => OgcFeature[];
}

export const COLLECTIONS: readonly Collection[] = [
  {
    id: "campgrounds",
    title: "Campgrounds",
    description: "One point for each campground, in the middle of what is on record of it; no boundary.",
    columns: CAMPGROUND_COLUMNS,
    featuresOf: campgroundFeatures,
  },
  {
    id: "sites",
    title: "Sites",
    description:
      "Pads: the outline on record, or only a centre, or no geometry where a site was measured by tape alone. A centre is no origin that a line could be measured from.",
    columns: SITE_COLUMNS,
    featuresOf: siteFeatures,
  },
  {
    id: "hookups",
    title: "Hookups",
    description:
      "Pedestals, taps and sewer inlets. Those whose place is known only as a region, or whose pad has no place on the earth, have no geometry.",
    columns: HOOKUP_COLUMNS,
    featuresOf: hookupFeatures,
  },
  {
    id: "obstacles",
    title: "Obstacles",
    description: "What stands about: trees, tables, posts, walls, walkways. Points have a radius, lines a width.",
    columns: OBSTACLE_COLUMNS,
    featuresOf: obstacleFeatures,
  },
];

export const COLLECTION_IDS: readonly string[] = COLLECTIONS.map(({ id }) => id);

export const collectionOf = (id: string): Collection | null => COLLECTIONS.find((one) => one.id === id) ?? null;

/** A weak store: it saves time only. */
const made = new WeakMap<StoredCampground, Map<Collection, readonly OgcFeature[]>>();

/** The features of one campground in the order of their ids, each id once. */
export function featuresIn(collection: Collection, stored: StoredCampground): readonly OgcFeature[] {
  const here = made.get(stored) ?? new Map<Collection, readonly OgcFeature[]>();
  made.set(stored, here);
  const known = here.get(collection) ?? withOwnIds(collection.featuresOf(stored)).sort(byId);
  here.set(collection, known);
  return known;
}

/** In the order of code units, as cursors compare ids. */
const byId = (a: OgcFeature, b: OgcFeature): number => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);

/** A list in a record may give an id twice: what comes later is told apart by its number. */
function withOwnIds(features: readonly OgcFeature[]): OgcFeature[] {
  const seen = new Map<string, number>();
  return features.map((feature) => {
    const count = (seen.get(feature.id) ?? 0) + 1;
    seen.set(feature.id, count);
    return count === 1 ? feature : { ...feature, id: `${feature.id}::${count}` };
  });
}
