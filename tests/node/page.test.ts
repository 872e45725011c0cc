/** The built page as the server hands it out. */
import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { brotliDecompressSync, gunzipSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { compressed } from "../../src/node/compress.ts";
import { openPage, type Page } from "../../src/node/page.ts";

const SCRIPT = `export const numbers = [${Array.from({ length: 400 }, (_, index) => index).join(", ")}];`;
const DOCUMENT = "<!doctype html><title>Page</title>";

let folder: string;
let page: Page;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "page-"));
  await mkdir(join(folder, "assets"));
  await writeFile(join(folder, "index.html"), DOCUMENT);
  await writeFile(join(folder, "assets", "main-1a2b.js"), SCRIPT);
  page = await openPage(folder);
});

afterAll(() => rm(folder, { recursive: true }));

const ask = (path: string, headers: Record<string, string> = {}, method = "GET") =>
  page.answer(new Request(`http://here${path}`, { method, headers }));

describe("the page", () => {
  test("the document lies at the root, under a policy that allows nothing inline and nothing from elsewhere", async () => {
    const answer = (await ask("/"))!;
    expect(answer.status).toBe(200);
    expect(await answer.text()).toBe(DOCUMENT);
    const policy = answer.headers.get("content-security-policy") ?? "";
    expect(policy).toContain("default-src 'self'");
    expect(policy).not.toMatch(/unsafe|data:|https?:|\*/);
    expect(answer.headers.get("cache-control")).toBe("public, no-cache");
  });

  test("a hashed file may be kept; each coding carries its own tag and the same bytes", async () => {
    const plain = (await ask("/assets/main-1a2b.js"))!;
    const brotli = (await ask("/assets/main-1a2b.js", { "accept-encoding": "gzip, br" }))!;
    const gzip = (await ask("/assets/main-1a2b.js", { "accept-encoding": "br;q=0, gzip" }))!;
    expect(plain.headers.get("cache-control")).toContain("immutable");
    expect(await plain.text()).toBe(SCRIPT);
    expect(brotli.headers.get("content-encoding")).toBe("br");
    expect(brotliDecompressSync(Buffer.from(await brotli.arrayBuffer())).toString()).toBe(SCRIPT);
    expect(gunzipSync(Buffer.from(await gzip.arrayBuffer())).toString()).toBe(SCRIPT);
    expect(new Set([plain, brotli, gzip].map((one) => one.headers.get("etag"))).size).toBe(3);
  });

  test("who has it already gets no body; HEAD gets the length alone", async () => {
    const tag = (await ask("/"))!.headers.get("etag")!;
    const again = (await ask("/", { "if-none-match": tag }))!;
    expect(again.status).toBe(304);
    expect(await again.text()).toBe("");
    const head = (await ask("/", {}, "HEAD"))!;
    expect(head.headers.get("content-length")).toBe(String(DOCUMENT.length));
    expect(await head.text()).toBe("");
  });

  test("anything else is left to the interface, and no path leads out of the folder", async () => {
    expect(await ask("/v1/campgrounds")).toBeNull();
    expect(await ask("/", {}, "POST")).toBeNull();
    expect(await ask("/assets/../../../../etc/passwd")).toBeNull();
    expect(await ask("/%2e%2e/%2e%2e/etc/passwd")).toBeNull();
  });
});

describe("an answer of the interface", () => {
  const body = JSON.stringify(Array.from({ length: 300 }, () => ({ kind: "site", length: 13.7 })));
  const answer = () =>
    new Response(body, { headers: { "Content-Type": "application/geo+json", ETag: '"abc"', Vary: "Accept" } });
  const asked = (coding: string, method = "GET") =>
    new Request("http://here/v1/x", { method, headers: { "accept-encoding": coding } });

  test("is compressed for who takes it, with a tag of its own and Vary", async () => {
    const small = await compressed(asked("br"), answer());
    expect(small.headers.get("content-encoding")).toBe("br");
    expect(small.headers.get("etag")).toBe('"abc;br"');
    expect(small.headers.get("vary")).toBe("Accept, Accept-Encoding");
    const bytes = Buffer.from(await small.arrayBuffer());
    expect(bytes.length).toBeLessThan(body.length / 5);
    expect(brotliDecompressSync(bytes).toString()).toBe(body);
    const other = await compressed(asked("br;q=0, gzip"), answer());
    expect(other.headers.get("content-encoding")).toBe("gzip");
    expect(gunzipSync(Buffer.from(await other.arrayBuffer())).toString()).toBe(body);
  });

  test("stays as it is for who does not, for a picture, for an error and for a POST", async () => {
    for (const [request, response] of [
      [asked("deflate"), answer()],
      [asked("br;q=0, gzip;q=0.0"), answer()],
      [asked("br"), new Response(body, { headers: { "Content-Type": "image/png" } })],
      [asked("br"), new Response(body, { status: 404, headers: { "Content-Type": "application/json" } })],
      [asked("br", "POST"), answer()],
    ] as const) {
      const same = await compressed(request, response);
      expect(same.headers.get("content-encoding")).toBeNull();
      expect(await same.text()).toBe(body);
    }
  });
});
