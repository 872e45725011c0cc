/** Collection `obstacles`: what stands about a campground, mapped on the earth or drawn in the pad frame of a site. */
import type { StoredCampground } from "../../../records/store.ts";
import { type CampgroundFeature, featureId, type WireGeometry } from "../../../site/feature.ts";
import { obstacle } from "../../../site/schema/surroundings.ts";
import type { SiteProperties } from "../../../site/schema.ts";
import { type Column, measure, RECORD_COLUMN, word } from "../columns.ts";
import { joinId, type OgcFeature } from "./feature.ts";
import { type PlacedSite, placedSites } from "./placed-sites.ts";

export const OBSTACLE_COLUMNS: readonly Column[] = [
  word("campground", "Id of the campground."),
  word("site", "Id of the site in whose record it stands; null when it is mapped for the whole campground."),
  word("obstacle", "Its id, or its number in the list that it stands in."),
  word("what", "What it is: tree, post, table, wall, branch, roof, walkway, …"),
  measure("from", "m", "Lower end above the ground."),
  measure("to", "m", "Upper end above the ground; null when unknown."),
  measure("radius", "m", "Radius round the point of the geometry."),
  measure("width", "m", "Width across the line of the geometry."),
  word("basis", "How its place was come by.", ["measured", "mapped", "gps", "described", "code", "assumed"]),
  measure("accuracy", "m", "Standard deviation of its place on each axis, as recorded."),
  RECORD_COLUMN,
];

export function obstacleFeatures(stored: StoredCampground): OgcFeature[] {
  const campground = stored.summary.id;
  const mapped = stored.features.filter(({ properties }) => properties["kind"] === "obstacle");
  return [
    ...mapped.map((feature, index) => mappedObstacle(campground, feature, index)),
    ...placedSites(stored).flatMap((placed) => ownObstacles(campground, placed)),
  ];
}

/** One without an id is called by its number: that name holds as long as the record does. */
function mappedObstacle(campground: string, feature: CampgroundFeature, index: number): OgcFeature {
  const own = featureId(feature);
  const parsed = obstacle.safeParse(feature.properties);
  return {
    id: own === null ? joinId(campground, "", numbered(index)) : joinId(campground, own),
    geometry: feature.geometry,
    properties: {
      ...columnsOf(parsed.success ? parsed.data : {}),
      campground,
      site: null,
      obstacle: own ?? numbered(index),
      record: feature.properties,
    },
  };
}

const numbered = (index: number): string => String(index + 1);

type Own = NonNullable<SiteProperties["obstacles"]>[number];

function ownObstacles(campground: string, placed: PlacedSite): OgcFeature[] {
  return (placed.expanded.obstacles ?? []).map((one, index) => {
    const id = one.id ?? numbered(index);
    return {
      id: joinId(campground, placed.id, id),
      geometry: ownGeometry(one, placed),
      properties: { ...columnsOf(one), campground, site: placed.id, obstacle: id, record: one },
    };
  });
}

function ownGeometry({ outline, at }: Own, { toEarth }: PlacedSite): WireGeometry | null {
  if (toEarth === null) return null;
  if (outline === undefined) return at === undefined ? null : { type: "Point", coordinates: toEarth(at) };
  const ring = outline.map(toEarth);
  const longitudes = ring.map(([longitude = 0]) => longitude);
  // An outline across the antimeridian would have to be cut; its place is in the record all the same.
  if (Math.max(...longitudes) - Math.min(...longitudes) > HALF_TURN) return null;
  // RFC 7946 section 3.1.6: the outer ring runs counter-clockwise, and its last position is its first.
  const turned = signedArea(ring) < 0 ? ring.reverse() : ring;
  return { type: "Polygon", coordinates: [[...turned, turned[0] ?? []]] };
}

const HALF_TURN = 180;

function signedArea(ring: readonly (readonly number[])[]): number {
  return ring.reduce((sum, [x = 0, y = 0], index) => {
    const [nextX = 0, nextY = 0] = ring[(index + 1) % ring.length] ?? [];
    return sum + x * nextY - nextX * y;
  }, 0);
}

function columnsOf(properties: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> {
  const { what, from, to, radius, width, basis, accuracy } = properties;
  return {
    what: what ?? null,
    from: from ?? 0,
    to: to ?? null,
    radius: radius ?? null,
    width: width ?? null,
    basis: basis ?? null,
    accuracy: accuracy ?? null,
  };
}
