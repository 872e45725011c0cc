/** What lies on the ground: the pad with its rear edge and exit, the stop, the obstacles. */
import type { Scene } from "../fit/answer.ts";
import type { PadPoint } from "../fit/stance/problem.ts";
import { lengthText } from "./lengths.ts";
import { boundsOf, cutToBox, edgesOf, hatch, middleOf, segmentsPath } from "./polygon.ts";
import { isPlaced } from "./projection.ts";
import { addOutline, addWires, COST_EDGE, COST_MEASURE, PRIORITY, type Sheet } from "./sheet.ts";
import {
  BARRIER_INK,
  DASH,
  FAINT_INK,
  HAIRLINE,
  HEAVY,
  INK,
  MEDIUM_STROKE,
  OBSTACLE_INK,
  OVERHEAD_INK,
  PAD_FILL,
  PAPER,
  SOFT_INK,
  THIN,
} from "./style.ts";
import { cleanText, element, line, polygon, type Spot } from "./svg.ts";
import { arrow } from "./symbols.ts";
import { shorten } from "./text.ts";

const EXIT_GAP = 4;
const EXIT_LENGTH = 25;
/** An edge and its name belong together without a leader up to here, pixels. */
const EXIT_QUIET = 36;
const EXIT_HEAD = 12;
const EXIT_RADIUS = 9;
/** Places along an edge where its label may point, as shares of the edge. */
const EDGE_SHARES = [0.5, 0.2, 0.8, 0.05, 0.95];

function alongEdge(from: Spot, to: Spot, share: number): Spot {
  return { x: from.x + share * (to.x - from.x), y: from.y + share * (to.y - from.y) };
}

/** Room of the page that an arrow takes. */
function reserveStroke(sheet: Sheet, from: Spot, to: Spot, radius: number): void {
  const box = boundsOf([from, to]);
  sheet.solids.push({
    x: box.x - radius,
    y: box.y - radius,
    width: box.width + 2 * radius,
    height: box.height + 2 * radius,
  });
}

function drawExit(sheet: Sheet, pad: { length: number; width: number }, bodyEnd: number): void {
  const { toPage, turn } = sheet.projection;
  const way = turn({ along: 1, left: 0 });
  const edge = toPage({ along: Math.max(pad.length, bodyEnd), left: 0 });
  const from = { x: edge.x + way.x * EXIT_GAP, y: edge.y + way.y * EXIT_GAP };
  const to = { x: from.x + way.x * EXIT_LENGTH, y: from.y + way.y * EXIT_LENGTH };
  sheet.layers.marks.push(
    element(
      "g",
      { "data-part": "exit" },
      arrow(from, to, EXIT_HEAD, HEAVY, PAPER),
      arrow(from, to, EXIT_HEAD, MEDIUM_STROKE, INK),
    ),
  );
  reserveStroke(sheet, from, to, EXIT_RADIUS);
  sheet.labels.push({
    key: "exit",
    rows: [{ text: "exit, road side", bold: true }],
    anchors: [middleOf([from, to]), to],
    quietDistance: EXIT_QUIET,
    priority: PRIORITY.edge,
    fontSize: sheet.fontSize,
    colour: INK,
  });
}

