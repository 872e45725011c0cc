/**
 * The wind rose of one site: a string of SVG. The length of a petal is what is left of a gust from there; what a
 * barrier takes away stands beyond it in dashes. The awning's side, the prevailing and the forecast wind are marked by
 * shape and letter, so that nothing rests on colour.
 */

import { turnBetween } from "../geo/tangent-plane.ts";
import type { UnitSystem } from "../units/print.ts";
import { AWNING_CAUTION } from "../wind/flags.ts";
import type { Rose, Sector } from "../wind/rose.ts";
import { compassWord, SECTOR_STEP } from "../wind/sector.ts";
import { gustRatio } from "../wind/terrain.ts";
import { picture } from "./picture.ts";
import { ROSE_KEY, type RoseFacts, roseDescription, roseNotes, shareText } from "./rose-notes.ts";
import {
  AWNING_INK,
  DASH,
  FAINT_INK,
  HAIRLINE,
  HEAVY,
  INK,
  MEDIUM_STROKE,
  PAPER,
  SLIDE_FILL,
  SOFT_INK,
  THIN,
} from "./style.ts";
import { cleanText, element, escapeText, line, numberText, polygon, type Spot } from "./svg.ts";
import { rowsHeight, textBlock, wrapText } from "./text.ts";

export interface RoseOptions {
  /** Whose rose it is: the site's name. */
  readonly name: string;
  /** True bearing over the open awning, radians. */
  readonly awning?: number | null;
  /** True bearings that winds come from, radians. */
  readonly prevailing?: number | null;
  readonly forecast?: readonly number[];
  readonly units?: UnitSystem;
  /** Width of the sheet in pixels, 240 to 1200. Default 420. */
  readonly widthPx?: number;
  /** Without title, key and sentences, for a page that says them itself. */
  readonly bare?: boolean;
}

const DEFAULT_WIDTH = 420;
const LEAST_WIDTH = 240;
const LARGEST_WIDTH = 1200;
const LARGEST_RADIUS = 220;
const FONT_SIZE = 12;
const SMALL_FONT = 10;
const MARGIN = 12;
const LABEL_AT = 18;
const ARC_AT = 48;
const ARROW_FROM = 66;
const ARROW_NECK = 50;
const ARROW_TIP = 34;
/** Every other direction is named: four and twenty letters more would run into each other. */
const NAMED_EVERY = 2;
const ARROW_HALF = 6;
const MARK_RADIUS = 8;
/** Room round the petals for the percentages, for the awning's arc, and for the arrows, pixels. */
const RIM = { labels: 48, arc: ARC_AT + MARK_RADIUS + 2, arrows: ARROW_FROM + MARK_RADIUS + 2 } as const;
const RINGS = [0.25, 0.5, 0.75, 1] as const;
const PERCENT = 100;
/** Share of a sector's angle that a petal fills. */
const PETAL_SHARE = 0.84;
/** Half the angle that the awning's arc spans, radians. */
const AWNING_HALF = Math.PI / 4;
/** North mark from the petals' corner, pixels. */
const NORTH_AT = 30;
const CAPITAL_DROP = 0.36;
const ARC_STEPS = 16;
/** Turn between two winds under which their arrows would cover each other, radians. */
const ARROWS_MEET = SECTOR_STEP / 2;

interface Page {
  readonly centre: Spot;
  /** Pixels of a ratio of 1. */
  readonly radius: number;
}

function at({ centre }: Page, bearing: number, distance: number): Spot {
  return { x: centre.x + distance * Math.sin(bearing), y: centre.y - distance * Math.cos(bearing) };
}

function label(page: Page, bearing: number, distance: number, text: string, size: number, bold = false): string {
  const spot = at(page, bearing, distance);
  const weight = bold ? "bold" : undefined;
  const place = { x: spot.x, y: spot.y + size * CAPITAL_DROP, "font-size": size, "font-weight": weight };
  return element("text", { ...place, "text-anchor": "middle", fill: INK }, escapeText(text));
}

function rings(page: Page): string {
  const ink = RINGS.map((share) => {
    const { x, y } = page.centre;
    const circle = { cx: x, cy: y, r: share * page.radius, fill: "none", stroke: FAINT_INK, "stroke-width": HAIRLINE };
    return element("circle", circle);
  });
  return element("g", { "data-part": "rings" }, ...ink);
}

/** What the rings stand for, in a gap between two petals, over all of them and with a paper edge. */
function ringLabels(page: Page): string {
  const look = { "font-size": SMALL_FONT - 1, "text-anchor": "middle", fill: SOFT_INK, stroke: PAPER };
  const edge = { "stroke-width": HEAVY, "paint-order": "stroke" };
  const ink = RINGS.slice(1).map((share) => {
    const { x, y } = at(page, SECTOR_STEP / 2, share * page.radius);
    return element("text", { x, y: y + SMALL_FONT * CAPITAL_DROP, ...look, ...edge }, `${share * PERCENT}`);
  });
  return element("g", { "data-part": "ring-labels" }, ...ink);
}

