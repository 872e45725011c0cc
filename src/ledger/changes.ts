/**
 * The log of changes: one entry for each effect, numbered without gaps in each campground. It is the feed that pages
 * follow and the trail of who changed what. Names and addresses of guests never enter it.
 */
import { numberOf, type SqlRow, textOf, textOrNull } from "./driver.ts";
import { type Act, instant, type Ledger } from "./ledger.ts";

export type ChangeKind = "record" | "site" | "stay" | "assignment" | "hold" | "closure" | "plan";

export interface Change {
  readonly kind: ChangeKind;
  /** Id of the thing within its kind. */
  readonly subject: string;
  readonly action: "created" | "changed" | "removed" | "accepted" | "locked" | "unlocked";
  /** Version of the thing after the change, where it has one. */
  readonly version: number | null;
  readonly before: unknown;
  readonly after: unknown;
}

export interface ChangeEntry extends Change {
  readonly number: number;
  /** ISO 8601, UTC. */
  readonly at: string;
  readonly actor: string;
}

/** Adds an entry and gives its number. */
export function recordChange(ledger: Ledger, act: Act, change: Change): number {
  const counted = ledger.sql.get(
    "UPDATE campground SET change_number = change_number + 1 WHERE id = ? RETURNING change_number",
    act.campground,
  );
  if (counted === null) throw new Error("A change of a campground that the ledger does not hold.");
  const number = numberOf(counted, "change_number");
  ledger.sql.run(
    `INSERT INTO change_entry (campground, number, at, actor, kind, subject, action, version, before, after)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    act.campground,
    number,
    instant(ledger),
    act.actor,
    change.kind,
    change.subject,
    change.action,
    change.version,
    change.before === null ? null : JSON.stringify(change.before),
    change.after === null ? null : JSON.stringify(change.after),
  );
  return number;
}

/** Entries after a number, oldest first; of one thing only when a kind and a subject are given. */
export function changesSince(
  ledger: Ledger,
  campground: string,
  since: number,
  most: number,
  only?: { readonly kind: string; readonly subject: string | null },
): readonly ChangeEntry[] {
  const { sql } = ledger;
  const rows =
    only === undefined
      ? sql.all(
          "SELECT * FROM change_entry WHERE campground = ? AND number > ? ORDER BY number LIMIT ?",
          campground,
          since,
          most,
        )
      : sql.all(
          `SELECT * FROM change_entry WHERE campground = ? AND kind = ? AND (? IS NULL OR subject = ?) AND number > ?
           ORDER BY number LIMIT ?`,
          campground,
          only.kind,
          only.subject,
          only.subject,
          since,
          most,
        );
  return rows.map(entryOf);
}

/** Number of the newest entry; 0 when nothing has changed yet. */
export function newestChange(ledger: Ledger, campground: string): number {
  const row = ledger.sql.get("SELECT change_number FROM campground WHERE id = ?", campground);
  return row === null ? 0 : numberOf(row, "change_number");
}

function entryOf(row: SqlRow): ChangeEntry {
  const json = (column: string): unknown => {
    const text = textOrNull(row, column);
    return text === null ? null : (JSON.parse(text) as unknown);
  };
  return {
    number: numberOf(row, "number"),
    at: textOf(row, "at"),
    actor: textOf(row, "actor"),
    kind: textOf(row, "kind") as ChangeKind,
    subject: textOf(row, "subject"),
    action: textOf(row, "action") as Change["action"],
    version: row["version"] === null ? null : numberOf(row, "version"),
    before: json("before"),
    after: json("after"),
  };
}