/** The pad; `bodyEnd` is how far along the rig's body reaches, so that the exit arrow starts beyond it. */
export function drawPad(sheet: Sheet, pad: NonNullable<Scene["pad"]>, bodyEnd: number): void {
  const { toPage } = sheet.projection;
  const half = pad.width / 2;
  const rearLeft = toPage({ along: 0, left: half });
  const rearRight = toPage({ along: 0, left: -half });
  const exitRight = toPage({ along: pad.length, left: -half });
  const exitLeft = toPage({ along: pad.length, left: half });
  const outline = [rearRight, exitRight, exitLeft, rearLeft];
  sheet.layers.ground.push(
    polygon(outline, { fill: PAD_FILL, stroke: SOFT_INK, "stroke-width": THIN, "data-part": "pad" }),
    line(toPage({ along: 0, left: 0 }), toPage({ along: pad.length, left: 0 }), {
      stroke: FAINT_INK,
      "stroke-width": HAIRLINE,
      "stroke-dasharray": DASH.middle,
    }),
    line(rearRight, rearLeft, { stroke: INK, "stroke-width": HEAVY, "data-part": "rear-edge" }),
  );
  sheet.legend.add("rear-edge").add("middle");
  addOutline(sheet, outline);
  addWires(sheet, [{ from: rearRight, to: rearLeft }], COST_MEASURE);
  sheet.labels.push({
    key: "rear-edge",
    rows: [{ text: "rear edge", bold: true }],
    offBody: true,
    anchors: EDGE_SHARES.map((share) => alongEdge(rearLeft, rearRight, share)),
    priority: PRIORITY.edge,
    fontSize: sheet.fontSize,
    colour: INK,
  });
  drawExit(sheet, pad, bodyEnd);
}

export function drawPatio(sheet: Sheet, pad: NonNullable<Scene["pad"]>, side: "left" | "right"): void {
  const left = (side === "left" ? 1 : -1) * (pad.width / 2);
  const from = sheet.projection.toPage({ along: 0, left });
  const to = sheet.projection.toPage({ along: pad.length, left });
  sheet.labels.push({
    key: "patio",
    rows: [{ text: "patio side" }],
    offBody: true,
    quietDistance: EXIT_QUIET,
    anchors: EDGE_SHARES.map((share) => alongEdge(to, from, share)),
    priority: PRIORITY.area,
    fontSize: sheet.fontSize,
    colour: SOFT_INK,
  });
}

/** A wheel stop takes the middle of the pad, a kerb its whole width. */
const WHEEL_STOP_SHARE = 0.7;
/** Width drawn for a pad that is not known, metres. */
const STOP_WIDTH_UNKNOWN = 2;
const STOP_STROKE = 5;

/** "wheelStop" of the record as words. */
export function stopName(stop: NonNullable<Scene["stop"]>): string {
  return cleanText(stop.kind)
    .replace(/([a-z])([A-Z])/g, "$1 $2")
    .toLowerCase();
}

export function drawStop(sheet: Sheet, stop: NonNullable<Scene["stop"]>, padWidth: number | null): void {
  const kind = stopName(stop);
  const share = /kerb|curb/i.test(kind) ? 1 : WHEEL_STOP_SHARE;
  const half = ((padWidth ?? STOP_WIDTH_UNKNOWN) / 2) * share;
  const from = sheet.projection.toPage({ along: stop.along, left: half });
  const to = sheet.projection.toPage({ along: stop.along, left: -half });
  sheet.layers.ground.push(
    line(from, to, { stroke: INK, "stroke-width": STOP_STROKE, "data-part": "stop" }),
    line(from, to, { stroke: PAPER, "stroke-width": MEDIUM_STROKE, "stroke-dasharray": DASH.region }),
  );
  addWires(sheet, [{ from, to }], COST_MEASURE);
  sheet.legend.add("stop");
  if (sheet.compact) {
    return;
  }
  sheet.labels.push({
    key: "stop",
    offBody: true,
    rows: [{ text: kind }],
    anchors: EDGE_SHARES.map((each) => alongEdge(from, to, each)),
    priority: PRIORITY.edge,
    fontSize: sheet.fontSize,
    colour: INK,
  });
}

type ObstacleKind = "solid" | "overhead" | "barrier";

interface ObstacleStyle {
  readonly ink: string;
  readonly dash: string | undefined;
  readonly spacing: number;
  readonly angle: number;
  readonly hatchDash: string | undefined;
}

const OBSTACLE_STYLES: Readonly<Record<ObstacleKind, ObstacleStyle>> = {
  solid: { ink: OBSTACLE_INK, dash: undefined, spacing: 5, angle: -Math.PI / 4, hatchDash: undefined },
  overhead: { ink: OVERHEAD_INK, dash: DASH.overhead, spacing: 10, angle: Math.PI / 4, hatchDash: DASH.overheadHatch },
  barrier: { ink: BARRIER_INK, dash: DASH.barrier, spacing: 14, angle: 0, hatchDash: DASH.barrierHatch },
};

