/**
 * The plan of one fit: a sheet to scale, seen from above, that a host prints. A string of SVG from the answer alone.
 */
import type { Fit, Scene } from "../fit/answer.ts";
import type { PadPoint } from "../fit/stance/problem.ts";
import { planDescription, planTitle, stanceLine } from "./describe.ts";
import { drawObstacle, drawPad, drawPatio, drawStop } from "./ground.ts";
import { drawHeader } from "./header.ts";
import { drawHookups } from "./hookups.ts";
import { LABEL_PADDING, type PlacedLabel, type Placement, placeLabels } from "./labels.ts";
import { drawLegend } from "./legend.ts";
import type { UnitSystem } from "./lengths.ts";
import { drawLines, reserveLines } from "./lines.ts";
import { drawStanceMeasure, drawWindow, quieterSide, windowText } from "./measures.ts";
import {
  chooseOrientation,
  type Extent,
  extentOf,
  isPlaced,
  makeProjection,
  northOnPage,
  type Projection,
} from "./projection.ts";
import { drawRig } from "./rig.ts";
import { LAYERS, newSheet, reserveMark, type Sheet } from "./sheet.ts";
import { HAIRLINE, INK, INLET_RADIUS, PAPER, SOFT_INK, THIN } from "./style.ts";
import { cleanText, element, escapeText, line, numberText } from "./svg.ts";
import { inletMark, northArrow, scaleBar } from "./symbols.ts";
import { FONT_FAMILY, rowsHeight, textBlock, wrapText } from "./text.ts";

