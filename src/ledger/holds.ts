/** Holds: a site kept free for nights on which no stay has it yet, until somebody takes the hold away or it expires. */
import { recordChange } from "./changes.ts";
import { type SqlRow, textOf, textOrNull } from "./driver.ts";
import { type Act, instant, type Ledger, refuse } from "./ledger.ts";
import { enterHold } from "./occupation.ts";

export interface Hold {
  readonly id: string;
  readonly site: string;
  readonly arrival: string;
  readonly departure: string;
  readonly why: string | null;
  /** ISO 8601, UTC; null when it stands until it is removed. */
  readonly expiresAt: string | null;
}

/** Holds that have not expired and have a night at or after `from`, in the order of their nights. */
export function listHolds(ledger: Ledger, campground: string, from: string | null): readonly Hold[] {
  return ledger.sql
    .all(
      `SELECT * FROM hold WHERE campground = ? AND (? IS NULL OR departure > ?) AND (expires_at IS NULL OR expires_at > ?)
       ORDER BY arrival, id`,
      campground,
      from,
      from,
      instant(ledger),
    )
    .map(holdOf);
}

export function readHold(ledger: Ledger, campground: string, id: string): Hold | null {
  const row = ledger.sql.get("SELECT * FROM hold WHERE campground = ? AND id = ?", campground, id);
  if (row === null) return null;
  const hold = holdOf(row);
  return hold.expiresAt !== null && hold.expiresAt <= instant(ledger) ? null : hold;
}

export function createHold(ledger: Ledger, act: Act, hold: Hold): void {
  purgeHolds(ledger, act);
  const found = ledger.sql.get("SELECT 1 AS found FROM hold WHERE campground = ? AND id = ?", act.campground, hold.id);
  if (found !== null) refuse("exists", `There is a hold ${hold.id} already.`, "/id");
  ledger.sql.run(
    "INSERT INTO hold (campground, id, site, arrival, departure, why, expires_at) VALUES (?, ?, ?, ?, ?, ?, ?)",
    act.campground,
    hold.id,
    hold.site,
    hold.arrival,
    hold.departure,
    hold.why,
    hold.expiresAt,
  );
  enterHold(ledger, act.campground, hold.id, hold.site, hold);
  recordChange(ledger, act, {
    kind: "hold",
    subject: hold.id,
    action: "created",
    version: null,
    before: null,
    after: hold,
  });
}

export function removeHold(ledger: Ledger, act: Act, hold: Hold): void {
  ledger.sql.run("DELETE FROM site_night WHERE campground = ? AND hold = ?", act.campground, hold.id);
  ledger.sql.run("DELETE FROM hold WHERE campground = ? AND id = ?", act.campground, hold.id);
  recordChange(ledger, act, {
    kind: "hold",
    subject: hold.id,
    action: "removed",
    version: null,
    before: hold,
    after: null,
  });
}

/** Removes holds that have expired; called before anything that they could stand in the way of. */
export function purgeHolds(ledger: Ledger, act: Act): void {
  const expired = ledger.sql.all(
    "SELECT * FROM hold WHERE campground = ? AND expires_at IS NOT NULL AND expires_at <= ?",
    act.campground,
    instant(ledger),
  );
  for (const row of expired) removeHold(ledger, { ...act, actor: EXPIRY }, holdOf(row));
}

/** Who the log names when a hold ends by itself. */
const EXPIRY = "expiry";

function holdOf(row: SqlRow): Hold {
  return {
    id: textOf(row, "id"),
    site: textOf(row, "site"),
    arrival: textOf(row, "arrival"),
    departure: textOf(row, "departure"),
    why: textOrNull(row, "why"),
    expiresAt: textOrNull(row, "expires_at"),
  };
}
