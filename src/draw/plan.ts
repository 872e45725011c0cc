/**
 * The plan of one fit: a sheet to scale, seen from above, that a host prints. A string of SVG from the answer alone.
 */

import type { Fit } from "../fit/answer.ts";
import type { PadPoint } from "../fit/stance/problem.ts";
import { planDescription, planTitle, stanceLine } from "./describe.ts";
import { drawField, fieldInk, type Measures, type PlanFrame } from "./field.ts";
import { drawHeader } from "./header.ts";
import { drawLegend } from "./legend.ts";
import type { UnitSystem } from "./lengths.ts";
import { windowText } from "./measures.ts";
import { picture } from "./picture.ts";
import { northOnPage, type Projection } from "./projection.ts";
import { INK } from "./style.ts";
import { subjectOf } from "./subject.ts";
import { cleanText, element } from "./svg.ts";
import { northArrow, scaleBar } from "./symbols.ts";
import { rowsHeight, textBlock, wrapText } from "./text.ts";

export interface PlanOptions {
  /** Width of the sheet in pixels, 280 to 2400; text keeps its size, the plan and its columns follow. Default 900. */
  readonly widthPx?: number;
  /** Default: the units of the answer. */
  readonly units?: UnitSystem;
  /** False leaves out the head (site, rig, verdict, headline) for a page that shows them itself. Default true. */
  readonly title?: boolean;
  /** False leaves out the key, which `drawPlanKey` then draws by itself. Default true. */
  readonly key?: boolean;
  /** False leaves out the cautions, for a page that says all of them. Default true. */
  readonly cautions?: boolean;
  /** Draws the ground where another plan of this width has it; see `planFrame`. */
  readonly frame?: PlanFrame;
  /** Outline, in the pad frame, of the rig at another place: drawn dashed. */
  readonly ghost?: readonly PadPoint[];
}

const DEFAULT_WIDTH = 900;
const LEAST_WIDTH = 280;
const LARGEST_WIDTH = 2400;
/** Narrower sheets are for a phone in the hand: smaller margins, taller plans. */
const NARROW_BELOW = 640;
const FONT_SIZE = 12;
const NARROW_FONT_SIZE = 11;
const MARGIN = 16;
const NARROW_MARGIN = 8;
const GAP = 10;
const CAUTIONS_SHOWN = 3;
const PARAGRAPH_ROWS = 4;
const STRIP_HEIGHT = 74;
const NORTH_RADIUS = 18;
const NORTH_ROOM = 36;
const SCALE_SHARE = 0.24;
const NARROW_SCALE_SHARE = 0.55;
const SCALE_DROP = 24;

/** How the rig stands and where to stop, and whose left and right these are. */
function stripText(fit: Fit, units: UnitSystem): string {
  const sentences = [stanceLine(fit, units)];
  if (fit.window) {
    const words = windowText(fit.window, fit.stance, units);
    sentences.push(`${words.charAt(0).toUpperCase()}${words.slice(1)}.`);
  }
  if (fit.scene.pad) {
    sentences.push("Left and right are those of someone looking from the rear edge to the exit.");
  }
  return sentences.join(" ");
}

/** Scale bar and north beneath the plan, with the stance in words beside them or, on a narrow sheet, under them. */
function drawStrip(fit: Fit, projection: Projection, measures: Measures, top: number): { ink: string; height: number } {
  const inner = measures.width - 2 * measures.margin;
  const heading = fit.scene.pad?.heading ?? null;
  const northAt = { x: measures.width - measures.margin - NORTH_ROOM, y: top + STRIP_HEIGHT / 2 };
  const barWidth = inner * (measures.narrow ? NARROW_SCALE_SHARE : SCALE_SHARE);
  const small = measures.fontSize - 1;
  const textX = measures.narrow ? measures.margin : measures.margin + barWidth + 2 * MARGIN;
  const textTop = measures.narrow ? top + STRIP_HEIGHT : top + GAP;
  const textRoom = measures.narrow ? inner : northAt.x - NORTH_ROOM - textX;
  const rows = wrapText(stripText(fit, measures.units), small, textRoom);
  const north =
    heading !== null && Number.isFinite(heading)
      ? northArrow(northAt, NORTH_RADIUS, northOnPage(heading, projection.orientation))
      : textBlock(["north", "unknown"], northAt.x, northAt.y - small, small, { "text-anchor": "middle", fill: INK });
  const ink =
    element("g", { "data-part": "north" }, north) +
    scaleBar({ x: measures.margin + 2, y: top + SCALE_DROP }, projection.scale, measures.units, barWidth) +
    textBlock(rows, textX, textTop, small, { fill: INK });
  return { ink, height: Math.max(STRIP_HEIGHT, textTop - top + rowsHeight(rows.length, small)) };
}

