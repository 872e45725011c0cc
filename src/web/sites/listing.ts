/** Which sites the list and the map show, and in which order. */
import type { Exposed, SiteCard, SiteRow } from "../core/protocol.ts";
import { type Filters, type Order, WINDS_FROM, type WindFrom } from "../state/store.ts";

export interface Listing {
  readonly card: SiteCard;
  readonly row: SiteRow | null;
}

/** Exposure to the wind chosen, else to the usual one; null when nothing is on record. */
export function exposedTo(row: SiteRow | null, from: "" | WindFrom): Exposed | null {
  const exposed = from === "" ? row?.wind?.usual : row?.wind?.from[WINDS_FROM.indexOf(from)];
  return exposed === undefined || exposed.level === "unknown" ? null : exposed;
}

/** Low or moderate exposure on record; an unknown is not shelter. */
function isSheltered(row: SiteRow, from: WindFrom): boolean {
  const level = exposedTo(row, from)?.level;
  return level === "low" || level === "moderate";
}

/** A filter asks for what the record says; an unknown is not a yes, and the count of what it hides is shown. */
export function passes({ card, row }: Listing, filters: Filters): boolean {
  if (filters.power && card.services.power !== "yes") return false;
  if (filters.sewer && card.services.sewer !== "yes") return false;
  if (filters.pullThrough && card.layout !== "pull-through") return false;
  if (filters.accessible && card.accessible !== "yes") return false;
  if (filters.shade && (card.shade === null || card.shade === "none" || card.shade === "no")) return false;
  if (filters.windFrom && row !== null && !isSheltered(row, filters.windFrom)) return false;
  return !filters.fitting || row === null || row.verdict !== "does not fit";
}

const byName = (a: Listing, b: Listing): number => a.card.name.localeCompare(b.card.name, "en", { numeric: true });
const marginOf = ({ row }: Listing): number => row?.worst?.margin ?? Number.NEGATIVE_INFINITY;

function byRank(a: Listing, b: Listing): number {
  if (a.row === null || b.row === null) return Number(a.row === null) - Number(b.row === null);
  const margin = (row: SiteRow) => row.bestMargin ?? Number.NEGATIVE_INFINITY;
  return b.row.rank - a.row.rank || (margin(a.row) === margin(b.row) ? 0 : margin(b.row) - margin(a.row));
}

function byShelter(from: "" | WindFrom): (a: Listing, b: Listing) => number {
  const ratioOf = ({ row }: Listing) => exposedTo(row, from)?.ratio ?? Number.POSITIVE_INFINITY;
  return (a, b) =>
    ratioOf(a) === ratioOf(b) ? Number(a.row === null) - Number(b.row === null) : ratioOf(a) - ratioOf(b);
}

function byMargin(a: Listing, b: Listing): number {
  return marginOf(a) === marginOf(b) ? 0 : marginOf(b) - marginOf(a);
}

/** Sites without an answer yet come last, except by name. */
export function arrangeList(
  cards: readonly SiteCard[],
  rows: ReadonlyMap<string, SiteRow>,
  filters: Filters,
  order: Order,
): Listing[] {
  const listed = cards.map((card) => ({ card, row: rows.get(card.id) ?? null })).filter((one) => passes(one, filters));
  const rules: Readonly<Record<Order, (a: Listing, b: Listing) => number>> = {
    rank: byRank,
    margin: byMargin,
    shelter: byShelter(filters.windFrom),
    name: byName,
  };
  return listed.sort((a, b) => rules[order](a, b) || byName(a, b));
}
