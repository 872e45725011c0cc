/** Every route for hosts × every role × own and foreign campground, made from the route table. */
import { beforeAll, describe, expect, it } from "vitest";
import { importRecords } from "../../src/http/host/import-records.ts";
import { HOST_ROUTES } from "../../src/http/host/routes/index.ts";
import { EXAMPLE_COLLECTION } from "../../src/http/openapi/examples.ts";
import type { Route } from "../../src/http/route.ts";
import { ALL_ROUTES } from "../../src/http/routes/index.ts";
import { SCOPES, type Scope } from "../../src/ledger/tokens.ts";
import { freshKey, type Hosts, openHosts } from "../http/host/hosts.ts";

const OWN = "alder-flat";
const FOREIGN = "sorrel-bend";
const ABSENT = "nowhere";

/** Routes below a campground that everybody may use; a new one without a scope has to be put here, with a reason. */
const PUBLIC: Readonly<Record<string, string>> = {
  getCampground: "records are open",
  getSite: "records are open",
};

/** Scope that each route wants. A route that is not listed here fails the test. */
const WANTED: Readonly<Record<string, Scope>> = {
  putCampground: "records",
  patchCampground: "records",
  listVersions: "read",
  getVersion: "read",
  putSite: "records",
  patchSite: "records",
  deleteSite: "records",
  listStays: "read",
  createStay: "stays",
  getStay: "read",
  putStay: "stays",
  patchStay: "stays",
  deleteStay: "stays",
  importStays: "stays",
  getAssignment: "read",
  moveStays: "stays",
  releaseStays: "stays",
  lockStays: "stays",
  unlockStays: "stays",
  acceptPlan: "stays",
  proposePlan: "read",
  explainStay: "read",
  optionsOfPlan: "read",
  listHolds: "read",
  createHold: "stays",
  deleteHold: "stays",
  listOutlets: "read",
  listClosures: "read",
  createClosure: "stays",
  patchClosure: "stays",
  deleteClosure: "stays",
  listChanges: "read",
  listAudit: "read",
};

const underCampground = ALL_ROUTES.filter((route) => route.path.startsWith("/v1/campgrounds/{id}"));
const guarded = underCampground.filter((route) => !Object.hasOwn(PUBLIC, route.operationId));

let hosts: Hosts;
const tokens = new Map<string, string>();
beforeAll(async () => {
  hosts = await openHosts();
  const other = { ...EXAMPLE_COLLECTION, campground: { ...EXAMPLE_COLLECTION.campground, id: FOREIGN } };
  await importRecords(hosts.ledger, [{ name: "other", input: other }]);
  for (const scope of SCOPES) tokens.set(scope, await hosts.token({ [OWN]: [scope] }));
});

function send(route: Route, campground: string, authorization: string | null) {
  const path = route.path.replace("{id}", campground).replaceAll(/\{\w+\}/g, "A7");
  const mediaType = Object.keys(route.requestBody?.content ?? {})[0];
  return hosts.app.request(path, {
    method: route.method,
    ...(mediaType === undefined ? {} : { body: "{}" }),
    headers: {
      ...(authorization === null ? {} : { Authorization: authorization }),
      ...(mediaType === undefined ? {} : { "Content-Type": mediaType }),
      ...(route.method === "GET" ? {} : { "Idempotency-Key": freshKey() }),
    },
  });
}

/** An answer without what differs from request to request. */
async function shape(response: Response) {
  const text = (await response.text()).replace(/urn:uuid:[\w-]+/, "");
  const headers = [...response.headers].filter(([name]) => name !== "request-id").sort();
  return { status: response.status, text, headers };
}

describe("the table of routes", () => {
  it("has a scope for every route under a campground that is not listed as open to everybody", () => {
    expect(guarded.map((route) => [route.operationId, route.scope])).toEqual(
      guarded.map(({ operationId }) => [operationId, WANTED[operationId] ?? "not listed"]),
    );
    expect(guarded.length).toBe(Object.keys(WANTED).length);
    expect(HOST_ROUTES.filter(({ scope, operationId }) => scope === undefined && !(operationId in PUBLIC))).toEqual([]);
    expect(ALL_ROUTES.filter((route) => route.scope !== undefined && !guarded.includes(route))).toEqual([]);
  });
});

describe.each(guarded.map((route) => [`${route.method} ${route.path}`, route] as const))("%s", (_title, route) => {
  it("wants a token: 401 with a challenge, whether the campground is there or not", async () => {
    const answers = [];
    for (const authorization of [null, "Basic b2ZmaWNl", "Bearer", "Bearer nonsense", "Bearer padwright_"]) {
      const answer = await shape(await send(route, OWN, authorization));
      expect(answer.status).toBe(401);
      expect(Object.fromEntries(answer.headers)["www-authenticate"]).toMatch(/^Bearer realm="padwright"/);
      expect(await shape(await send(route, ABSENT, authorization))).toEqual(answer);
      answers.push(answer);
    }
  });

  it("answers a foreign campground exactly like one that is not there", async () => {
    for (const scope of SCOPES) {
      const foreign = await shape(await send(route, FOREIGN, `Bearer ${tokens.get(scope)}`));
      const absent = await shape(await send(route, ABSENT, `Bearer ${tokens.get(scope)}`));
      expect(foreign.status).toBe(404);
      expect(foreign).toEqual(absent);
    }
  });

  it("lets in the scope that it names and no other", async () => {
    for (const scope of SCOPES) {
      const response = await send(route, OWN, `Bearer ${tokens.get(scope)}`);
      const text = await response.text();
      if (scope === WANTED[route.operationId]) {
        expect([401, 403]).not.toContain(response.status);
        expect(response.status).toBeLessThan(500);
      } else {
        expect(response.status).toBe(403);
        expect(response.headers.get("www-authenticate")).toContain(`error="insufficient_scope"`);
        expect(text).not.toMatch(/s1|Canary/);
      }
    }
  });
});

describe("a token", () => {
  it("that is revoked or has ended opens nothing; one for every campground opens each", async () => {
    const { ledger, token, app } = hosts;
    const get = async (text: string, campground = OWN) =>
      (await app.request(`/v1/campgrounds/${campground}/stays`, { headers: { Authorization: `Bearer ${text}` } }))
        .status;
    const short = await token({ [OWN]: ["read"] }, new Date(ledger.at + 1000).toISOString());
    const wide = await token({ "*": ["read"] });
    expect([await get(short), await get(wide), await get(wide, FOREIGN), await get(wide, ABSENT)]).toEqual([
      200, 200, 200, 404,
    ]);
    ledger.at += 1000;
    expect(await get(short)).toBe(401);
    ledger.sql.run("UPDATE token SET revoked_at = '2027-05-20T15:00:00.000Z' WHERE grants LIKE '%*%'");
    expect(await get(wide)).toBe(401);
  });
});
