/** The top of the sheet: site and rig, the verdict as a word in a badge, the headline. */
import type { Fit, SiteVerdict } from "../fit/answer.ts";
import { DASH, HAIRLINE, HEAVY, INK, MEDIUM_STROKE, PAPER, SOFT_INK } from "./style.ts";
import { cleanText, element } from "./svg.ts";
import { LINE_HEIGHT, rowsHeight, textBlock, textRow, textWidth, wrapText } from "./text.ts";

interface Badge {
  readonly fill: string;
  readonly ink: string;
  readonly stroke: number;
  readonly dash: string | undefined;
}

const VERDICT_GREEN = "#0b5d3b";

/** Filled for an answer that stands, framed for one with a condition, dashed for no answer. */
const BADGES: Readonly<Record<SiteVerdict, Badge>> = {
  fits: { fill: VERDICT_GREEN, ink: PAPER, stroke: MEDIUM_STROKE, dash: undefined },
  "fits with kit": { fill: PAPER, ink: VERDICT_GREEN, stroke: MEDIUM_STROKE, dash: undefined },
  tight: { fill: PAPER, ink: INK, stroke: HEAVY, dash: undefined },
  unknown: { fill: PAPER, ink: INK, stroke: MEDIUM_STROKE, dash: DASH.region },
  "does not fit": { fill: INK, ink: PAPER, stroke: MEDIUM_STROKE, dash: undefined },
};

const BADGE_PADDING = 8;
const BADGE_RADIUS = 3;
const TITLE_GROWTH = 1.35;
const HEADLINE_GROWTH = 1.1;
const TITLE_ROWS = 2;
const RIG_ROWS = 2;
const HEADLINE_ROWS = 5;
const GAP = 6;

function badge(
  verdict: SiteVerdict,
  right: number,
  top: number,
  fontSize: number,
): { ink: string; width: number; height: number } {
  const look = BADGES[verdict];
  const width = textWidth(verdict, fontSize, true) + 2 * BADGE_PADDING;
  const height = fontSize * LINE_HEIGHT + BADGE_PADDING;
  const frame = element("rect", {
    x: right - width,
    y: top,
    width,
    height,
    rx: BADGE_RADIUS,
    fill: look.fill,
    stroke: look.fill === PAPER ? look.ink : look.fill,
    "stroke-width": look.stroke,
    "stroke-dasharray": look.dash,
  });
  const word = textRow(verdict, right - width / 2, top + BADGE_PADDING / 2, fontSize, {
    "text-anchor": "middle",
    "font-weight": "bold",
    fill: look.ink,
  });
  return { ink: element("g", { "data-verdict-word": verdict }, frame, word), width, height };
}

export function drawHeader(
  fit: Fit,
  area: { readonly x: number; readonly y: number; readonly width: number },
  fontSize: number,
): { ink: string; height: number } {
  const titleSize = fontSize * TITLE_GROWTH;
  const headlineSize = fontSize * HEADLINE_GROWTH;
  const mark = badge(fit.verdict, area.x + area.width - HAIRLINE, area.y + 2, titleSize);
  const room = area.width - mark.width - 2 * BADGE_PADDING;
  const campground = cleanText(fit.site.campgroundName ?? fit.site.campground ?? "");
  const site = `Site ${cleanText(fit.site.name) || cleanText(fit.site.id)}${campground === "" ? "" : `, ${campground}`}`;
  const title = wrapText(site, titleSize, room, TITLE_ROWS, true);
  const rig = wrapText(cleanText(fit.rig.name ?? "") || "Rig without a name", fontSize, room, RIG_ROWS);
  const headline = wrapText(cleanText(fit.headline), headlineSize, area.width, HEADLINE_ROWS);
  const titleHeight = rowsHeight(title.length, titleSize);
  const rigTop = area.y + titleHeight;
  const top = Math.max(titleHeight + rowsHeight(rig.length, fontSize), mark.height) + GAP;
  const ink = [
    textBlock(title, area.x, area.y, titleSize, { "font-weight": "bold", fill: INK }),
    textBlock(rig, area.x, rigTop, fontSize, { fill: SOFT_INK }),
    mark.ink,
    textBlock(headline, area.x, area.y + top, headlineSize, { fill: INK }),
  ].join("");
  return { ink: element("g", { "data-part": "header" }, ink), height: top + rowsHeight(headline.length, headlineSize) };
}
