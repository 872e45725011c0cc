/** The drawn field: the scene in its layers with its labels placed. */
import type { Fit } from "../fit/answer.ts";
import type { PadPoint } from "../fit/stance/problem.ts";
import { drawObstacle, drawPad, drawPatio, drawStop } from "./ground.ts";
import { drawHookups } from "./hookups.ts";
import { LABEL_PADDING, type LabelRequest, type PlacedLabel, type Placement, placeLabels } from "./labels.ts";
import type { UnitSystem } from "./lengths.ts";
import { drawLines, reserveLines } from "./lines.ts";
import { drawStanceMeasure, drawWindow, quieterSide } from "./measures.ts";
import {
  chooseOrientation,
  type Extent,
  isPlaced,
  makeProjection,
  type Orientation,
  type Projection,
} from "./projection.ts";
import { drawRig } from "./rig.ts";
import { drawInlets } from "./rig-parts.ts";
import { LAYERS, newSheet, type Sheet } from "./sheet.ts";
import { HAIRLINE, INK, PAPER, SOFT_INK, THIN } from "./style.ts";
import type { Subject } from "./subject.ts";
import { element, line, numberText, polyline } from "./svg.ts";
import { rowsHeight, textBlock } from "./text.ts";

const HEIGHT_SHARE = 0.75;
const NARROW_HEIGHT_SHARE = 2.2;
/** Room round what is drawn, pixels; the next one is tried when labels find no place. */
const PADDINGS = [46, 70, 95, 120];
const NARROW_PADDINGS = [32, 54, 80, 104];
/** What a pixel of room costs against what labels give up by standing close. */
const COST_OF_PADDING = 1.5;
const NARROW_COST_OF_PADDING = 4;
const LABEL_OPACITY = 0.92;
const LEADER_DOT = 1.8;

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
    if (fit.stance && placed && isPlaced(fit.stance)) {
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

export interface PlanField {
  readonly sheet: Sheet;
  readonly placement: Placement;
  readonly frame: PlanFrame;
}

/** Where the ground lies on the sheet. Plans in one frame lie over each other, whatever stands on the ground. */
export interface PlanFrame {
  readonly extent: Extent;
  readonly orientation: Orientation;
  /** Room round the extent, pixels. */
  readonly padding: number;
}

/** What a plan may be told beyond the answer. */
export interface FieldWish {
  /** Frame of another plan. */
  readonly frame?: PlanFrame;
  /** Outline in the pad frame of a rig at another place, drawn dashed beneath this one. */
  readonly ghost?: readonly PadPoint[];
  /** What the rig's front is called, when it is not "nose". */
  readonly noseWord?: string;
  /** Other words for the labels, or fewer of them. */
  readonly labels?: (asked: readonly LabelRequest[]) => readonly LabelRequest[];
}

const GHOST_DASH = "3 4";

function drawGhost(sheet: Sheet, outline: readonly PadPoint[]): void {
  const points = outline.filter(isPlaced).map((point) => sheet.projection.toPage(point));
  const ink = { fill: "none", stroke: SOFT_INK, "stroke-width": 2 * THIN, "stroke-dasharray": GHOST_DASH };
  sheet.layers.measures.push(element("g", { "data-part": "ghost" }, polyline([...points, points[0]!], ink)));
}

export interface Measures {
  readonly width: number;
  readonly margin: number;
  readonly fontSize: number;
  readonly narrow: boolean;
  readonly units: UnitSystem;
}

/** Draws the scene with more and more room round it and keeps the drawing whose labels stand best. */
export function drawField(
  fit: Fit,
  subject: Subject,
  measures: Measures,
  top: number,
  wish: FieldWish = {},
): PlanField | null {
  const extent = wish.frame?.extent ?? subject.extent;
  if (!extent) {
    return null;
  }
  const width = measures.width - 2 * measures.margin;
  const maxHeight = width * (measures.narrow ? NARROW_HEIGHT_SHARE : HEIGHT_SHARE);
  let best: PlanField | null = null;
  let least = Number.POSITIVE_INFINITY;
  const paddings = wish.frame ? [wish.frame.padding] : measures.narrow ? NARROW_PADDINGS : PADDINGS;
  for (const padding of paddings) {
    const around = { across: padding, down: padding };
    const room = { width: width - 2 * around.across, height: maxHeight - 2 * around.down };
    const orientation = wish.frame?.orientation ?? chooseOrientation(extent, room);
    const place = { x: measures.margin, y: top, width, maxHeight, padding: around };
    const projection: Projection = makeProjection({ extent, orientation, ...place });
    const sheet = newSheet(projection, measures.units, measures.fontSize, measures.narrow, wish.noseWord);
    drawScene(fit, subject, sheet);
    if (wish.ghost !== undefined && wish.ghost.length > 2) drawGhost(sheet, wish.ghost);
    const { solids, wires, body } = sheet;
    const asked = wish.labels === undefined ? sheet.labels : wish.labels(sheet.labels);
    const placement = placeLabels(asked, { frame: projection.frame, solids, wires, body });
    const cost = placement.cost + padding * (measures.narrow ? NARROW_COST_OF_PADDING : COST_OF_PADDING);
    if (cost < least) {
      least = cost;
      best = { sheet, placement, frame: { extent, orientation, padding } };
    }
  }
  return best;
}

export function fieldInk(field: PlanField): string {
  const { sheet, placement } = field;
  const { frame, orientation, scale } = sheet.projection;
  const origin = sheet.projection.toPage({ along: 0, left: 0 });
  return element(
    "g",
    {
      "data-part": "plan",
      "data-orientation": orientation,
      // Pixels per metre and the page's place of the pad's origin, for whoever points at the plan.
      "data-pixels-per-metre": String(scale),
      "data-origin": `${numberText(origin.x)} ${numberText(origin.y)}`,
    },
    element("rect", { ...frame, fill: PAPER, stroke: SOFT_INK, "stroke-width": HAIRLINE }),
    ...LAYERS.filter((layer) => layer !== "marks").flatMap((layer) => sheet.layers[layer]),
    ...placement.placed.map(leaderInk),
    ...sheet.layers.marks,
    ...placement.placed.map(labelInk),
  );
}
