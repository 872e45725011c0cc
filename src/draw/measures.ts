/** How the rig stands: the window to stop in, the distance from the rear edge, the offset from the middle. */
import type { Fit, Scene, StanceWindow } from "../fit/answer.ts";
import type { Stance } from "../fit/stance/problem.ts";
import { lengthText, type UnitSystem } from "./lengths.ts";
import { addWires, COST_LINE, COST_MEASURE, PRIORITY, type Sheet } from "./sheet.ts";
import { HAIRLINE, INK, MEDIUM_STROKE, PAPER, SOFT_INK, THIN } from "./style.ts";
import { element, line, type Spot } from "./svg.ts";
import { arrowHead } from "./symbols.ts";

/** Which end of the rig is the nearer one to the rear edge, in the driver's word. */
export function nearerEnd(stance: Stance): string {
  return stance.facing === "out" ? "rear bumper" : "nose";
}

/** Below this the offset counts as none, metres. */
const ON_THE_MIDDLE = 0.01;

export function offsetText(left: number, units: UnitSystem): string {
  if (Math.abs(left) < ON_THE_MIDDLE) {
    return "on the pad's middle line";
  }
  return `${lengthText(Math.abs(left), units)} ${left > 0 ? "left" : "right"} of the pad's middle line`;
}

export function stanceText(stance: Stance, units: UnitSystem): string {
  const end = nearerEnd(stance);
  const distance =
    stance.along < 0
      ? `${end} ${lengthText(-stance.along, units)} behind the rear edge`
      : `${lengthText(stance.along, units)} from rear edge to ${end}`;
  return `${distance}, ${offsetText(stance.left, units)}`;
}

export function windowText(window: StanceWindow, stance: Stance | null, units: UnitSystem): string {
  const { from, to } = window.along;
  const end = stance ? nearerEnd(stance) : "rig's nearer end";
  const left = lengthText(Math.max(0, window.left.to), units, "down");
  const right = lengthText(Math.max(0, -window.left.from), units, "down");
  return (
    `stop with the ${end} ${lengthText(from, units, "up")} to ${lengthText(to, units, "down")} from the rear edge; ` +
    `sideways ${left} more to the left, ${right} to the right`
  );
}

const DIMENSION_OFFSET = 12;
const BRACKET_OFFSET = 26;
const TICK = 5;
const DIMENSION_HEAD = 7;

/** Things this far from the measured stretch do not disturb it, metres. */
const NEARBY = 1.5;

/** The side of the pad with less on it between the rear edge and `reach`: 1 left, -1 right. */
export function quieterSide(fit: Fit, scene: Scene, padWidth: number, reach: number): 1 | -1 {
  const points = [
    ...scene.hookups.map((hookup) => hookup.at),
    ...fit.lines.flatMap((each) => each.path),
    ...scene.obstacles.flatMap((obstacle) => obstacle.outline),
    ...(scene.rig?.awnings.flatMap((awning) => (awning.open ? awning.outline : [])) ?? []),
    ...(scene.rig?.hotOutlets.map((outlet) => outlet.at) ?? []),
  ].filter(
    (point) => point.along > -NEARBY && point.along < reach + NEARBY && Math.abs(point.left) < padWidth / 2 + NEARBY,
  );
  return points.filter((point) => point.left > 0).length > points.filter((point) => point.left < 0).length ? -1 : 1;
}

interface MeasureLine {
  /** Spot at a distance along the pad, `offset` pixels outside its edge. */
  at(along: number, offset: number): Spot;
  /** Pixels outwards and along as unit vectors of the page. */
  readonly out: Spot;
  readonly ahead: Spot;
}

function measureLine(sheet: Sheet, padWidth: number, side: 1 | -1): MeasureLine {
  const out = sheet.projection.turn({ along: 0, left: side });
  const ahead = sheet.projection.turn({ along: 1, left: 0 });
  const at = (along: number, offset: number): Spot => {
    const edge = sheet.projection.toPage({ along, left: (side * padWidth) / 2 });
    return { x: edge.x + out.x * offset, y: edge.y + out.y * offset };
  };
  return { at, out, ahead };
}

function tick(measure: MeasureLine, spot: Spot, size: number, width: number): string {
  const from = { x: spot.x - measure.out.x * size, y: spot.y - measure.out.y * size };
  const to = { x: spot.x + measure.out.x * size, y: spot.y + measure.out.y * size };
  return line(from, to, { stroke: INK, "stroke-width": width });
}

