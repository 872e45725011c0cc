/** Bodies with members that nobody asked for, and bodies that nobody would send, to every route for hosts that writes. */
import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { HOST_ROUTES } from "../../src/http/host/routes/index.ts";
import type { Route } from "../../src/http/route.ts";
import { freshKey, type Hosts, openHosts, refused, stay } from "../http/host/hosts.ts";

const STAY = stay("s9", "2027-06-01", "2027-06-03");

/** A body that is right, for every write that takes a closed JSON object. A route that is not listed fails the test. */
const BODIES: Readonly<Record<string, Record<string, unknown>>> = {
  createStay: STAY,
  putStay: { ...STAY, id: "s1" },
  patchStay: { priority: 1 },
  moveStays: { moves: [{ stay: "s1", from: null, to: "A7" }] },
  releaseStays: { stays: [{ stay: "s1", from: "A7" }] },
  lockStays: { stays: ["s1"] },
  unlockStays: { stays: ["s1"] },
  acceptPlan: { entries: [{ stay: "s1", site: "A7" }] },
  proposePlan: { options: { effort: "quick" } },
  optionsOfPlan: { stays: ["s1"] },
  createHold: { site: "B2", arrival: "2027-06-01", departure: "2027-06-03" },
  createClosure: { site: "B2", firstNight: "2027-06-01" },
  patchClosure: { why: "tree" },
};

/** Records keep unknown members (a document from elsewhere loses nothing), and a table has columns instead. */
const OPEN = ["putCampground", "patchCampground", "putSite", "patchSite", "importStays"];

const writing = HOST_ROUTES.filter((route) => route.requestBody !== undefined);
const ids: Readonly<Record<string, string>> = { stay: "s1", site: "A7", closure: "c1", hold: "h1" };

let hosts: Hosts;
beforeAll(async () => {
  hosts = await openHosts();
  await hosts.send("POST", "/stays", stay("s1", "2027-06-01", "2027-06-03"));
  await hosts.send("POST", "/closures", { id: "c1", site: "B2", firstNight: "2027-07-01" });
});

/** The tag is the wild one: what is thrown here is the body. */
function send(route: Route, body: string) {
  const path = route.path
    .replace("/v1/campgrounds/{id}", "")
    .replaceAll(/\{(\w+)\}/g, (_, name: string) => ids[name] ?? "");
  return hosts.send(route.method, path, body, {
    "Content-Type": Object.keys(route.requestBody?.content ?? {})[0] ?? "",
    "Idempotency-Key": freshKey(),
    "If-Match": "*",
  });
}

const closed = writing.filter(({ operationId }) => !OPEN.includes(operationId));

describe("a member that nobody asked for", () => {
  it("is tried on every route that takes a closed body", () => {
    expect(closed.map(({ operationId }) => operationId).sort()).toEqual(Object.keys(BODIES).sort());
  });

  it.each(closed.map((route) => [route.operationId, route] as const))("is refused by %s", async (_name, route) => {
    for (const member of ["campgroundId", "role", "version", "place", "scopes"]) {
      const body = JSON.stringify({ ...BODIES[route.operationId], [member]: 7 });
      const { errors } = await refused(await send(route, body), 422, "invalid-request");
      expect(errors.map(({ pointer, code }) => [pointer, code])).toContainEqual([`/${member}`, "unknown-key"]);
    }
    for (const text of [
      '{"__proto__":{"polluted":true}}',
      '{"constructor":{"prototype":{"polluted":true}}}',
      '{"a":1,"a":2}',
    ]) {
      await refused(await send(route, text), 400, "refused-json");
    }
    expect(({} as Record<string, unknown>)["polluted"]).toBeUndefined();
  });
});

/** Values that have broken programs: of every type, with keys that the bodies use. */
const strange = fc.letrec((tie) => ({
  value: fc.oneof(
    { depthSize: "small" },
    fc.constantFrom(
      null,
      true,
      "",
      "A7",
      "s1",
      "2027-06-01",
      "2027-02-30",
      "-0",
      "25 ft",
      "=1+1",
      "\u0000",
      "\ud800",
      "\u202e",
    ),
    fc.constantFrom(0, -0, 1e308, -1, 1.5, 2 ** 53, 1e-320),
    fc.string({ maxLength: 12, unit: "binary" }),
    fc.array(tie("value"), { maxLength: 4 }),
    fc.dictionary(
      fc.constantFrom(
        "id",
        "arrival",
        "departure",
        "rig",
        "stays",
        "stay",
        "moves",
        "from",
        "to",
        "entries",
        "site",
        "needs",
        "class",
        "length",
        "type",
        "features",
        "properties",
        "geometry",
        "campground",
        "outlets",
        "party",
        "until",
        "firstNight",
      ),
      tie("value"),
      { maxKeys: 6 },
    ),
  ),
})).value;

describe("a body that nobody would send", () => {
  it("is answered with a problem, never with a fault of ours", async () => {
    await fc.assert(
      fc.asyncProperty(fc.constantFrom(...writing), strange, async (route, value) => {
        const response = await send(route, JSON.stringify(value));
        const text = await response.text();
        expect([route.operationId, response.status < 500, text.slice(0, 300)]).toEqual([
          route.operationId,
          true,
          text.slice(0, 300),
        ]);
        if (response.status >= 400) expect(response.headers.get("content-type")).toBe("application/problem+json");
      }),
      { numRuns: 1500, seed: 11 },
    );
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(...writing),
        fc.string({ maxLength: 200, unit: "binary" }),
        async (route, text) => {
          expect((await send(route, text)).status).toBeLessThan(500);
        },
      ),
      { numRuns: 500, seed: 12 },
    );
  });

  it("that mutates a right one is answered so too", async () => {
    await fc.assert(
      fc.asyncProperty(fc.constantFrom(...closed), fc.nat(), strange, async (route, at, value) => {
        const body = structuredClone(BODIES[route.operationId] ?? {});
        const keys = Object.keys(body);
        body[keys[at % keys.length] ?? ""] = value;
        expect((await send(route, JSON.stringify(body))).status).toBeLessThan(500);
      }),
      { numRuns: 1000, seed: 13 },
    );
  });
});