/** A ring's piece from `inner` to `outer` pixels about a bearing. */
function wedge(page: Page, bearing: number, inner: number, outer: number): Spot[] {
  const half = (SECTOR_STEP * PETAL_SHARE) / 2;
  const angles = [-half, -half / 2, 0, half / 2, half].map((turn) => bearing + turn);
  const rim = angles.map((angle) => at(page, angle, outer));
  const foot = inner > 0 ? angles.reverse().map((angle) => at(page, angle, inner)) : [page.centre];
  return [...rim, ...foot];
}

function petal(page: Page, sector: Sector, height: number): string {
  const left = sector.ratio * page.radius;
  const open = gustRatio(sector.category, height) * page.radius;
  const doubt = sector.confidence === "low" ? DASH.region : undefined;
  const solid = { fill: SLIDE_FILL, stroke: INK, "stroke-width": THIN, "stroke-dasharray": doubt };
  const taken = { fill: "none", stroke: SOFT_INK, "stroke-width": HAIRLINE, "stroke-dasharray": DASH.sigma };
  return element(
    "g",
    { "data-sector": compassWord(sector.from) },
    polygon(wedge(page, sector.from, 0, left), solid),
    open - left > 1 ? polygon(wedge(page, sector.from, left, open), taken) : "",
    label(page, sector.from, page.radius + LABEL_AT, rimText(sector), SMALL_FONT),
  );
}

function rimText(sector: Sector): string {
  const named = Math.round(sector.from / SECTOR_STEP) % NAMED_EVERY === 0;
  return named ? `${compassWord(sector.from)} ${shareText(sector)}` : shareText(sector);
}

/** A double arc over the side to which the awning opens, lettered at its ends: a wind straight into it has its mark in the middle. */
function awningArc(page: Page, azimuth: number): string {
  const arc = (distance: number): string => {
    const points = Array.from({ length: ARC_STEPS + 1 }, (_, step) => {
      return at(page, azimuth - AWNING_HALF + (2 * AWNING_HALF * step) / ARC_STEPS, distance);
    });
    const text = points.map(({ x, y }) => `${numberText(x)},${numberText(y)}`).join(" ");
    return element("polyline", { points: text, fill: "none", stroke: AWNING_INK, "stroke-width": MEDIUM_STROKE });
  };
  const rim = page.radius + ARC_AT;
  return element(
    "g",
    { "data-part": "awning" },
    arc(rim),
    arc(rim - HEAVY),
    ...[-AWNING_HALF, AWNING_HALF].map((turn) => mark(page, azimuth + turn, rim, "A")),
  );
}

function mark(page: Page, bearing: number, distance: number, letter: string): string {
  const spot = at(page, bearing, distance);
  const ring = { cx: spot.x, cy: spot.y, r: MARK_RADIUS, fill: PAPER, stroke: INK, "stroke-width": THIN };
  return element("circle", ring) + label(page, bearing, distance, letter, SMALL_FONT, true);
}

/** An arrow with the wind, towards the site; hollow for the forecast, filled for the prevailing wind. */
function arrow(page: Page, from: number, letter: "P" | "F"): string {
  const tip = at(page, from, page.radius + ARROW_TIP);
  const tail = at(page, from, page.radius + ARROW_FROM);
  const aside = { x: Math.cos(from) * ARROW_HALF, y: Math.sin(from) * ARROW_HALF };
  const neck = at(page, from, page.radius + ARROW_NECK);
  const head = [tip, { x: neck.x + aside.x, y: neck.y + aside.y }, { x: neck.x - aside.x, y: neck.y - aside.y }];
  const fill = letter === "P" ? INK : PAPER;
  return element(
    "g",
    { "data-part": letter === "P" ? "prevailing" : "forecast" },
    line(tail, neck, { stroke: PAPER, "stroke-width": ARROW_HALF + ARROW_HALF }),
    line(tail, neck, {
      stroke: INK,
      "stroke-width": MEDIUM_STROKE,
      "stroke-dasharray": letter === "F" ? DASH.awning : undefined,
    }),
    polygon(head, { fill, stroke: INK, "stroke-width": THIN }),
    mark(page, from, page.radius + ARROW_FROM, letter),
  );
}

