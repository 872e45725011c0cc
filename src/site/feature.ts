/** A GeoJSON feature as it is kept: cleaned, but with its members in the wire form and unknown members in place. */

/** [longitude, latitude, …], degrees. */
export type WirePosition = readonly number[];

export type WireGeometry =
  | { readonly type: "Point"; readonly coordinates: WirePosition }
  | { readonly type: "MultiPoint" | "LineString"; readonly coordinates: readonly WirePosition[] }
  | { readonly type: "MultiLineString" | "Polygon"; readonly coordinates: readonly (readonly WirePosition[])[] }
  | { readonly type: "MultiPolygon"; readonly coordinates: readonly (readonly (readonly WirePosition[])[])[] }
  | { readonly type: "GeometryCollection"; readonly geometries: readonly WireGeometry[] };

export interface CampgroundFeature {
  readonly type: "Feature";
  readonly id?: string | number;
  readonly geometry: WireGeometry | null;
  readonly properties: Readonly<Record<string, unknown>>;
}

/** The id of a feature: its own, or else that in its properties; null when it has none. */
export function featureId(feature: CampgroundFeature): string | null {
  const own = feature.id ?? feature.properties["id"] ?? feature.properties["name"];
  return typeof own === "string" || typeof own === "number" ? String(own) : null;
}