const MIDDLE = 0.5;
const OFFSET_MAX_DISTANCE = 54;

/** From the rear edge to the rig's nearer end, drawn outside the pad's edge. */
export function drawStanceMeasure(sheet: Sheet, stance: Stance, padWidth: number, side: 1 | -1): void {
  const measure = measureLine(sheet, padWidth, side);
  const from = measure.at(0, DIMENSION_OFFSET);
  const to = measure.at(stance.along, DIMENSION_OFFSET);
  const rigEnd = sheet.projection.toPage({ along: stance.along, left: stance.left });
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const sign = stance.along < 0 ? -1 : 1;
  const back = { x: -measure.ahead.x * sign, y: -measure.ahead.y * sign };
  const forth = { x: measure.ahead.x * sign, y: measure.ahead.y * sign };
  const thin = { stroke: SOFT_INK, "stroke-width": HAIRLINE };
  const roomy = length > 2 * DIMENSION_HEAD;
  sheet.layers.measures.push(
    element(
      "g",
      { "data-part": "stance-measure" },
      line(rigEnd, to, thin),
      line(from, to, { stroke: INK, "stroke-width": THIN }),
      tick(measure, from, TICK, THIN),
      tick(measure, to, TICK, THIN),
      roomy ? arrowHead(from, back, DIMENSION_HEAD, INK) + arrowHead(to, forth, DIMENSION_HEAD, INK) : "",
    ),
  );
  addWires(sheet, [{ from, to }], COST_LINE / 2);
  sheet.legend.add("stance");
  const offset = offsetText(stance.left, sheet.units).replace("of the pad's middle line", "of middle");
  sheet.labels.push({
    key: "stance",
    rows: [{ text: lengthText(stance.along, sheet.units), bold: true }],
    anchors: [measure.at(stance.along * MIDDLE, DIMENSION_OFFSET), from, to],
    priority: PRIORITY.window + 1,
    fontSize: sheet.fontSize,
    colour: INK,
  });
  if (sheet.compact) {
    return;
  }
  sheet.labels.push({
    key: "offset",
    rows: [{ text: offset.replace("the pad's ", "the ") }],
    anchors: [rigEnd],
    priority: PRIORITY.stance,
    fontSize: sheet.fontSize,
    colour: INK,
    maxDistance: OFFSET_MAX_DISTANCE,
    maxCost: COST_MEASURE,
  });
}

/** The bracket beside the pad in which the rig's nearer end may stop. */
export function drawWindow(
  sheet: Sheet,
  window: StanceWindow,
  stance: Stance | null,
  padWidth: number,
  side: 1 | -1,
): void {
  const { from, to } = window.along;
  if (!Number.isFinite(from) || !Number.isFinite(to)) {
    return;
  }
  const measure = measureLine(sheet, padWidth, side);
  const start = measure.at(from, BRACKET_OFFSET);
  const end = measure.at(to, BRACKET_OFFSET);
  const inner = { stroke: INK, "stroke-width": MEDIUM_STROKE };
  sheet.layers.measures.push(
    element(
      "g",
      { "data-part": "window" },
      line(start, end, { stroke: PAPER, "stroke-width": 2 * TICK }),
      line(start, end, { ...inner, "stroke-width": 2 * MEDIUM_STROKE }),
      line(start, measure.at(from, 0), inner),
      line(end, measure.at(to, 0), inner),
    ),
  );
  addWires(
    sheet,
    [
      { from: start, to: end },
      { from: start, to: measure.at(from, 0) },
      { from: end, to: measure.at(to, 0) },
    ],
    COST_LINE,
  );
  sheet.legend.add("window");
  sheet.labels.push({
    key: "window",
    rows: [
      { text: sheet.compact ? "stop here" : `stop the ${stance ? nearerEnd(stance) : "rig"} here`, bold: true },
      { text: `${lengthText(from, sheet.units, "up")} to ${lengthText(to, sheet.units, "down")}` },
    ],
    anchors: [measure.at((from + to) / 2, BRACKET_OFFSET), end, start],
    priority: PRIORITY.window,
    fontSize: sheet.fontSize,
    colour: INK,
  });
}