/** Below this height a thing stands in the way of a body on the ground, metres. */
const GROUND_BAND = 0.5;

export function obstacleKind(obstacle: Scene["obstacles"][number]): ObstacleKind {
  if (obstacle.bars === "line") {
    return "barrier";
  }
  return obstacle.from > GROUND_BAND ? "overhead" : "solid";
}

const OBSTACLE_NAME_WIDTH = 130;
const COMPACT_NAME_WIDTH = 84;
const OBSTACLE_MAX_DISTANCE = 104;
const COMPACT_MAX_DISTANCE = 54;
const POST_RADIUS = 3;

function obstacleRows(sheet: Sheet, obstacle: Scene["obstacles"][number]): { text: string }[] {
  const width = sheet.compact ? COMPACT_NAME_WIDTH : OBSTACLE_NAME_WIDTH;
  const name = shorten(cleanText(obstacle.what) || "obstacle", sheet.fontSize, width);
  const rows = [{ text: name }];
  const kind = obstacleKind(obstacle);
  if (kind === "overhead") {
    rows.push({
      text: `${sheet.compact ? "from" : "overhead from"} ${lengthText(obstacle.from, sheet.units, "down")} up`,
    });
  } else if (kind === "barrier") {
    rows.push({ text: "no line across" });
  }
  return rows;
}

function drawShape(sheet: Sheet, outline: readonly Spot[], kind: ObstacleKind, id: string): void {
  const style = OBSTACLE_STYLES[kind];
  const ink = { stroke: style.ink, "stroke-width": THIN, "stroke-dasharray": style.dash };
  const [first, second] = outline;
  if (first && second && outline.length === 2) {
    sheet.layers.obstacles.push(line(first, second, { ...ink, "stroke-width": MEDIUM_STROKE }));
  } else if (first && outline.length < 2) {
    sheet.layers.obstacles.push(element("circle", { cx: first.x, cy: first.y, r: POST_RADIUS, fill: style.ink }));
  } else {
    const strokes = segmentsPath(hatch(outline, style.spacing, style.angle));
    sheet.layers.obstacles.push(
      element(
        "g",
        { "data-obstacle": id, "data-kind": kind },
        polygon(outline, { fill: kind === "solid" ? PAPER : "none", ...ink }),
        strokes === ""
          ? ""
          : element("path", {
              d: strokes,
              stroke: style.ink,
              "stroke-width": HAIRLINE,
              "stroke-dasharray": style.hatchDash,
              fill: "none",
            }),
      ),
    );
  }
}

/** One obstacle, cut to the field; what is wholly outside is left out. */
export function drawObstacle(sheet: Sheet, obstacle: Scene["obstacles"][number]): void {
  const page = obstacle.outline.filter(isPlaced).map((point: PadPoint) => sheet.projection.toPage(point));
  const outline = page.length > 0 ? cutToBox(page, sheet.projection.frame) : [];
  if (outline.length === 0) {
    return;
  }
  const kind = obstacleKind(obstacle);
  drawShape(sheet, outline, kind, cleanText(obstacle.id));
  addOutline(sheet, outline, kind === "solid" ? 2 * COST_EDGE : COST_EDGE / 2);
  sheet.legend.add(`obstacle:${kind}`);
  const name = cleanText(obstacle.what) || "obstacle";
  sheet.labels.push({
    key: `obstacle:${cleanText(obstacle.id)}`,
    rows: obstacleRows(sheet, obstacle),
    anchors: [middleOf(outline), ...edgesOf(outline).map((edge) => alongEdge(edge.from, edge.to, EDGE_SHARES[0] ?? 0))],
    priority: PRIORITY.obstacle,
    fontSize: sheet.fontSize,
    colour: INK,
    mayCover: true,
    offBody: true,
    maxDistance: sheet.compact ? COMPACT_MAX_DISTANCE : OBSTACLE_MAX_DISTANCE,
    otherwise: `Also drawn: ${name}.`,
  });
}
