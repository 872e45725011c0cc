/**
 * Pages of a collection over any number of campgrounds. A page begins after an id and not after a count, so that
 * records which come, change or go while somebody pages neither hide nor repeat the others.
 */
import type { Box } from "../../records/place.ts";
import type { CampgroundStore, CampgroundSummary } from "../../records/store.ts";
import type { Limits } from "../limits.ts";
import { type Collection, featuresIn } from "./collections.ts";
import type { OgcFeature } from "./features/feature.ts";
import { meetsBox } from "./meets-box.ts";
import type { ItemsQuery, Place, PropertyFilter } from "./query.ts";

export interface Scanned {
  readonly features: readonly OgcFeature[];
  /** Where the pages before and after begin; null when there is none. */
  readonly before: Place | null;
  readonly after: Place | null;
}

/** Boxes of campgrounds hold the middles of what is on record: outlines may stand out by so much, degrees. */
const STANDS_OUT = 0.05;

export async function scan(
  store: CampgroundStore,
  collection: Collection,
  query: ItemsQuery,
  limits: Limits,
): Promise<Scanned> {
  const { from, backwards, limit } = query;
  const ids = (await campgroundsFor(store, query.box, limits)).map(({ id }) => id).sort(byCodeUnit);
  const left = ids.filter((id) => from === null || (backwards ? isBefore(id, from) : id >= from.campground));
  if (backwards) left.reverse();
  const found: { readonly campground: string; readonly feature: OgcFeature }[] = [];
  let stop: Place | null = null;
  let read = 0;
  for (const campground of left) {
    if (read === limits.campgroundsPerPage) {
      const last = left[read - 1] ?? campground;
      stop = backwards ? { campground: last, feature: null } : { campground, feature: null };
      break;
    }
    read += 1;
    const stored = await store.get(campground);
    const all = stored === null ? [] : featuresIn(collection, stored);
    const here = all.filter((feature) => isOnSide({ campground, feature: feature.id }, from, backwards));
    const matching = here.filter((feature) => matches(feature, query.box, query.filters));
    if (backwards) matching.reverse();
    // One more than the page tells whether there is another.
    found.push(...matching.slice(0, limit + 1 - found.length).map((feature) => ({ campground, feature })));
    if (found.length > limit) break;
  }
  const more = found.length > limit;
  const page = found.slice(0, limit);
  const last = page.at(-1);
  const onward = more && last !== undefined ? placeOf(last) : stop;
  if (backwards) page.reverse();
  const [first] = page;
  const back = from === null ? null : first === undefined ? from : placeOf(first);
  const end = page.at(-1);
  return {
    features: page.map(({ feature }) => feature),
    before: backwards ? onward : back,
    after: backwards ? (end === undefined ? from : placeOf(end)) : onward,
  };
}

const placeOf = ({ campground, feature }: { campground: string; feature: OgcFeature }): Place => ({
  campground,
  feature: feature.id,
});

const byCodeUnit = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Whether a campground may hold features before a place. */
function isBefore(id: string, place: Place): boolean {
  return id < place.campground || (id === place.campground && place.feature !== null);
}

function isOnSide(place: { campground: string; feature: string }, from: Place | null, backwards: boolean): boolean {
  if (from === null || place.campground !== from.campground) return true;
  if (from.feature === null) return !backwards;
  return backwards ? place.feature < from.feature : place.feature > from.feature;
}

/**
 * Whether a box is held against every record. Over a large catalogue it is held against those that come near: a feature
 * without geometry, which should match any box, then does so only near its campground.
 */
export async function readsEveryRecord(store: CampgroundStore, limits: Limits): Promise<boolean> {
  return store.meeting === undefined || (await store.list()).length <= limits.campgroundsCounted;
}

/** All of them, or over a large catalogue those whose box comes near and those without one. */
async function campgroundsFor(
  store: CampgroundStore,
  box: Box | null,
  limits: Limits,
): Promise<readonly CampgroundSummary[]> {
  if (box === null || store.meeting === undefined || (await readsEveryRecord(store, limits))) return store.list();
  const near = await store.meeting({ box: widened(box) });
  const placeless = (await store.list()).filter((summary) => summary.box === null);
  return [...near, ...placeless];
}

const TURN = 360;
const HALF_TURN = 180;
const NORTH = 90;

export function widened([west, south, east, north]: Box): Box {
  const [low, high] = [Math.max(-NORTH, south - STANDS_OUT), Math.min(NORTH, north + STANDS_OUT)];
  // Meridians come together towards the poles, where the same metres are more degrees.
  const cosine = Math.cos((Math.max(Math.abs(low), Math.abs(high)) * Math.PI) / HALF_TURN);
  const aside = Math.min(HALF_TURN, STANDS_OUT / Math.max(cosine, Number.EPSILON));
  const width = east - west + (east < west ? TURN : 0);
  if (width + 2 * aside >= TURN) return [-HALF_TURN, low, HALF_TURN, high];
  return [wrapped(west - aside), low, wrapped(east + aside), high];
}

function wrapped(longitude: number): number {
  if (longitude < -HALF_TURN) return longitude + TURN;
  return longitude > HALF_TURN ? longitude - TURN : longitude;
}

/** A feature without geometry matches every box (requirement /req/core/fc-bbox-response). */
export function matches(feature: OgcFeature, box: Box | null, filters: readonly PropertyFilter[]): boolean {
  if (box !== null && feature.geometry !== null && !meetsBox(feature.geometry, box)) return false;
  return filters.every(({ name, value }) => feature.properties[name] === value);
}

/** How many features match in all; null where counting would mean to read a whole catalogue. */
export async function countMatches(
  store: CampgroundStore,
  collection: Collection,
  query: ItemsQuery,
  limits: Limits,
): Promise<number | null> {
  const all = await campgroundsFor(store, query.box, limits);
  const whole = query.box === null && query.filters.length === 0;
  if (whole && collection.id === "campgrounds") return all.length;
  if (whole && collection.id === "sites") return all.reduce((sum, { sites }) => sum + sites, 0);
  if (all.length > limits.campgroundsCounted) return null;
  let count = 0;
  for (const { id } of all) {
    const stored = await store.get(id);
    if (stored === null) continue;
    count += featuresIn(collection, stored).filter((one) => matches(one, query.box, query.filters)).length;
  }
  return count;
}
