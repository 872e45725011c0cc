import { beforeAll, describe, expect, it } from "vitest";
import { parse } from "yaml";
import { ROUTES } from "../../src/http/routes/index.ts";
import { problemIn, type TestApp, testApp } from "./helpers.ts";

let app: TestApp;
beforeAll(async () => {
  app = await testApp();
});

/** What is only true now is kept by nobody, and has no tag. */
const PASSING = ["/readyz", "/metrics"];
const PATHS = ROUTES.filter(({ method, path }) => method === "GET" && !PASSING.includes(path)).map(
  ({ path, parameters = [] }) =>
    path.replaceAll(/\{(\w+)\}/g, (_, name) =>
      encodeURIComponent(String(parameters.find((one) => one.name === name)?.example)),
    ),
);

describe("every GET", () => {
  it.each(PATHS)("%s has a strong ETag, honours If-None-Match and carries the safety headers", async (path) => {
    const response = await app.request(path);
    expect(response.status).toBe(200);
    const tag = response.headers.get("etag") ?? "";
    expect(tag).toMatch(/^"[0-9a-f]{32}"$/);
    expect(response.headers.get("vary")).toBe("Accept");
    expect(response.headers.get("cache-control")).toBe("public, no-cache");
    expect(response.headers.get("x-content-type-options")).toBe("nosniff");
    expect(response.headers.get("content-security-policy")).toContain("default-src 'none'");
    expect(response.headers.get("access-control-allow-origin")).toBeNull();
    const again = await app.request(path, { headers: { "If-None-Match": `"other", ${tag}` } });
    expect(again.status).toBe(304);
    expect(await again.text()).toBe("");
    expect(again.headers.get("etag")).toBe(tag);
    const head = await app.request(path, { method: "HEAD" });
    expect([head.status, await head.text(), head.headers.get("etag")]).toEqual([200, "", tag]);
  });

  it.each(PATHS)("%s refuses what it cannot give, another method and an unknown parameter", async (path) => {
    await problemIn(await app.request(path, { headers: { Accept: "audio/ogg" } }), 406, "not-acceptable");
    const wrong = await app.request(path, { method: "DELETE" });
    expect(wrong.headers.get("allow")).toBe("GET, HEAD");
    await problemIn(wrong, 405, "method-not-allowed");
    const body = await problemIn(await app.request(`${path}?limitt=3`), 400, "invalid-parameter");
    expect(body.errors).toEqual([expect.objectContaining({ parameter: "limitt", code: "unknown-parameter" })]);
  });
});

describe("paths that are not there", () => {
  it.each([
    "/",
    "/v1/fits",
    "/v1/campgrounds/none",
    "/schemas/none.json",
    "/schemas/constructor.json",
    "/v1/campgrounds/alder-flat/x",
  ])("%s", async (path) => {
    await problemIn(await app.request(path), 404, "not-found");
  });
});

describe("the list of campgrounds", () => {
  const named = (id: string) => ({
    name: id,
    input: { type: "FeatureCollection", campground: { id, name: `Camp ${id} (invented)` }, features: [] },
  });
  it("pages by opaque cursor and Link, in the order of ids, without drift", async () => {
    const many = await testApp(["c", "a", "e", "b", "d"].map(named));
    const seen: string[] = [];
    let path: string | null = "/v1/campgrounds?limit=2";
    while (path !== null) {
      const response: Response = await many.request(path);
      const body = (await response.json()) as {
        campgrounds: { id: string }[];
        numberMatched: number;
        numberReturned: number;
      };
      expect([body.numberMatched, body.numberReturned]).toEqual([5, body.campgrounds.length]);
      seen.push(...body.campgrounds.map((one) => one.id));
      path = /<([^>]+)>; rel="next"/.exec(response.headers.get("link") ?? "")?.[1] ?? null;
    }
    expect(seen).toEqual(["a", "b", "c", "d", "e"]);
    const first = (await (await many.request("/v1/campgrounds?limit=2")).json()) as { nextCursor: string };
    const changed = await testApp(["c", "a", "e", "b"].map(named));
    await problemIn(await changed.request(`/v1/campgrounds?cursor=${first.nextCursor}`), 410, "stale-cursor");
    await problemIn(await many.request(`/v1/campgrounds?cursor=${first.nextCursor}x`), 400, "invalid-cursor");
  });

  it.each(["0", "-1", "1.5", "NaN", "1e3", ""])("refuses the limit %j", async (limit) => {
    const body = await problemIn(await app.request(`/v1/campgrounds?limit=${limit}`), 400, "invalid-parameter");
    expect(body.errors[0]).toMatchObject({ parameter: "limit", code: "out-of-range" });
  });

  it("lowers a limit above the largest page and refuses one given twice or too long", async () => {
    expect((await app.request("/v1/campgrounds?limit=999999")).status).toBe(200);
    await problemIn(await app.request("/v1/campgrounds?limit=2&limit=3"), 400, "invalid-parameter");
    await problemIn(await app.request(`/v1/campgrounds?cursor=${"x".repeat(2000)}`), 400, "invalid-parameter");
  });
});

