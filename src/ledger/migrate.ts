/** Brings a database to the present schema, forwards only. */
import { numberOf, type SqlDriver } from "./driver.ts";
import { MIGRATIONS, type Migration } from "./migrations.ts";

const VERSION_TABLE = "CREATE TABLE IF NOT EXISTS ledger_version (version INTEGER PRIMARY KEY NOT NULL) STRICT";

/**
 * Runs the steps that the database has not seen, all in one transaction, and gives the version that it had (0: empty).
 * Throws when the database was written by a newer program: its rows may mean what this one does not know.
 */
export function migrate(sql: SqlDriver, steps: readonly Migration[] = MIGRATIONS): number {
  return sql.transaction(() => {
    sql.run(VERSION_TABLE);
    const row = sql.get("SELECT max(version) AS version FROM ledger_version");
    const had = row === null || row["version"] === null ? 0 : numberOf(row, "version");
    const newest = steps.at(-1)?.version ?? 0;
    if (had > newest) {
      throw new Error(`This file has version ${had} of the ledger; this program knows versions up to ${newest}.`);
    }
    for (const { version, statements } of steps) {
      if (version <= had) continue;
      for (const statement of statements) sql.run(statement);
      sql.run("INSERT INTO ledger_version (version) VALUES (?)", version);
    }
    return had;
  });
}
