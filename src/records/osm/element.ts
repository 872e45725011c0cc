/** An element of open map data as every reader gives it, whatever form it came in. */
export type ElementType = "node" | "way" | "relation";
export type Position = readonly [longitude: number, latitude: number];
export type Tags = ReadonlyMap<string, string>;

/** What an element's shape can be; a closed way is a line until its tags say that it is an area. */
export type OsmGeometry =
  | { readonly type: "Point"; readonly coordinates: readonly number[] }
  | { readonly type: "LineString"; readonly coordinates: readonly (readonly number[])[] }
  | { readonly type: "Polygon"; readonly coordinates: readonly (readonly (readonly number[])[])[] }
  | { readonly type: "MultiPolygon"; readonly coordinates: readonly (readonly (readonly (readonly number[])[])[])[] };

export interface OsmElement {
  /** `node/12`, `way/-3`, `relation/7`; what a warning calls it. */
  readonly key: string;
  readonly type: ElementType;
  readonly tags: Tags;
  /** Null when no place can be told. */
  readonly geometry: OsmGeometry | null;
  /** The tags as they came, and the keys of those that older practice had and others stand for; none when all stand. */
  readonly replaced?: { readonly original: Tags; readonly keys: readonly string[] };
  /** True when only a middle was delivered in place of the shape, or parts of the shape are missing. */
  readonly partial: boolean;
}

export interface OsmSource {
  readonly format: OsmFormat;
  /** Elements read, by type; nodes that only carry ways are counted too. */
  readonly nodes: number;
  readonly ways: number;
  readonly relations: number;
  /** True when the text says that it is OpenStreetMap's own data. */
  readonly isOpenStreetMap: boolean;
  /** Date of the data, as the text gives it. */
  readonly dataAsOf: string | null;
  readonly elements: readonly OsmElement[];
}

export type OsmFormat = "xml" | "overpass" | "geojson";

/** An id that may be part of an address: `node-12`. */
export function idOf(key: string): string {
  return key.replace("/", "-");
}

/** The shape as an area; null when it has none. A closed line is one. */
export function asArea({ geometry, partial }: OsmElement): OsmGeometry | null {
  if (geometry === null || partial || geometry.type === "Point") return null;
  if (geometry.type !== "LineString") return geometry;
  const { coordinates } = geometry;
  return isClosed(coordinates) ? { type: "Polygon", coordinates: [coordinates] } : null;
}

/** The shape as a line: of an area the outer edge of its first part. */
export function asLine({ geometry }: OsmElement): OsmGeometry | null {
  if (geometry === null || geometry.type === "Point") return null;
  if (geometry.type === "LineString") return geometry;
  const outline = geometry.type === "Polygon" ? geometry.coordinates[0] : geometry.coordinates[0]?.[0];
  return outline === undefined ? null : { type: "LineString", coordinates: outline };
}

const FEWEST_RING_POSITIONS = 4;

export function isClosed(line: readonly (readonly number[])[]): boolean {
  const first = line[0];
  const last = line.at(-1);
  if (first === undefined || last === undefined || line.length < FEWEST_RING_POSITIONS) return false;
  return first[0] === last[0] && first[1] === last[1];
}

/** Every position of a shape. */
export function positionsOf(geometry: OsmGeometry): readonly (readonly number[])[] {
  switch (geometry.type) {
    case "Point":
      return [geometry.coordinates];
    case "LineString":
      return geometry.coordinates;
    case "Polygon":
      return geometry.coordinates.flat();
    case "MultiPolygon":
      return geometry.coordinates.flat(2);
  }
}
