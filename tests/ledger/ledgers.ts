/** Ledgers for tests: in memory, with a clock that stands where it is put, and one invented campground. */
import type { Act, Ledger } from "../../src/ledger/ledger.ts";
import { migrate } from "../../src/ledger/migrate.ts";
import { type RecordFeature, writeRecord } from "../../src/ledger/records.ts";
import type { StayEntry } from "../../src/ledger/stays.ts";
import { openLedgerFile } from "../../src/node/ledger-driver.ts";

export const START = Date.UTC(2027, 4, 20, 15, 0, 0);
export const TODAY = "2027-05-20";
export const ACT: Act = { campground: "alder-flat", actor: "test" };

export interface TestLedger extends Ledger {
  /** Milliseconds since 1970 UTC. */
  at: number;
  readonly close: () => void;
}

export function emptyLedger(path = ":memory:"): TestLedger {
  const { sql, close } = openLedgerFile(path);
  migrate(sql);
  const ledger: TestLedger = { sql, at: START, now: () => ledger.at, close };
  return ledger;
}

export const siteBody = (id: string, more: Readonly<Record<string, unknown>> = {}): RecordFeature => ({
  site: id,
  body: JSON.stringify({ type: "Feature", id, geometry: null, properties: { kind: "site", name: id, ...more } }),
});

export const HEAD = { type: "FeatureCollection", campground: { id: "alder-flat", timeZone: "America/Denver" } };

/** Sites A1, A2 and A3. */
export function ledgerWithSites(path?: string): TestLedger {
  const ledger = emptyLedger(path);
  ledger.sql.transaction(() =>
    writeRecord(ledger, ACT, { head: HEAD, features: ["A1", "A2", "A3"].map((id) => siteBody(id)) }, null, TODAY),
  );
  return ledger;
}

export const entry = (arrival: string, departure: string, more: Partial<StayEntry> = {}): StayEntry => ({
  arrival,
  departure,
  status: "expected",
  asks: { rig: { class: "class-c", length: "25 ft" } },
  party: { name: "Wren Canary" },
  ...more,
});
