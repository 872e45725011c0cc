import { describe, expect, it } from "vitest";
import { answered, BASE, type Hosts, openHosts, refused, stay } from "./hosts.ts";

interface StayAnswer {
  readonly id: string;
  readonly version: number;
  readonly nights: number;
  readonly place: { readonly site: string; readonly locked: boolean; readonly outlets: readonly string[] } | null;
}
interface PlacedAnswer {
  readonly planVersion: number;
  readonly stays: readonly (StayAnswer & { readonly fit: { readonly verdict: string } | null })[];
}

async function withStays(): Promise<Hosts> {
  const hosts = await openHosts();
  for (const one of [
    stay("s1", "2027-06-01", "2027-06-04"),
    stay("s2", "2027-06-03", "2027-06-06", { needs: { power: "required" } }),
    stay("s3", "2027-06-04", "2027-06-05"),
  ]) {
    await answered(await hosts.send("POST", "/stays", one), 201);
  }
  return hosts;
}

const move = (id: string, from: string | null, to: string, more = {}) => ({ stay: id, from, to, ...more });

describe("stays", () => {
  it("are entered, read back as entered, changed in part or whole, and removed", async () => {
    const { send } = await withStays();
    const created = await send("POST", "/stays", stay("s4", "2027-06-10", "2027-06-12", { wishes: ["shade"] }));
    expect(created.headers.get("location")).toBe(`${BASE}/stays/s4`);
    expect(await answered<StayAnswer>(created, 201)).toMatchObject({
      id: "s4",
      version: 1,
      nights: 2,
      status: "expected",
      rig: { length: "25 ft" },
      party: { name: "Wren Canary" },
      wishes: ["shade"],
      place: null,
    });
    const read = await send("GET", "/stays/s4");
    const tag = read.headers.get("etag") ?? "";
    expect(read.headers.get("cache-control")).toBe("private, no-cache");
    expect((await send("GET", "/stays/s4", undefined, { "If-None-Match": tag })).status).toBe(304);
    const patch = { departure: "2027-06-13", wishes: null, party: { phone: null } };
    const patched = await send("PATCH", "/stays/s4", patch, { "If-Match": tag });
    const body = await answered<Record<string, unknown>>(patched, 200);
    expect(body).toMatchObject({ version: 2, nights: 3, party: { name: "Wren Canary" } });
    expect(JSON.stringify(body)).not.toMatch(/wishes|phone/);
    const next = patched.headers.get("etag") ?? "";
    await refused(await send("DELETE", "/stays/s4", undefined, { "If-Match": tag }), 412, "precondition-failed");
    await answered(await send("PUT", "/stays/s4", stay("s4", "2027-06-11", "2027-06-12"), { "If-Match": next }), 200);
    await answered(await send("DELETE", "/stays/s4", undefined, { "If-Match": '"3"' }), 200);
    await refused(await send("GET", "/stays/s4"), 404, "not-found");
  });

  it("are listed by arrival, by the nights of a span, in pages", async () => {
    const { send } = await withStays();
    const list = async (query: string) =>
      await answered<{ stays: StayAnswer[]; nextCursor: string | null }>(await send("GET", `/stays${query}`), 200);
    const first = await list("?limit=2");
    expect(first.stays.map(({ id }) => id)).toEqual(["s1", "s2"]);
    const rest = await list(`?limit=2&cursor=${first.nextCursor}`);
    expect([rest.stays.map(({ id }) => id), rest.nextCursor]).toEqual([["s3"], null]);
    // s1 leaves on the 4th: that night is not theirs.
    expect((await list("?from=2027-06-04")).stays.map(({ id }) => id)).toEqual(["s2", "s3"]);
    expect((await list("?until=2027-06-03")).stays.map(({ id }) => id)).toEqual(["s1"]);
    await refused(await send("GET", "/stays?cursor=none"), 400, "invalid-cursor");
    await refused(await send("GET", "/stays?from=2027-02-29"), 400, "invalid-parameter");
    await refused(await send("GET", "/stays?form=2027-02-28"), 400, "invalid-parameter");
  });

  it("are refused with every fault at once", async () => {
    const { send } = await openHosts();
    const rows: [Record<string, unknown>, string, string][] = [
      [stay("s", "2027-06-04", "2027-06-04"), "/departure", "impossible"],
      [stay("s", "2027-06-04", "2027-06-03"), "/departure", "impossible"],
      [stay("s", "2027-01-01", "2029-09-27"), "/departure", "impossible"],
      [stay("s", "2027-02-29", "2027-03-02"), "/arrival", "bad-form"],
      [stay("s", "2027-11-30", "2027-11-31"), "/departure", "bad-form"],
      [stay("s", "2027-6-1", "2027-06-03"), "/arrival", "bad-form"],
      [stay("s", "2027-06-01T00:00:00Z", "2027-06-03"), "/arrival", "bad-form"],
      [stay("s", "2027-06-01", "2027-06-03", { role: "admin" }), "/role", "unknown-key"],
      [stay("s", "2027-06-01", "2027-06-03", { version: 7 }), "/version", "unknown-key"],
      [stay("s", "2027-06-01", "2027-06-03", { place: { site: "A7" } }), "/place", "unknown-key"],
      [stay("s", "2027-06-01", "2027-06-03", { campgroundId: "other" }), "/campgroundId", "unknown-key"],
      [stay("s/1", "2027-06-01", "2027-06-03"), "/id", "bad-form"],
      [stay("s", "2027-06-01", "2027-06-03", { rig: { class: "class-c", length: "25" } }), "/rig/length", "no-unit"],
      [
        stay("s", "2027-06-01", "2027-06-03", { rig: { class: "class-c", length: "25 ft", hight: 3 } }),
        "/rig/hight",
        "unknown-key",
      ],
      [stay("s", "2027-06-01", "2027-06-03", { rig: undefined }), "/rig", "missing"],
    ];
    for (const [body, pointer, code] of rows) {
      const { errors } = await refused(await send("POST", "/stays", body), 422, "invalid-request");
      expect(errors.map((one) => `${one.pointer} ${one.code}`)).toContain(`${pointer} ${code}`);
    }
    const both = stay("s", "2027-06-09", "2027-06-03", { rig: { class: "boat", length: "25 ft" } });
    const { errors } = await refused(await send("POST", "/stays", both), 422, "invalid-request");
    expect(errors.map(({ pointer }) => pointer).sort()).toEqual(["/departure", "/rig/class"]);
    expect(await answered(await send("GET", "/stays"), 200)).toMatchObject({ stays: [] });
    expect(
      await answered<StayAnswer>(await send("POST", "/stays", stay("leap", "2028-02-28", "2028-03-01")), 201),
    ).toMatchObject({
      nights: 2,
    });
  });
});