/** Where both winds come from nearly the same side their arrows stand beside each other, still parallel to their winds. */
function arrows(page: Page, { prevailing, forecast }: RoseFacts): readonly string[] {
  if (prevailing === null) return forecast.map((from) => arrow(page, from, "F"));
  const turns = forecast.map((from) => turnBetween(prevailing, from));
  const near = turns.find((turn) => Math.abs(turn) < ARROWS_MEET);
  if (near === undefined) return [arrow(page, prevailing, "P"), ...forecast.map((from) => arrow(page, from, "F"))];
  const side = near < 0 ? -1 : 1;
  const beside = (from: number, by: number): Page => {
    const { x, y } = page.centre;
    return { ...page, centre: { x: x + Math.cos(from) * by, y: y + Math.sin(from) * by } };
  };
  const room = side * (MARK_RADIUS + 1);
  return [
    arrow(beside(prevailing, -room), prevailing, "P"),
    ...forecast.map((from, index) => {
      return arrow(Math.abs(turns[index]!) < ARROWS_MEET ? beside(from, room) : page, from, "F");
    }),
  ];
}

/** The rose as one SVG element with a viewBox in pixels; north is up. All text is escaped. Deterministic. */
export function drawWindRose(rose: Rose, options: RoseOptions): string {
  const { units = "metric", bare = false } = options;
  const asked = options.widthPx ?? DEFAULT_WIDTH;
  const finite = Number.isFinite(asked) ? Math.round(asked) : DEFAULT_WIDTH;
  const width = Math.min(Math.max(finite, LEAST_WIDTH), LARGEST_WIDTH);
  const facts: RoseFacts = {
    awning: options.awning ?? null,
    prevailing: options.prevailing ?? null,
    forecast: options.forecast ?? [],
  };
  const rim = rimFor(facts);
  const radius = Math.min(LARGEST_RADIUS, width / 2 - MARGIN - rim);
  const title = `Wind rose of site ${cleanText(options.name)}`;
  const titleRows = bare ? [] : wrapText(title, FONT_SIZE, width - 2 * MARGIN, 2, true);
  const top = bare ? 0 : MARGIN + rowsHeight(titleRows.length, FONT_SIZE);
  const page: Page = { centre: { x: width / 2, y: top + MARGIN + rim + radius }, radius };
  const ink = [
    element(
      "g",
      { "data-part": "title" },
      textBlock(titleRows, MARGIN, MARGIN, FONT_SIZE, { fill: INK, "font-weight": "bold" }),
    ),
    rings(page),
    ...rose.sectors.map((sector) => petal(page, sector, rose.height)),
    ringLabels(page),
    facts.awning === null ? "" : awningArc(page, facts.awning),
    ...arrows(page, facts),
    northMark(page),
  ];
  const notes = bare ? [] : [...roseNotes(rose, facts, units), ROSE_KEY, AWNING_CAUTION];
  let y = page.centre.y + radius + roomBelow(page, facts) + MARGIN;
  let words = "";
  for (const note of notes) {
    const rows = wrapText(note, FONT_SIZE - 1, width - 2 * MARGIN);
    words += textBlock(rows, MARGIN, y, FONT_SIZE - 1, { fill: INK });
    y += rowsHeight(rows.length, FONT_SIZE - 1) + 2;
  }
  const height = Math.ceil(y + MARGIN);
  return picture(
    {
      width,
      height,
      title,
      description: roseDescription(rose, facts, units),
    },
    ...ink,
    element("g", { "data-part": "notes" }, words),
  );
}

function rimFor({ awning, prevailing, forecast }: RoseFacts): number {
  if (prevailing !== null || forecast.length > 0) return RIM.arrows;
  return awning === null ? RIM.labels : RIM.arc;
}

/** Pixels below the petals that marks take: the whole rim only when one stands there. */
function roomBelow(page: Page, { awning, prevailing, forecast }: RoseFacts): number {
  const arrows = [...forecast, ...(prevailing === null ? [] : [prevailing])];
  const low = (bearing: number, distance: number) => at(page, bearing, page.radius + distance).y + MARK_RADIUS;
  const arc = awning === null ? [] : Array.from({ length: ARC_STEPS + 1 }, (_, step) => step / ARC_STEPS);
  const marks = [
    ...arrows.map((from) => low(from, ARROW_FROM)),
    ...arc.map((part) => low((awning ?? 0) + AWNING_HALF * (2 * part - 1), ARC_AT)),
  ];
  const petals = page.centre.y + page.radius;
  return Math.max(LABEL_AT + SMALL_FONT, ...marks.map((y) => y - petals));
}

/** North stands in the corner, out of the way of the arrows. */
function northMark({ centre, radius }: Page): string {
  const spot = { x: centre.x + radius + NORTH_AT, y: centre.y - radius - NORTH_AT / 2 };
  const up = [
    { x: spot.x, y: spot.y - MARK_RADIUS - ARROW_HALF },
    { x: spot.x - ARROW_HALF, y: spot.y },
    { x: spot.x + ARROW_HALF, y: spot.y },
  ];
  const text = { x: spot.x, y: spot.y + FONT_SIZE, "font-size": SMALL_FONT, "text-anchor": "middle", fill: INK };
  return element("g", { "data-part": "north" }, polygon(up, { fill: INK }), element("text", text, "N"));
}