describe("a campground", () => {
  it("is given as GeoJSON with its unknown members", async () => {
    const input = {
      type: "FeatureCollection",
      campground: { id: "west 9/é", name: "West Nine (invented)", owner: "kept" },
      features: [{ type: "Feature", id: "1", geometry: null, properties: { kind: "site", name: "1", colour: "kept" } }],
    };
    const own = await testApp([{ name: "x", input }]);
    const list = (await (await own.request("/v1/campgrounds")).json()) as { campgrounds: { href: string }[] };
    const response = await own.request(list.campgrounds[0]?.href ?? "");
    expect(response.headers.get("content-type")).toBe("application/geo+json");
    expect(await response.json()).toMatchObject(input);
  });
});

describe("the description", () => {
  it("is the same as JSON and as YAML, and lists exactly the routes of the application", async () => {
    const document = (await (await app.request("/openapi.json")).json()) as {
      paths: Record<string, Record<string, unknown>>;
    };
    expect(parse(await (await app.request("/openapi.yaml")).text())).toEqual(document);
    const described = Object.entries(document.paths).flatMap(([path, methods]) =>
      Object.keys(methods).map((method) => `${method.toUpperCase()} ${path}`),
    );
    const served = app.routes
      .filter((route) => route.method !== "ALL" && !ROUTES.some(({ alias }) => alias === route.path))
      .map(
        (route) => `${route.method} ${route.path.replace(/:(\w+)\{.*\}/, "{$1}.json").replaceAll(/:(\w+)/g, "{$1}")}`,
      );
    expect(described.sort()).toEqual(served.sort());
  });

  it("is a page without script or foreign parts, whose style passes its policy", async () => {
    const response = await app.request("/docs");
    const page = await response.text();
    expect(page).not.toMatch(/<script|src=|https?:\/\/(?!json-schema)[^ ]*\.(?:js|css)|@import|url\(/);
    const style = /<style>([\s\S]*?)<\/style>/.exec(page)?.[1] ?? "";
    const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", new TextEncoder().encode(style)));
    const policy = response.headers.get("content-security-policy") ?? "";
    expect(policy).toContain(`'sha256-${Buffer.from(digest).toString("base64")}'`);
    for (const route of ROUTES) expect(page).toContain(`id="${route.operationId}"`);
    for (const [, target] of page.matchAll(/href="#([^"]+)"/g)) expect(page).toContain(`id="${target}"`);
  });

  it("publishes schemas that stand alone", async () => {
    const { schemas } = (await (await app.request("/schemas")).json()) as { schemas: { name: string; href: string }[] };
    expect(schemas.map((schema) => schema.name)).toContain("rig");
    for (const { href } of schemas) {
      const response = await app.request(href);
      expect(response.headers.get("content-type")).toBe("application/schema+json");
      const schema = (await response.json()) as { $id: string; $defs?: Record<string, unknown> };
      expect(schema.$id).toBe(href);
      const text = JSON.stringify(schema);
      for (const [, target] of text.matchAll(/"\$ref":"([^"]+)"/g)) {
        if (target === "#") continue;
        expect(target).toMatch(/^#\/\$defs\//);
        expect(Object.keys(schema.$defs ?? {})).toContain((target as string).slice("#/$defs/".length));
      }
    }
  });
});

describe("words and limits", () => {
  it("gives every cap with its unit and says that no exact solver stands by", async () => {
    const own = await testApp(undefined, { limits: { sitesPerSearch: 7 } });
    const body = (await (await own.request("/v1/limits")).json()) as {
      limits: { name: string; value: number }[];
      exactSolver: string;
    };
    expect(body.exactSolver).toBe("none");
    expect(body.limits.find((row) => row.name === "sitesPerSearch")?.value).toBe(7);
    expect(body.limits.find((row) => row.name === "importBodyBytes")?.value).toBe(10_485_760);
  });
  it("says whether it answers", async () => {
    expect(await (await app.request("/healthz")).json()).toMatchObject({ status: "ok", version: "0.1.0-test" });
  });
});

describe("other origins", () => {
  it("are let in only when named", async () => {
    const preflight = { method: "OPTIONS", headers: { Origin: "https://trip.example" } };
    await problemIn(await app.request("/v1/limits", preflight), 405, "method-not-allowed");
    const open = await testApp(undefined, { crossOrigin: { origins: ["https://trip.example"] } });
    const allowed = await open.request("/v1/limits", preflight);
    expect([allowed.status, allowed.headers.get("access-control-allow-origin")]).toEqual([204, "https://trip.example"]);
    const get = await open.request("/v1/limits", { headers: { Origin: "https://trip.example" } });
    expect(get.headers.get("access-control-allow-origin")).toBe("https://trip.example");
    expect(get.headers.get("vary")).toContain("Origin");
    const other = await open.request("/v1/limits", { headers: { Origin: "https://other.example" } });
    expect(other.headers.get("access-control-allow-origin")).toBeNull();
  });
});

describe("a fault of ours", () => {
  it("is a problem without a stack, logged under the request id", async () => {
    const entries: unknown[] = [];
    const broken = await testApp(undefined, {
      store: {
        list: () => Promise.reject(new Error("secret path /srv/records")),
        get: () => Promise.reject(new Error("secret path /srv/records")),
        version: () => Promise.reject(new Error("secret path /srv/records")),
      },
      log: (entry) => entries.push(entry),
    });
    const response = await broken.request("/healthz");
    const body = await problemIn(response, 500, "internal-error");
    expect(JSON.stringify(body)).not.toContain("secret");
    expect(entries).toEqual([
      expect.objectContaining({ route: "/healthz", status: 500, error: expect.any(Error) as Error }),
    ]);
  });
});
