/** The lines as they lie: each along its own path in its own stroke, with its letter, its lengths and its verdict. */
import type { AnswerLine } from "../fit/answer.ts";
import type { LabelRow } from "./labels.ts";
import { boxRound } from "./labels.ts";
import { lengthText, type UnitSystem } from "./lengths.ts";
import type { Segment } from "./polygon.ts";
import { isPlaced } from "./projection.ts";
import { addWires, COST_LINE, isFree, PRIORITY, type Sheet } from "./sheet.ts";
import { DASH, INK, LETTER_RADIUS, MEDIUM_STROKE, PAPER, SERVICE_ORDER, SERVICE_STYLES } from "./style.ts";
import { element, polyline, type Spot } from "./svg.ts";
import { cross, lineMark } from "./symbols.ts";

/** Needed and available, then the margin, in words. */
export function lineRows(line: AnswerLine, units: UnitSystem): string[] {
  const rows: string[] = [];
  if (line.needed === Number.POSITIVE_INFINITY) {
    return ["no permitted way"];
  }
  if (line.needed !== null && line.available !== null) {
    const needed = lengthText(Math.max(0, line.needed), units, "up");
    rows.push(`needs ${needed}, has ${lengthText(line.available, units, "down")}`);
  } else if (line.needed !== null) {
    rows.push(`needs ${lengthText(Math.max(0, line.needed), units, "up")}, own length unknown`);
  } else if (line.available !== null) {
    rows.push(`has ${lengthText(line.available, units, "down")}, need unknown`);
  }
  if (line.verdict === "unknown" && line.marginLow !== undefined && line.marginHigh !== undefined) {
    rows.push(`margin ${lengthText(line.marginLow, units, "down")} to ${lengthText(line.marginHigh, units, "down")}`);
  } else if (line.margin !== null) {
    const asLaid = line.verdict === "short" ? "short" : "short as laid";
    rows.push(
      line.margin < 0
        ? `${lengthText(-line.margin, units, "up")} ${asLaid}`
        : `${lengthText(line.margin, units, "down")} to spare`,
    );
  }
  return rows;
}

export function lineTitle(line: AnswerLine): string {
  const style = SERVICE_STYLES[line.service];
  return `${style.letter} ${style.name}: ${line.verdict === "short" ? "SHORT" : line.verdict}`;
}

export function lineSentence(line: AnswerLine, units: UnitSystem): string {
  return [lineTitle(line), ...lineRows(line, units)].join(", ");
}

/** The first `length` of a path, and the rest; both share the spot where it is cut. */
export function splitPath(path: readonly Spot[], length: number): { first: Spot[]; rest: Spot[] } {
  const first: Spot[] = [];
  const rest: Spot[] = [];
  let walked = 0;
  path.forEach((spot, index) => {
    const next = path[index + 1];
    if (walked <= length) {
      first.push(spot);
    } else {
      rest.push(spot);
    }
    if (next) {
      const step = Math.hypot(next.x - spot.x, next.y - spot.y);
      if (walked <= length && walked + step > length) {
        const share = (length - walked) / step;
        const cut = { x: spot.x + share * (next.x - spot.x), y: spot.y + share * (next.y - spot.y) };
        first.push(cut);
        rest.push(cut);
      }
      walked += step;
    }
  });
  return { first, rest };
}

function lengthOf(path: readonly Spot[]): number {
  return segmentsOf(path).reduce((sum, { from, to }) => sum + Math.hypot(to.x - from.x, to.y - from.y), 0);
}

function segmentsOf(path: readonly Spot[]): Segment[] {
  return path.slice(1).map((to, index) => ({ from: path[index] ?? to, to }));
}

function spotAt(path: readonly Spot[], share: number): Spot {
  return splitPath(path, lengthOf(path) * share).first.at(-1) ?? { x: 0, y: 0 };
}

const CASING = 3.5;
const CROSS_RADIUS = 6;

function strokePath(path: readonly Spot[], line: AnswerLine): string {
  const style = SERVICE_STYLES[line.service];
  const outer = { stroke: style.colour, "stroke-width": style.width, "stroke-dasharray": style.dash };
  const core = { stroke: PAPER, "stroke-width": style.core };
  return polyline(path, { ...outer, "stroke-linejoin": "round" }) + (style.core > 0 ? polyline(path, core) : "");
}

/** What lies on the ground, then the missing part in sparse dots with a cross where the line runs out. */
function strokeShort(path: readonly Spot[], line: AnswerLine, reached: number): string {
  const { first, rest } = splitPath(path, reached);
  const end = first.at(-1);
  return (
    (first.length > 1 ? strokePath(first, line) : "") +
    polyline(rest.length > 1 ? rest : path, {
      stroke: INK,
      "stroke-width": MEDIUM_STROKE,
      "stroke-dasharray": DASH.missing,
      "stroke-linecap": "round",
      "data-part": "missing",
    }) +
    (end ? cross(end, CROSS_RADIUS, INK) : "")
  );
}

