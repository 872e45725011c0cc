/**
 * The parameter `datetime`: an instant of RFC 3339 section 5.6, or an interval of two that is open where an end is `..`
 * or nothing (OGC 17-069r4, requirement /req/core/fc-time-response, read in the standard's repository).
 */
import { Problem } from "../problem.ts";

export interface Interval {
  /** Milliseconds since 1970; null is open. */
  readonly from: number | null;
  readonly to: number | null;
}

const INSTANT = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d+)?(Z|[+-]\d{2}:\d{2})$/i;

export function readInterval(text: string): Interval {
  const ends = text.split("/");
  if (ends.length > 2) throw refused();
  if (ends.length === 1) {
    const instant = readInstant(text);
    return { from: instant, to: instant };
  }
  const [from = null, to = null] = ends.map((end) => (end === "" || end === ".." ? null : readInstant(end)));
  if ((from === null && to === null) || (from !== null && to !== null && from > to)) throw refused();
  return { from, to };
}

function readInstant(text: string): number {
  const time = INSTANT.test(text) ? Date.parse(text.toUpperCase()) : Number.NaN;
  const [year = 0, month = 0, day = 0] = text.split("T", 1).join("").split("-").map(Number);
  // Date may take the 30th of February for a day in March; such a day is none.
  if (Number.isNaN(time) || new Date(Date.UTC(year, month - 1, day)).getUTCDate() !== day) throw refused();
  return time;
}

function refused(): Problem {
  const expected = "an instant such as 2026-07-04T12:00:00Z, or an interval such as 2026-07-01T00:00:00Z/..";
  return new Problem("invalid-parameter", `The parameter datetime is not accepted: ${expected} is wanted.`, [
    { parameter: "datetime", code: "bad-form", message: "This value is not accepted.", expected },
  ]);
}
