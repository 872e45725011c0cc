/** Whether a geometry and a box have a point in common, in longitude and latitude. */
import type { Box } from "../../records/place.ts";
import type { WireGeometry, WirePosition } from "../../site/feature.ts";

type Plain = readonly [west: number, south: number, east: number, north: number];

/** West above east is a box across the antimeridian. Geometries are cut there, as RFC 7946 section 3.1.9 wants. */
export function meetsBox(geometry: WireGeometry, box: Box): boolean {
  return plainBoxes(box).some((plain) => meets(geometry, plain));
}

function plainBoxes([west, south, east, north]: Box): Plain[] {
  if (west <= east) return [[west, south, east, north]];
  return [
    [west, south, HALF_TURN, north],
    [-HALF_TURN, south, east, north],
  ];
}

const HALF_TURN = 180;

function meets(geometry: WireGeometry, box: Plain): boolean {
  switch (geometry.type) {
    case "Point":
      return isInside(geometry.coordinates, box);
    case "MultiPoint":
      return geometry.coordinates.some((position) => isInside(position, box));
    case "LineString":
      return lineMeets(geometry.coordinates, box);
    case "MultiLineString":
      return geometry.coordinates.some((line) => lineMeets(line, box));
    case "Polygon":
      return polygonMeets(geometry.coordinates, box);
    case "MultiPolygon":
      return geometry.coordinates.some((polygon) => polygonMeets(polygon, box));
    case "GeometryCollection":
      return geometry.geometries.some((one) => meets(one, box));
  }
}

function isInside([longitude = 0, latitude = 0]: WirePosition, [west, south, east, north]: Plain): boolean {
  return longitude >= west && longitude <= east && latitude >= south && latitude <= north;
}

function lineMeets(line: readonly WirePosition[], box: Plain): boolean {
  return line.some((position, index) => index > 0 && segmentMeets(line[index - 1] as WirePosition, position, box));
}

/** An edge that meets the box, or a box that lies inside the shell and outside the holes. */
function polygonMeets(rings: readonly (readonly WirePosition[])[], box: Plain): boolean {
  if (rings.some((ring) => lineMeets(ring, box))) return true;
  const [shell, ...holes] = rings;
  const corner: WirePosition = [box[0], box[1]];
  return shell !== undefined && surrounds(shell, corner) && !holes.some((hole) => surrounds(hole, corner));
}

/** Clips the segment by each side of the box in turn; what is left of it, if anything, is inside. */
function segmentMeets([x0 = 0, y0 = 0]: WirePosition, [x1 = 0, y1 = 0]: WirePosition, box: Plain): boolean {
  const [west, south, east, north] = box;
  const sides: readonly (readonly [step: number, room: number])[] = [
    [x0 - x1, x0 - west],
    [x1 - x0, east - x0],
    [y0 - y1, y0 - south],
    [y1 - y0, north - y0],
  ];
  let [enters, leaves] = [0, 1];
  for (const [step, room] of sides) {
    if (step === 0 && room < 0) return false;
    if (step < 0) enters = Math.max(enters, room / step);
    if (step > 0) leaves = Math.min(leaves, room / step);
  }
  return enters <= leaves;
}

/** Counts the crossings of a ray to the east. */
function surrounds(ring: readonly WirePosition[], [x = 0, y = 0]: WirePosition): boolean {
  let inside = false;
  ring.forEach(([x1 = 0, y1 = 0], index) => {
    const [x0 = 0, y0 = 0] = ring[(index + ring.length - 1) % ring.length] ?? [];
    if (y1 > y !== y0 > y && x < ((x0 - x1) * (y - y1)) / (y0 - y1) + x1) inside = !inside;
  });
  return inside;
}
