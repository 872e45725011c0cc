import { describe, expect, it } from "vitest";
import { acceptPlan, lockStays, type Move, moveStays } from "../../src/ledger/assignments.ts";
import { changesSince } from "../../src/ledger/changes.ts";
import { createClosure, staysMet, updateClosure } from "../../src/ledger/closures.ts";
import { SqlFault } from "../../src/ledger/driver.ts";
import { createHold, listHolds, readHold } from "../../src/ledger/holds.ts";
import type { LedgerRefusal } from "../../src/ledger/ledger.ts";
import { planVersion } from "../../src/ledger/plan-number.ts";
import { snapshot } from "../../src/ledger/snapshot.ts";
import { createStay, readStay, removeStay, updateStay } from "../../src/ledger/stays.ts";
import { ACT, entry, ledgerWithSites, START, type TestLedger, TODAY } from "./ledgers.ts";

const write = <T>(ledger: TestLedger, work: () => T): T => ledger.sql.transaction(work);
const move = (stay: string, from: string | null, to: string | null, more: Partial<Move> = {}): Move => ({
  stay,
  from,
  to,
  outlets: [],
  lock: false,
  hold: null,
  ...more,
});

/** Stays s1 (1 to 4 June), s2 (3 to 6 June), s3 (4 to 5 June). */
function withStays(): TestLedger {
  const ledger = ledgerWithSites();
  write(ledger, () => {
    createStay(ledger, ACT, "s1", entry("2027-06-01", "2027-06-04"));
    createStay(ledger, ACT, "s2", entry("2027-06-03", "2027-06-06"));
    createStay(ledger, ACT, "s3", entry("2027-06-04", "2027-06-05"));
  });
  return ledger;
}

const place = (ledger: TestLedger, ...moves: Move[]) => write(ledger, () => moveStays(ledger, ACT, moves));
const refusalOf = (work: () => unknown): LedgerRefusal["parts"] => {
  try {
    work();
  } catch (thrown) {
    if (thrown instanceof Error && "parts" in thrown) return (thrown as LedgerRefusal).parts;
    throw thrown;
  }
  throw new Error("It was not refused.");
};
const nights = (ledger: TestLedger) =>
  ledger.sql
    .all("SELECT site, night, coalesce(stay, hold) AS who FROM site_night ORDER BY site, night")
    .map((row) => `${row["site"]} ${String(row["night"]).slice(5)} ${row["who"]}`);

describe("a site on a night", () => {
  it("belongs to one stay; back to back on one day is allowed", () => {
    const ledger = withStays();
    place(ledger, move("s1", null, "A1"));
    const parts = refusalOf(() => place(ledger, move("s2", null, "A1")));
    expect(parts).toMatchObject([{ code: "taken", pointer: "/0" }]);
    expect(parts[0].message).toBe("Site A1 belongs to the stay s1 on the night of 2027-06-03.");
    place(ledger, move("s3", null, "A1"));
    expect(nights(ledger)).toEqual(["A1 06-01 s1", "A1 06-02 s1", "A1 06-03 s1", "A1 06-04 s3"]);
    ledger.close();
  });

  it("cannot be given twice by any statement: the key of the table refuses", () => {
    const ledger = withStays();
    place(ledger, move("s1", null, "A1"), move("s2", null, "A2"));
    const sneak = () =>
      ledger.sql.run(
        "INSERT INTO site_night (campground, site, night, stay, hold) VALUES ('alder-flat', 'A1', '2027-06-02', 's2', NULL)",
      );
    expect(sneak).toThrow(SqlFault);
    try {
      sneak();
    } catch (fault) {
      expect((fault as SqlFault).kind).toBe("taken");
    }
    expect(() =>
      ledger.sql.run(
        "INSERT INTO site_night (campground, site, night, stay, hold) VALUES ('alder-flat', 'A3', '2027-06-02', 'nobody', NULL)",
      ),
    ).toThrow("FOREIGN KEY");
    expect(() => ledger.sql.run("DELETE FROM stay WHERE id = 's1'")).toThrow("FOREIGN KEY");
    ledger.close();
  });

  it("is given by moves that are all made or none; two stays change places", () => {
    const ledger = withStays();
    place(ledger, move("s1", null, "A1"), move("s2", null, "A2"));
    const before = nights(ledger);
    expect(refusalOf(() => place(ledger, move("s1", "A1", "A3"), move("s3", null, "A2")))).toMatchObject([
      { code: "taken", pointer: "/1" },
    ]);
    expect(nights(ledger)).toEqual(before);
    expect(readStay(ledger, ACT.campground, "s1")).toMatchObject({ version: 2, place: { site: "A1" } });
    place(ledger, move("s1", "A1", "A2"), move("s2", "A2", "A1"));
    expect(readStay(ledger, ACT.campground, "s1")).toMatchObject({ version: 3, place: { site: "A2" } });
    expect(nights(ledger)).toHaveLength(6);
    ledger.close();
  });

  it("is not taken from a stay that is elsewhere now, locked, cancelled or not there; every fault is told", () => {
    const ledger = withStays();
    place(ledger, move("s1", null, "A1", { lock: true }));
    write(ledger, () => {
      const stay = readStay(ledger, ACT.campground, "s3");
      if (stay !== null) updateStay(ledger, ACT, stay, { ...stay, status: "cancelled" });
    });
    const moves = [move("s1", "A1", "A2"), move("s2", "A3", "A2"), move("s3", null, "A2"), move("s9", null, "A2")];
    expect(refusalOf(() => place(ledger, ...moves)).map(({ code, pointer }) => [pointer, code])).toEqual([
      ["/0/stay", "locked"],
      ["/1/from", "changed"],
      ["/2/stay", "wrong-status"],
      ["/3/stay", "absent"],
    ]);
    ledger.close();
  });
});

