/** What everybody may ask. */
import { expect } from "vitest";
import { EXAMPLE_ASSIGNMENT_REQUEST } from "../../src/http/openapi/assignment-example.ts";
import { exampleRequests } from "../../src/http/openapi/example-answers.ts";
import { EXAMPLE_FIT_REQUEST, EXAMPLE_RIG, EXAMPLE_SEARCH_REQUEST } from "../../src/http/openapi/examples.ts";
import { ROUTES } from "../../src/http/routes/index.ts";
import { type Case, conditional, ok, refused } from "./port.ts";

const A7 = { campground: "alder-flat", site: "A7" };
const B2 = { campground: "alder-flat", site: "B2" };

export const PUBLIC_CASES: readonly Case[] = [
  {
    name: "fit: answer, drawing, stored site, 406, 413, 415, 422, malformed, every fault at once",
    routes: ["POST /v1/fit"],
    run: async (send) => {
      const fit = await send("POST", "/v1/fit", { body: EXAMPLE_FIT_REQUEST });
      expect(ok(fit)).toMatchObject({ verdict: "unknown", lines: expect.any(Array) });
      expect(fit.headers.get("cache-control")).toBe("no-store");
      const drawn = await send("POST", "/v1/fit", { body: EXAMPLE_FIT_REQUEST, headers: { Accept: "image/svg+xml" } });
      expect([drawn.headers.get("content-type"), drawn.text.slice(0, 5)]).toEqual(["image/svg+xml", "<svg "]);
      ok(await send("POST", "/v1/fit", { body: { rig: EXAMPLE_RIG, site: A7 } }));
      const nowhere = { rig: EXAMPLE_RIG, site: { ...A7, campground: "nowhere" } };
      refused(await send("POST", "/v1/fit", { body: nowhere }), 422, "invalid-request");
      refused(
        await send("POST", "/v1/fit", { body: EXAMPLE_FIT_REQUEST, headers: { Accept: "image/png" } }),
        406,
        "not-acceptable",
      );
      refused(await send("POST", "/v1/fit", { body: "rig", type: "text/plain" }), 415, "unsupported-media-type");
      refused(await send("POST", "/v1/fit", { body: `"${"x".repeat(1_100_000)}"` }), 413, "body-too-large");
      refused(await send("POST", "/v1/fit", { body: '{"rig":' }), 400, "malformed-json");
      const wrong = { ...EXAMPLE_FIT_REQUEST, ste: 1, options: { units: "yards" } };
      const { errors } = refused(await send("POST", "/v1/fit", { body: wrong }), 422, "invalid-request");
      expect(errors.map(({ pointer }: { pointer: string }) => pointer).sort()).toEqual(["/options/units", "/ste"]);
    },
  },
  {
    name: "batch: rows in order, a fault in its row, as NDJSON and as a GeoJSON sequence",
    routes: ["POST /v1/fit/batch"],
    run: async (send) => {
      const body = { rigs: [EXAMPLE_RIG], sites: [A7, B2, { ...A7, site: "Z9" }] };
      const sent = await send("POST", "/v1/fit/batch", { body });
      expect([sent.status, sent.headers.get("content-type")]).toEqual([200, "application/x-ndjson"]);
      const rows = sent.text
        .trimEnd()
        .split("\n")
        .map((line) => JSON.parse(line));
      expect(rows.map(({ row, siteId }) => [row, siteId])).toEqual([
        [0, "A7"],
        [1, "B2"],
        [2, "Z9"],
      ]);
      const sequence = await send("POST", "/v1/fit/batch", { body, headers: { Accept: "application/geo+json-seq" } });
      expect(sequence.text.split("\u001e").length).toBe(4);
    },
  },
  {
    name: "examples: every example of the description is answered",
    routes: ["POST /v1/card", "POST /v1/wind", "POST /v1/trips", "POST /v1/desk", "POST /v1/import/osm"],
    run: async (send) => {
      const wanted = ["/v1/card", "/v1/wind", "/v1/trips", "/v1/desk", "/v1/import/osm"];
      const examples = exampleRequests(ROUTES).filter(({ path }) => wanted.includes(path));
      expect(new Set(examples.map(({ path }) => path)).size).toBe(wanted.length);
      for (const { path, body, mediaType } of examples) {
        const answer = ok(await send("POST", path, { body, type: mediaType }));
        expect(Object.keys(answer).length).toBeGreaterThan(0);
        const strange = mediaType.includes("xml") ? "<osm" : '{"nothing":1}';
        const bad = await send("POST", path, { body: strange, type: mediaType });
        expect([path, mediaType, bad.status >= 400 && bad.status < 500, typeof bad.body().code]).toEqual([
          path,
          mediaType,
          true,
          "string",
        ]);
      }
    },
  },
  {
    name: "search: pages by cursor and link, a cursor of somebody else, a place without campgrounds",
    routes: ["POST /v1/search"],
    run: async (send) => {
      const body = { ...EXAMPLE_SEARCH_REQUEST, filters: {}, limit: 1 };
      const first = await send("POST", "/v1/search", { body });
      const { nextCursor, features } = ok(first);
      expect(first.headers.get("link")).toContain('rel="next"');
      const second = ok(await send("POST", `/v1/search?cursor=${nextCursor}`, { body }));
      expect([features[0].id, second.features[0].id].sort()).toEqual(["alder-flat/A7", "alder-flat/B2"]);
      refused(await send("POST", "/v1/search?cursor=bm9uZQ", { body }), 400, "invalid-cursor");
      const box = { rig: EXAMPLE_RIG, bbox: [-106.3, 39.8, -106.1, 39.9] };
      expect(ok(await send("POST", "/v1/search", { body: box })).features.length).toBeGreaterThan(0);
      const sea = { rig: EXAMPLE_RIG, bbox: [-30, 30, -29, 31] };
      expect(ok(await send("POST", "/v1/search", { body: sea })).features).toEqual([]);
    },
  },
  {
    name: "assignment: a plan with its gap or proof, progress as events",
    routes: ["POST /v1/assignment"],
    run: async (send, { exactSolver }) => {
      const plan = ok(await send("POST", "/v1/assignment", { body: EXAMPLE_ASSIGNMENT_REQUEST }));
      expect(JSON.stringify(plan)).toMatch(/"gap":/);
      expect(JSON.stringify(plan)).toMatch(exactSolver === "none" ? /"exactSolver":null/ : /"exactSolver":/);
      const headers = { Accept: "text/event-stream" };
      const events = await send("POST", "/v1/assignment", { body: EXAMPLE_ASSIGNMENT_REQUEST, headers });
      expect(events.headers.get("content-type")).toBe("text/event-stream");
      expect(events.text).toMatch(/^event: |^data: /m);
    },
  },
  {
    name: "records: list and one, conditional, HEAD, 404, unknown parameters",
    routes: ["GET /v1/campgrounds", "GET /v1/campgrounds/{id}"],
    run: async (send) => {
      expect(JSON.stringify((await conditional(send, "/v1/campgrounds")).body())).toContain("alder-flat");
      const one = await conditional(send, "/v1/campgrounds/alder-flat");
      expect(one.body().features).toHaveLength(2);
      expect(one.headers.get("content-type")).toBe("application/geo+json");
      const head = await send("HEAD", "/v1/campgrounds/alder-flat");
      expect([head.status, head.text]).toEqual([200, ""]);
      refused(await send("GET", "/v1/campgrounds/nowhere"), 404, "not-found");
      refused(await send("GET", "/v1/campgrounds?colour=red"), 400, "invalid-parameter");
    },
  },
  {
    name: "geodata: landing, conformance, description, collections, items, one feature",
    routes: [
      "GET /ogc",
      "GET /ogc/conformance",
      "GET /ogc/api",
      "GET /ogc/collections",
      "GET /ogc/collections/{collectionId}",
      "GET /ogc/collections/{collectionId}/queryables",
      "GET /ogc/collections/{collectionId}/schema",
      "GET /ogc/collections/{collectionId}/items",
      "GET /ogc/collections/{collectionId}/items/{featureId}",
    ],
    run: async (send) => {
      for (const path of ["/ogc", "/ogc/conformance", "/ogc/api", "/ogc/collections"]) await conditional(send, path);
      const sites = "/ogc/collections/sites";
      for (const path of [sites, `${sites}/queryables`, `${sites}/schema`]) await conditional(send, path);
      const bbox = "bbox=-106.3,39.8,-106.1,39.9";
      const page = await conditional(send, `${sites}/items?limit=1&${bbox}`);
      const { features, links } = page.body();
      expect(features).toHaveLength(1);
      const next = new URL(links.find(({ rel }: { rel: string }) => rel === "next").href);
      const second = ok(await send("GET", next.pathname + next.search));
      expect(second.features[0].id).not.toBe(features[0].id);
      const one = await conditional(send, `${sites}/items/${encodeURIComponent(features[0].id)}`);
      expect(one.body().id).toBe(features[0].id);
      refused(await send("GET", "/ogc/collections/pumps"), 404, "not-found");
      refused(await send("GET", `${sites}/items?limit=0`), 400, "invalid-parameter");
    },
  },
  {
    name: "about: words, caps, schemas, description, health, readiness, figures",
    routes: [
      "GET /v1/vocabulary",
      "GET /v1/limits",
      "GET /schemas",
      "GET /schemas/{name}.json",
      "GET /openapi.json",
      "GET /openapi.yaml",
      "GET /docs",
      "GET /healthz",
      "GET /readyz",
      "GET /metrics",
    ],
    run: async (send, { exactSolver }) => {
      expect((await conditional(send, "/v1/limits")).body().exactSolver).toBe(exactSolver);
      expect((await conditional(send, "/v1/vocabulary")).body().plugs.length).toBeGreaterThan(5);
      const { schemas } = (await conditional(send, "/schemas")).body();
      await conditional(send, schemas[0].href);
      const { paths } = (await conditional(send, "/openapi.json")).body();
      expect(paths["/v1/campgrounds/{id}/stays"]).toBeDefined();
      expect((await conditional(send, "/openapi.yaml")).text.slice(0, 30)).toMatch(/^openapi: "?3\.1/);
      expect((await conditional(send, "/docs")).text.includes("problem-not-found")).toBe(true);
      expect((await conditional(send, "/healthz")).body()).toMatchObject({ status: "ok" });
      const ready = ok(await send("GET", "/readyz"));
      expect(ready.checks).toContainEqual({ name: "ledger", state: "ready" });
      expect(ready.checks).toContainEqual({ name: "catalogue", state: "ready" });
      const figures = await send("GET", "/metrics", { headers: { Accept: "application/openmetrics-text" } });
      expect(figures.text).toMatch(/http_server_request_duration_seconds_count\{.*http_route="\/healthz"\} [1-9]/);
      expect(figures.text.endsWith("# EOF\n")).toBe(true);
      expect((await send("GET", "/metrics")).headers.get("content-type")).toContain("text/plain; version=0.0.4");
    },
  },
  {
    name: "problems: no such path, a method that is not taken, safety headers, a fresh request id each time",
    routes: [],
    run: async (send) => {
      const absent = await send("GET", "/nothing/here");
      refused(absent, 404, "not-found");
      const method = await send("DELETE", "/v1/fit");
      refused(method, 405, "method-not-allowed");
      expect(method.headers.get("allow")).toBe("POST");
      expect(absent.headers.get("x-content-type-options")).toBe("nosniff");
      expect(absent.headers.get("request-id")).not.toBe(method.headers.get("request-id"));
    },
  },
];
