/** One way of a manoeuvre to scale: road, pad, what stands there, the bodies along the path and the numbered moves. */
import type { Scene } from "../fit/answer.ts";
import type { ManoeuvreAnswer, ManoeuvreLeg } from "../fit/manoeuvre/answer.ts";
import type { PadPoint } from "../fit/stance/problem.ts";
import { obstacleKind } from "./ground.ts";
import { lengthText, type UnitSystem } from "./lengths.ts";
import { cutSegment, cutToBox, hatch, segmentsPath } from "./polygon.ts";
import { chooseOrientation, extentOf, makeProjection, type Projection } from "./projection.ts";
import {
  FAINT_INK,
  HAIRLINE,
  HEAVY,
  INK,
  LETTER_RADIUS,
  MEDIUM_STROKE,
  OBSTACLE_INK,
  PAD_FILL,
  PAPER,
  SOFT_INK,
  THIN,
} from "./style.ts";
import { cleanText, element, escapeText, line, polygon, polyline, type Spot } from "./svg.ts";
import { arrow } from "./symbols.ts";
import { textRow, textWidth } from "./text.ts";

interface PanelRequest {
  readonly scene: Scene;
  readonly manoeuvre: ManoeuvreAnswer;
  readonly leg: ManoeuvreLeg;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly fontSize: number;
  readonly units: UnitSystem;
}

export const REVERSE_DASH = "5 3";
const ROAD_DASH = "16 5";
const SWEPT_FILL = "#d9d9d9";
const SWEPT_OPACITY = 0.45;
const HEIGHT_SHARE = 0.62;
const PADDING = 18;
const HATCH_SPACING = 5;
const HATCH_ANGLE = -Math.PI / 4;
const MARGIN_RADIUS = 9;
const ARROW_HEAD = 9;
/** Shortest arrow that is drawn, pixels. */
const LEAST_ARROW = 14;
const TEXT_GAP = 4;
const LEADER = 22;
/** Height of the ground beneath a label, in sizes of its letters. */
const LABEL_HEIGHT = 1.5;

function points(request: PanelRequest): PadPoint[] {
  const { scene, leg } = request;
  const pad = scene.pad;
  const corners =
    pad === null
      ? []
      : [0, pad.length].flatMap((along) => [-1, 1].map((side) => ({ along, left: (side * pad.width) / 2 })));
  return [...corners, ...leg.outlines.flatMap(({ outline }) => outline), ...(leg.closest ? [leg.closest.at] : [])];
}

function drawGround(request: PanelRequest, projection: Projection): string {
  const { scene, manoeuvre } = request;
  const { toPage, frame } = projection;
  const { pad } = scene;
  const parts: string[] = [];
  if (pad !== null) {
    const half = pad.width / 2;
    const corner = (along: number, left: number) => toPage({ along, left });
    const outline = [corner(0, -half), corner(pad.length, -half), corner(pad.length, half), corner(0, half)];
    parts.push(
      polygon(outline, { fill: PAD_FILL, stroke: SOFT_INK, "stroke-width": THIN, "data-part": "pad" }),
      line(corner(0, -half), corner(0, half), { stroke: INK, "stroke-width": HEAVY, "data-part": "rear-edge" }),
    );
  }
  for (const { edges, mouth } of manoeuvre.roads) {
    for (const side of mouth) {
      const [from, to] = side.map(toPage);
      const seen = from === undefined || to === undefined ? null : cutSegment({ from, to }, frame);
      if (seen === null) continue;
      parts.push(line(seen.from, seen.to, { stroke: SOFT_INK, "stroke-width": THIN, "data-part": "mouth" }));
    }
    for (const edge of edges) {
      const [from, to] = edge.map(toPage);
      const seen = from === undefined || to === undefined ? null : cutSegment({ from, to }, frame);
      if (seen === null) continue;
      const look = { stroke: INK, "stroke-width": MEDIUM_STROKE, "stroke-dasharray": ROAD_DASH, "data-part": "road" };
      parts.push(line(seen.from, seen.to, look));
    }
  }
  for (const obstacle of scene.obstacles) {
    if (obstacleKind(obstacle) === "barrier") continue;
    const outline = cutToBox(obstacle.outline.map(toPage), frame);
    if (outline.length < 3) continue;
    const strokes = segmentsPath(hatch(outline, HATCH_SPACING, HATCH_ANGLE));
    const ink = { stroke: OBSTACLE_INK, "stroke-width": THIN, fill: "none" };
    parts.push(polygon(outline, { ...ink, "data-obstacle": cleanText(obstacle.id) }));
    parts.push(element("path", { d: strokes, ...ink, "stroke-width": HAIRLINE }));
  }
  return parts.join("");
}

