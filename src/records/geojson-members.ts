/** Rules of RFC 7946 for the members of its objects: which may not stand where, bounding boxes, `crs` and ids. */
import { isPlainObject } from "./geojson-input.ts";
import type { Findings } from "./geojson-report.ts";

/** RFC 7946 section 7.1: defining members of other types that an object must not carry (wording read second-hand). */
const FORBIDDEN = {
  collection: ["coordinates", "geometries", "geometry", "properties"],
  feature: ["coordinates", "geometries", "features"],
  geometry: ["geometry", "properties", "features"],
} as const;

const BOX_SIZES: readonly number[] = [4, 6];
const MOST_LATITUDE = 90;
const MOST_LONGITUDE = 180;

/** Names by which older files say what RFC 7946 section 4 fixes: longitude and latitude in degrees, WGS 84. */
const WGS84_NAMES: ReadonlySet<string> = new Set([
  "urn:ogc:def:crs:ogc::crs84",
  "urn:ogc:def:crs:ogc:1.3:crs84",
  "urn:ogc:def:crs:epsg::4326",
  "http://www.opengis.net/def/crs/ogc/1.3/crs84",
  "epsg:4326",
  "ogc:crs84",
  "crs84",
]);

/** False when the object carries a defining member of another type; then it is refused. */
export function checkForeignMembers(
  of: keyof typeof FORBIDDEN,
  value: Readonly<Record<string, unknown>>,
  path: string,
  findings: Findings,
): boolean {
  const found = FORBIDDEN[of].filter((name) => Object.hasOwn(value, name));
  for (const name of found) {
    const message = `A ${of} with the member "${name}" has two meanings.`;
    findings.refuse(`${path}/${name}`, "member-of-another-type", message, `no "${name}" here (RFC 7946 section 7.1)`);
  }
  return found.length === 0;
}

/** False when a bounding box is there and is none; then its object is refused. West may exceed east: over 180 degrees. */
export function readBox(value: Readonly<Record<string, unknown>>, path: string, findings: Findings): boolean {
  const box = value["bbox"];
  if (box === undefined) return true;
  const expected = "[west, south, east, north] in degrees, or six numbers with heights";
  const numbers = Array.isArray(box) && box.every((element) => typeof element === "number" && Number.isFinite(element));
  if (!numbers || !BOX_SIZES.includes(box.length)) {
    findings.refuse(`${path}/bbox`, "bad-bbox", "A bounding box has four or six numbers.", expected);
    return false;
  }
  const half = box.length / 2;
  const [west, south, east, north] = [box[0], box[1], box[half], box[half + 1]] as [number, number, number, number];
  if (south > north) {
    findings.refuse(`${path}/bbox`, "bad-bbox", `Its south edge ${south} lies north of ${north}.`, expected);
    return false;
  }
  const onEarth =
    Math.max(Math.abs(west), Math.abs(east)) <= MOST_LONGITUDE && south >= -MOST_LATITUDE && north <= MOST_LATITUDE;
  if (!onEarth) findings.refuse(`${path}/bbox`, "bad-bbox", "The bounding box leaves the earth.", expected);
  return onEarth;
}

/** False when the object names a reference system other than longitude and latitude on WGS 84. */
export function checkReferenceSystem(
  value: Readonly<Record<string, unknown>>,
  path: string,
  findings: Findings,
): boolean {
  const system = value["crs"];
  if (system === undefined || system === null) return true;
  const properties = isPlainObject(system) ? system["properties"] : undefined;
  const name = isPlainObject(properties) ? properties["name"] : undefined;
  if (typeof name === "string" && WGS84_NAMES.has(name.toLowerCase())) {
    findings.warn(
      "ignored",
      `${path}/crs`,
      "crs is no longer part of GeoJSON; longitude and latitude on WGS 84 are read.",
    );
    return true;
  }
  const expected = "no crs: longitude and latitude in degrees on WGS 84 (RFC 7946 section 4)";
  findings.refuse(`${path}/crs`, "other-reference-system", "The positions are in another reference system.", expected);
  return false;
}
