/** The way in and out of one fit as a sheet of its own, so that the plan of the hookups stays readable. */

import type { Fit } from "../fit/answer.ts";
import type { ManoeuvreAnswer, ManoeuvreLeg, ManoeuvreMove } from "../fit/manoeuvre/answer.ts";
import { lengthText, type UnitSystem } from "./lengths.ts";
import { picture } from "./picture.ts";
import { northOnPage } from "./projection.ts";
import { INK, MEDIUM_STROKE, SOFT_INK } from "./style.ts";
import { cleanText, element, line } from "./svg.ts";
import { northArrow, scaleBar } from "./symbols.ts";
import { rowsHeight, textBlock, wrapText } from "./text.ts";
import { drawPanel, REVERSE_DASH } from "./way-in-panel.ts";

interface WayInOptions {
  /** Width of the sheet in pixels, 280 to 2400. Default 900. */
  readonly widthPx?: number;
  /** Default: the units of the answer. */
  readonly units?: UnitSystem;
}

const DEFAULT_WIDTH = 900;
const LEAST_WIDTH = 280;
const LARGEST_WIDTH = 2400;
const NARROW_BELOW = 640;
const FONT_SIZE = 12;
const NARROW_FONT_SIZE = 11;
const MARGIN = 16;
const GAP = 10;
const TITLE_GROWTH = 3;
const STRIP_HEIGHT = 56;
const NORTH_RADIUS = 16;
const NORTH_ROOM = 30;
const SCALE_SHARE = 0.3;
const SAMPLE = 34;
const DEGREES_PER_RADIAN = 180 / Math.PI;
/** Cautions that belong to moving the rig. */
const MOVING = /^(reversing|level-chock)/;

/** The paper so far and how far down it reaches. */
interface Page {
  readonly width: number;
  readonly fontSize: number;
  readonly units: UnitSystem;
  readonly parts: string[];
  y: number;
}

function say(page: Page, text: string, look: { bold?: boolean; growth?: number; part?: string } = {}): void {
  const size = page.fontSize + (look.growth ?? 0);
  const rows = wrapText(cleanText(text), size, page.width - 2 * MARGIN, Number.POSITIVE_INFINITY, look.bold ?? false);
  const attributes = { fill: INK, "font-weight": look.bold ? "bold" : undefined, "data-part": look.part };
  page.parts.push(textBlock(rows, MARGIN, page.y, size, attributes));
  page.y += rowsHeight(rows.length, size) + 2;
}

/** A move as an order to the driver. */
function moveText({ gear, steer, distance, radius, turn }: ManoeuvreMove, index: number, units: UnitSystem): string {
  const way = gear === "forward" ? "Forward" : "Reverse";
  const far = lengthText(distance, units);
  if (steer === "straight" || radius === null) return `${index + 1}. ${way} straight, ${far}.`;
  const degrees = Math.round(turn * DEGREES_PER_RADIAN);
  return `${index + 1}. ${way}, wheels to the ${steer}, ${far}: turns ${degrees} degrees (radius ${lengthText(radius, units)}).`;
}

function drawLeg(page: Page, fit: Fit, manoeuvre: ManoeuvreAnswer, way: "in" | "out"): void {
  const leg = manoeuvre[way];
  say(page, `${way === "in" ? "In" : "Out"}: ${leg.status}`, { bold: true, growth: 1, part: `status-${way}` });
  say(page, leg.why);
  const { width, fontSize, units } = page;
  const panel = drawPanel({
    scene: fit.scene,
    manoeuvre,
    leg,
    x: MARGIN,
    y: page.y + GAP / 2,
    width: width - 2 * MARGIN,
    fontSize,
    units,
  });
  if (panel === null) {
    page.y += GAP;
    return;
  }
  page.parts.push(element("g", { "data-part": `way-${way}` }, panel.ink));
  page.y = panel.projection.frame.y + panel.projection.frame.height + GAP;
  leg.moves.forEach((move, index) => {
    say(page, moveText(move, index, units));
  });
  const heading = fit.scene.pad?.heading ?? null;
  const at = { x: width - MARGIN - NORTH_ROOM, y: page.y + STRIP_HEIGHT / 2 };
  const { orientation, scale } = panel.projection;
  if (heading !== null) page.parts.push(northArrow(at, NORTH_RADIUS, northOnPage(heading, orientation)));
  page.parts.push(scaleBar({ x: MARGIN + 2, y: page.y + GAP }, scale, units, (width - 2 * MARGIN) * SCALE_SHARE));
  page.y += STRIP_HEIGHT + GAP;
}

function drawKey(page: Page): void {
  const rows: readonly [string | undefined, string][] = [
    [undefined, "unbroken: forward; the heavy outline is where the path ends"],
    [REVERSE_DASH, "broken: reverse"],
  ];
  const size = page.fontSize - 1;
  for (const [dash, words] of rows) {
    const y = page.y + page.fontSize / 2 + 2;
    const look = { stroke: INK, "stroke-width": MEDIUM_STROKE, "stroke-dasharray": dash };
    page.parts.push(line({ x: MARGIN, y }, { x: MARGIN + SAMPLE, y }, look));
    const said = wrapText(words, size, page.width - 2 * MARGIN - SAMPLE - GAP);
    page.parts.push(textBlock(said, MARGIN + SAMPLE + GAP, page.y, size, { fill: SOFT_INK }));
    page.y += rowsHeight(said.length, page.fontSize) + 2;
  }
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function hasPath(leg: ManoeuvreLeg): boolean {
  return leg.outlines.length > 0;
}

/** The sheet as one SVG element; says in words why when there is no path to draw. Deterministic. */
export function drawWayIn(fit: Fit, options: WayInOptions = {}): string {
  const asked = options.widthPx ?? DEFAULT_WIDTH;
  const width = Number.isFinite(asked)
    ? Math.min(Math.max(Math.round(asked), LEAST_WIDTH), LARGEST_WIDTH)
    : DEFAULT_WIDTH;
  const fontSize = width < NARROW_BELOW ? NARROW_FONT_SIZE : FONT_SIZE;
  const page: Page = { width, fontSize, units: options.units ?? fit.units, parts: [], y: MARGIN };
  const { manoeuvre } = fit;
  const site = cleanText(fit.site.name) || cleanText(fit.site.id);
  const title = `Way in and out: ${cleanText(fit.rig.name ?? "") || "the rig"} on site ${site}`;
  say(page, title, { bold: true, growth: TITLE_GROWTH });
  if (manoeuvre === null) {
    say(page, "There is no stance to drive to, so no way in is drawn.");
  } else {
    const { other, state, why, needs } = manoeuvre.coupling;
    if (other !== null) say(page, `${capital(other)}: ${state}. ${why}`, { part: "coupling" });
    for (const need of needs) say(page, `Needed: ${need}.`);
    page.y += GAP;
    for (const way of ["in", "out"] as const) drawLeg(page, fit, manoeuvre, way);
    if (hasPath(manoeuvre.in) || hasPath(manoeuvre.out)) drawKey(page);
    for (const { text } of fit.cautions.filter(({ id }) => MOVING.test(id))) say(page, text, { bold: true });
  }
  const height = Math.ceil(page.y + MARGIN);
  return picture(
    {
      width,
      height,
      title,
      description: cleanText(manoeuvre?.why ?? "No way in is drawn."),
    },
    ...page.parts,
  );
}
