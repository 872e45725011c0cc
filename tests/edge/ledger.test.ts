import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { Miniflare } from "miniflare";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { ACT, entry, HEAD, ledgerWithSites, siteBody, TODAY } from "../ledger/ledgers.ts";

const START_WITHIN = 60_000;
const source = (path: string) => JSON.stringify(fileURLToPath(new URL(`../../src/${path}`, import.meta.url)));

/** A Durable Object that runs one script of ledger calls, all or none, and gives what they gave. */
const SCRIPT = `
import { objectDriver } from ${source("edge/ledger-driver.ts")};
import { migrate } from ${source("ledger/migrate.ts")};
import * as records from ${source("ledger/records.ts")};
import * as stays from ${source("ledger/stays.ts")};
import * as assignments from ${source("ledger/assignments.ts")};
import * as holds from ${source("ledger/holds.ts")};
import * as closures from ${source("ledger/closures.ts")};
import * as changes from ${source("ledger/changes.ts")};
import * as answers from ${source("ledger/kept-answers.ts")};
import * as tokens from ${source("ledger/tokens.ts")};
import * as snapshots from ${source("ledger/snapshot.ts")};
const all = { ...records, ...stays, ...assignments, ...holds, ...closures, ...changes, ...answers, ...tokens };
export class Park {
  constructor(state) { this.sql = objectDriver(state.storage); migrate(this.sql); }
  async fetch(request) {
    const { calls, now } = await request.json();
    const ledger = { sql: this.sql, now: () => now };
    try {
      const given = this.sql.transaction(() => calls.map(([name, ...args]) => all[name](ledger, ...args)));
      return Response.json({ given, snapshot: snapshots.snapshot(ledger, "alder-flat", "2027-05-20") });
    } catch (fault) {
      return Response.json({ code: fault.code, kind: fault.kind, message: fault.message, parts: fault.parts });
    }
  }
}
export default { fetch: (request, env) => env.PARK.get(env.PARK.idFromName("alder-flat")).fetch(request) };
`;

let edge: Miniflare;
beforeAll(async () => {
  const { outputFiles } = await build({
    stdin: { contents: SCRIPT, resolveDir: fileURLToPath(new URL(".", import.meta.url)), loader: "js" },
    bundle: true,
    write: false,
    format: "esm",
    target: "es2023",
    platform: "neutral",
  });
  edge = new Miniflare({
    modules: true,
    script: outputFiles[0]?.text ?? "",
    compatibilityDate: "2026-04-01",
    cf: false,
    durableObjects: { PARK: { className: "Park", useSQLite: true } },
  });
  await edge.ready;
}, START_WITHIN);
afterAll(() => edge.dispose());

interface Answer {
  readonly given?: readonly unknown[];
  readonly snapshot?: unknown;
  readonly code?: string;
  readonly kind?: string;
  readonly message?: string;
}

async function call(...calls: readonly (readonly unknown[])[]): Promise<Answer> {
  const body = JSON.stringify({ calls, now: Date.UTC(2027, 4, 20, 15) });
  return (await (await edge.dispatchFetch("http://pad.test/", { method: "POST", body })).json()) as Answer;
}

describe("the ledger in a Durable Object", () => {
  const sites = ["A1", "A2", "A3"].map((id) => siteBody(id));
  const move = (stay: string, to: string, outlets: string[] = []) => ({
    stay,
    from: null,
    to,
    outlets,
    lock: false,
    hold: null,
  });

  it("takes the same statements and gives the same answers as in a file", async () => {
    const made = await call(
      ["writeRecord", ACT, { head: HEAD, features: sites }, null, TODAY],
      ["createStay", ACT, "s1", entry("2027-06-01", "2027-06-04")],
      ["createStay", ACT, "s2", entry("2027-06-03", "2027-06-06")],
      ["createClosure", ACT, "c1", { site: null, outlet: "P9-50", firstNight: "2027-06-01", until: null, why: null }],
      ["moveStays", ACT, [move("s1", "A1", ["P7-30"])]],
      ["keepAnswer", "tenant", "key", "digest", { status: 201, headers: {}, body: "kept" }],
      ["createToken", "hash", { id: "t1", name: "office", grants: { "*": ["read"] }, expiresAt: null }],
    );
    expect(made.message).toBeUndefined();
    const { createStay } = await import("../../src/ledger/stays.ts");
    const { moveStays } = await import("../../src/ledger/assignments.ts");
    const { createClosure } = await import("../../src/ledger/closures.ts");
    const { snapshot } = await import("../../src/ledger/snapshot.ts");
    const here = ledgerWithSites();
    here.sql.transaction(() => {
      createStay(here, ACT, "s1", entry("2027-06-01", "2027-06-04"));
      createStay(here, ACT, "s2", entry("2027-06-03", "2027-06-06"));
      const failed = { site: null, outlet: "P9-50", firstNight: "2027-06-01", until: null, why: null };
      createClosure(here, ACT, "c1", failed);
      moveStays(here, ACT, [move("s1", "A1", ["P7-30"])]);
    });
    expect(made.snapshot).toEqual(snapshot(here, ACT.campground, TODAY));
    here.close();
    const read = await call(
      ["keptAnswer", "tenant", "key", "digest"],
      ["validToken", "hash"],
      ["changesSince", "alder-flat", 0, 99],
    );
    expect(read.given).toMatchObject([{ status: 201, body: "kept" }, { id: "t1" }, expect.any(Array)]);
    expect(read.given?.[2]).toHaveLength(8);
  });

  it("refuses the second stay on a site and on a receptacle, and undoes the whole", async () => {
    const refused = await call(
      ["createStay", ACT, "s3", entry("2027-06-02", "2027-06-03")],
      ["moveStays", ACT, [move("s3", "A1")]],
    );
    expect(refused).toMatchObject({ code: "taken" });
    expect((await call(["readStay", "alder-flat", "s3"])).given).toEqual([null]);
    const outlet = await call(["moveStays", ACT, [move("s2", "A2", ["P7-30"])]]);
    expect(outlet).toMatchObject({ code: "taken", message: expect.stringContaining("P7-30") });
    const twice = await call(["keepAnswer", "tenant", "key", "other", { status: 200, headers: {}, body: "" }]);
    expect(twice).toMatchObject({ kind: "taken" });
    const version = await call(["writeRecord", ACT, { head: HEAD, features: sites.slice(1) }, 1, TODAY]);
    expect(version).toMatchObject({ code: "in-use" });
  });
});
