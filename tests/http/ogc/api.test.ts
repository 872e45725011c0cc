/** Landing page, conformance, collections and the description, against requirements of OGC 17-069r4 and 19-079r2. */
import { execFile } from "node:child_process";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { describe, expect, it } from "vitest";
import { testApp } from "../helpers.ts";
import { SOURCES, TERN } from "./records.ts";

interface Link {
  readonly rel: string;
  readonly href: string;
  readonly type: string;
}
interface Operation {
  readonly operationId: string;
  readonly parameters: readonly { readonly name: string; readonly schema: unknown }[];
  readonly responses: Readonly<Record<string, unknown>>;
}
interface Api {
  readonly openapi: string;
  readonly servers: readonly { readonly url: string }[];
  readonly paths: Readonly<Record<string, { readonly get: Operation }>>;
}

const app = await testApp(SOURCES);
const ROOT = "http://h.example/ogc";
const read = async <T>(address: string): Promise<T> => (await (await app.request(address)).json()) as T;

describe("the landing page", () => {
  it("links to description, conformance and data, each of the type that the link says (root-success)", async () => {
    const { links } = await read<{ links: Link[] }>(ROOT);
    for (const rel of ["self", "service-desc", "service-doc", "conformance", "data"]) {
      expect(links.map((link) => link.rel)).toContain(rel);
    }
    for (const { href, type } of links) {
      const response = await app.request(href);
      expect([href, response.status]).toEqual([href, 200]);
      expect(response.headers.get("content-type")?.replace("; charset=utf-8", "")).toBe(type);
    }
    expect((await read<{ links: Link[] }>(`${ROOT}/`)).links.map(({ rel }) => rel)).toEqual(
      links.map(({ rel }) => rel),
    );
  });

  it("declares the classes that these tests hold it to, and no others (conformance-success)", async () => {
    expect((await read<{ conformsTo: string[] }>(`${ROOT}/conformance`)).conformsTo).toEqual([
      "http://www.opengis.net/spec/ogcapi-features-1/1.0/conf/core",
      "http://www.opengis.net/spec/ogcapi-features-1/1.0/conf/geojson",
      "http://www.opengis.net/spec/ogcapi-features-1/1.0/conf/oas30",
      "http://www.opengis.net/spec/ogcapi-features-3/1.0/conf/queryables",
      "http://www.opengis.net/spec/ogcapi-features-3/1.0/conf/queryables-query-parameters",
    ]);
  });
});

interface Described {
  readonly id: string;
  readonly links: readonly Link[];
  readonly extent?: { readonly spatial: { readonly bbox: readonly (readonly number[])[] } };
}

describe("the collections", () => {
  it("are described alike in the list and alone, with links that hold (fc-md-items, sfc-md-success)", async () => {
    const { collections } = await read<{ collections: Described[] }>(`${ROOT}/collections`);
    expect(collections.map(({ id }) => id)).toEqual(["campgrounds", "sites", "hookups", "obstacles"]);
    for (const collection of collections) {
      expect(await read(`${ROOT}/collections/${collection.id}`)).toEqual(collection);
      expect(collection.links.filter(({ rel }) => rel === "items").map(({ type }) => type)).toEqual([
        "application/geo+json",
        "application/json",
      ]);
      for (const { href, type } of collection.links) {
        expect((await app.request(href)).headers.get("content-type")).toBe(type);
      }
    }
  });

  it("state an extent that holds every geometry, also across the antimeridian (fc-md-extent)", async () => {
    const far = await testApp([{ name: "tern", input: TERN }]);
    const of = async (one: typeof app, id: string) =>
      ((await (await one.request(`${ROOT}/collections/${id}`)).json()) as Described).extent?.spatial.bbox;
    expect(await of(far, "sites")).toEqual([[179.9995, -16.5, -179.9996, -16.5]]);
    expect(await of(far, "hookups")).toBeUndefined();
    expect(await of(app, "obstacles")).toEqual([[-105.3, expect.closeTo(40.1, 2), -105.1, 40.2]]);
  });
});

