/** GeoJSON with OpenStreetMap's tags: in the properties, in a member `tags`, or in GDAL's text `other_tags`. */
import table from "../../../data/osm-tags.json" with { type: "json" };
import { readGeometry } from "../geojson-geometry.ts";
import { isPlainObject } from "../geojson-input.ts";
import { CAMPGROUND_LIMITS } from "../geojson-limits.ts";
import { checkReferenceSystem } from "../geojson-members.ts";
import { Findings } from "../geojson-report.ts";
import type { ElementType, OsmElement, OsmGeometry, OsmSource } from "./element.ts";
import { readHstore } from "./hstore.ts";
import { OSM_LIMITS } from "./limits.ts";
import { type OsmNotes, quoted } from "./notes.ts";
import { textTags } from "./overpass.ts";
import { putTag } from "./tags.ts";

const COLUMNS: ReadonlySet<string> = new Set([...table.columns.plain, ...table.columns.nested]);
const REFERENCE = /^(node|way|relation)\/(-?\d{1,19})$/;
const NUMBER = /^-?\d{1,19}$/;

type Properties = Readonly<Record<string, unknown>>;

export function readGeojson(value: Properties, notes: OsmNotes): OsmSource | null {
  const features = value["type"] === "Feature" ? [value] : value["features"];
  const document = new Findings(null, null, 1);
  if (!Array.isArray(features)) {
    notes.fail("not-osm", "features is missing or no array.", "a GeoJSON FeatureCollection", "/features");
    return null;
  }
  if (!checkReferenceSystem(value, "", document)) {
    const fault = document.refused[0];
    if (fault !== undefined) notes.fail(fault.code, fault.message, fault.expected, fault.path);
    return null;
  }
  if (features.length > OSM_LIMITS.elements) {
    const expected = `at most ${OSM_LIMITS.elements} features`;
    notes.fail("too-many-elements", `The document has ${features.length} features.`, expected, "/features");
    return null;
  }
  const hasWayColumn = features.some((feature) => "osm_way_id" in propertiesOf(feature));
  const budget = { left: CAMPGROUND_LIMITS.positions };
  const elements: OsmElement[] = [];
  const known = new Set<string>();
  let referenced = 0;
  features.forEach((feature: unknown, index) => {
    const read = readFeature(feature, index, hasWayColumn, budget, notes);
    if (read === null) return;
    if (known.has(read.element.key)) {
      notes.warn("duplicate-element", read.element.key, null, "It is there twice; the first stands.");
      return;
    }
    known.add(read.element.key);
    if (read.referenced) referenced += 1;
    elements.push(read.element);
  });
  const count = (type: ElementType): number => elements.filter((element) => element.type === type).length;
  return {
    format: "geojson",
    nodes: count("node"),
    ways: count("way"),
    relations: count("relation"),
    isOpenStreetMap: referenced > 0,
    dataAsOf: typeof value["timestamp"] === "string" ? value["timestamp"] : null,
    elements,
  };
}

function propertiesOf(feature: unknown): Properties {
  const properties = isPlainObject(feature) ? feature["properties"] : null;
  return isPlainObject(properties) ? properties : {};
}

function readFeature(
  feature: unknown,
  index: number,
  hasWayColumn: boolean,
  budget: { left: number },
  notes: OsmNotes,
): { readonly element: OsmElement; readonly referenced: boolean } | null {
  const path = `/features/${index}`;
  if (!isPlainObject(feature) || feature["type"] !== "Feature") {
    notes.warn("ignored-element", null, null, `The entry ${path} is no feature.`);
    return null;
  }
  const properties = propertiesOf(feature);
  const findings = new Findings(index, null, 1);
  const shape = readGeometry(feature["geometry"] ?? null, `${path}/geometry`, {
    limits: CAMPGROUND_LIMITS,
    findings,
    budget,
  });
  const { key, type, referenced } = keyOf(feature, properties, shape?.type ?? null, index, hasWayColumn);
  const fault = findings.refused[0];
  if (fault !== undefined) {
    const code = fault.code === "out-of-range" || fault.code === "swapped-axes" ? "bad-position" : "bad-geometry";
    notes.warn(code, key, null, `${fault.message} (${fault.path})`);
  }
  const tags = tagsOf(properties, key, notes);
  if (tags.size === 0) return null;
  return { element: { key, type, tags, geometry: plainShape(shape, key, notes), partial: false }, referenced };
}