describe("a receptacle or tap outlet on a night", () => {
  it("belongs to one stay, whichever site that stands on", () => {
    const ledger = withStays();
    place(ledger, move("s1", null, "A1", { outlets: ["P7-30", "T7-left"] }));
    const parts = refusalOf(() => place(ledger, move("s2", null, "A2", { outlets: ["P7-30"] })));
    expect(parts[0].message).toBe("The outlet P7-30 is held by the stay s1 on the night of 2027-06-03.");
    place(ledger, move("s2", null, "A2", { outlets: ["P7-50"] }));
    expect(readStay(ledger, ACT.campground, "s1")?.place?.outlets).toEqual(["P7-30", "T7-left"]);
    expect(() =>
      ledger.sql.run(
        "INSERT INTO outlet_night (campground, outlet, night, stay) VALUES ('alder-flat', 'P7-30', '2027-06-02', 's2')",
      ),
    ).toThrow("UNIQUE");
    ledger.close();
  });

  it("that has failed closes itself and not the site", () => {
    const ledger = withStays();
    place(ledger, move("s1", null, "A1", { outlets: ["P7-30"] }));
    const failed = { site: null, outlet: "P7-30", firstNight: "2027-06-03", until: null, why: "breaker trips" };
    write(ledger, () => createClosure(ledger, ACT, "c1", failed));
    expect(staysMet(ledger, ACT.campground, failed, TODAY)).toEqual(["s1"]);
    expect(
      refusalOf(() => place(ledger, move("s2", null, "A2", { outlets: ["P7-30"] }))).map((part) => part.code),
    ).toEqual(["taken", "closed"]);
    place(ledger, move("s2", null, "A2"));
    ledger.close();
  });
});

