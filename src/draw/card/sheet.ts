/** The card as one SVG sheet, a page of A4 and Letter alike. Deterministic; all text of the card is escaped. */

import type { Fit } from "../../fit/answer.ts";
import type { Card } from "../../trip/card/card.ts";
import { picture } from "../picture.ts";
import { HAIRLINE, INK, SOFT_INK } from "../style.ts";
import { element, escapeText, line, numberText } from "../svg.ts";
import { LEADING, type SetCard, type SetLine, SHEET, setCard } from "./flow.ts";
import { type Head, headOf } from "./head.ts";
import { type CardPart, cardParts, type Reasons } from "./parts.ts";
import { type CardPlan, drawCardPlan } from "./plan.ts";

const FONT_FAMILY = "Arial, 'Liberation Sans', Helvetica, sans-serif";
const PLAN_GAP = 6;
/** Points beneath which reasons of steps give way to larger text. */
const READABLE = 7.1;
/** From the upper edge of a line to its baseline, as a share of the size. */
const ASCENT = 0.95;
const COLUMN = (SHEET.width - SHEET.gap) / 2;

function pieceInk({ text, style, x }: SetLine["pieces"][number], left: number): string {
  return element(
    "tspan",
    {
      x: left + x,
      "font-weight": style === "strong" ? "bold" : undefined,
      "font-style": style === "why" ? "italic" : undefined,
      fill: style === "why" ? SOFT_INK : undefined,
    },
    escapeText(text),
  );
}

function lineInk(set: SetLine, top: number): string {
  const left = set.column * (COLUMN + SHEET.gap);
  const baseline = top + set.top + set.size * ASCENT;
  const mark = set.mark === null ? "" : element("tspan", { x: left }, escapeText(set.mark));
  const text = element(
    "text",
    {
      y: baseline,
      "font-size": set.size,
      fill: INK,
      [set.title ? "data-title" : "data-row"]: set.row ?? undefined,
    },
    mark,
    ...set.pieces.map((piece) => pieceInk(piece, left)),
  );
  if (!set.title) return text;
  const y = top + set.top + set.size * LEADING;
  return text + line({ x: left, y }, { x: left + COLUMN, y }, { stroke: INK, "stroke-width": 2 * HAIRLINE });
}

/** The plan as wide as a column, and the height that it takes. */
function planInk(plan: CardPlan | null, top: number): { readonly ink: string; readonly height: number } {
  if (plan === null) return { ink: "", height: 0 };
  const height = (plan.height * COLUMN) / plan.width;
  const placed = plan.svg.replace(
    /^<svg([^>]*?) width="[^"]*" height="[^"]*"/,
    `<svg$1 x="0" y="${numberText(top)}" width="${numberText(COLUMN)}" height="${numberText(height)}"`,
  );
  return { ink: placed, height: height + PLAN_GAP };
}

interface LaidCard {
  readonly head: Head;
  readonly plan: { readonly ink: string; readonly height: number };
  readonly parts: readonly CardPart[];
  readonly set: SetCard;
}

function laid(fit: Fit, card: Card): LaidCard {
  const head = headOf(card);
  const plan = planInk(drawCardPlan(fit, card), head.height);
  const withReasons = (reasons: Reasons): LaidCard => {
    const parts = cardParts(card, reasons);
    return { head, plan, parts, set: setCard(parts, plan.height, SHEET.height - head.height) };
  };
  const full = withReasons("all");
  if (full.set.points >= READABLE) return full;
  const shorter = withReasons("arrival");
  return shorter.set.points >= READABLE ? shorter : withReasons("none");
}

/** Parts that the sheet has room for, and the size of text, points, at which they stay on it. */
export function fittedCard(fit: Fit, card: Card): { readonly parts: readonly CardPart[]; readonly points: number } {
  const { parts, set } = laid(fit, card);
  return { parts, points: set.points };
}

/** The card of a fit as one SVG element, 739 pixels wide and, unless it has too much to say, 995 high. */
export function drawCardSheet(fit: Fit, card: Card): string {
  const { head, plan, set } = laid(fit, card);
  const height = Math.max(SHEET.height, Math.ceil(head.height + set.height));
  const title = `${card.words.card}${card.words.colon} ${card.site}`;
  return picture(
    {
      width: SHEET.width,
      height,
      title,
      language: card.language,
      fontFamily: FONT_FAMILY,
    },
    head.ink,
    plan.ink,
    ...set.lines.map((one) => lineInk(one, head.height)),
  );
}
