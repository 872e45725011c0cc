/**
 * What was measured on this device and is used in its answers: site records by campground, laid over the campground's
 * own record each time it is opened. The record itself stays as it came.
 */
import { type CampgroundFeature, featureId } from "../../site/feature.ts";
import { withRecord } from "./overlay.ts";
import { MEASURED_KEY, type Shelf, shelfHere } from "./shelf.ts";

type Measured = Readonly<Record<string, Readonly<Record<string, CampgroundFeature>>>>;

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

function readAll(shelf: Shelf | null): Measured {
  try {
    const read: unknown = JSON.parse(shelf?.getItem(MEASURED_KEY) ?? "{}");
    return isObject(read) ? (read as Measured) : {};
  } catch {
    return {};
  }
}

export const isMeasured = (campground: string, site: string, shelf = shelfHere()): boolean =>
  measuredOf(campground, site, shelf) !== null;

/** What was measured of a site on this device; null when nothing was. */
export function measuredOf(campground: string, site: string, shelf = shelfHere()): CampgroundFeature | null {
  return readAll(shelf)[campground]?.[site] ?? null;
}

/** Keeps a measured site, or with null lets it go. False when the device does not keep anything. */
export function keepMeasured(
  campground: string,
  site: string,
  feature: CampgroundFeature | null,
  shelf = shelfHere(),
): boolean {
  const all = readAll(shelf);
  const { [site]: _, ...others } = all[campground] ?? {};
  const sites = feature === null ? others : { ...others, [site]: feature };
  try {
    shelf?.setItem(MEASURED_KEY, JSON.stringify({ ...all, [campground]: sites }));
    return shelf !== null;
  } catch {
    return false;
  }
}

/** The text of a campground with the measured sites laid over; the same text where there are none. */
export function withMeasured(text: string, shelf = shelfHere()): string {
  const all = readAll(shelf);
  if (Object.values(all).every((sites) => Object.keys(sites).length === 0)) return text;
  let collection: unknown;
  try {
    collection = JSON.parse(text);
  } catch {
    return text;
  }
  if (!isObject(collection) || !isObject(collection["campground"]) || !Array.isArray(collection["features"]))
    return text;
  const sites = all[String(collection["campground"]["id"])];
  if (sites === undefined || Object.keys(sites).length === 0) return text;
  const features = collection["features"].map((feature: unknown) => {
    if (!isObject(feature) || !isObject(feature["properties"])) return feature;
    const id = featureId(feature as unknown as CampgroundFeature);
    const own = id !== null && Object.hasOwn(sites, id) ? sites[id] : undefined;
    return own === undefined || feature["properties"]["kind"] !== "site"
      ? feature
      : withRecord(feature as unknown as CampgroundFeature, own);
  });
  return JSON.stringify({ ...collection, features });
}