describe("the nights of a stay", () => {
  it("move with its dates, unless somebody is in the way; then nothing changes", () => {
    const ledger = withStays();
    place(ledger, move("s1", null, "A1"), move("s3", null, "A1"));
    const change = (departure: string) =>
      write(ledger, () => {
        const stay = readStay(ledger, ACT.campground, "s1");
        return stay === null ? null : updateStay(ledger, ACT, stay, { ...stay, departure });
      });
    expect(refusalOf(() => change("2027-06-05"))[0].message).toContain("belongs to the stay s3");
    expect(readStay(ledger, ACT.campground, "s1")).toMatchObject({ departure: "2027-06-04", version: 2 });
    const plan = planVersion(ledger, ACT.campground);
    change("2027-06-03");
    expect(planVersion(ledger, ACT.campground)).toBe(plan + 1);
    expect(nights(ledger)).toEqual(["A1 06-01 s1", "A1 06-02 s1", "A1 06-04 s3"]);
    ledger.close();
  });

  it("go with it when it is cancelled or removed", () => {
    const ledger = withStays();
    place(ledger, move("s1", null, "A1", { outlets: ["P7-30"] }), move("s2", null, "A2"));
    write(ledger, () => {
      const [first, second] = ["s1", "s2"].map((id) => readStay(ledger, ACT.campground, id));
      if (first) updateStay(ledger, ACT, first, { ...first, status: "cancelled" });
      if (second) removeStay(ledger, ACT, second);
    });
    expect(nights(ledger)).toEqual([]);
    expect(ledger.sql.all("SELECT * FROM outlet_night")).toEqual([]);
    expect(readStay(ledger, ACT.campground, "s2")).toBeNull();
    ledger.close();
  });
});

describe("a hold", () => {
  it("keeps a site until it is over or expires", () => {
    const ledger = withStays();
    const expiresAt = new Date(START + 600_000).toISOString();
    const hold = { id: "h1", site: "A1", arrival: "2027-06-02", departure: "2027-06-04", why: "phone", expiresAt };
    write(ledger, () => createHold(ledger, ACT, hold));
    expect(refusalOf(() => place(ledger, move("s1", null, "A1")))[0].message).toBe(
      "Site A1 belongs to the hold h1 on nights from 2027-06-02 to 2027-06-03.",
    );
    ledger.at += 600_000;
    expect(listHolds(ledger, ACT.campground, null)).toEqual([]);
    expect(readHold(ledger, ACT.campground, "h1")).toBeNull();
    place(ledger, move("s1", null, "A1"));
    const log = changesSince(ledger, ACT.campground, 0, 100).filter(({ kind }) => kind === "hold");
    expect(log.map(({ action, actor }) => [action, actor])).toEqual([
      ["created", "test"],
      ["removed", "expiry"],
    ]);
    ledger.close();
  });

  it("is refused where somebody stands", () => {
    const ledger = withStays();
    place(ledger, move("s1", null, "A1"));
    const hold = { id: "h1", site: "A1", arrival: "2027-06-03", departure: "2027-06-09", why: null, expiresAt: null };
    expect(refusalOf(() => write(ledger, () => createHold(ledger, ACT, hold)))[0].code).toBe("taken");
    expect(ledger.sql.all("SELECT * FROM hold")).toEqual([]);
    ledger.close();
  });
});

describe("a closure", () => {
  it("is entered though somebody stands there, and keeps others out until it ends", () => {
    const ledger = withStays();
    place(ledger, move("s1", null, "A1"));
    const closed = { site: "A1", outlet: null, firstNight: "2027-06-03", until: "2027-06-05", why: "tree down" };
    const closure = write(ledger, () => createClosure(ledger, ACT, "c1", closed));
    expect(staysMet(ledger, ACT.campground, closed, TODAY)).toEqual(["s1"]);
    expect(refusalOf(() => place(ledger, move("s3", null, "A1")))[0].message).toBe(
      "Site A1 is closed from 2027-06-03 until 2027-06-05.",
    );
    write(ledger, () => updateClosure(ledger, ACT, closure, { ...closed, until: "2027-06-04" }));
    place(ledger, move("s3", null, "A1"));
    ledger.close();
  });
});

