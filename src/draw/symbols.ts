/** Marks of fixed size on the page: services by shape and letter, hot outlets, arrows, north, the scale bar. */
import type { Service } from "../rig/completed.ts";
import type { UnitSystem } from "./lengths.ts";
import { METRES_PER_FOOT } from "./lengths.ts";
import {
  HAIRLINE,
  HOT_INK,
  INK,
  type MarkShape,
  MEDIUM_STROKE,
  PAPER,
  SERVICE_STYLES,
  SOFT_INK,
  THIN,
} from "./style.ts";
import { type Attributes, element, escapeText, line, polygon, type Spot } from "./svg.ts";

/** Corners of a regular figure, the first at `start` radians from the page's x axis. */
function corners(centre: Spot, radius: number, count: number, start: number): Spot[] {
  return Array.from({ length: count }, (_, index) => {
    const angle = start + (2 * Math.PI * index) / count;
    return { x: centre.x + radius * Math.cos(angle), y: centre.y + radius * Math.sin(angle) };
  });
}

const SQUARE_CORNERS = 4;
const HEXAGON_CORNERS = 6;
/** Figures with fewer corners are drawn larger, so that all look of one size. */
const SQUARE_SWELL = 1.25;
const DIAMOND_SWELL = 1.3;
const HEXAGON_SWELL = 1.12;
const HOUSE_EAVES = 0.15;

function shape(kind: MarkShape, at: Spot, radius: number, attributes: Attributes): string {
  switch (kind) {
    case "circle":
      return element("circle", { cx: at.x, cy: at.y, r: radius, ...attributes });
    case "square":
      return polygon(corners(at, radius * SQUARE_SWELL, SQUARE_CORNERS, Math.PI / SQUARE_CORNERS), attributes);
    case "diamond":
      return polygon(corners(at, radius * DIAMOND_SWELL, SQUARE_CORNERS, 0), attributes);
    case "hexagon":
      return polygon(corners(at, radius * HEXAGON_SWELL, HEXAGON_CORNERS, 0), attributes);
    case "house":
      return polygon(
        [
          { x: at.x - radius, y: at.y + radius },
          { x: at.x - radius, y: at.y - radius * HOUSE_EAVES },
          { x: at.x, y: at.y - radius * SQUARE_SWELL },
          { x: at.x + radius, y: at.y - radius * HOUSE_EAVES },
          { x: at.x + radius, y: at.y + radius },
        ],
        attributes,
      );
  }
}

const LETTER_SIZE = 1.25;
/** From the middle of a capital letter down to its baseline, as a multiple of the font size. */
const CAPITAL_DROP = 0.36;

function letter(text: string, at: Spot, radius: number, colour: string): string {
  const size = radius * LETTER_SIZE;
  const attributes = { x: at.x, y: at.y + size * CAPITAL_DROP, "font-size": size, "font-weight": "bold" };
  return element("text", { ...attributes, "text-anchor": "middle", fill: colour }, escapeText(text));
}

/** A hookup: dark figure, white letter. */
export function hookupMark(service: Service, at: Spot, radius: number): string {
  const style = SERVICE_STYLES[service];
  return (
    shape(style.shape, at, radius, { fill: style.colour, stroke: PAPER, "stroke-width": THIN }) +
    letter(style.letter, at, radius, PAPER)
  );
}

/** The letter that rides on a line: white figure, dark letter. */
export function lineMark(service: Service, at: Spot, radius: number): string {
  const style = SERVICE_STYLES[service];
  return (
    shape(style.shape, at, radius, { fill: PAPER, stroke: style.colour, "stroke-width": THIN }) +
    letter(style.letter, at, radius, style.colour)
  );
}

/** Where the line leaves the rig: small, white, without a letter. */
export function inletMark(service: Service, at: Spot, radius: number): string {
  const style = SERVICE_STYLES[service];
  return shape(style.shape, at, radius, { fill: PAPER, stroke: style.colour, "stroke-width": MEDIUM_STROKE });
}

const TRIANGLE_CORNERS = 3;
const BANG_TOP = 0.45;
const BANG_BOTTOM = 0.1;
const BANG_DOT = 0.32;
const BANG_DOT_RADIUS = 0.9;

/** A hot outlet: a triangle with an exclamation mark. */
export function hotMark(at: Spot, radius: number): string {
  const triangle = corners(at, radius, TRIANGLE_CORNERS, -Math.PI / 2);
  const top = { x: at.x, y: at.y - radius * BANG_TOP };
  const bottom = { x: at.x, y: at.y + radius * BANG_BOTTOM };
  return (
    polygon(triangle, { fill: PAPER, stroke: HOT_INK, "stroke-width": MEDIUM_STROKE, "stroke-linejoin": "round" }) +
    line(top, bottom, { stroke: HOT_INK, "stroke-width": THIN }) +
    element("circle", { cx: at.x, cy: at.y + radius * BANG_DOT, r: BANG_DOT_RADIUS, fill: HOT_INK })
  );
}

