/** Overpass JSON: elements with places of their own (`geometry`, `center`) or with nodes listed beside them. */
import { isPlainObject } from "../geojson-input.ts";
import type { OsmNotes } from "./notes.ts";
import { RawBuilder, type RawElements, type RawMember, type RawPlace } from "./raw.ts";

export function readOverpass(value: Readonly<Record<string, unknown>>, notes: OsmNotes): RawElements | null {
  const { elements, osm3s, remark } = value;
  if (!Array.isArray(elements)) {
    notes.fail("not-osm", "elements is missing or no array.", "Overpass JSON with the array elements", "/elements");
    return null;
  }
  // The server writes a remark when it ran out of time or memory: what follows is a part of the answer only.
  if (typeof remark === "string") notes.warn("truncated-data", null, null, `The data carry the remark: ${remark}`);
  const builder = new RawBuilder(notes);
  elements.forEach((element: unknown, index) => {
    if (notes.errors.length === 0) readElement(element, index, builder, notes);
  });
  const base = isPlainObject(osm3s) ? osm3s["timestamp_osm_base"] : null;
  return builder.done({ isOpenStreetMap: true, dataAsOf: typeof base === "string" ? base : null });
}

function readElement(element: unknown, index: number, builder: RawBuilder, notes: OsmNotes): void {
  if (!isPlainObject(element)) {
    notes.warn("ignored-element", null, null, `The entry /elements/${index} is no object.`);
    return;
  }
  const { type, id, lat, lon, center } = element;
  const tags = textTags(element["tags"]);
  const centre = placeOf(center);
  if (type === "node") builder.node(id, lon, lat, tags);
  else if (type === "way") {
    const refs = listOf(element["nodes"]).map(String);
    builder.way(id, refs, drawnOf(element["geometry"]), centre ?? undefined, tags);
  } else if (type === "relation") {
    builder.relation(id, listOf(element["members"]).map(memberOf), centre ?? undefined, tags);
  } else if (type !== "count" && type !== "area" && type !== "timeline") {
    notes.warn("ignored-element", null, null, `The entry /elements/${index} is no node, way or relation.`);
  }
}

function listOf(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : [];
}

/** Tags whose values are texts; numbers and truth values are written out. */
export function textTags(value: unknown): [string, string][] {
  if (!isPlainObject(value)) return [];
  return Object.entries(value).flatMap(([key, one]): [string, string][] =>
    typeof one === "string" || typeof one === "number" || typeof one === "boolean" ? [[key, String(one)]] : [],
  );
}

function placeOf(value: unknown): RawPlace | null {
  return isPlainObject(value) ? { lon: value["lon"], lat: value["lat"] } : null;
}

function drawnOf(value: unknown): readonly (RawPlace | null)[] | undefined {
  return Array.isArray(value) ? value.map(placeOf) : undefined;
}

function memberOf(value: unknown): RawMember {
  const member = isPlainObject(value) ? value : {};
  const { type, ref, role } = member;
  return {
    type: typeof type === "string" ? type : "",
    ref: typeof ref === "number" || typeof ref === "string" ? String(ref) : "",
    role: typeof role === "string" ? role : "",
    drawn: drawnOf(member["geometry"]),
  };
}