const LETTER_SHARES = [0.5, 0.4, 0.6, 0.3, 0.7, 0.22, 0.78, 0.15, 0.85];
const LABEL_SHARES = [0.5, 0.3, 0.7, 0.15, 0.85];
const LETTER_ROOM = 2;
const FRAMED_EXTRA = 1;

/** A shorter line would vanish under its letter; its label and its hookup carry the letter. */
const LEAST_LENGTH_FOR_LETTER = 44;

function placeLetter(sheet: Sheet, path: readonly Spot[], line: AnswerLine): void {
  if (lengthOf(path) < LEAST_LENGTH_FOR_LETTER) {
    return;
  }
  for (const share of LETTER_SHARES) {
    const spot = spotAt(path, share);
    if (isFree(sheet, spot, LETTER_RADIUS + LETTER_ROOM)) {
      sheet.solids.push(boxRound(spot, LETTER_RADIUS));
      sheet.layers.marks.push(lineMark(line.service, spot, LETTER_RADIUS));
      return;
    }
  }
}

function drawLine(sheet: Sheet, line: AnswerLine, path: readonly Spot[]): void {
  const isShort = line.verdict === "short";
  const total = lengthOf(path);
  const lack = (line.margin ?? Number.NEGATIVE_INFINITY) * sheet.projection.scale;
  const reached = isShort ? Math.min(total, Math.max(0, total + lack)) : total;
  const style = SERVICE_STYLES[line.service];
  sheet.layers.lines.push(
    element(
      "g",
      { "data-line": line.service, "data-verdict": line.verdict },
      polyline(path, {
        stroke: PAPER,
        "stroke-width": style.width + CASING,
        "stroke-linejoin": "round",
        "data-part": "path",
      }),
      isShort ? strokeShort(path, line, reached) : strokePath(path, line),
    ),
  );
  sheet.legend.add(`line:${line.service}`);
  if (isShort) {
    sheet.legend.add("short");
    const end = splitPath(path, reached).first.at(-1);
    if (end) {
      sheet.solids.push(boxRound(end, CROSS_RADIUS));
    }
  }
  placeLetter(sheet, path, line);
  requestLabel(sheet, line, path, isShort ? reached : null);
}

function requestLabel(sheet: Sheet, line: AnswerLine, path: readonly Spot[], reached: number | null): void {
  const rows: LabelRow[] = [{ text: lineTitle(line), bold: true }];
  const spoken = lineRows(line, sheet.units).flatMap((row) => (sheet.compact ? row.split(", ") : [row]));
  for (const [index, text] of spoken.entries()) {
    rows.push({ text, bold: index === spoken.length - 1 && line.verdict === "short" });
  }
  const runsOut = reached === null ? [] : [splitPath(path, reached).first.at(-1)].filter((spot) => spot !== undefined);
  sheet.labels.push({
    key: `line:${line.service}:${line.connection ?? ""}:${line.hookup ?? ""}`,
    rows,
    anchors: [...runsOut, ...LABEL_SHARES.map((share) => spotAt(path, share))],
    priority: (line.verdict === "short" ? PRIORITY.short : PRIORITY.line) + FRAMED_EXTRA,
    fontSize: sheet.fontSize,
    colour: SERVICE_STYLES[line.service].colour,
    framed: true,
    otherwise: `${lineSentence(line, sheet.units)}.`,
  });
}

function pagePath(sheet: Sheet, line: AnswerLine): Spot[] {
  return line.path.filter(isPlaced).map(sheet.projection.toPage);
}

/** Marks and labels keep off the lines: called before anything else is placed. */
export function reserveLines(sheet: Sheet, lines: readonly AnswerLine[]): void {
  for (const line of lines.filter((each) => each.verdict !== "not needed")) {
    addWires(sheet, segmentsOf(pagePath(sheet, line)), COST_LINE);
  }
}

/** Draws the lines that have a path; says of the others that they are not drawn, and why. */
export function drawLines(sheet: Sheet, lines: readonly AnswerLine[], placed: boolean): void {
  const ordered = SERVICE_ORDER.flatMap((service) => lines.filter((line) => line.service === service));
  for (const line of ordered.filter((each) => each.verdict !== "not needed")) {
    const path = pagePath(sheet, line);
    if (placed && path.length > 1) {
      drawLine(sheet, line, path);
    } else {
      sheet.notes.push(`${lineSentence(line, sheet.units)} (no line drawn). ${line.why}`);
    }
  }
}
