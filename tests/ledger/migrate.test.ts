import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { moveStays } from "../../src/ledger/assignments.ts";
import { listClosures } from "../../src/ledger/closures.ts";
import type { SqlDriver } from "../../src/ledger/driver.ts";
import { keptAnswer } from "../../src/ledger/kept-answers.ts";
import { migrate } from "../../src/ledger/migrate.ts";
import { MIGRATIONS } from "../../src/ledger/migrations.ts";
import { readRecord } from "../../src/ledger/records.ts";
import { createStay, readStay } from "../../src/ledger/stays.ts";
import { validToken } from "../../src/ledger/tokens.ts";
import { openLedgerFile } from "../../src/node/ledger-driver.ts";
import { ACT, entry, START } from "./ledgers.ts";

const NEWEST = MIGRATIONS.length;
let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "padwright-ledger-"));
});
afterAll(() => rm(folder, { recursive: true }));

/** Statements of a fixture; none of them holds a semicolon at the end of a line within a text. */
async function statementsOf(version: number): Promise<string[]> {
  const text = await readFile(new URL(`./fixtures/version-${version}.sql`, import.meta.url), "utf8");
  return text
    .replace(/^--.*\n/, "")
    .split(/;\n/)
    .filter((statement) => statement.trim() !== "");
}

async function fixture(version: number, path = ":memory:") {
  const { sql, close } = openLedgerFile(path);
  for (const statement of await statementsOf(version)) sql.run(statement);
  return { sql, close, ledger: { sql, now: () => START } };
}

const schemaOf = (sql: SqlDriver) =>
  sql
    .all("SELECT type, name, sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY name")
    .map((row) => `${row["type"]} ${row["name"]}: ${String(row["sql"]).replaceAll(/\s+/g, " ")}`);

const HAS = Array.from({ length: NEWEST }, (_, index) => index + 1);

describe("the schema", () => {
  it("has a fixture of every version, numbered from 1 without gaps", async () => {
    expect(MIGRATIONS.map(({ version }) => version)).toEqual(HAS);
    for (const version of HAS) expect((await statementsOf(version)).length).toBeGreaterThan(5);
  });

  it.each(HAS)("comes to the same from version %i as from nothing, and every row stays", async (version) => {
    const fresh = openLedgerFile(":memory:");
    expect(migrate(fresh.sql)).toBe(0);
    const { sql, close, ledger } = await fixture(version);
    const tables = sql.all("SELECT name FROM sqlite_master WHERE type = 'table'").map((row) => String(row["name"]));
    const counts = (names: readonly string[]) =>
      names
        .filter((name) => name !== "ledger_version")
        .map((name) => [name, sql.get(`SELECT count(*) AS n FROM "${name}"`)?.["n"]]);
    const before = counts(tables);
    expect(migrate(sql)).toBe(version);
    expect(counts(tables)).toEqual(before);
    expect(schemaOf(sql)).toEqual(schemaOf(fresh.sql));
    expect(sql.all("PRAGMA foreign_key_check")).toEqual([]);
    expect(sql.get("PRAGMA integrity_check")?.["integrity_check"]).toBe("ok");
    expect(migrate(sql)).toBe(NEWEST);

    const record = readRecord(ledger, ACT.campground, 1)?.document.features[1];
    expect(JSON.stringify(record)).not.toContain("shade");
    expect(JSON.stringify(readRecord(ledger, ACT.campground, 2)?.document)).toContain('"shade":"full"');
    if (version >= 2) {
      expect(readStay(ledger, ACT.campground, "s1")?.place).toEqual({ site: "A1", locked: true, outlets: ["P1-30"] });
      expect(listClosures(ledger, ACT.campground, null)).toMatchObject([{ outlet: "P2-50", until: null }]);
    }
    if (version >= 3) {
      expect(keptAnswer(ledger, "desk alder-flat", "k-1", "digest")).toMatchObject({
        status: 201,
        body: '{"id":"s1"}',
      });
      const hash = "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08";
      expect(validToken(ledger, hash)?.grants).toEqual({ "alder-flat": ["read", "stays"] });
    }
    sql.transaction(() => {
      createStay(ledger, ACT, "new", entry("2027-06-03", "2027-06-05"));
      moveStays(ledger, ACT, [{ stay: "new", from: null, to: "A1", outlets: [], lock: false, hold: null }]);
    });
    expect(readStay(ledger, ACT.campground, "new")?.place?.site).toBe("A1");
    close();
    fresh.close();
  });

  it("stays as it was when a step fails half way, in the file too", async () => {
    const path = join(folder, "half.sqlite");
    const { sql, close } = await fixture(1, path);
    const before = schemaOf(sql);
    const broken = {
      version: 2,
      what: "broken",
      statements: ["CREATE TABLE half (a TEXT) STRICT", "INSERT INTO campground (id) VALUES ('no version')"],
    };
    expect(() => migrate(sql, [...MIGRATIONS.slice(0, 1), broken])).toThrow("NOT NULL");
    close();
    const again = openLedgerFile(path);
    expect(schemaOf(again.sql)).toEqual(before);
    expect(migrate(again.sql)).toBe(1);
    again.close();
  });

  it("of a newer program is not touched", async () => {
    const { sql, close } = await fixture(NEWEST);
    sql.run("INSERT INTO ledger_version (version) VALUES (?)", NEWEST + 1);
    expect(() => migrate(sql)).toThrow(`knows versions up to ${NEWEST}`);
    close();
  });
});
