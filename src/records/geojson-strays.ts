/** Warns of features that lie far from the rest of their campground: most often a swapped or mistyped position. */
import { lonLat, roughDistance } from "../geo/longitude-latitude.ts";
import type { LonLat } from "../geo/tangent-plane.ts";
import type { CampgroundFeature, WireGeometry } from "../site/feature.ts";
import type { Findings } from "./geojson-report.ts";

/** Metres from the middle of the campground beyond which a feature is asked about: no campground is that wide. */
const FARTHEST_FEATURE = 20_000;
/** Fewer features have no middle to be far from. */
const FEWEST_FEATURES = 3;
const METRES_PER_KILOMETRE = 1000;
const MOST_LATITUDE = 90;

export function warnOfStrays(
  kept: readonly { readonly index: number; readonly feature: CampgroundFeature }[],
  findings: Findings,
): void {
  const placed = kept.flatMap(({ index, feature }) => {
    const place = firstPosition(feature.geometry);
    return place === null ? [] : [{ index, place }];
  });
  if (placed.length < FEWEST_FEATURES) return;
  const middle: LonLat = {
    longitude: median(placed.map(({ place }) => place.longitude)),
    latitude: median(placed.map(({ place }) => place.latitude)),
  };
  for (const { index, place } of placed) {
    const distance = roughDistance(middle, place);
    if (distance <= FARTHEST_FEATURE) continue;
    const swapped = { longitude: place.latitude, latitude: place.longitude };
    const near = Math.abs(swapped.latitude) <= MOST_LATITUDE && roughDistance(middle, swapped) <= FARTHEST_FEATURE;
    const question = near ? "Are longitude and latitude swapped?" : "Is its position right?";
    const away = `${Math.round(distance / METRES_PER_KILOMETRE)} km`;
    findings.warn("implausible", `/features/${index}/geometry`, `It lies ${away} from the rest. ${question}`);
  }
}

function firstPosition(geometry: WireGeometry | null): LonLat | null {
  if (geometry === null) return null;
  let first: unknown = geometry.type === "GeometryCollection" ? null : geometry.coordinates;
  while (Array.isArray(first) && Array.isArray(first[0])) first = first[0];
  return Array.isArray(first) && first.length >= 2 ? lonLat(first as number[]) : null;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] as number;
}
