/** What list and map show of a campground's features, from the record and its completion. */
import type { CompletedSite } from "../../site/completed.ts";
import type { CampgroundFeature, WireGeometry, WirePosition } from "../../site/feature.ts";
import { readQuantity } from "../../units/schema.ts";
import type { LonLat, MapThing, SiteCard } from "./protocol.ts";

const lonLat = (position: WirePosition): LonLat => [position[0] ?? 0, position[1] ?? 0];

function ringOf(geometry: WireGeometry | null): readonly LonLat[] | null {
  if (geometry?.type === "Polygon") return geometry.coordinates[0]?.map(lonLat) ?? null;
  if (geometry?.type === "MultiPolygon") return geometry.coordinates[0]?.[0]?.map(lonLat) ?? null;
  return null;
}

/** Middle of a closed ring's corners. */
function middle(ring: readonly LonLat[]): LonLat {
  const corners = ring.slice(0, -1);
  const sum = corners.reduce((all, [lon, lat]) => [all[0] + lon, all[1] + lat] as const, [0, 0] as LonLat);
  return [sum[0] / corners.length, sum[1] / corners.length];
}

function centreOf(geometry: WireGeometry | null, outline: readonly LonLat[] | null): LonLat | null {
  if (outline !== null && outline.length > 1) return middle(outline);
  return geometry?.type === "Point" ? lonLat(geometry.coordinates) : null;
}

export function siteCard(id: string, feature: CampgroundFeature, site: CompletedSite): SiteCard {
  const outline = ringOf(feature.geometry);
  const amps = site.hookups.flatMap((hookup) =>
    hookup.receptacles.flatMap(({ amps: one }) => (one === null ? [] : [one])),
  );
  return {
    id,
    name: site.name,
    layout: site.layout,
    length: site.pad.length?.value ?? null,
    width: site.pad.width?.value ?? null,
    services: site.services,
    amps: [...new Set(amps)].sort((a, b) => b - a),
    accessible: site.accessible,
    shade: site.shade,
    closed: site.closed,
    outline,
    centre: centreOf(feature.geometry, outline),
  };
}

/** Metres of a recorded length; null when it is missing. */
function metres(written: unknown): number | null {
  if (written === undefined) return null;
  const read = readQuantity("length", written);
  return "value" in read ? read.value : null;
}

export function mapThings(features: readonly CampgroundFeature[]): MapThing[] {
  return features.flatMap(({ geometry, properties }) => {
    const { kind, what, name } = properties;
    if (geometry === null || typeof kind !== "string") return [];
    return [
      {
        kind,
        what: typeof what === "string" ? what : null,
        name: typeof name === "string" ? name : null,
        geometry,
        width: metres(properties["width"]),
        radius: metres(properties["radius"]),
      },
    ];
  });
}
