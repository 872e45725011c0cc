import { describe, expect, it } from "vitest";
import { answered, openHosts, refused, stay } from "./hosts.ts";

interface Proposal {
  readonly planVersion: number;
  readonly status: string;
  readonly value: number;
  readonly bound: number | null;
  readonly places: readonly { stay: string; site: string; outlets: string[]; bound: boolean; moved: boolean }[];
  readonly unplaced: readonly { stay: string; blocking: { rule: string; sites: number }[] }[];
}

/** One site fits (A7); nobody has measured the other (B2). */
async function withStays() {
  const hosts = await openHosts();
  for (const one of [stay("s1", "2027-06-01", "2027-06-04"), stay("s2", "2027-06-04", "2027-06-06")]) {
    await answered(await hosts.send("POST", "/stays", one), 201);
  }
  const propose = async (body: unknown = { options: { effort: "quick" } }) =>
    hosts.send("POST", "/assignment/propose", body);
  return { ...hosts, propose };
}

describe("a plan for the stays of the ledger", () => {
  it("is proposed with its bound, accepted once, and stale when somebody has moved meanwhile", async () => {
    const { send, propose } = await withStays();
    const response = await propose();
    const plan = await answered<Proposal>(response, 200);
    expect(plan).toMatchObject({ planVersion: 0, status: "optimal", unplaced: [] });
    expect(plan.places.map(({ stay: id, site }) => [id, site]).sort()).toEqual([
      ["s1", "A7"],
      ["s2", "A7"],
    ]);
    expect(JSON.stringify(plan)).not.toContain("Canary");
    expect(await answered(await send("GET", "/assignment"), 200)).toMatchObject({ places: [] });
    const entries = plan.places.map(({ stay: id, site, outlets }) => ({ stay: id, site, outlets }));
    const tag = { "If-Match": response.headers.get("etag") ?? "" };
    const about = { status: plan.status, value: plan.value, bound: plan.bound };
    await answered(await send("POST", "/assignment/accept", { entries, about }, tag), 200);
    await refused(await send("POST", "/assignment/accept", { entries, about }, tag), 412, "precondition-failed");
    const again = await answered<Proposal>(await propose(), 200);
    expect(again.places.map(({ moved }) => moved)).toEqual([false, false]);
    expect(again.planVersion).toBe(1);
  });

  it("keeps locked stays and guests in house, and leaves what is closed or held to nobody", async () => {
    const { send, propose } = await withStays();
    const move = (id: string, to: string, lock: boolean) => ({ moves: [{ stay: id, from: null, to, lock }] });
    await answered(await send("POST", "/assignment/move", move("s1", "B2", true)), 200);
    const hold = { site: "A7", arrival: "2027-06-05", departure: "2027-06-06", why: "walk-in" };
    await answered(await send("POST", "/holds", hold), 201);
    const plan = await answered<Proposal>(await propose(), 200);
    expect(plan.places).toMatchObject([{ stay: "s1", site: "B2", bound: true }]);
    expect(plan.unplaced[0]?.blocking.map(({ rule }) => rule)).toContain("closed");
    await answered(await send("POST", "/stays", stay("old", "2027-05-10", "2027-05-20")), 201);
    const { places, unplaced } = await answered<Proposal>(await propose(), 200);
    expect([...places, ...unplaced].map((one) => one.stay).sort()).toEqual(["s1", "s2"]);
  });

  it("is explained stay by stay, and changed by as few moves as may be", async () => {
    const { send } = await withStays();
    const why = async (id: string) =>
      answered<Record<string, unknown>>(await send("GET", `/stays/${id}/explanation`), 200);
    const move = (id: string, to: string) => ({ moves: [{ stay: id, from: null, to }] });
    await answered(await send("POST", "/assignment/move", move("s1", "A7")), 200);
    expect(await why("s1")).toMatchObject({ site: "A7", bound: false, possible: 1 });
    expect(await why("s2")).toMatchObject({ site: null, eligible: 1, change: { kind: "place" } });
    await refused(await send("GET", "/stays/s9/explanation"), 404, "not-found");
    interface Options {
      readonly options: {
        moved: number;
        moves: { stay: string; from: string | null; to: string; outlets: string[] }[];
      }[];
      readonly unplaced: string[];
    }
    const options = async (body: unknown) => answered<Options>(await send("POST", "/assignment/options", body), 200);
    const walkIn = await options({ stays: ["s2"] });
    expect(walkIn.options[0]).toMatchObject({ moved: 0, moves: [{ stay: "s2", from: null, to: "A7" }] });
    await answered(await send("POST", "/assignment/move", { moves: walkIn.options[0]?.moves }), 200);
    // Nothing is in the way of anybody: nothing is to be changed.
    expect(await options({})).toMatchObject({ options: [], unplaced: [] });
    await answered(await send("POST", "/closures", { site: "A7", firstNight: "2027-06-05" }), 201);
    expect(await options({})).toMatchObject({ options: [], unplaced: ["s2"] });
    await refused(await send("POST", "/assignment/options", { stays: ["s9"] }), 422, "invalid-request");
  });

  it("leaves where they are those who stand somewhere by the host's word", async () => {
    const { send } = await withStays();
    const moves = [{ stay: "s1", from: null, to: "B2" }];
    await answered(await send("POST", "/assignment/move", { moves }), 200);
    expect(await answered(await send("GET", "/stays/s1/explanation"), 200)).toMatchObject({ site: "B2", bound: true });
    await answered(await send("POST", "/stays", stay("s3", "2027-06-02", "2027-06-03")), 201);
    const found = await answered<{ options: { moves: unknown[] }[] }>(
      await send("POST", "/assignment/options", { stays: ["s3"] }),
      200,
    );
    expect(found.options[0]?.moves).toMatchObject([{ stay: "s3", from: null, to: "A7" }]);
    expect(JSON.stringify(found.options)).not.toContain("s1");
  });

  it("is told as a stream, and judged when it is the host's own", async () => {
    const { send, propose } = await withStays();
    const stream = await send(
      "POST",
      "/assignment/propose",
      { options: { effort: "quick" } },
      { Accept: "text/event-stream" },
    );
    expect(stream.headers.get("content-type")).toContain("text/event-stream");
    expect(await stream.text()).toMatch(/event: \w+\ndata: [^\n]*"planVersion":0/);
    const own = { plan: [{ stay: "s1", site: "B2" }], options: { effort: "quick" } };
    const judged = await answered<{ given: { sound: boolean } }>(await propose(own), 200);
    expect(judged.given.sound).toBe(false);
    await refused(await propose({ option: {} }), 422, "invalid-request");
  });
});
