/**
 * SQLite in a Durable Object. The runtime owns durability (an answer is held back until its writes are confirmed) and
 * has foreign keys on; nothing is set here.
 */
import { type SqlDriver, SqlFault, type SqlFaultKind, type SqlRow } from "../ledger/driver.ts";

/** The part of a Durable Object's storage that the ledger uses. */
export interface ObjectStorage {
  readonly sql: {
    exec(query: string, ...values: unknown[]): { toArray(): Record<string, unknown>[] };
  };
  transactionSync<T>(work: () => T): T;
}

export function objectDriver(storage: ObjectStorage): SqlDriver {
  const all: SqlDriver["all"] = (sql, ...values) => {
    try {
      return storage.sql.exec(sql, ...values).toArray() as SqlRow[];
    } catch (fault) {
      throw faultOf(fault);
    }
  };
  return {
    all,
    get: (sql, ...values) => all(sql, ...values)[0] ?? null,
    run: (sql, ...values) => {
      all(sql, ...values);
    },
    transaction: (work) => storage.transactionSync(work),
  };
}

/** The runtime tells what went wrong in the text of the error, and nowhere else. */
const KINDS: readonly (readonly [pattern: RegExp, kind: SqlFaultKind])[] = [
  [/SQLITE_CONSTRAINT_(UNIQUE|PRIMARYKEY)|UNIQUE constraint failed/, "taken"],
  [/SQLITE_CONSTRAINT|constraint failed/, "constraint"],
  [/SQLITE_BUSY/, "busy"],
  [/SQLITE_FULL|SQLITE_IOERR|database or disk is full/, "disk"],
];

function faultOf(fault: unknown): SqlFault {
  const message = fault instanceof Error ? fault.message : String(fault);
  const kind = KINDS.find(([pattern]) => pattern.test(message))?.[1] ?? "other";
  return new SqlFault(kind, message, { cause: fault });
}