describe("places", () => {
  it("are given by moves, told with the fit, and kept from others", async () => {
    const { send } = await withStays();
    const placed = await answered<PlacedAnswer>(
      await send("POST", "/assignment/move", { moves: [move("s1", null, "A7", { lock: true })] }),
      200,
    );
    expect(placed).toMatchObject({
      planVersion: 1,
      stays: [{ id: "s1", version: 2, place: { site: "A7", locked: true } }],
    });
    expect(placed.stays[0]?.fit?.verdict).toBe("fits");
    const { errors } = await refused(
      await send("POST", "/assignment/move", { moves: [move("s3", null, "B2"), move("s2", null, "A7")] }),
      409,
      "conflict",
    );
    expect(errors).toEqual([
      { pointer: "/moves/1", code: "taken", message: "Site A7 belongs to the stay s1 on the night of 2027-06-03." },
    ]);
    const plan = await answered<{ places: unknown[] }>(await send("GET", "/assignment"), 200);
    expect(plan.places).toEqual([
      { stay: "s1", arrival: "2027-06-01", departure: "2027-06-04", site: "A7", locked: true, outlets: [] },
    ]);
  });

  it("are refused for what is not there, twice, elsewhere or locked", async () => {
    const { send } = await withStays();
    const moves = async (list: unknown[]) => send("POST", "/assignment/move", { moves: list });
    await answered(await moves([move("s1", null, "A7", { lock: true })]), 200);
    const unknown = await refused(
      await moves([move("s2", null, "Z9"), move("s3", null, "A7", { outlets: ["P1"] })]),
      422,
      "invalid-request",
    );
    expect(unknown.errors.map(({ pointer }) => pointer)).toEqual(["/moves/0/to", "/moves/1/outlets/0"]);
    expect((await refused(await moves([move("s9", null, "A7")]), 422, "invalid-request")).errors[0]?.pointer).toBe(
      "/moves/0/stay",
    );
    await refused(await moves([move("s2", null, "A7"), move("s2", null, "B2")]), 422, "invalid-request");
    expect((await refused(await moves([move("s2", "B2", "A7")]), 409, "conflict")).errors[0]).toMatchObject({
      pointer: "/moves/0/from",
      code: "changed",
    });
    expect((await refused(await moves([move("s1", "A7", "B2")]), 409, "conflict")).errors[0]?.code).toBe("locked");
    const free = { stays: [{ stay: "s1", from: "A7" }] };
    expect((await refused(await send("POST", "/assignment/release", free), 409, "conflict")).errors[0]?.code).toBe(
      "locked",
    );
    await answered(await send("POST", "/assignment/unlock", { stays: ["s1"] }), 200);
    await answered(await send("POST", "/assignment/release", free), 200);
    expect(await answered(await send("GET", "/stays/s1"), 200)).toMatchObject({ version: 4, place: null });
  });

  it("come from a plan that is accepted once", async () => {
    const { send } = await withStays();
    const tag = (await send("GET", "/assignment")).headers.get("etag") ?? "";
    const plan = {
      entries: [
        { stay: "s1", site: "A7" },
        { stay: "s2", site: "B2" },
      ],
      about: { status: "feasible", gap: 0.004 },
    };
    await refused(await send("POST", "/assignment/accept", plan), 428, "precondition-required");
    const accepted = await send("POST", "/assignment/accept", plan, { "If-Match": tag });
    expect(await answered(accepted, 200)).toMatchObject({ planVersion: 1, stays: [{ id: "s1" }, { id: "s2" }] });
    await refused(await send("POST", "/assignment/accept", plan, { "If-Match": tag }), 412, "precondition-failed");
    const clash = { entries: [{ stay: "s3", site: "B2" }] };
    const { errors } = await refused(
      await send("POST", "/assignment/accept", clash, { "If-Match": accepted.headers.get("etag") ?? "" }),
      409,
      "conflict",
    );
    expect(errors[0]).toMatchObject({ pointer: "/entries/0", code: "taken" });
  });
});

