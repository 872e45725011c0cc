/**
 * The port to a SQLite database: synchronous, because both engines behind it are (libsql in Node, the storage of a
 * Durable Object at the edge). The SQL texts are the same for both; pragmas and transactions belong to the drivers.
 */

export type SqlValue = string | number | null;
export type SqlRow = Readonly<Record<string, SqlValue>>;

export interface SqlDriver {
  /** Every row, in order. Statements that write and give rows (RETURNING) are run whole. */
  all(sql: string, ...values: readonly SqlValue[]): readonly SqlRow[];
  /** The first row, or null. */
  get(sql: string, ...values: readonly SqlValue[]): SqlRow | null;
  run(sql: string, ...values: readonly SqlValue[]): void;
  /**
   * Runs `work` as one transaction that no other writer enters: kept whole when it returns, undone whole when it
   * throws. Not nested. `work` must not wait for anything.
   */
  transaction<T>(work: () => T): T;
}

/**
 * Why the database refused: a constraint (`taken`: a row of this key is there already), `busy` (another process wrote
 * for longer than one waits), `disk` (full, or it does not take what is written), or anything else.
 */
export type SqlFaultKind = "taken" | "constraint" | "busy" | "disk" | "other";

export class SqlFault extends Error {
  constructor(
    readonly kind: SqlFaultKind,
    message: string,
    options?: { readonly cause: unknown },
  ) {
    super(message, options);
  }
}

/** Reads a column of text. Throws when the column is missing or of another type: then code and schema disagree. */
export function textOf(row: SqlRow, column: string): string {
  const value = row[column];
  if (typeof value !== "string") throw new Error(`The column ${column} holds no text.`);
  return value;
}

export function textOrNull(row: SqlRow, column: string): string | null {
  return row[column] === null ? null : textOf(row, column);
}

export function numberOf(row: SqlRow, column: string): number {
  const value = row[column];
  if (typeof value !== "number") throw new Error(`The column ${column} holds no number.`);
  return value;
}
