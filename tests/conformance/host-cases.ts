/** What hosts may do, each case at a campground of its own. */
import { expect } from "vitest";
import { EXAMPLE_COLLECTION, EXAMPLE_RIG } from "../../src/http/openapi/examples.ts";
import { type Case, conditional, ok, ownCamp, refused } from "./port.ts";

const HERE = "/v1/campgrounds/{id}";
const HOST = { host: true };
const MERGE = "application/merge-patch+json";
const stay = (id: string, arrival: string, departure: string) => ({ id, arrival, departure, rig: EXAMPLE_RIG });
const tagged = (tag: string | null) => ({ "If-Match": tag ?? "" });

export const HOST_CASES: readonly Case[] = [
  {
    name: "who may: no token, a made-up one, nothing written without a key",
    routes: [],
    run: async (send, { token }) => {
      const body = stay("s1", "2031-06-01", "2031-06-03");
      const path = "/v1/campgrounds/alder-flat/stays";
      const bare = await send("GET", path);
      refused(bare, 401, "unauthorized");
      expect(bare.headers.get("www-authenticate")).toContain("Bearer");
      const odd = { Authorization: `Bearer ${token.slice(0, -2)}zz` };
      refused(await send("POST", path, { body, headers: odd }), 401, "unauthorized");
      const unknown = await send("GET", "/v1/campgrounds/nobody-here/stays", HOST);
      refused(unknown, 404, "not-found");
      const camp = await ownCamp(send);
      refused(
        await send("POST", `${camp}/stays`, { body, headers: { Authorization: `Bearer ${token}` } }),
        400,
        "idempotency-key-missing",
      );
    },
  },
  {
    name: "records: written, read by all at once, preview, precondition, merge patch, versions",
    routes: [`PUT ${HERE}`, `PATCH ${HERE}`, `GET ${HERE}/versions`, `GET ${HERE}/versions/{version}`],
    run: async (send) => {
      const camp = await ownCamp(send);
      const id = camp.slice(camp.lastIndexOf("/") + 1);
      const read = await conditional(send, camp);
      expect(read.body().features).toHaveLength(2);
      expect(ok(await send("GET", "/v1/campgrounds")).campgrounds.map((one: { id: string }) => one.id)).toContain(id);
      const fit = { rig: EXAMPLE_RIG, site: { campground: id, site: "A7" } };
      ok(await send("POST", "/v1/fit", { body: fit }));
      const searched = { rig: EXAMPLE_RIG, campground: id };
      expect(ok(await send("POST", "/v1/search", { body: searched })).features).toHaveLength(2);
      const tag = (read.headers.get("etag") ?? "").replace(/^W\//, "");
      const change = { campground: { name: "Renamed (invented)" } };
      const patch = { host: true, body: change, type: MERGE };
      refused(await send("PATCH", camp, { ...patch, headers: tagged('"old"') }), 412, "precondition-failed");
      const seen = ok(await send("PATCH", `${camp}?preview=true`, { ...patch, headers: tagged(tag) }));
      expect(seen.written).toBe(false);
      expect(ok(await send("PATCH", camp, { ...patch, headers: tagged(tag) }))).toMatchObject({ version: 2 });
      expect(ok(await send("GET", camp)).campground.name).toBe("Renamed (invented)");
      const list = await conditional(send, `${camp}/versions`, HOST);
      expect(list.body().versions).toHaveLength(2);
      const first = await conditional(send, `${camp}/versions/1`, HOST);
      expect(first.body().campground.name).toBe(EXAMPLE_COLLECTION.campground.name);
      refused(await send("GET", `${camp}/versions/9`, HOST), 404, "not-found");
    },
  },
  {
    name: "sites: one read, written, patched, removed",
    routes: [
      `GET ${HERE}/sites/{site}`,
      `PUT ${HERE}/sites/{site}`,
      `PATCH ${HERE}/sites/{site}`,
      `DELETE ${HERE}/sites/{site}`,
    ],
    run: async (send) => {
      const camp = await ownCamp(send);
      const read = await conditional(send, `${camp}/sites/A7`);
      const fresh = { ...read.body(), id: "C3", properties: { ...read.body().properties, name: "C3" } };
      const created = await send("PUT", `${camp}/sites/C3`, {
        ...HOST,
        body: fresh,
        headers: { "If-None-Match": "*" },
      });
      expect(ok(created).sites.added).toEqual(["C3"]);
      const patch = { properties: { shade: "full" } };
      const patched = await send("PATCH", `${camp}/sites/C3`, {
        ...HOST,
        body: patch,
        type: MERGE,
        headers: tagged(created.headers.get("etag")),
      });
      expect(ok(patched).sites.changed).toEqual(["C3"]);
      const gone = await send("DELETE", `${camp}/sites/C3`, { ...HOST, headers: tagged(patched.headers.get("etag")) });
      expect(ok(gone).sites.removed).toEqual(["C3"]);
      refused(await send("GET", `${camp}/sites/C3`), 404, "not-found");
    },
  },
  {
    name: "stays: entered once for each key, read, replaced, patched, removed, as a table",
    routes: [
      `GET ${HERE}/stays`,
      `POST ${HERE}/stays`,
      `GET ${HERE}/stays/{stay}`,
      `PUT ${HERE}/stays/{stay}`,
      `PATCH ${HERE}/stays/{stay}`,
      `DELETE ${HERE}/stays/{stay}`,
      `POST ${HERE}/stays/import`,
    ],
    run: async (send) => {
      const camp = await ownCamp(send);
      const body = stay("s1", "2031-06-01", "2031-06-03");
      const key = { "Idempotency-Key": `once-${camp}` };
      const first = await send("POST", `${camp}/stays`, { ...HOST, body, headers: key });
      expect(ok(first, 201)).toMatchObject({ id: "s1", version: 1, nights: 2 });
      const second = await send("POST", `${camp}/stays`, { ...HOST, body, headers: key });
      expect([second.status, second.text, second.headers.get("idempotency-replayed")]).toEqual([
        201,
        first.text,
        "true",
      ]);
      const other = { ...HOST, body: { ...body, id: "s2" }, headers: key };
      refused(await send("POST", `${camp}/stays`, other), 422, "idempotency-key-reused");
      const read = await conditional(send, `${camp}/stays/s1`, HOST);
      expect(read.headers.get("cache-control")).toContain("private");
      const whole = { ...body, departure: "2031-06-04" };
      const put = await send("PUT", `${camp}/stays/s1`, { ...HOST, body: whole, headers: tagged('"1"') });
      expect(ok(put)).toMatchObject({ version: 2, nights: 3 });
      const part = { ...HOST, body: { priority: 1 }, type: MERGE };
      refused(await send("PATCH", `${camp}/stays/s1`, { ...part, headers: tagged('"1"') }), 412, "precondition-failed");
      ok(await send("PATCH", `${camp}/stays/s1`, { ...part, headers: tagged('"2"') }));
      refused(await send("PATCH", `${camp}/stays/s1`, part), 428, "precondition-required");
      const table = "id,arrival,departure,rig.class,rig.length\nt1,2031-07-01,2031-07-02,class-c,25 ft\n";
      ok(await send("POST", `${camp}/stays/import`, { ...HOST, body: table, type: "text/csv" }));
      const list = (await conditional(send, `${camp}/stays`, HOST)).body();
      expect(list.stays.map((one: { id: string }) => one.id)).toEqual(["s1", "t1"]);
      ok(await send("DELETE", `${camp}/stays/s1`, { ...HOST, headers: tagged('"3"') }));
      refused(await send("GET", `${camp}/stays/s1`, HOST), 404, "not-found");
    },
  },
  {
    name: "places: moved, taken, locked, released, a plan accepted once, feed and audit",
    routes: [
      `GET ${HERE}/assignment`,
      `POST ${HERE}/assignment/move`,
      `POST ${HERE}/assignment/lock`,
      `POST ${HERE}/assignment/unlock`,
      `POST ${HERE}/assignment/release`,
      `POST ${HERE}/assignment/accept`,
      `GET ${HERE}/changes`,
      `GET ${HERE}/audit`,
    ],
    run: async (send) => {
      const camp = await ownCamp(send);
      for (const id of ["s1", "s2"]) {
        ok(await send("POST", `${camp}/stays`, { ...HOST, body: stay(id, "2031-06-01", "2031-06-03") }), 201);
      }
      const post = (path: string, body: unknown, headers = {}) => send("POST", camp + path, { ...HOST, body, headers });
      const move = (id: string, to: string) => ({ moves: [{ stay: id, from: null, to }] });
      expect(ok(await post("/assignment/move", move("s1", "A7"))).stays[0].fit.verdict).toBe("fits");
      const { errors } = refused(await post("/assignment/move", move("s2", "A7")), 409, "conflict");
      expect(errors[0].code).toBe("taken");
      ok(await post("/assignment/lock", { stays: ["s1"] }));
      const release = { stays: [{ stay: "s1", from: "A7" }] };
      refused(await post("/assignment/release", release), 409, "conflict");
      ok(await post("/assignment/unlock", { stays: ["s1"] }));
      ok(await post("/assignment/release", release));
      const plan = await conditional(send, `${camp}/assignment`, HOST);
      expect(plan.body().places).toEqual([]);
      const entries = [
        { stay: "s1", site: "B2" },
        { stay: "s2", site: "A7" },
      ];
      const tag = tagged(plan.headers.get("etag")?.replace(/^W\//, "") ?? null);
      ok(await post("/assignment/accept", { entries }, tag));
      refused(await post("/assignment/accept", { entries }, tag), 412, "precondition-failed");
      expect(ok(await send("GET", `${camp}/assignment`, HOST)).places).toHaveLength(2);
      expect((await conditional(send, `${camp}/changes`, HOST)).body().changes.length).toBeGreaterThan(5);
      expect((await conditional(send, `${camp}/audit`, HOST)).body().entries.length).toBeGreaterThan(5);
    },
  },
  {
    name: "proposals: a plan with its gap or proof, why a stay stands where it does, small changes",
    routes: [
      `POST ${HERE}/assignment/propose`,
      `POST ${HERE}/assignment/options`,
      `GET ${HERE}/stays/{stay}/explanation`,
    ],
    run: async (send) => {
      const camp = await ownCamp(send);
      ok(await send("POST", `${camp}/stays`, { ...HOST, body: stay("s1", "2031-06-01", "2031-06-03") }), 201);
      const proposal = ok(await send("POST", `${camp}/assignment/propose`, { ...HOST, body: {} }));
      expect(JSON.stringify(proposal)).toMatch(/"gap":/);
      expect(proposal.places.map((one: { stay: string; site: string }) => [one.stay, one.site])).toEqual([
        ["s1", "A7"],
      ]);
      const options = ok(await send("POST", `${camp}/assignment/options`, { ...HOST, body: { stays: ["s1"] } }));
      expect(options.options[0]).toMatchObject({ moved: 0 });
      const why = await conditional(send, `${camp}/stays/s1/explanation`, HOST);
      expect(why.body()).toMatchObject({ stay: "s1", site: null });
      refused(await send("GET", `${camp}/stays/s9/explanation`, HOST), 404, "not-found");
    },
  },
  {
    name: "holds, closures and outlets",
    routes: [
      `GET ${HERE}/holds`,
      `POST ${HERE}/holds`,
      `DELETE ${HERE}/holds/{hold}`,
      `GET ${HERE}/outlets`,
      `GET ${HERE}/closures`,
      `POST ${HERE}/closures`,
      `PATCH ${HERE}/closures/{closure}`,
      `DELETE ${HERE}/closures/{closure}`,
    ],
    run: async (send) => {
      const camp = await ownCamp(send);
      const hold = { id: "h1", site: "A7", arrival: "2031-06-01", departure: "2031-06-03" };
      ok(await send("POST", `${camp}/holds`, { ...HOST, body: hold }), 201);
      refused(await send("POST", `${camp}/holds`, { ...HOST, body: { ...hold, id: "h2" } }), 409, "conflict");
      expect(ok(await send("GET", `${camp}/holds`, HOST)).holds).toHaveLength(1);
      ok(await send("DELETE", `${camp}/holds/h1`, HOST));
      const { outlets } = ok(await send("GET", `${camp}/outlets`, HOST));
      expect(outlets.length).toBeGreaterThan(1);
      const closure = { id: "c1", outlet: outlets[0].id, firstNight: "2031-06-01" };
      const made = await send("POST", `${camp}/closures`, { ...HOST, body: closure });
      ok(made, 201);
      const patch = { ...HOST, body: { until: "2031-06-09" }, type: MERGE, headers: tagged(made.headers.get("etag")) };
      const changed = await send("PATCH", `${camp}/closures/c1`, patch);
      expect(ok(changed).until).toBe("2031-06-09");
      expect(ok(await send("GET", `${camp}/closures`, HOST)).closures).toHaveLength(1);
      ok(await send("DELETE", `${camp}/closures/c1`, { ...HOST, headers: tagged(changed.headers.get("etag")) }));
    },
  },
];
