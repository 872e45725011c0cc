import { describe, expect, it } from "vitest";
import { moveStays } from "../../src/ledger/assignments.ts";
import { changesSince } from "../../src/ledger/changes.ts";
import { listRecords, listVersions, readRecord, recordVersion, writeRecord } from "../../src/ledger/records.ts";
import { createStay } from "../../src/ledger/stays.ts";
import { ACT, entry, HEAD, ledgerWithSites, siteBody, type TestLedger, TODAY } from "./ledgers.ts";

const put = (ledger: TestLedger, sites: readonly ReturnType<typeof siteBody>[], expected: number | null) =>
  ledger.sql.transaction(() => writeRecord(ledger, ACT, { head: HEAD, features: sites }, expected, TODAY));
const names = (ledger: TestLedger, version: number) =>
  readRecord(ledger, ACT.campground, version)?.document.features.map((feature) => feature["id"]);

describe("a campground record", () => {
  it("keeps every version, whatever moves, goes or comes back", () => {
    const ledger = ledgerWithSites();
    const [a1, a2, a3] = ["A1", "A2", "A3"].map((id) => siteBody(id)) as [
      ReturnType<typeof siteBody>,
      ReturnType<typeof siteBody>,
      ReturnType<typeof siteBody>,
    ];
    const tree = {
      site: null,
      body: JSON.stringify({ type: "Feature", id: "tree", properties: { kind: "obstacle" } }),
    };
    const changed = siteBody("A2", { shade: "full" });
    expect(put(ledger, [a3, tree, changed], 1)).toEqual({ version: 2, added: [], changed: ["A2"], removed: ["A1"] });
    expect(put(ledger, [a1, a3, changed, tree], 2)).toMatchObject({ version: 3, added: ["A1"], changed: [] });
    expect(put(ledger, [a1, a3, a2, tree], 3)).toMatchObject({ version: 4, changed: ["A2"] });
    expect([1, 2, 3, 4].map((version) => names(ledger, version))).toEqual([
      ["A1", "A2", "A3"],
      ["A3", "tree", "A2"],
      ["A1", "A3", "A2", "tree"],
      ["A1", "A3", "A2", "tree"],
    ]);
    const shade = (version: number) => JSON.stringify(readRecord(ledger, ACT.campground, version)).includes("full");
    expect([1, 2, 3, 4].map(shade)).toEqual([false, true, true, false]);
    // One site changed in the last version: one row more.
    const rows = ledger.sql.get("SELECT count(*) AS n FROM record_feature WHERE first_version = 4");
    expect(rows?.["n"]).toBe(1);
    expect(listVersions(ledger, ACT.campground, 4, 2).map(({ version, actor }) => [version, actor])).toEqual([
      [3, "test"],
      [2, "test"],
    ]);
    expect(listRecords(ledger)).toEqual([{ id: "alder-flat", version: 4 }]);
    expect(readRecord(ledger, ACT.campground, 9)).toBeNull();
    expect(recordVersion(ledger, "elsewhere")).toBeNull();
    ledger.close();
  });

  it("is refused when it was made from an older version, or is there already", () => {
    const ledger = ledgerWithSites();
    put(ledger, [siteBody("A1"), siteBody("A2"), siteBody("A3"), siteBody("B9")], 1);
    expect(() => put(ledger, [siteBody("A1")], 1)).toThrow("version 2");
    expect(() => put(ledger, [siteBody("A1")], null)).toThrow("version 2");
    expect(recordVersion(ledger, ACT.campground)).toBe(2);
    ledger.close();
  });

  it("keeps a site on which somebody stands today or later, and one id for one site", () => {
    const ledger = ledgerWithSites();
    ledger.sql.transaction(() => {
      createStay(ledger, ACT, "s1", entry("2027-05-18", TODAY));
      createStay(ledger, ACT, "s2", entry("2027-05-19", "2027-05-21"));
      const moves = [
        { stay: "s1", from: null, to: "A1", outlets: [], lock: false, hold: null },
        { stay: "s2", from: null, to: "A2", outlets: [], lock: false, hold: null },
      ];
      moveStays(ledger, ACT, moves);
    });
    expect(() => put(ledger, [siteBody("A1"), siteBody("A3")], 1)).toThrow("the stay s2 has it on 2027-05-20");
    expect(put(ledger, [siteBody("A2"), siteBody("A3")], 1).removed).toEqual(["A1"]);
    expect(() => put(ledger, [siteBody("A2"), siteBody("A3"), siteBody("A3", { shade: "none" })], 2)).toThrow("UNIQUE");
    expect(recordVersion(ledger, ACT.campground)).toBe(2);
    ledger.close();
  });

  it("logs which sites changed", () => {
    const ledger = ledgerWithSites();
    put(ledger, [siteBody("A1"), siteBody("A2", { shade: "full" }), siteBody("A3")], 1);
    expect(changesSince(ledger, ACT.campground, 4, 9)).toMatchObject([
      { kind: "record", action: "changed", version: 2 },
      { kind: "site", subject: "A2", action: "changed", version: 2 },
    ]);
    ledger.close();
  });
});
