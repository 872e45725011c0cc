/** Requests that are sent again: under the same key, under a used key, while the first runs, after a crash. */
import { describe, expect, it } from "vitest";
import { answered, BASE, openHosts, refused, stay } from "../http/host/hosts.ts";

const HOUR = 3_600_000;

describe("a key", () => {
  it("has one effect and the same bytes, however often it is sent", async () => {
    const { send, ledger } = await openHosts();
    const again = () => send("POST", "/stays", stay("s1", "2027-06-01", "2027-06-03"), { "Idempotency-Key": "k" });
    const first = await again();
    const text = await first.text();
    const before = ledger.sql.get("SELECT count(*) AS n FROM change_entry")?.["n"];
    for (let times = 0; times < 100; times += 1) {
      const response = await again();
      expect([response.status, await response.text()]).toEqual([201, text]);
      expect(response.headers.get("etag")).toBe(first.headers.get("etag"));
      expect(response.headers.get("location")).toBe(first.headers.get("location"));
      expect(response.headers.get("idempotency-replayed")).toBe("true");
    }
    expect(first.headers.get("idempotency-replayed")).toBeNull();
    expect(ledger.sql.get("SELECT count(*) AS n FROM change_entry")?.["n"]).toBe(before);
  });

  it("sent a hundred times at once has one effect; the others get its bytes or 409", async () => {
    const { send, ledger } = await openHosts();
    const fresh = { ...stay("", "2027-06-01", "2027-06-03"), id: undefined };
    const all = Array.from({ length: 100 }, () => send("POST", "/stays", fresh, { "Idempotency-Key": "storm" }));
    const answers = await Promise.all(
      (await Promise.all(all)).map(async (one) => [one.status, await one.text()] as const),
    );
    const made = answers.filter(([status]) => status === 201);
    expect(made.length).toBeGreaterThanOrEqual(1);
    expect(new Set(made.map(([, text]) => text)).size).toBe(1);
    for (const [status, text] of answers.filter(([one]) => one !== 201)) {
      expect([status, JSON.parse(text).code]).toEqual([409, "request-in-progress"]);
    }
    expect(ledger.sql.get("SELECT count(*) AS n FROM stay")?.["n"]).toBe(1);
  });

  it("is refused while the first request under it is under way", async () => {
    const { send } = await openHosts();
    const table = `id,arrival,departure,rig.class,rig.length\n${Array.from({ length: 300 }, (_, n) => `r${n},2027-06-01,2027-06-02,class-c,25 ft`).join("\n")}`;
    const first = send("POST", "/stays/import", table, { "Idempotency-Key": "slow" });
    await new Promise((resolve) => setTimeout(resolve, 5));
    const second = await send("POST", "/stays/import", table, { "Idempotency-Key": "slow" });
    expect(second.headers.get("retry-after")).toBe("1");
    await refused(second, 409, "request-in-progress");
    const text = await (await first).text();
    expect(JSON.parse(text)).toMatchObject({ created: 300 });
    const third = await send("POST", "/stays/import", table, { "Idempotency-Key": "slow" });
    expect(await third.text()).toBe(text);
  });

  it("belongs to one request: another body, method, address or condition is 422", async () => {
    const { send } = await openHosts();
    const key = { "Idempotency-Key": "k" };
    await answered(await send("POST", "/stays", stay("s1", "2027-06-01", "2027-06-03"), key), 201);
    const other = stay("s1", "2027-06-01", "2027-06-04");
    await refused(await send("POST", "/stays", other, key), 422, "idempotency-key-reused");
    await refused(
      await send("POST", "/holds", stay("s1", "2027-06-01", "2027-06-03"), key),
      422,
      "idempotency-key-reused",
    );
    await refused(
      await send("DELETE", "/stays/s1", undefined, { ...key, "If-Match": '"1"' }),
      422,
      "idempotency-key-reused",
    );
    const patch = { "Idempotency-Key": "p", "If-Match": '"1"' };
    await answered(await send("PATCH", "/stays/s1", { priority: 1 }, patch), 200);
    await refused(
      await send("PATCH", "/stays/s1", { priority: 1 }, { ...patch, "If-Match": '"2"' }),
      422,
      "idempotency-key-reused",
    );
    // The condition was true when it was first sent: the answer to a repeat is the answer, and not 412.
    expect(await answered(await send("PATCH", "/stays/s1", { priority: 1 }, patch), 200)).toMatchObject({ version: 2 });
  });

  it("of another caller or campground is another key", async () => {
    const { app, token, ledger, send } = await openHosts();
    const key = { "Idempotency-Key": "k" };
    await answered(await send("POST", "/stays", stay("s1", "2027-06-01", "2027-06-03"), key), 201);
    const other = await token({ "alder-flat": ["stays"] });
    const response = await app.request(`${BASE}/stays`, {
      method: "POST",
      body: JSON.stringify(stay("s2", "2027-06-01", "2027-06-03")),
      headers: { Authorization: `Bearer ${other}`, "Content-Type": "application/json", ...key },
    });
    expect(await answered(response, 201)).toMatchObject({ id: "s2" });
    expect(ledger.sql.get("SELECT count(*) AS n FROM kept_answer")?.["n"]).toBe(2);
  });

  it("is wanted for every write, and has a form", async () => {
    const { send } = await openHosts();
    for (const key of ["", " ", "two words", "ü", "x".repeat(256)]) {
      const headers = { "Idempotency-Key": encodeURI(key) === key || key.includes(" ") ? key : "\u00fc" };
      const { errors } = await refused(
        await send("POST", "/stays", stay("s1", "2027-06-01", "2027-06-03"), headers),
        400,
        "idempotency-key-missing",
      );
      expect(errors[0]?.message).toBeTypeOf("string");
    }
    const quoted = { "Idempotency-Key": '"same"' };
    const first = await send("POST", "/stays", stay("s1", "2027-06-01", "2027-06-03"), quoted);
    const bare = await send("POST", "/stays", stay("s1", "2027-06-01", "2027-06-03"), { "Idempotency-Key": "same" });
    expect(await bare.text()).toBe(await first.text());
  });

  it("of a refused write is free again", async () => {
    const { send } = await openHosts();
    const key = { "Idempotency-Key": "k" };
    await refused(await send("POST", "/assignment/lock", { stays: ["s1"] }, key), 422, "invalid-request");
    await answered(await send("POST", "/stays", stay("s1", "2027-06-01", "2027-06-03"), key), 201);
  });

  it("is kept for a day and more, also when the clock is put back, and let go later", async () => {
    const { send, ledger } = await openHosts();
    const again = () => send("POST", "/stays", stay("s1", "2027-06-01", "2027-06-03"), { "Idempotency-Key": "k" });
    const others = async () => {
      for (let n = 0; n < 3; n += 1)
        await answered(await send("POST", "/stays", { ...stay("", "2027-06-01", "2027-06-03"), id: undefined }), 201);
    };
    const text = await (await again()).text();
    for (const hours of [24, 25, -1, 48]) {
      ledger.at += hours * HOUR;
      if (hours === 48) ledger.at -= 48 * HOUR;
      await others();
      expect(await (await again()).text()).toBe(text);
    }
    ledger.at += 200 * HOUR;
    await others();
    await refused(await again(), 409, "conflict");
  });

  it("is stored with its effect: when the effect is undone the key is too", async () => {
    const { send, ledger } = await openHosts();
    const key = { "Idempotency-Key": "k" };
    ledger.sql.run(
      "CREATE TRIGGER fail BEFORE INSERT ON kept_answer BEGIN SELECT RAISE(ABORT, 'constraint failed: made to fail'); END",
    );
    const failed = await send("POST", "/stays", stay("s1", "2027-06-01", "2027-06-03"), key);
    expect(failed.status).toBe(500);
    expect(await failed.text()).not.toMatch(/made to fail|Canary/);
    expect(ledger.sql.all("SELECT * FROM stay")).toEqual([]);
    expect(ledger.sql.all("SELECT * FROM change_entry WHERE kind = 'stay'")).toEqual([]);
    ledger.sql.run("DROP TRIGGER fail");
    await answered(await send("POST", "/stays", stay("s1", "2027-06-01", "2027-06-03"), key), 201);
  });
});
