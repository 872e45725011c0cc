/** The board as runs of nights: for each site who or what has it, night by night. */
import { nightsOf } from "../../../ledger/dates.ts";
import { addDays } from "../../desk/words.ts";
import { type Book, type HostStay, type InTheWay, inTheWay, type Span } from "../book.ts";

export interface Run {
  /** Null: nobody and nothing. */
  readonly way: InTheWay | null;
  readonly nights: number;
  /** The first night of the run. */
  readonly from: string;
  /** True when it began before the first night shown, or goes on after the last. */
  readonly before: boolean;
  readonly after: boolean;
  /** True for a stay on a site that is closed on one of these nights. */
  readonly clash: boolean;
}

const spanOf = (way: InTheWay): Span =>
  way.kind === "stay"
    ? way.stay
    : way.kind === "hold"
      ? way.hold
      : { arrival: way.closure.firstNight, departure: way.closure.until ?? "9999-12-31" };

/** Stays before closures: a closure takes nobody's place away. */
function occupantOf(book: Book, site: string, night: Span, stays: readonly HostStay[]): InTheWay | null {
  const stay = stays.find((one) => one.arrival < night.departure && night.arrival < one.departure);
  return stay === undefined ? inTheWay(book, site, night) : { kind: "stay", stay };
}

const thingOf = (way: InTheWay | null): unknown =>
  way === null ? null : way.kind === "stay" ? way.stay : way.kind === "hold" ? way.hold : way.closure;

export function runsOf(book: Book, site: string, first: string, count: number): readonly Run[] {
  const last = addDays(first, count);
  const stays = book.stays.filter((one) => one.place?.site === site && one.arrival < last && first < one.departure);
  const runs: Run[] = [];
  for (const from of nightsOf(first, last)) {
    const night = { arrival: from, departure: addDays(from, 1) };
    const way = occupantOf(book, site, night, stays);
    const closed = way?.kind === "stay" && inTheWay(book, site, night, way.stay.id)?.kind === "closure";
    const open = runs.at(-1);
    if (open !== undefined && way !== null && thingOf(open.way) === thingOf(way)) {
      runs[runs.length - 1] = { ...open, nights: open.nights + 1, clash: open.clash || closed };
      continue;
    }
    const span = way === null ? null : spanOf(way);
    runs.push({
      way,
      nights: 1,
      from,
      before: span !== null && span.arrival < first,
      after: span !== null && span.departure > last,
      clash: closed,
    });
  }
  return runs;
}
