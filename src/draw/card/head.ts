/** Head of the drawn card: site, rig, verdict, and in large words what keeps it from a plain yes. */
import type { Card } from "../../trip/card/card.ts";
import { INK, PAPER } from "../style.ts";
import { element, line } from "../svg.ts";
import { rowsHeight, shorten, textBlock, textRow, textWidth, wrapText } from "../text.ts";
import { SHEET } from "./flow.ts";

const SITE_SIZE = 15;
const TEXT_SIZE = 11;
const BADGE_PADDING = 6;
const BADGE_STROKE = 2;
const RULE_STROKE = 3;
const BANNER_SIZE = 20;
const REFUSED_SIZE = 32;
const BANNER_PADDING = 9;
const BANNER_STROKE = 3;
const REFUSED_STROKE = 6;
const GAP = 8;

export interface Head {
  readonly ink: string;
  readonly height: number;
}

function titleInk(card: Card): Head {
  const badgeWidth = textWidth(card.verdictText, SITE_SIZE, true) + 2 * BADGE_PADDING;
  const left = SHEET.width - badgeWidth - BADGE_STROKE;
  const name = [card.site, ...(card.campground === null ? [] : [card.campground])].join(", ");
  const room = left - 2 * GAP;
  const rigTop = rowsHeight(1, SITE_SIZE);
  const bottom = rigTop + rowsHeight(1, TEXT_SIZE) + GAP / 2;
  return {
    ink:
      textRow(shorten(name, SITE_SIZE, room, true), 0, 0, SITE_SIZE, { "font-weight": "bold", fill: INK }) +
      textRow(shorten(`${card.words.card}${card.words.colon} ${card.rig}`, TEXT_SIZE, room), 0, rigTop, TEXT_SIZE, {
        fill: INK,
      }) +
      element("rect", {
        x: left,
        y: BADGE_STROKE,
        width: badgeWidth,
        height: rowsHeight(1, SITE_SIZE) + BADGE_PADDING,
        fill: PAPER,
        stroke: INK,
        "stroke-width": BADGE_STROKE,
      }) +
      textRow(card.verdictText, left + BADGE_PADDING, BADGE_STROKE + BADGE_PADDING / 2, SITE_SIZE, {
        "font-weight": "bold",
        fill: INK,
      }) +
      line({ x: 0, y: bottom }, { x: SHEET.width, y: bottom }, { stroke: INK, "stroke-width": RULE_STROKE }),
    height: bottom + GAP,
  };
}

function bannerInk(card: Card, top: number): Head {
  if (card.banner === null) return { ink: "", height: 0 };
  const large = card.approves ? BANNER_SIZE : REFUSED_SIZE;
  const room = SHEET.width - 2 * BANNER_PADDING - 2 * REFUSED_STROKE;
  const x = BANNER_PADDING + REFUSED_STROKE / 2;
  const words = wrapText(card.banner.text, large, room, Number.POSITIVE_INFINITY, true);
  const said = [
    ...card.banner.reasons.map(({ text }) => `\u2022 ${text}`),
    ...(card.approves ? [] : [card.words.noSteps]),
  ].flatMap((text) => wrapText(text, TEXT_SIZE, room));
  const textTop = top + BANNER_PADDING;
  const saidTop = textTop + rowsHeight(words.length, large);
  const height = saidTop - top + rowsHeight(said.length, TEXT_SIZE) + BANNER_PADDING;
  const stroke = card.approves ? BANNER_STROKE : REFUSED_STROKE;
  return {
    ink: element(
      "g",
      { "data-part": "banner" },
      element("rect", {
        x: stroke / 2,
        y: top,
        width: SHEET.width - stroke,
        height,
        fill: "none",
        stroke: INK,
        "stroke-width": stroke,
      }),
      textBlock(words, x, textTop, large, { "font-weight": "bold", fill: INK }),
      textBlock(said, x, saidTop, TEXT_SIZE, { fill: INK }),
    ),
    height: height + GAP,
  };
}

export function headOf(card: Card): Head {
  const title = titleInk(card);
  const banner = bannerInk(card, title.height);
  return { ink: title.ink + banner.ink, height: title.height + banner.height };
}
