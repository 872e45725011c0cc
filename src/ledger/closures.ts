/**
 * Closures: a site, or one receptacle or tap outlet, that nobody may have from a night on. A closure is a fact and is
 * never refused because somebody stands there: the stays that it meets are told, and moving them is the host's act.
 */
import { recordChange } from "./changes.ts";
import { numberOf, type SqlRow, textOf, textOrNull } from "./driver.ts";
import { type Act, type Ledger, refuse } from "./ledger.ts";

export interface ClosureEntry {
  /** The site that is closed; null when it is an outlet. */
  readonly site: string | null;
  /** The receptacle or tap outlet that is closed; null when it is a site. */
  readonly outlet: string | null;
  readonly firstNight: string;
  /** First night on which it is open again; null while nobody knows. */
  readonly until: string | null;
  readonly why: string | null;
}

export interface Closure extends ClosureEntry {
  readonly id: string;
  readonly version: number;
}

/** Closures that have a night at or after `from`, in the order of their first nights. */
export function listClosures(ledger: Ledger, campground: string, from: string | null): readonly Closure[] {
  return ledger.sql
    .all(
      `SELECT * FROM closure WHERE campground = ? AND (? IS NULL OR until IS NULL OR until > ?)
       ORDER BY first_night, id`,
      campground,
      from,
      from,
    )
    .map(closureOf);
}

export function readClosure(ledger: Ledger, campground: string, id: string): Closure | null {
  const row = ledger.sql.get("SELECT * FROM closure WHERE campground = ? AND id = ?", campground, id);
  return row === null ? null : closureOf(row);
}

export function createClosure(ledger: Ledger, act: Act, id: string, entry: ClosureEntry): Closure {
  if (readClosure(ledger, act.campground, id) !== null) refuse("exists", `There is a closure ${id} already.`, "/id");
  ledger.sql.run(
    `INSERT INTO closure (campground, id, version, site, outlet, first_night, until, why)
     VALUES (?, ?, 1, ?, ?, ?, ?, ?)`,
    act.campground,
    id,
    entry.site,
    entry.outlet,
    entry.firstNight,
    entry.until,
    entry.why,
  );
  const closure = { ...entry, id, version: 1 };
  logClosure(ledger, act, "created", null, closure);
  return closure;
}

export function updateClosure(ledger: Ledger, act: Act, before: Closure, entry: ClosureEntry): Closure {
  const closure = { ...entry, id: before.id, version: before.version + 1 };
  ledger.sql.run(
    `UPDATE closure SET version = ?, site = ?, outlet = ?, first_night = ?, until = ?, why = ?
     WHERE campground = ? AND id = ?`,
    closure.version,
    entry.site,
    entry.outlet,
    entry.firstNight,
    entry.until,
    entry.why,
    act.campground,
    before.id,
  );
  logClosure(ledger, act, "changed", before, closure);
  return closure;
}

export function removeClosure(ledger: Ledger, act: Act, closure: Closure): void {
  ledger.sql.run("DELETE FROM closure WHERE campground = ? AND id = ?", act.campground, closure.id);
  logClosure(ledger, act, "removed", closure, null);
}

/** Ids of the stays that stand on what is closed, on a night on which it is closed, from `today` on. */
export function staysMet(ledger: Ledger, campground: string, closure: ClosureEntry, today: string): readonly string[] {
  const table = closure.site === null ? "outlet_night" : "site_night";
  const column = closure.site === null ? "outlet" : "site";
  return ledger.sql
    .all(
      `SELECT DISTINCT stay FROM ${table}
       WHERE campground = ? AND ${column} = ? AND night >= ? AND night >= ? AND (? IS NULL OR night < ?)
         AND stay IS NOT NULL ORDER BY stay`,
      campground,
      closure.site ?? closure.outlet,
      closure.firstNight,
      today,
      closure.until,
      closure.until,
    )
    .map((row) => textOf(row, "stay"));
}

function logClosure(
  ledger: Ledger,
  act: Act,
  action: "created" | "changed" | "removed",
  before: Closure | null,
  after: Closure | null,
): void {
  const { id, version } = (after ?? before) as Closure;
  recordChange(ledger, act, { kind: "closure", subject: id, action, version, before, after });
}

function closureOf(row: SqlRow): Closure {
  return {
    id: textOf(row, "id"),
    version: numberOf(row, "version"),
    site: textOrNull(row, "site"),
    outlet: textOrNull(row, "outlet"),
    firstNight: textOf(row, "first_night"),
    until: textOrNull(row, "until"),
    why: textOrNull(row, "why"),
  };
}
