/** Rules of RFC 7946 for geometries, with the repairs that keep the meaning. Nothing here throws. */
import {
  type ClosedRing,
  crosses,
  crossesAntimeridian,
  hasArea,
  type Position,
  rightHanded,
  ringContains,
} from "../geo/longitude-latitude.ts";
import type { WireGeometry } from "../site/feature.ts";
import { isPlainObject } from "./geojson-input.ts";
import type { CampgroundLimits } from "./geojson-limits.ts";
import { checkForeignMembers, readBox } from "./geojson-members.ts";
import type { Findings } from "./geojson-report.ts";

const MOST_LONGITUDE = 180;
const MOST_LATITUDE = 90;
const MOST_ELEMENTS = 3;
const FEWEST_RING_POSITIONS = 4;
/** Square metres below which an outline has no area: smaller than a hand. */
const LEAST_AREA = 0.01;

/** Counts positions over the whole document. */
export interface PositionBudget {
  left: number;
}

interface Work {
  readonly limits: CampgroundLimits;
  readonly findings: Findings;
  readonly budget: PositionBudget;
}

type Read<T> = T | undefined;

/** The cleaned geometry, null, or undefined when it was refused. */
export function readGeometry(value: unknown, path: string, work: Work, nested = false): Read<WireGeometry | null> {
  const { findings } = work;
  if (value === null) return null;
  if (!isPlainObject(value)) {
    findings.refuse(path, "wrong-type", "A geometry is an object or null.", "a GeoJSON geometry or null");
    return undefined;
  }
  if (!checkForeignMembers("geometry", value, path, findings) || !readBox(value, path, findings)) return undefined;
  const type = value["type"];
  if (type === "GeometryCollection") return collection(value, path, work, nested);
  const read = typeof type === "string" && Object.hasOwn(READERS, type) ? READERS[type as ReadableType] : undefined;
  if (read === undefined) {
    const names = [...Object.keys(READERS), "GeometryCollection"].join(", ");
    findings.refuse(`${path}/type`, "unknown-geometry-type", `${shown(type)} is not a geometry type.`, names);
    return undefined;
  }
  const coordinates = value["coordinates"];
  if (!Array.isArray(coordinates)) {
    findings.refuse(`${path}/coordinates`, "wrong-type", "coordinates is missing or no array.", "an array");
    return undefined;
  }
  if (coordinates.length === 0 && type !== "Point") {
    findings.warn(
      "repaired",
      `${path}/coordinates`,
      "Empty coordinates were read as no geometry (RFC 7946 section 3.1).",
    );
    return null;
  }
  const cleaned = read(coordinates, `${path}/coordinates`, work);
  return cleaned === undefined ? undefined : ({ ...value, type, coordinates: cleaned } as unknown as WireGeometry);
}

type Reader = (coordinates: readonly unknown[], path: string, work: Work) => unknown;

const READERS = {
  Point: readPosition,
  MultiPoint: (value, path, work) => each(value, path, work, readPosition),
  LineString: readLine,
  MultiLineString: (value, path, work) => each(value, path, work, readLine),
  Polygon: readPolygon,
  MultiPolygon: (value, path, work) => each(value, path, work, readPolygon),
} satisfies Record<string, Reader>;

type ReadableType = keyof typeof READERS;

function collection(value: Record<string, unknown>, path: string, work: Work, nested: boolean): Read<WireGeometry> {
  const { findings } = work;
  const members = value["geometries"];
  if (nested) {
    findings.refuse(path, "nested-collection", "A collection inside a collection.", "geometries without a collection");
    return undefined;
  }
  if (!Array.isArray(members)) {
    findings.refuse(`${path}/geometries`, "wrong-type", "geometries is missing or no array.", "an array of geometries");
    return undefined;
  }
  const before = findings.refused.length;
  const geometries = members.map((member, index) => readGeometry(member, `${path}/geometries/${index}`, work, true));
  if (findings.refused.length > before) return undefined;
  return { ...value, type: "GeometryCollection", geometries: geometries.filter((member) => member != null) };
}

function each<T>(
  values: readonly unknown[],
  path: string,
  work: Work,
  read: (value: readonly unknown[], path: string, work: Work) => Read<T>,
): Read<T[]> {
  const result: T[] = [];
  let whole = true;
  values.forEach((value, index) => {
    const below = `${path}/${index}`;
    if (!Array.isArray(value)) {
      work.findings.refuse(below, "wrong-type", `${shown(value)} is no array.`, "an array");
      whole = false;
      return;
    }
    const cleaned = read(value, below, work);
    if (cleaned === undefined) whole = false;
    else result.push(cleaned);
  });
  return whole ? result : undefined;
}

function readPosition(value: readonly unknown[], path: string, { findings, budget }: Work): Read<Position> {
  budget.left -= 1;
  if (budget.left < 0) {
    findings.refuse(path, "too-many-positions", "The document has too many positions.", "fewer positions");
    return undefined;
  }
  if (value.length < 2) {
    findings.refuse(path, "short-position", "A position has at least two numbers.", "[longitude, latitude]");
    return undefined;
  }
  const odd = value.findIndex((element) => typeof element !== "number" || !Number.isFinite(element));
  if (odd >= 0) {
    findings.refuse(`${path}/${odd}`, "wrong-type", `${shown(value[odd])} is no number.`, "a finite number of degrees");
    return undefined;
  }
  const [longitude = 0, latitude = 0] = value as number[];
  if (Math.abs(longitude) > MOST_LONGITUDE || Math.abs(latitude) > MOST_LATITUDE) {
    refuseRange(longitude, latitude, path, findings);
    return undefined;
  }
  if (value.length > MOST_ELEMENTS) {
    findings.warn("ignored", path, "Only longitude, latitude and height are read; further numbers were left out.");
  }
  return value.slice(0, MOST_ELEMENTS) as number[];
}

