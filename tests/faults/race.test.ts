import { describe, expect, it } from "vitest";
import { openHosts, stay } from "../http/host/hosts.ts";
import { raceCampaign } from "./race.ts";

describe("hosts who race for one site", () => {
  it("are one winner and clear conflicts, through two servers over one file", async () => {
    const report = await raceCampaign(12, 20);
    expect(report.wrong).toEqual([]);
    expect(report.odd).toEqual([]);
    expect(report.breaches).toEqual([]);
    expect(report.conflicts).toBe(12 * 19);
  });

  it("are one winner of two hundred within one server", async () => {
    const { send, ledger } = await openHosts();
    const ids = Array.from({ length: 200 }, (_, index) => `s${index}`);
    for (const id of ids) await send("POST", "/stays", stay(id, "2027-06-01", "2027-06-03"));
    const all = ids.map((id) => send("POST", "/assignment/move", { moves: [{ stay: id, from: null, to: "A7" }] }));
    const statuses = (await Promise.all(all)).map(({ status }) => status);
    expect(statuses.filter((status) => status === 200)).toHaveLength(1);
    expect(statuses.filter((status) => status === 409)).toHaveLength(199);
    expect(ledger.sql.all("SELECT DISTINCT stay FROM site_night")).toHaveLength(1);
  });
});