describe("holds and closures", () => {
  it("keep sites; a closure tells whom it meets", async () => {
    const { send } = await withStays();
    const hold = {
      id: "h1",
      site: "B2",
      arrival: "2027-06-04",
      departure: "2027-06-05",
      expiresAt: "2027-05-21T00:00:00Z",
    };
    await answered(await send("POST", "/holds", hold), 201);
    await refused(await send("POST", "/holds", hold), 409, "conflict");
    await refused(await send("POST", "/holds", { ...hold, id: "h2", site: "Z9" }), 422, "invalid-request");
    await refused(await send("POST", "/assignment/move", { moves: [move("s3", null, "B2")] }), 409, "conflict");
    expect(await answered(await send("GET", "/holds"), 200)).toMatchObject({ holds: [{ id: "h1", why: null }] });
    await answered(await send("DELETE", "/holds/h1"), 200);
    await answered(await send("POST", "/holds", { ...hold, id: "walk-in" }), 201);
    const other = { moves: [move("s3", null, "B2", { hold: "h1" })] };
    expect((await refused(await send("POST", "/assignment/move", other), 409, "conflict")).errors[0]).toMatchObject({
      pointer: "/moves/0/hold",
      code: "changed",
    });
    const taken = { moves: [move("s3", null, "B2", { hold: "walk-in" })] };
    await answered(await send("POST", "/assignment/move", taken), 200);
    expect(await answered(await send("GET", "/holds"), 200)).toEqual({ holds: [] });
    await answered(await send("POST", "/assignment/release", { stays: [{ stay: "s3", from: "B2" }] }), 200);
    await answered(await send("POST", "/assignment/move", { moves: [move("s3", null, "B2")] }), 200);
    const closed = await send("POST", "/closures", {
      id: "c1",
      site: "B2",
      firstNight: "2027-06-01",
      why: "tree down",
    });
    expect(await answered(closed, 201)).toMatchObject({ stays: ["s3"], until: null, outlet: null });
    const open = await send(
      "PATCH",
      "/closures/c1",
      { until: "2027-06-04" },
      { "If-Match": closed.headers.get("etag") ?? "" },
    );
    expect(await answered(open, 200)).toMatchObject({ stays: [], version: 2 });
    await refused(await send("DELETE", "/closures/c1", undefined, { "If-Match": '"1"' }), 412, "precondition-failed");
    await answered(await send("DELETE", "/closures/c1", undefined, { "If-Match": '"2"' }), 200);
    expect(await answered(await send("GET", "/closures"), 200)).toEqual({ closures: [] });
  });

  it("close a single receptacle by its id", async () => {
    const { send } = await withStays();
    const { outlets } = await answered<{ outlets: { id: string; sites: string[] }[] }>(
      await send("GET", "/outlets"),
      200,
    );
    expect(outlets.find(({ id }) => id === "A7/A7-power/A7-30")?.sites).toEqual(["A7"]);
    const failed = { outlet: "A7/A7-power/A7-30", firstNight: "2027-06-01" };
    await answered(await send("POST", "/closures", failed), 201);
    await refused(await send("POST", "/closures", { ...failed, outlet: "A7/none" }), 422, "invalid-request");
    await refused(await send("POST", "/closures", { ...failed, site: "A7" }), 422, "invalid-request");
    const held = { moves: [move("s1", null, "A7", { outlets: [failed.outlet] })] };
    expect((await refused(await send("POST", "/assignment/move", held), 409, "conflict")).errors[0]?.code).toBe(
      "closed",
    );
  });
});