describe("the queryables", () => {
  it("are a JSON Schema at their own address, and every one is a parameter of the same schema", async () => {
    const api = await read<Api>(`${ROOT}/api`);
    for (const id of ["campgrounds", "sites", "hookups", "obstacles"]) {
      const address = `${ROOT}/collections/${id}/queryables`;
      const schema = await read<Record<string, unknown> & { properties: Record<string, { title: string }> }>(address);
      expect(schema).toMatchObject({
        $schema: "https://json-schema.org/draft/2020-12/schema",
        $id: address,
        type: "object",
        additionalProperties: false,
      });
      const parameters = api.paths[`/collections/${id}/items`]?.get.parameters ?? [];
      for (const [name, { title: _title, ...rest }] of Object.entries(schema.properties)) {
        expect(parameters.find((one) => one.name === name)?.schema).toEqual(rest);
        const response = await app.request(`${ROOT}/collections/${id}/items?${name}=`);
        // An empty text is a value of a plain text, and no value of anything else.
        const plain = rest as { readonly type?: string; readonly enum?: unknown };
        expect(response.status).toBe(plain.type === "string" && plain.enum === undefined ? 200 : 400);
      }
    }
  });
});

describe("the description", () => {
  it("is OpenAPI 3.0 without a fault, by an independent reader (oas-definition-2)", async () => {
    const folder = await mkdtemp(join(tmpdir(), "padwright-api-"));
    const file = join(folder, "api.json");
    await writeFile(file, await (await app.request(`${ROOT}/api`)).text());
    const redocly = fileURLToPath(new URL("../../../node_modules/.bin/redocly", import.meta.url));
    const { stdout, stderr } = await promisify(execFile)(redocly, ["lint", "--extends", "spec", file], {
      cwd: folder,
      env: { ...process.env, REDOCLY_TELEMETRY: "off", CI: "true" },
    });
    expect(stdout + stderr).toMatch(/Your API description is valid/);
    await rm(folder, { recursive: true });
  });

  it("covers every path that is linked, and every status that comes (oas-impl, completeness)", async () => {
    const api = await read<Api>(`${ROOT}/api`);
    expect(api).toMatchObject({ openapi: "3.0.3", servers: [{ url: ROOT }] });
    const paths = Object.entries(api.paths);
    expect(paths).toHaveLength(4 + 4 * 5);
    expect(new Set(paths.map(([, { get }]) => get.operationId)).size).toBe(paths.length);
    const known = {
      campgrounds: "tern-point",
      sites: "tern-point:east-of-the-line",
      hookups: "",
      obstacles: "alder%3Abend:oak",
    };
    for (const [path, { get }] of paths) {
      const [, collection = ""] = /^\/collections\/(\w+)/.exec(path) ?? [];
      const feature = known[collection as keyof typeof known] || "alder%3Abend:tape:tap";
      const address = ROOT + path.replace("{featureId}", encodeURIComponent(feature));
      const tag = (await app.request(address)).headers.get("etag") ?? "";
      const statuses = [
        (await app.request(address)).status,
        (await app.request(address, { headers: { "If-None-Match": tag } })).status,
        (await app.request(`${address}?nothing=1`)).status,
        (await app.request(address, { headers: { Accept: "audio/ogg" } })).status,
      ];
      expect(statuses).toEqual([200, 304, 400, 406]);
      for (const status of statuses) expect(Object.keys(get.responses)).toContain(String(status));
    }
  });

  it("is there as a page to read (oas-definition-1)", async () => {
    const page = await (await app.request(`${ROOT}/api?f=html`)).text();
    expect(page).toContain("GET /collections/sites/items");
    expect(
      (await app.request(`${ROOT}/api`, { headers: { Accept: "text/html" } })).headers.get("content-type"),
    ).toMatch(/^text\/html/);
    const plain = await app.request(`${ROOT}/api`, { headers: { Accept: "application/json" } });
    expect(plain.headers.get("content-type")).toBe("application/json");
  });
});
