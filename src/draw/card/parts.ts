/** The card as rows under titles, in the order in which it is read: what page, print, drawing and terminal lay out. */
import type { Card, CardNote, CardStep } from "../../trip/card/card.ts";

export type RowStyle = "plain" | "why" | "strong";

export interface CardRow {
  readonly id: string;
  readonly mark: "number" | "box" | "dot" | "none";
  /** Pieces that follow each other with a space between. */
  readonly pieces: readonly { readonly text: string; readonly style: RowStyle }[];
}

export interface CardPart {
  readonly id: string;
  readonly title: string;
  readonly rows: readonly CardRow[];
}

/** A number and its unit stay on one line. */
const NUMBER_AND_UNIT = /(\d) (?=(?:ft|in|pi|po|m|VA|V|A|W|kPa|psi|gal|L|%)(?![\p{L}\d]))/gu;
const bound = (text: string): string => text.replace(NUMBER_AND_UNIT, "$1\u00a0");

const plain = (text: string) => ({ text: bound(text), style: "plain" as const });
const strong = (text: string) => ({ text: bound(text), style: "strong" as const });

const noteRow = ({ id, text }: Pick<CardNote, "id" | "text">): CardRow => ({ id, mark: "dot", pieces: [plain(text)] });

function stepRow({ id, text, why, ifNot }: CardStep, card: Card, reasons: boolean): CardRow {
  return {
    id,
    mark: "number",
    pieces: [
      plain(text),
      ...(reasons ? [{ text: why, style: "why" as const }] : []),
      ...(ifNot === null ? [] : [strong(`${card.words.stopHere} ${ifNot}`)]),
    ],
  };
}

function runRows({ run, words }: Card): CardRow[] {
  if (run === null) return [];
  const listed = (id: string, title: string, texts: readonly string[]): CardRow[] =>
    texts.length === 0
      ? []
      : [{ id, mark: "none", pieces: [strong(`${title}${words.colon}`), plain(`${texts.join("; ")}.`)] }];
  return [
    { id: "supply", mark: "none", pieces: [plain(run.supply)] },
    ...listed("hours", words.runHours, run.hours),
    ...listed("briefly", words.runBriefly, run.briefly),
    ...listed("never", words.runNever, run.never),
  ];
}

/** Says that the translation is the project's own; none in the language that the card was written in. */
const translationRow = ({ translation }: Card): CardRow[] =>
  translation === null ? [] : [noteRow({ id: "translation", text: translation })];

/** Whose steps are printed with their reasons; the short order for storm and flood never is. */
export type Reasons = "all" | "arrival" | "none";

/** Parts that have anything to say. */
export function cardParts(card: Card, reasons: Reasons = "all"): CardPart[] {
  const { words } = card;
  const powered = card.arrival.some(({ service }) => service === "power");
  const order: CardRow[] = powered ? [{ id: "power-order", mark: "none", pieces: [strong(words.powerOrder)] }] : [];
  const steps = (list: readonly CardStep[], withReasons: boolean) => list.map((one) => stepRow(one, card, withReasons));
  const parts: CardPart[] = [
    { id: "stop", title: words.stop, rows: card.stop.map(noteRow) },
    {
      id: "kit",
      title: words.kit,
      rows: card.kit.map(({ items, text, whereText }) => ({
        id: items.join("-"),
        mark: "box",
        pieces: [plain(`${text}${words.colon}`), strong(whereText)],
      })),
    },
    { id: "run", title: words.run, rows: runRows(card) },
    // The plan has the lengths of the lines.
    { id: "checks", title: words.checks, rows: card.checks.filter(({ unit }) => unit !== "m").map(noteRow) },
    { id: "rules", title: words.rules, rows: card.rules.map(noteRow) },
    { id: "arrival", title: words.arrival, rows: [...order, ...steps(card.arrival, reasons !== "none")] },
    { id: "departure", title: words.departure, rows: steps(card.departure, reasons === "all") },
    { id: "leaveFast", title: words.leaveFast, rows: steps(card.leaveFast, false) },
    {
      id: "notConnected",
      title: words.notConnected,
      rows: card.notConnected.map(({ service, name, text }) => ({
        id: service,
        mark: "dot",
        pieces: [strong(`${name}.`), plain(text)],
      })),
    },
    { id: "trip", title: words.trip, rows: card.trip.map(noteRow) },
    { id: "cautions", title: words.cautions, rows: card.cautions.map(noteRow) },
    {
      id: "instead",
      title: card.verdict === "unknown" ? words.measureFirst : words.instead,
      rows: card.instead.map(noteRow),
    },
    { id: "unchecked", title: words.unchecked, rows: [...card.unchecked.map(noteRow), ...translationRow(card)] },
  ];
  return parts.filter(({ rows }) => rows.length > 0);
}
