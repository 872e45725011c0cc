/**
 * The one object that lists the campgrounds whose hosts write: id, version and summary of each, numbered in the order
 * of their changes, so that a reader fetches only what is new since it looked.
 */
import { numberOf, type SqlDriver, textOf } from "../ledger/driver.ts";
import type { CampgroundSummary } from "../records/store.ts";
import { type ObjectStorage, objectDriver } from "./ledger-driver.ts";

export interface DirectoryEntry {
  readonly id: string;
  /** Of the record in the campground's ledger. */
  readonly version: number;
  readonly summary: CampgroundSummary;
}

export interface DirectoryAnswer {
  /** The last change. */
  readonly number: number;
  /** What has changed since the number that was asked with. */
  readonly entries: readonly DirectoryEntry[];
}

const TABLE = `CREATE TABLE IF NOT EXISTS entry (
  id TEXT PRIMARY KEY NOT NULL, number INTEGER NOT NULL UNIQUE, version INTEGER NOT NULL, summary TEXT NOT NULL
) STRICT`;
const METHOD_NOT_ALLOWED = 405;

export class DirectoryObject {
  private readonly sql: SqlDriver;

  constructor(state: { readonly storage: ObjectStorage }) {
    this.sql = objectDriver(state.storage);
    this.sql.run(TABLE);
  }

  async fetch(request: Request): Promise<Response> {
    if (request.method === "PUT") {
      this.enter((await request.json()) as DirectoryEntry);
      return Response.json(null);
    }
    if (request.method !== "GET") return new Response(null, { status: METHOD_NOT_ALLOWED });
    return Response.json(this.since(Number(new URL(request.url).searchParams.get("since") ?? "0")));
  }

  /** An entry that comes late must not put an older version in the place of a newer one. */
  private enter({ id, version, summary }: DirectoryEntry): void {
    this.sql.run(
      `INSERT INTO entry (id, number, version, summary)
       VALUES (?, (SELECT coalesce(max(number), 0) + 1 FROM entry), ?, ?)
       ON CONFLICT (id) DO UPDATE SET number = excluded.number, version = excluded.version, summary = excluded.summary
       WHERE excluded.version > entry.version`,
      id,
      version,
      JSON.stringify(summary),
    );
  }

  private since(number: number): DirectoryAnswer {
    const rows = this.sql.all("SELECT * FROM entry WHERE number > ? ORDER BY number", number);
    const entries = rows.map((row) => ({
      id: textOf(row, "id"),
      version: numberOf(row, "version"),
      summary: JSON.parse(textOf(row, "summary")) as CampgroundSummary,
    }));
    const last = rows.at(-1);
    return { number: last === undefined ? number : numberOf(last, "number"), entries };
  }
}