/** A cross: here the line runs out. */
export function cross(at: Spot, radius: number, colour: string): string {
  const attributes = { stroke: colour, "stroke-width": MEDIUM_STROKE };
  return (
    line({ x: at.x - radius, y: at.y - radius }, { x: at.x + radius, y: at.y + radius }, attributes) +
    line({ x: at.x - radius, y: at.y + radius }, { x: at.x + radius, y: at.y - radius }, attributes)
  );
}

const ARROW_HALF_WIDTH = 0.45;

/** A filled arrowhead with its tip at `tip`, pointing along the unit vector `way`. */
export function arrowHead(tip: Spot, way: Spot, size: number, colour: string): string {
  const foot = { x: tip.x - way.x * size, y: tip.y - way.y * size };
  const side = { x: -way.y * size * ARROW_HALF_WIDTH, y: way.x * size * ARROW_HALF_WIDTH };
  return polygon([tip, { x: foot.x + side.x, y: foot.y + side.y }, { x: foot.x - side.x, y: foot.y - side.y }], {
    fill: colour,
  });
}

/** Stroke with a head at its end. */
export function arrow(from: Spot, to: Spot, size: number, width: number, colour: string): string {
  const length = Math.hypot(to.x - from.x, to.y - from.y) || 1;
  const way = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
  const neck = { x: to.x - way.x * size, y: to.y - way.y * size };
  return line(from, neck, { stroke: colour, "stroke-width": width }) + arrowHead(to, way, size, colour);
}

const NORTH_LETTER = 13;
const NORTH_LETTER_GAP = 9;
const NORTH_HEAD = 12;

/** North arrow of the given radius about `centre`; the letter stays upright. */
export function northArrow(centre: Spot, radius: number, way: Spot): string {
  const tail = { x: centre.x - way.x * radius, y: centre.y - way.y * radius };
  const tip = { x: centre.x + way.x * radius, y: centre.y + way.y * radius };
  const beyond = { x: tip.x + way.x * NORTH_LETTER_GAP, y: tip.y + way.y * NORTH_LETTER_GAP };
  return (
    element("circle", {
      cx: centre.x,
      cy: centre.y,
      r: radius,
      fill: "none",
      stroke: SOFT_INK,
      "stroke-width": HAIRLINE,
    }) +
    arrow(tail, tip, NORTH_HEAD, MEDIUM_STROKE, INK) +
    element(
      "text",
      {
        x: beyond.x,
        y: beyond.y + NORTH_LETTER * CAPITAL_DROP,
        "font-size": NORTH_LETTER,
        "font-weight": "bold",
        "text-anchor": "middle",
        fill: INK,
      },
      "N",
    )
  );
}

const SCALE_STEPS = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000];
const BAR_HEIGHT = 7;
const BAR_FONT = 11;
const BAR_TEXT_DROP = 20;

/** The longest whole step that fits, in the asked unit. `scale` is pixels per metre. */
export function scaleStep(scale: number, units: UnitSystem, maxWidth: number): { count: number; width: number } {
  const unit = (units === "us" ? METRES_PER_FOOT : 1) * scale;
  const fitting = SCALE_STEPS.filter((step) => step * unit <= maxWidth);
  const count = fitting.at(-1) ?? 1;
  return { count, width: count * unit };
}

/** Scale bar: a black and a white half, with its ends named. */
export function scaleBar(at: Spot, scale: number, units: UnitSystem, maxWidth: number): string {
  const { count, width } = scaleStep(scale, units, maxWidth);
  const half = { y: at.y, width: width / 2, height: BAR_HEIGHT, stroke: INK, "stroke-width": HAIRLINE };
  const label = { y: at.y + BAR_TEXT_DROP, "font-size": BAR_FONT, fill: INK };
  return element(
    "g",
    { "data-scale": `${count} ${units === "us" ? "ft" : "m"}` },
    element("rect", { x: at.x, ...half, fill: INK }),
    element("rect", { x: at.x + width / 2, ...half, fill: PAPER }),
    element("text", { ...label, x: at.x }, "0"),
    element("text", { ...label, x: at.x + width, "text-anchor": "middle" }, `${count} ${units === "us" ? "ft" : "m"}`),
  );
}
