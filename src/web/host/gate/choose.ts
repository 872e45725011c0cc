/**
 * Which of the free sites a late arrival gets, and the spares: whoever fits without anything to bring, then whatever
 * keeps what is scarce for those who need it and leaves no single night that nobody can sell, then the widest margin.
 */

import type { SiteVerdict } from "../../../fit/answer.ts";
import type { SiteCard, SiteRow } from "../../core/protocol.ts";
import { marginText, VERDICT_WORDS } from "../../shared/words.ts";
import type { Units } from "../../state/store.ts";
import { type Book, gapsBeside, inTheWay, type Span } from "../book.ts";
import type { GateAnswers } from "./answers.ts";

/** Verdicts that the gate offers, best first; what nobody knows or what does not fit is never offered. */
const OFFERED: readonly SiteVerdict[] = ["fits", "fits with kit", "tight"];
/** Margin beyond which more is no better, metres. */
const COMFORT = 0.5;
const LARGE_SUPPLY = 50;

export interface Offer {
  readonly card: SiteCard;
  readonly row: SiteRow;
  readonly reason: string;
}

/** Sites that nobody has, holds or has closed for these nights, and that no late arrival of this device was sent to. */
export function freeSites(
  book: Book,
  sites: readonly SiteCard[],
  span: Span,
  given: ReadonlySet<string>,
): readonly SiteCard[] {
  return sites.filter((card) => card.closed === null && !given.has(card.id) && inTheWay(book, card.id, span) === null);
}

interface Judged {
  readonly card: SiteCard;
  readonly row: SiteRow;
  /** What would be used up that somebody else may need. */
  readonly scarce: readonly string[];
  readonly shortGap: boolean;
}

function judge(book: Book, card: SiteCard, row: SiteRow, span: Span, answers: GateAnswers): Judged {
  const large = (card.amps[0] ?? 0) >= LARGE_SUPPLY;
  const scarce = [
    ...(card.layout === "pull-through" && answers.second === "none" ? ["a pull-through"] : []),
    ...(large && answers.plug !== "nema-14-50" ? ["a 50 A pedestal"] : []),
    ...(card.accessible === "yes" ? ["an accessible site"] : []),
  ];
  const { before, after } = gapsBeside(book, card.id, span);
  return { card, row, scarce, shortGap: before === 1 || after === 1 };
}

const verdictPlace = ({ row }: Judged): number => OFFERED.indexOf(row.verdict);
const served = ({ row }: Judged): number => row.lines.filter((line) => line.verdict === "reaches").length;
const comfort = ({ row }: Judged): number => Math.min(row.worst?.margin ?? row.bestMargin ?? 0, COMFORT);

function better(one: Judged, other: Judged): number {
  return (
    verdictPlace(one) - verdictPlace(other) ||
    one.scarce.length - other.scarce.length ||
    Number(one.shortGap) - Number(other.shortGap) ||
    served(other) - served(one) ||
    comfort(other) - comfort(one) ||
    one.card.name.localeCompare(other.card.name, "en", { numeric: true })
  );
}

function reasonOf({ card, row, scarce, shortGap }: Judged, units: Units): string {
  const lines = row.lines.filter((line) => line.verdict === "reaches").map((line) => line.service);
  const kit = row.kit.map(({ description }) => description);
  const parts = [
    VERDICT_WORDS[row.verdict] +
      (row.worst === null ? "" : `, ${row.worst.service} ${marginText(row.worst.margin, units)}`),
    ...(kit.length > 0 ? [`with ${kit.join(", ")}`] : []),
    lines.length === 0 ? "no lines" : `${lines.join(", ")} reach${lines.length === 1 ? "es" : ""}`,
    ...(card.layout === null ? [] : [card.layout]),
    ...(scarce.length > 0 ? [`uses up ${scarce.join(" and ")}`] : []),
    ...(shortGap ? ["leaves a single night beside it"] : []),
  ];
  return `${parts.join("; ")}.`;
}

/** The site and two spares, best first. */
export function offersOf(
  book: Book,
  cards: readonly SiteCard[],
  rows: ReadonlyMap<string, SiteRow>,
  span: Span,
  answers: GateAnswers,
  units: Units,
): readonly Offer[] {
  const judged = cards.flatMap((card) => {
    const row = rows.get(card.id);
    return row === undefined || verdictPlace({ row } as Judged) < 0 ? [] : [judge(book, card, row, span, answers)];
  });
  const [first, ...others] = judged.sort(better);
  if (first === undefined) return [];
  return [first, ...others.slice(0, 2)].map((one) => ({
    card: one.card,
    row: one.row,
    reason: reasonOf(one, units),
  }));
}