/** The swept ground first, then the outlines over it: unbroken forward, broken in reverse; the last one is heavy. */
function drawBodies({ leg }: PanelRequest, { toPage }: Projection): string {
  const pages = leg.outlines.map((one) => ({ ...one, page: one.outline.map(toPage) }));
  const swept = pages.map(({ page }) => polygon(page, { fill: SWEPT_FILL, "fill-opacity": SWEPT_OPACITY }));
  const names = new Set(leg.outlines.map(({ unit }) => unit));
  const edges = pages.map(({ page, gear }, index) => {
    const end = index >= pages.length - names.size;
    return polygon(page, {
      fill: "none",
      stroke: end ? INK : SOFT_INK,
      "stroke-width": end ? MEDIUM_STROKE : HAIRLINE,
      "stroke-dasharray": gear === "reverse" && !end ? REVERSE_DASH : undefined,
      "data-gear": gear,
    });
  });
  return element("g", { "data-part": "swept" }, ...swept, ...edges);
}

/** Stretches of the track, one for each move. */
function stretches(leg: ManoeuvreLeg, toPage: Projection["toPage"]): Spot[][] {
  const found: Spot[][] = [];
  let index = 0;
  let driven = 0;
  let end = 0;
  for (const move of leg.moves) {
    end += move.distance;
    const stretch: Spot[] = [];
    for (; index < leg.track.length; index += 1) {
      const here = leg.track[index] as PadPoint;
      const before = leg.track[index - 1];
      const step = before === undefined ? 0 : Math.hypot(here.along - before.along, here.left - before.left);
      // The chords of the track are a little shorter than its arcs.
      if (stretch.length > 1 && driven + step / 2 > end) break;
      driven += step;
      stretch.push(toPage(here));
    }
    index = Math.max(0, index - 1);
    driven = end;
    found.push(stretch);
  }
  return found;
}

function drawMoves({ leg, fontSize }: PanelRequest, { toPage }: Projection): string {
  const inks = stretches(leg, toPage).map((stretch, index) => {
    const move = leg.moves[index];
    const dash = move?.gear === "reverse" ? REVERSE_DASH : undefined;
    const [first, last] = [stretch[0], stretch.at(-1)];
    const before = stretch.at(-2);
    if (first === undefined || last === undefined || before === undefined) return "";
    const way = { x: last.x - before.x, y: last.y - before.y };
    const size = Math.hypot(way.x, way.y) || 1;
    const from = { x: last.x - (way.x / size) * LEAST_ARROW, y: last.y - (way.y / size) * LEAST_ARROW };
    const middle = stretch[Math.floor(stretch.length / 2)] ?? first;
    return [
      polyline(stretch, { stroke: INK, "stroke-width": MEDIUM_STROKE, "stroke-dasharray": dash }),
      arrow(from, last, ARROW_HEAD, MEDIUM_STROKE, INK),
      element("circle", {
        cx: middle.x,
        cy: middle.y,
        r: LETTER_RADIUS,
        fill: PAPER,
        stroke: INK,
        "stroke-width": THIN,
      }),
      textRow(String(index + 1), middle.x, middle.y - fontSize / 2 - 1, fontSize - 1, {
        "text-anchor": "middle",
        "font-weight": "bold",
        fill: INK,
      }),
    ].join("");
  });
  return element("g", { "data-part": "moves" }, ...inks);
}

function drawClosest({ leg, fontSize, units }: PanelRequest, projection: Projection): string {
  if (leg.closest === null || leg.margin === null) return "";
  const at = projection.toPage(leg.closest.at);
  const text = `${lengthText(leg.margin, units, "down")} clear here`;
  const room = textWidth(text, fontSize, true);
  const { frame } = projection;
  const right = at.x + LEADER + room < frame.x + frame.width;
  const below = at.y + LEADER + fontSize < frame.y + frame.height;
  const end = { x: at.x + (right ? LEADER : -LEADER), y: at.y + (below ? LEADER : -LEADER) };
  const x = right ? end.x + TEXT_GAP : end.x - TEXT_GAP - room;
  return element(
    "g",
    { "data-part": "closest" },
    element("circle", {
      cx: at.x,
      cy: at.y,
      r: MARGIN_RADIUS,
      fill: "none",
      stroke: INK,
      "stroke-width": MEDIUM_STROKE,
    }),
    line(at, end, { stroke: INK, "stroke-width": THIN }),
    element("rect", {
      x: x - 2,
      y: end.y - fontSize,
      width: room + TEXT_GAP,
      height: fontSize * LABEL_HEIGHT,
      fill: PAPER,
    }),
    element("text", { x, y: end.y, "font-size": fontSize, "font-weight": "bold", fill: INK }, escapeText(text)),
  );
}

/** The panel with its projection; null without a path. */
export function drawPanel(request: PanelRequest): { ink: string; projection: Projection } | null {
  const extent = extentOf(points(request));
  if (extent === null || request.leg.outlines.length === 0) return null;
  const { x, y, width } = request;
  const maxHeight = width * HEIGHT_SHARE;
  const orientation = chooseOrientation(extent, { width, height: maxHeight });
  const padding = { across: PADDING, down: PADDING };
  const projection = makeProjection({ extent, orientation, x, y, width, maxHeight, padding });
  const { frame } = projection;
  const ink = [
    drawGround(request, projection),
    drawBodies(request, projection),
    drawMoves(request, projection),
    drawClosest(request, projection),
    element("rect", { ...frame, fill: "none", stroke: FAINT_INK, "stroke-width": HAIRLINE }),
  ].join("");
  return { ink, projection };
}