function paragraphs(
  texts: readonly string[],
  measures: Measures,
  top: number,
  part: string,
  bold = false,
): { ink: string; height: number } {
  let ink = "";
  let y = top;
  for (const text of texts) {
    const rows = wrapText(
      cleanText(text),
      measures.fontSize,
      measures.width - 2 * measures.margin,
      PARAGRAPH_ROWS,
      bold,
    );
    ink += textBlock(rows, measures.margin, y, measures.fontSize, {
      fill: INK,
      "font-weight": bold ? "bold" : undefined,
    });
    y += rowsHeight(rows.length, measures.fontSize) + 2;
  }
  return { ink: ink === "" ? "" : element("g", { "data-part": part }, ink), height: y - top };
}

function measuresOf(fit: Fit, options: PlanOptions): Measures {
  const asked = options.widthPx ?? DEFAULT_WIDTH;
  const width = Number.isFinite(asked)
    ? Math.min(Math.max(Math.round(asked), LEAST_WIDTH), LARGEST_WIDTH)
    : DEFAULT_WIDTH;
  const narrow = width < NARROW_BELOW;
  return {
    width,
    narrow,
    margin: narrow ? NARROW_MARGIN : MARGIN,
    fontSize: narrow ? NARROW_FONT_SIZE : FONT_SIZE,
    units: options.units ?? fit.units,
  };
}

/** The frame of a plan, with this much ground added round what it shows, metres; null when there is nothing to draw. */
export function planFrame(fit: Fit, options: PlanOptions = {}, room = 0): PlanFrame | null {
  const field = drawField(fit, subjectOf(fit), measuresOf(fit, options), 0);
  if (field === null) return null;
  const { extent, orientation, padding } = field.frame;
  return {
    extent: {
      alongMin: extent.alongMin - room,
      alongMax: extent.alongMax + room,
      leftMin: extent.leftMin - room,
      leftMax: extent.leftMax + room,
    },
    orientation,
    padding,
  };
}

export type { PlanFrame };

/** The key to a plan as an SVG element of its own; empty when nothing is drawn. */
export function drawPlanKey(fit: Fit, options: PlanOptions = {}): string {
  const measures = measuresOf(fit, options);
  const field = drawField(fit, subjectOf(fit), measures, 0);
  if (field === null) return "";
  const area = { x: measures.margin, y: measures.margin, width: measures.width - 2 * measures.margin };
  const legend = drawLegend(field.sheet.legend, area, measures.fontSize - 1);
  const height = Math.ceil(legend.height + 2 * measures.margin);
  return picture(
    {
      width: measures.width,
      height,
      title: "Key to the plan",
    },
    legend.ink,
  );
}

/**
 * The plan of a fit as one SVG element with a viewBox in pixels.
 *
 * The pad is drawn to scale and never mirrored: its exit points right or down. Everything that colour says is said
 * again by a shape, a dash or a letter. All text of the answer is escaped. Deterministic.
 */
export function drawPlan(fit: Fit, options: PlanOptions = {}): string {
  const measures = measuresOf(fit, options);
  const { width } = measures;
  const area = { x: measures.margin, width: width - 2 * measures.margin };
  const parts: string[] = [];
  let y = measures.margin;
  if (options.title ?? true) {
    const header = drawHeader(fit, { ...area, y }, measures.fontSize);
    parts.push(header.ink);
    y += header.height + GAP;
  }
  const subject = subjectOf(fit);
  const field = drawField(fit, subject, measures, y, options);
  const notes: string[] = [];
  if (field) {
    parts.push(fieldInk(field));
    y += field.sheet.projection.frame.height;
    const strip = drawStrip(fit, field.sheet.projection, measures, y);
    parts.push(strip.ink);
    y += strip.height + GAP;
    const left = field.placement.unplaced.flatMap((request) => request.otherwise ?? []);
    notes.push(...field.sheet.notes, ...new Set(left));
  } else {
    notes.push("Nothing of this site has a known place yet: there is no plan to draw.");
  }
  const said = paragraphs(notes, measures, y, "notes");
  parts.push(said.ink);
  y += said.height + (notes.length > 0 ? GAP : 0);
  if (field && (options.key ?? true)) {
    const legend = drawLegend(field.sheet.legend, { ...area, y }, measures.fontSize - 1);
    parts.push(element("g", { "data-part": "legend" }, legend.ink));
    y += legend.height + GAP;
  }
  const shown = (options.cautions ?? true) ? CAUTIONS_SHOWN : 0;
  const cautions = fit.cautions.slice(0, shown).map((caution) => caution.text);
  const warned = paragraphs(cautions, measures, y, "cautions", true);
  parts.push(warned.ink);
  y += warned.height + measures.margin;
  const title = planTitle(fit);
  return picture(
    {
      width,
      height: Math.ceil(y),
      title,
      description: planDescription(fit, measures.units),
    },
    ...parts,
  );
}