export interface PlanOptions {
  /** Width of the sheet in pixels, 280 to 2400; text keeps its size, the plan and its columns follow. Default 900. */
  readonly widthPx?: number;
  /** Default: the units of the answer. */
  readonly units?: UnitSystem;
  /** False leaves out the head (site, rig, verdict, headline) for a page that shows them itself. Default true. */
  readonly title?: boolean;
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
const HEIGHT_SHARE = 0.75;
const NARROW_HEIGHT_SHARE = 2.2;
/** Room round what is drawn, pixels; the next one is tried when labels find no place. */
const PADDINGS = [46, 70, 95, 120];
const NARROW_PADDINGS = [32, 54, 80, 104];
/** What a pixel of room costs against what labels give up by standing close. */
const COST_OF_PADDING = 1.5;
const NARROW_COST_OF_PADDING = 4;
/** How far beyond pad, rig, hookups and lines an obstacle is still drawn, metres; one too long to show less far. */
const OBSTACLE_REACH = 4;
const LONG_OBSTACLE_REACH = 0.5;
/** Distance between everything else and a rig that stands nowhere, metres. */
const ASIDE = 1.5;
const CAUTIONS_SHOWN = 3;
const PARAGRAPH_ROWS = 4;
const STRIP_HEIGHT = 74;
const NORTH_RADIUS = 18;
const NORTH_ROOM = 36;
const SCALE_SHARE = 0.24;
const NARROW_SCALE_SHARE = 0.55;
const SCALE_DROP = 24;
const LABEL_OPACITY = 0.92;
const LEADER_DOT = 1.8;

type RigScene = NonNullable<Scene["rig"]>;

function movePoint(point: PadPoint, by: PadPoint): PadPoint {
  return { along: point.along + by.along, left: point.left + by.left };
}

/** The rig to the right of everything, level with the rear edge. */
function putAside(rig: RigScene, others: Extent | null): RigScene {
  const own = extentOf([...rig.body, ...rig.slides.flatMap((slide) => slide.outline)]);
  if (!own) {
    return rig;
  }
  const by = { along: -own.alongMin, left: (others ? others.leftMin : 0) - ASIDE - own.leftMax };
  const move = (points: readonly PadPoint[]): PadPoint[] => points.map((point) => movePoint(point, by));
  return {
    ...rig,
    body: move(rig.body),
    nose: move(rig.nose),
    slides: rig.slides.map((slide) => ({ ...slide, outline: move(slide.outline) })),
  };
}

function padCorners(pad: Scene["pad"]): PadPoint[] {
  if (!pad) {
    return [];
  }
  const half = pad.width / 2;
  return [
    { along: 0, left: half },
    { along: 0, left: -half },
    { along: pad.length, left: half },
    { along: pad.length, left: -half },
  ];
}

/** Points that the extent takes in for an obstacle: the whole of a near one, the beginning of a far or long one. */
function nearPart(outline: readonly PadPoint[], core: Extent): PadPoint[] {
  const own = extentOf(outline);
  if (!own) {
    return [];
  }
  const clamp = (value: number, low: number, high: number, size: number): number => {
    const reach = size > 2 * OBSTACLE_REACH ? LONG_OBSTACLE_REACH : OBSTACLE_REACH;
    return Math.min(Math.max(value, low - reach), high + reach);
  };
  return outline.filter(isPlaced).map((point) => ({
    along: clamp(point.along, core.alongMin, core.alongMax, own.alongMax - own.alongMin),
    left: clamp(point.left, core.leftMin, core.leftMax, own.leftMax - own.leftMin),
  }));
}

interface Subject {
  readonly scene: Scene;
  readonly extent: Extent | null;
  readonly placed: boolean;
}

/** What is to be drawn, with the rig where it goes, and the box that shows it all. */
function subjectOf(fit: Fit): Subject {
  const { scene } = fit;
  const pad =
    scene.pad &&
    scene.pad.length > 0 &&
    scene.pad.width > 0 &&
    isPlaced({ along: scene.pad.length, left: scene.pad.width })
      ? scene.pad
      : null;
  const placed = fit.stance !== null && scene.rig !== null;
  const fixed = [
    ...padCorners(pad),
    ...(scene.stop ? [{ along: scene.stop.along, left: 0 }] : []),
    ...scene.hookups.map((hookup) => hookup.at),
    ...scene.hookups.flatMap(({ region }) =>
      region
        ? [
            { along: region.alongLow, left: region.leftLow },
            { along: region.alongHigh, left: region.leftHigh },
          ]
        : [],
    ),
  ];
  const rig = scene.rig && !placed ? putAside(scene.rig, extentOf(fixed)) : scene.rig;
  const standing = rig
    ? [
        ...rig.body,
        ...rig.slides.flatMap((slide) => slide.outline),
        ...(placed ? rig.awnings.flatMap((awning) => awning.outline) : []),
      ]
    : [];
  const core = extentOf([...fixed, ...standing, ...(placed ? fit.lines.flatMap((each) => each.path) : [])]);
  const near = scene.obstacles.flatMap((obstacle) => (core ? nearPart(obstacle.outline, core) : obstacle.outline));
  const corners = core
    ? [
        { along: core.alongMin, left: core.leftMin },
        { along: core.alongMax, left: core.leftMax },
      ]
    : [];
  return { scene: { ...scene, pad, rig }, extent: extentOf([...corners, ...near]), placed };
}

function drawInlets(sheet: Sheet, rig: RigScene): void {
  for (const connection of rig.connections.filter((each) => isPlaced(each.at))) {
    const at = reserveMark(sheet, sheet.projection.toPage(connection.at), INLET_RADIUS);
    sheet.layers.marks.push(
      element("g", { "data-inlet": cleanText(connection.id) }, inletMark(connection.service, at, INLET_RADIUS)),
    );
    sheet.legend.add("inlet");
  }
}

function drawScene(fit: Fit, subject: Subject, sheet: Sheet): void {
  const { scene, placed } = subject;
  const { pad, rig } = scene;
  if (pad) {
    const bodyEnd = rig && placed ? Math.max(...rig.body.filter(isPlaced).map((point) => point.along)) : pad.length;
    drawPad(sheet, pad, bodyEnd);
    if (scene.patio) {
      drawPatio(sheet, pad, scene.patio);
    }
  } else {
    sheet.notes.push("The pad's length, width or heading is not recorded: no outline is drawn.");
  }
  if (scene.stop && Number.isFinite(scene.stop.along)) {
    drawStop(sheet, scene.stop, pad?.width ?? null);
  }
  for (const obstacle of scene.obstacles) {
    drawObstacle(sheet, obstacle);
  }
  if (placed) {
    reserveLines(sheet, fit.lines);
  }
  drawHookups(sheet, scene.hookups);
  if (rig) {
    if (placed) {
      drawInlets(sheet, rig);
    }
    drawRig(sheet, rig, fit.rig.name, placed);
  }
  if (!placed) {
    sheet.notes.push(
      rig ? "The rig is not placed: it is drawn to scale beside the rest." : "The rig is not placed and not drawn.",
    );
  }
  if (pad) {
    const side = quieterSide(fit, scene, pad.width, Math.max(fit.stance?.along ?? 0, fit.window?.along.to ?? 0));
    if (fit.stance && placed) {
      drawStanceMeasure(sheet, fit.stance, pad.width, side);
    }
    if (fit.window) {
      drawWindow(sheet, fit.window, fit.stance, pad.width, side);
    }
  }
  drawLines(sheet, fit.lines, placed);
}

function labelInk(label: PlacedLabel): string {
  const { request, box } = label;
  const frame = element("rect", {
    ...box,
    fill: PAPER,
    "fill-opacity": LABEL_OPACITY,
    stroke: request.framed ? request.colour : undefined,
    "stroke-width": request.framed ? THIN : undefined,
    "data-box": "label",
  });
  const rows = request.rows.map((row, index) =>
    textBlock(
      [row.text],
      box.x + LABEL_PADDING,
      box.y + LABEL_PADDING + rowsHeight(index, request.fontSize),
      request.fontSize,
      {
        fill: index === 0 || !request.framed ? request.colour : INK,
        "font-weight": row.bold ? "bold" : undefined,
      },
    ),
  );
  return element("g", { "data-label": request.key }, frame, ...rows);
}

function leaderInk(label: PlacedLabel): string {
  if (!label.leader) {
    return "";
  }
  const { from, to } = label.leader;
  return (
    line(from, to, { stroke: PAPER, "stroke-width": 2 * THIN + HAIRLINE }) +
    line(from, to, { stroke: label.request.colour, "stroke-width": HAIRLINE }) +
    element("circle", { cx: to.x, cy: to.y, r: LEADER_DOT, fill: label.request.colour })
  );
}

interface PlanField {
  readonly sheet: Sheet;
  readonly placement: Placement;
}

interface Measures {
  readonly width: number;
  readonly margin: number;
  readonly fontSize: number;
  readonly narrow: boolean;
  readonly units: UnitSystem;
}

/** Draws the scene with more and more room round it and keeps the drawing whose labels stand best. */
function drawField(fit: Fit, subject: Subject, measures: Measures, top: number): PlanField | null {
  const { extent } = subject;
  if (!extent) {
    return null;
  }
  const width = measures.width - 2 * measures.margin;
  const maxHeight = width * (measures.narrow ? NARROW_HEIGHT_SHARE : HEIGHT_SHARE);
  let best: PlanField | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const padding of measures.narrow ? NARROW_PADDINGS : PADDINGS) {
    const around = { across: padding, down: padding };
    const room = { width: width - 2 * around.across, height: maxHeight - 2 * around.down };
    const orientation = chooseOrientation(extent, room);
    const place = { x: measures.margin, y: top, width, maxHeight, padding: around };
    const projection: Projection = makeProjection({ extent, orientation, ...place });
    const sheet = newSheet(projection, measures.units, measures.fontSize, measures.narrow);
    drawScene(fit, subject, sheet);
    const { solids, wires, body } = sheet;
    const placement = placeLabels(sheet.labels, { frame: projection.frame, solids, wires, body });
    const cost = placement.cost + padding * (measures.narrow ? NARROW_COST_OF_PADDING : COST_OF_PADDING);
    if (cost < least) {
      least = cost;
      best = { sheet, placement };
    }
  }
  return best;
}

