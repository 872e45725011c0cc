/** A server that is told to end while hosts write. */
import { describe, expect, it } from "vitest";
import { openLedger } from "../../src/node/ledger.ts";
import { breaches } from "./invariants.ts";
import { openBench, PARK, send, startServer } from "./processes.ts";

const RIG = { class: "class-c", length: "25 ft" };
const CLIENTS = 6;

describe("SIGTERM while hosts write", () => {
  it("ends with 0 after every request that runs; each was answered, and what was acknowledged is there", async () => {
    const bench = await openBench();
    const server = await startServer(bench);
    try {
      const kept: string[] = [];
      const odd: string[] = [];
      let isToldToEnd = false;
      const clients = Array.from({ length: CLIENTS }, async (_, client) => {
        for (let serial = 0; ; serial += 1) {
          const id = `c${client}-${serial}`;
          const sentBefore = !isToldToEnd;
          try {
            const body = { id, arrival: "2030-06-01", departure: "2030-06-02", rig: RIG };
            const answer = await send(bench, server.address, { method: "POST", path: "/stays", key: id, body });
            if (answer.status === 201) kept.push(id);
            else odd.push(`${id}: ${answer.status} ${answer.text}`);
          } catch {
            // A connection that is refused is right once the end was asked for, and at no other time.
            if (sentBefore && !isToldToEnd) odd.push(`${id}: the connection broke`);
            return;
          }
        }
      });
      await new Promise((resolve) => setTimeout(resolve, 300));
      const ended = new Promise<number | null>((resolve) => server.child.once("exit", (code) => resolve(code)));
      isToldToEnd = true;
      server.child.kill("SIGTERM");
      expect(await ended).toBe(0);
      await Promise.all(clients);
      expect(odd).toEqual([]);
      expect(kept.length).toBeGreaterThan(CLIENTS);
      const { ledger, close } = openLedger(bench.ledger);
      const rows = ledger.sql.all("SELECT id FROM stay WHERE campground = ?", PARK).map((row) => row["id"]);
      expect(kept.filter((id) => !rows.includes(id))).toEqual([]);
      // Nothing was done that nobody was told of: what ran was answered before the end.
      expect(rows.length - kept.length).toBe(0);
      expect(breaches(ledger.sql, "whole")).toEqual([]);
      close();
    } finally {
      await server.kill();
      await bench.remove();
    }
  });
});
