/** The site's hookups: a mark by shape and letter, how well the place is known, and the record's own label. */
import type { Scene } from "../fit/answer.ts";
import { lengthText, NO_BREAK_SPACE } from "./lengths.ts";
import { cutToBox } from "./polygon.ts";
import { isPlaced } from "./projection.ts";
import { addOutline, addWires, COST_EDGE, PRIORITY, reserveMark, type Sheet } from "./sheet.ts";
import { DASH, HOOKUP_RADIUS, SERVICE_STYLES, THIN } from "./style.ts";
import { cleanText, element, line, polygon, type Spot } from "./svg.ts";
import { hookupMark } from "./symbols.ts";
import { balanceText } from "./text.ts";

type HookupScene = Scene["hookups"][number];

/** "30 A" stays on one row. */
const NUMBER_AND_UNIT = /(\d) (?=[A-Za-z]{1,2}\b)/g;
const CIRCLE_STEPS = 48;
const LABEL_WIDTH = 150;
const COMPACT_LABEL_WIDTH = 96;
const LABEL_ROWS = 2;
const DOT_RADIUS = 2.6;
const MOVED = 1;

/** A circle of one standard deviation, cut to the field; nothing when the mark itself hides it. */
function drawSigma(sheet: Sheet, hookup: HookupScene, at: Spot): boolean {
  const radius = hookup.sigma * sheet.projection.scale;
  if (!(radius > HOOKUP_RADIUS) || !Number.isFinite(radius)) {
    return false;
  }
  const circle = Array.from({ length: CIRCLE_STEPS }, (_, step) => {
    const angle = (2 * Math.PI * step) / CIRCLE_STEPS;
    return { x: at.x + radius * Math.cos(angle), y: at.y + radius * Math.sin(angle) };
  });
  const inside = cutToBox(circle, sheet.projection.frame);
  sheet.layers.obstacles.push(
    polygon(inside, {
      fill: "none",
      stroke: SERVICE_STYLES[hookup.service].colour,
      "stroke-width": THIN,
      "stroke-dasharray": DASH.sigma,
      "stroke-linecap": "round",
      "data-sigma": cleanText(hookup.id),
    }),
  );
  addOutline(sheet, inside, COST_EDGE / 2);
  sheet.legend.add("sigma");
  return true;
}

function drawRegion(sheet: Sheet, hookup: HookupScene): boolean {
  const region = hookup.region;
  if (!region) {
    return false;
  }
  const corners = [
    { along: region.alongLow, left: region.leftLow },
    { along: region.alongHigh, left: region.leftLow },
    { along: region.alongHigh, left: region.leftHigh },
    { along: region.alongLow, left: region.leftHigh },
  ];
  if (!corners.every(isPlaced)) {
    return false;
  }
  const outline = cutToBox(corners.map(sheet.projection.toPage), sheet.projection.frame);
  if (outline.length === 0) {
    return false;
  }
  sheet.layers.obstacles.push(
    polygon(outline, {
      fill: "none",
      stroke: SERVICE_STYLES[hookup.service].colour,
      "stroke-width": THIN,
      "stroke-dasharray": DASH.region,
      "data-region": cleanText(hookup.id),
    }),
  );
  addOutline(sheet, outline);
  sheet.legend.add("region");
  return true;
}

function distance(a: Spot, b: Spot): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

/** Draws the marks. Receptacles of one pedestal stand side by side with a hair to the place itself. */
export function drawHookups(sheet: Sheet, hookups: readonly HookupScene[]): void {
  const width = sheet.compact ? COMPACT_LABEL_WIDTH : LABEL_WIDTH;
  const labelled = new Set<string>();
  const placed = hookups.filter((each) => isPlaced(each.at));
  for (const hookup of placed) {
    const style = SERVICE_STYLES[hookup.service];
    const place = sheet.projection.toPage(hookup.at);
    const hasSigma = drawSigma(sheet, hookup, place);
    const hasRegion = drawRegion(sheet, hookup);
    const crowded = placed.some(
      (other) => other !== hookup && distance(sheet.projection.toPage(other.at), place) < HOOKUP_RADIUS,
    );
    const outwards = sheet.projection.turn({ along: 0, left: hookup.at.left < 0 ? -1 : 1 });
    const at = reserveMark(sheet, place, HOOKUP_RADIUS, crowded ? outwards : undefined);
    const moved = distance(at, place) > MOVED;
    if (moved) {
      addWires(sheet, [{ from: place, to: at }], COST_EDGE);
    }
    sheet.layers.marks.push(
      element(
        "g",
        { "data-hookup": cleanText(hookup.id), "data-service": hookup.service },
        moved ? line(place, at, { stroke: style.colour, "stroke-width": THIN }) : "",
        moved ? element("circle", { cx: place.x, cy: place.y, r: DOT_RADIUS, fill: style.colour }) : "",
        hookupMark(hookup.service, at, HOOKUP_RADIUS),
      ),
    );
    sheet.legend.add(`hookup:${hookup.service}`);
    const label = cleanText(hookup.label).replace(NUMBER_AND_UNIT, `$1${NO_BREAK_SPACE}`);
    const rows = label === "" ? [] : balanceText(label, sheet.fontSize, width, LABEL_ROWS);
    if (hasSigma) {
      rows.push(`\u00b1 ${lengthText(hookup.sigma, sheet.units, "up")}`);
    }
    if (hasRegion && !sheet.compact) {
      rows.push("somewhere in the dashes");
    }
    const same = `${hookup.pedestal ?? hookup.id}|${rows.join("|")}`;
    if (rows.length > 0 && !labelled.has(same)) {
      labelled.add(same);
      sheet.labels.push({
        key: `hookup:${cleanText(hookup.id)}`,
        rows: rows.map((text) => ({ text })),
        anchors: [at],
        priority: PRIORITY.hookup,
        fontSize: sheet.fontSize,
        colour: style.colour,
        otherwise: `${style.letter} ${rows.join(", ")}.`,
      });
    }
  }
}