describe("a plan", () => {
  const accept = (ledger: TestLedger, expected: number, entries: Parameters<typeof acceptPlan>[3]) =>
    write(ledger, () => acceptPlan(ledger, ACT, expected, entries, { status: "feasible" }));
  const line = (stay: string, site: string | null, outlets: string[] = []) => ({ stay, site, outlets });

  it("is accepted once: the second that was made from the same plan is refused", () => {
    const ledger = withStays();
    expect(accept(ledger, 0, [line("s1", "A1"), line("s2", "A2"), line("s3", null)])).toMatchObject({ version: 1 });
    expect(refusalOf(() => accept(ledger, 0, [line("s1", "A3")]))[0].code).toBe("changed");
    expect(accept(ledger, 1, [line("s1", "A1"), line("s3", "A1")]).moved.map(({ id }) => id)).toEqual(["s3"]);
    expect(readStay(ledger, ACT.campground, "s1")?.version).toBe(2);
    ledger.close();
  });

  it("never moves what is locked or in house, and is taken whole or not at all", () => {
    const ledger = withStays();
    place(ledger, move("s1", null, "A1"), move("s2", null, "A2"));
    write(ledger, () => {
      lockStays(ledger, ACT, ["s1"], true);
      const stay = readStay(ledger, ACT.campground, "s2");
      if (stay !== null) updateStay(ledger, ACT, stay, { ...stay, status: "in-house" });
    });
    const version = planVersion(ledger, ACT.campground);
    const parts = refusalOf(() => accept(ledger, version, [line("s3", "A3"), line("s1", "A2"), line("s2", "A3")]));
    expect(parts.map(({ code, pointer }) => [pointer, code])).toEqual([
      ["/1/site", "locked"],
      ["/2/site", "locked"],
    ]);
    expect(readStay(ledger, ACT.campground, "s3")?.place).toBeNull();
    write(ledger, () => lockStays(ledger, ACT, ["s1", "s1"], false));
    accept(ledger, version + 1, [line("s1", "A3"), line("s2", "A2", ["P7-30"])]);
    expect(readStay(ledger, ACT.campground, "s2")?.place?.outlets).toEqual(["P7-30"]);
    ledger.close();
  });
});

describe("the log", () => {
  it("numbers every effect without gaps, tells who, and never a guest's name", () => {
    const ledger = withStays();
    place(ledger, move("s1", null, "A1", { lock: true }));
    refusalOf(() => place(ledger, move("s2", null, "A1")));
    const log = changesSince(ledger, ACT.campground, 0, 100);
    expect(log.map(({ number }) => number)).toEqual(log.map((_, index) => index + 1));
    expect(log.at(-1)).toMatchObject({
      kind: "assignment",
      subject: "s1",
      action: "created",
      actor: "test",
      before: null,
      after: { site: "A1", locked: true },
    });
    expect(JSON.stringify(log)).not.toContain("Canary");
    expect(changesSince(ledger, ACT.campground, 3, 2).map(({ number }) => number)).toEqual([4, 5]);
    expect(
      changesSince(ledger, ACT.campground, 0, 9, { kind: "stay", subject: "s2" }).map(({ subject }) => subject),
    ).toEqual(["s2"]);
    ledger.close();
  });
});

describe("a snapshot", () => {
  it("holds what is not over, with places, holds and closures, and the number of the plan", () => {
    const ledger = withStays();
    write(ledger, () => createStay(ledger, ACT, "old", entry("2027-05-01", "2027-05-20")));
    place(ledger, move("s2", null, "A2", { lock: true }));
    expect(snapshot(ledger, ACT.campground, TODAY)).toMatchObject({
      recordVersion: 1,
      planVersion: 1,
      stays: [{ id: "s1", place: null }, { id: "s2", place: { site: "A2", locked: true } }, { id: "s3" }],
      holds: [],
      closures: [],
    });
    expect(snapshot(ledger, "elsewhere", TODAY)).toBeNull();
    ledger.close();
  });
});

describe("one of several outlets", () => {
  it("is the first that is free and open; when none is, the first is named", () => {
    const ledger = withStays();
    const wish = { outlets: [["P7-a", "P7-b"]] };
    place(ledger, move("s1", null, "A1", wish), move("s2", null, "A2", wish));
    expect(readStay(ledger, ACT.campground, "s1")?.place?.outlets).toEqual(["P7-a"]);
    expect(readStay(ledger, ACT.campground, "s2")?.place?.outlets).toEqual(["P7-b"]);
    const failed = { site: null, outlet: "P7-a", firstNight: "2027-06-04", until: null, why: null };
    write(ledger, () => createClosure(ledger, ACT, "c1", failed));
    expect(refusalOf(() => place(ledger, move("s3", null, "A3", wish)))[0].message).toBe(
      "The outlet P7-a is closed from 2027-06-04 until further notice.",
    );
    ledger.close();
  });
});