describe("changes", () => {
  it("come in order behind a cursor; who made them is in the audit, guests' names are nowhere", async () => {
    const { send } = await withStays();
    interface Feed {
      readonly changes: { number: number; kind: string; subject: string }[];
      readonly cursor: string;
      readonly more: boolean;
    }
    const feed = async (query: string) => answered<Feed>(await send("GET", `/changes${query}`), 200);
    const first = await feed("?limit=2");
    expect([first.changes.map(({ kind }) => kind), first.more]).toEqual([["record", "site"], true]);
    const now = await feed("?since=now");
    expect(now).toMatchObject({ changes: [], more: false });
    await answered(await send("POST", "/assignment/move", { moves: [move("s1", null, "A7")] }), 200);
    const news = await feed(`?since=${now.cursor}`);
    expect(news.changes).toMatchObject([{ kind: "assignment", subject: "s1" }]);
    expect((await feed(`?since=${news.cursor}`)).changes).toEqual([]);
    await refused(await send("GET", "/changes?since=1"), 400, "invalid-cursor");
    const audit = await answered<{ entries: Record<string, unknown>[] }>(
      await send("GET", "/audit?kind=assignment&subject=s1"),
      200,
    );
    expect(audit.entries).toMatchObject([
      { actor: expect.stringMatching(/^token /), before: null, after: { site: "A7" } },
    ]);
    expect(JSON.stringify(await answered(await send("GET", "/audit?limit=100"), 200))).not.toContain("Canary");
  });
});
