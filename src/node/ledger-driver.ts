/** SQLite in a file, through libsql. The package has native code and is loaded when a ledger is opened, not before. */
import * as modules from "node:module";
import type Database from "libsql";
import { type SqlDriver, SqlFault, type SqlFaultKind, type SqlRow, type SqlValue } from "../ledger/driver.ts";

export interface LedgerFile {
  readonly sql: SqlDriver;
  readonly close: () => void;
}

/** Milliseconds that a write waits for another process to end its own. */
const WAIT_FOR_OTHERS = 5000;
/** Pages after which the log is brought back into the file. */
const PAGES_OF_LOG = 1000;

type Connection = Database.Database;
type Statement = Database.Statement;

/**
 * Opens the file, or makes it. Every commit reaches the disk before it is acknowledged (write-ahead log, synchronous
 * FULL). Throws when the file is no database.
 *
 * @param path A path, or ":memory:".
 */
export function openLedgerFile(path: string): LedgerFile {
  const Connect = modules.createRequire(import.meta.url)("libsql") as typeof Database;
  const connection = new Connect(path);
  try {
    for (const pragma of [
      `busy_timeout = ${WAIT_FOR_OTHERS}`,
      "journal_mode = WAL",
      "synchronous = FULL",
      "foreign_keys = ON",
      "trusted_schema = OFF",
      `wal_autocheckpoint = ${PAGES_OF_LOG}`,
    ]) {
      connection.pragma(pragma);
    }
  } catch (fault) {
    connection.close();
    throw faultOf(fault);
  }
  return { sql: driverOf(connection), close: () => connection.close() };
}

function driverOf(connection: Connection): SqlDriver {
  const prepared = new Map<string, Statement>();
  const statement = (sql: string): Statement => {
    const known = prepared.get(sql) ?? connection.prepare(sql);
    prepared.set(sql, known);
    return known;
  };
  const guarded = <T>(sql: string, use: (statement: Statement) => T): T => {
    try {
      return use(statement(sql));
    } catch (fault) {
      // A statement that failed half way is not used again.
      prepared.delete(sql);
      throw faultOf(fault);
    }
  };
  const all = (sql: string, ...values: readonly SqlValue[]) =>
    guarded(sql, (one) => one.all([...values])) as readonly SqlRow[];
  return {
    all,
    get: (sql, ...values) => all(sql, ...values)[0] ?? null,
    run: (sql, ...values) => {
      guarded(sql, (one) => one.run([...values]));
    },
    transaction: (work) => transaction(connection, work),
  };
}

function transaction<T>(connection: Connection, work: () => T): T {
  execute(connection, "BEGIN IMMEDIATE");
  try {
    const result = work();
    execute(connection, "COMMIT");
    return result;
  } catch (fault) {
    // A full disk ends the transaction by itself.
    if (connection.inTransaction) execute(connection, "ROLLBACK");
    throw fault;
  }
}

function execute(connection: Connection, sql: string): void {
  try {
    connection.exec(sql);
  } catch (fault) {
    throw faultOf(fault);
  }
}

const KINDS: readonly (readonly [prefix: string, SqlFaultKind])[] = [
  ["SQLITE_CONSTRAINT_UNIQUE", "taken"],
  ["SQLITE_CONSTRAINT_PRIMARYKEY", "taken"],
  ["SQLITE_CONSTRAINT", "constraint"],
  ["SQLITE_BUSY", "busy"],
  ["SQLITE_FULL", "disk"],
  ["SQLITE_IOERR", "disk"],
  ["SQLITE_READONLY", "disk"],
];

function faultOf(fault: unknown): unknown {
  if (!(fault instanceof Error) || !("code" in fault) || typeof fault.code !== "string") return fault;
  const { code } = fault;
  const kind = KINDS.find(([prefix]) => code.startsWith(prefix))?.[1] ?? "other";
  return new SqlFault(kind, `${code}: ${fault.message}`, { cause: fault });
}