function fieldInk(field: PlanField): string {
  const { sheet, placement } = field;
  const { frame } = sheet.projection;
  return element(
    "g",
    { "data-part": "plan", "data-orientation": sheet.projection.orientation },
    element("rect", { ...frame, fill: PAPER, stroke: SOFT_INK, "stroke-width": HAIRLINE }),
    ...LAYERS.filter((layer) => layer !== "marks").flatMap((layer) => sheet.layers[layer]),
    ...placement.placed.map(leaderInk),
    ...sheet.layers.marks,
    ...placement.placed.map(labelInk),
  );
}

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

/**
 * The plan of a fit as one SVG element with a viewBox in pixels.
 *
 * The pad is drawn to scale and never mirrored: its exit points right or down. Everything that colour says is said
 * again by a shape, a dash or a letter. All text of the answer is escaped. Deterministic.
 */
export function drawPlan(fit: Fit, options: PlanOptions = {}): string {
  const asked = options.widthPx ?? DEFAULT_WIDTH;
  const width = Number.isFinite(asked)
    ? Math.min(Math.max(Math.round(asked), LEAST_WIDTH), LARGEST_WIDTH)
    : DEFAULT_WIDTH;
  const narrow = width < NARROW_BELOW;
  const measures: Measures = {
    width,
    narrow,
    margin: narrow ? NARROW_MARGIN : MARGIN,
    fontSize: narrow ? NARROW_FONT_SIZE : FONT_SIZE,
    units: options.units ?? fit.units,
  };
  const area = { x: measures.margin, width: width - 2 * measures.margin };
  const parts: string[] = [];
  let y = measures.margin;
  if (options.title ?? true) {
    const header = drawHeader(fit, { ...area, y }, measures.fontSize);
    parts.push(header.ink);
    y += header.height + GAP;
  }
  const subject = subjectOf(fit);
  const field = drawField(fit, subject, measures, y);
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
  if (field) {
    const legend = drawLegend(field.sheet.legend, { ...area, y }, measures.fontSize - 1);
    parts.push(element("g", { "data-part": "legend" }, legend.ink));
    y += legend.height + GAP;
  }
  const cautions = fit.cautions.slice(0, CAUTIONS_SHOWN).map((caution) => caution.text);
  const warned = paragraphs(cautions, measures, y, "cautions", true);
  parts.push(warned.ink);
  y += warned.height + measures.margin;
  const title = planTitle(fit);
  return element(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      viewBox: `0 0 ${numberText(width)} ${numberText(Math.ceil(y))}`,
      width,
      height: Math.ceil(y),
      role: "img",
      "aria-label": title,
      "font-family": FONT_FAMILY,
    },
    element("title", {}, escapeText(title)),
    element("desc", {}, escapeText(planDescription(fit, measures.units))),
    element("rect", { x: 0, y: 0, width, height: Math.ceil(y), fill: PAPER }),
    ...parts,
  );
}