function refuseRange(longitude: number, latitude: number, path: string, findings: Findings): void {
  const swapped = Math.abs(longitude) <= MOST_LATITUDE && Math.abs(latitude) <= MOST_LONGITUDE;
  const question = swapped ? " Are longitude and latitude swapped?" : "";
  const expected = swapped
    ? `[${latitude}, ${longitude}], if the two are swapped`
    : "longitude in -180 to 180 and latitude in -90 to 90, degrees WGS 84";
  const outside = Math.abs(latitude) > MOST_LATITUDE ? `latitude ${latitude}` : `longitude ${longitude}`;
  findings.refuse(path, swapped ? "swapped-axes" : "out-of-range", `${outside} is off the earth.${question}`, expected);
}

function withoutRepeats(line: readonly Position[], path: string, findings: Findings): Position[] {
  const kept = line.filter((position, index) => {
    const before = line[index - 1];
    return before === undefined || before[0] !== position[0] || before[1] !== position[1];
  });
  if (kept.length < line.length) {
    findings.warn("repaired", path, `${line.length - kept.length} repeated position(s) were left out.`);
  }
  return kept;
}

function readLine(value: readonly unknown[], path: string, work: Work): Read<Position[]> {
  const positions = each(value, path, work, readPosition);
  if (positions === undefined) return undefined;
  const line = withoutRepeats(positions, path, work.findings);
  if (line.length < 2) {
    work.findings.refuse(path, "short-line", "A line has at least two different positions.", "two or more positions");
    return undefined;
  }
  return refuseUncut(line, path, work.findings) ? undefined : line;
}

function refuseUncut(line: readonly Position[], path: string, findings: Findings): boolean {
  if (!crossesAntimeridian(line)) return false;
  const expected = "a geometry cut at the antimeridian into parts (RFC 7946 section 3.1.9)";
  findings.refuse(path, "uncut-antimeridian", "A step of more than 180 degrees of longitude.", expected);
  return true;
}

function readRing(value: readonly unknown[], path: string, work: Work): Read<ClosedRing> {
  const { findings, limits } = work;
  if (value.length > limits.ringPositions) {
    const most = `at most ${limits.ringPositions} positions in a ring`;
    findings.refuse(path, "too-many-positions", `A ring of ${value.length} positions.`, most);
    return undefined;
  }
  const positions = each(value, path, work, readPosition);
  if (positions === undefined) return undefined;
  const first = positions[0];
  const last = positions.at(-1);
  if (first === undefined || last === undefined || positions.length < FEWEST_RING_POSITIONS) {
    findings.refuse(
      path,
      "short-ring",
      `A ring of ${positions.length} positions.`,
      "four or more, the last as the first",
    );
    return undefined;
  }
  if (first[0] !== last[0] || first[1] !== last[1]) {
    findings.refuse(
      path,
      "unclosed-ring",
      "The last position is not the first.",
      `a last position [${first.join(", ")}]`,
    );
    return undefined;
  }
  const ring = withoutRepeats(positions, path, findings);
  if (refuseUncut(ring, path, findings)) return undefined;
  if (ring.length < FEWEST_RING_POSITIONS || !hasArea(ring, LEAST_AREA)) {
    findings.refuse(path, "no-area", "The ring has no area.", "three or more corners that are not in one line");
    return undefined;
  }
  return ring;
}

function readPolygon(value: readonly unknown[], path: string, work: Work): Read<readonly ClosedRing[]> {
  const { findings, limits } = work;
  if (value.length > limits.rings) {
    findings.refuse(path, "too-many-rings", `A polygon of ${value.length} rings.`, `at most ${limits.rings} rings`);
    return undefined;
  }
  const rings = each(value, path, work, readRing);
  const shell = rings?.[0];
  if (rings === undefined || shell === undefined) {
    if (rings !== undefined) findings.refuse(path, "short-ring", "A polygon without an outline.", "an outer ring");
    return undefined;
  }
  const stray = rings.findIndex((ring, index) => index > 0 && !ring.every((position) => ringContains(shell, position)));
  if (stray > 0) {
    findings.refuse(`${path}/${stray}`, "hole-outside", "A hole leaves its outline.", "holes inside the outer ring");
    return undefined;
  }
  if (crosses(rings)) {
    findings.refuse(path, "self-crossing", "The outline crosses or touches itself.", "rings that do not cross");
    return undefined;
  }
  const turned = rightHanded(rings);
  if (
    turned.some((ring, index) => ring[1]?.[0] !== rings[index]?.[1]?.[0] || ring[1]?.[1] !== rings[index]?.[1]?.[1])
  ) {
    findings.warn("repaired", path, "Rings were turned: outer ones counter-clockwise, holes clockwise.");
  }
  return turned;
}

/** A value from outside in a message: short, and never a whole document. */
export function shown(value: unknown): string {
  const longest = 40;
  if (typeof value === "string") return JSON.stringify(value.length > longest ? `${value.slice(0, longest)}…` : value);
  if (value === undefined) return "nothing";
  return typeof value === "object" && value !== null
    ? Array.isArray(value)
      ? "an array"
      : "an object"
    : String(value);
}