function plainShape(shape: ReturnType<typeof readGeometry>, key: string, notes: OsmNotes): OsmGeometry | null {
  if (shape === null || shape === undefined) return null;
  switch (shape.type) {
    case "Point":
      return { type: "Point", coordinates: shape.coordinates.slice(0, 2) };
    case "LineString":
      return { type: "LineString", coordinates: shape.coordinates.map(flat) };
    case "Polygon":
      return { type: "Polygon", coordinates: shape.coordinates.map((ring) => ring.map(flat)) };
    case "MultiPolygon":
      return single(shape.coordinates.map((rings) => rings.map((ring) => ring.map(flat))));
    default:
      notes.warn("bad-geometry", key, null, `A ${shape.type} is no shape of one element; it has no place.`);
      return null;
  }
}

/** A MultiPolygon of one part is a Polygon: GDAL writes every area as the former. */
function single(polygons: readonly (readonly (readonly number[])[])[][]): OsmGeometry {
  const only = polygons[0];
  return polygons.length === 1 && only !== undefined
    ? { type: "Polygon", coordinates: only }
    : { type: "MultiPolygon", coordinates: polygons };
}

/** Longitude and latitude; heights of open map data are not used. */
function flat(position: readonly number[]): number[] {
  return position.slice(0, 2);
}

/** The element that a feature stands for; without a reference its place in the list names it. */
function keyOf(
  feature: Properties,
  properties: Properties,
  shape: string | null,
  index: number,
  hasWayColumn: boolean,
): { readonly key: string; readonly type: ElementType; readonly referenced: boolean } {
  for (const id of [feature["id"], properties["@id"], properties["id"]]) {
    const match = typeof id === "string" ? REFERENCE.exec(id) : null;
    if (match !== null) return { key: match[0], type: match[1] as ElementType, referenced: true };
  }
  const drawn: ElementType = shape === "Point" || shape === null ? "node" : "way";
  const way = numberOf(properties["osm_way_id"]);
  if (way !== null) return { key: `way/${way}`, type: "way", referenced: true };
  const id = numberOf(properties["osm_id"]);
  if (id !== null) {
    const named = properties["osm_type"];
    const area = hasWayColumn && (shape === "Polygon" || shape === "MultiPolygon");
    const type = named === "node" || named === "way" || named === "relation" ? named : area ? "relation" : drawn;
    return { key: `${type}/${id}`, type, referenced: true };
  }
  return { key: `feature/${index + 1}`, type: drawn, referenced: false };
}

function numberOf(value: unknown): string | null {
  const text = typeof value === "number" || typeof value === "string" ? String(value) : "";
  return NUMBER.test(text) ? text : null;
}

function tagsOf(properties: Properties, key: string, notes: OsmNotes): Map<string, string> {
  const tags = new Map<string, string>();
  const put = (pairs: readonly (readonly [string, string])[]): void => {
    for (const [name, value] of pairs) putTag(tags, name, value, key, notes);
  };
  put(textTags(properties).filter(([name]) => !COLUMNS.has(name)));
  for (const column of table.columns.nested) {
    const nested = properties[column];
    if (isPlainObject(nested)) put(textTags(nested));
    else if (typeof nested === "string" && nested.trim() !== "") {
      const pairs = readHstore(nested);
      if (pairs !== null) put(pairs);
      else notes.warn("ignored-tag", key, column, `The column ${column} cannot be read: ${quoted(nested)}`);
    }
  }
  return tags;
}
