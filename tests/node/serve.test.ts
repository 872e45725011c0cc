import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { connect } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { EXAMPLE_COLLECTION } from "../../src/http/openapi/examples.ts";
import { readFolder } from "../../src/node/file-store.ts";
import { type Service, serve } from "../../src/node/serve.ts";
import { memoryStore } from "../../src/records/store.ts";

let folder: string;
let service: Service;
const said: string[] = [];

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "padwright-serve-"));
  const broken = { type: "Feature", id: "C3", geometry: null, properties: { kind: "site", pad: { length: "long" } } };
  const collection = { ...EXAMPLE_COLLECTION, features: [...EXAMPLE_COLLECTION.features, broken] };
  await writeFile(join(folder, "b.geojson"), JSON.stringify(collection));
  await writeFile(join(folder, "c-copy.geojson"), JSON.stringify(EXAMPLE_COLLECTION));
  await writeFile(join(folder, "a.geojson"), "no JSON");
  await writeFile(join(folder, "notes.txt"), "not a record");
  service = await serve({
    port: 0,
    folder,
    version: "0.1.0-test",
    log: (line) => said.push(line),
    patience: { headers: 300, request: 600 },
  });
});

afterAll(async () => {
  await service.stop();
  await rm(folder, { recursive: true });
});

/** Sends raw bytes and gives all that comes back until the server closes. */
function raw(pieces: readonly (string | Uint8Array)[]): Promise<string> {
  const { hostname, port } = new URL(service.address);
  return new Promise((resolve) => {
    const socket = connect(Number(port), hostname);
    let heard = "";
    socket.on("data", (data) => {
      heard += data.toString("latin1");
    });
    // The server may cut a sender that goes on: what it answered before counts.
    socket.on("error", () => undefined);
    socket.on("close", () => resolve(heard));
    for (const piece of pieces) socket.write(piece);
  });
}

const POST_FIT = "POST /v1/fit HTTP/1.1\r\nHost: pad.test\r\nContent-Type: application/json\r\n";

describe("the folder", () => {
  it("loads what it can and says what it left out", async () => {
    const { store, refused } = await memoryStore(await readFolder(folder));
    expect((await store.list()).map(({ id, sites, brokenSites }) => [id, sites, brokenSites])).toEqual([
      ["alder-flat", 2, 1],
    ]);
    expect(refused.map(({ name }) => name)).toEqual(["a.geojson", "c-copy.geojson"]);
    expect(said.filter((line) => line.startsWith("Left out"))).toHaveLength(2);
    expect(said.some((line) => line.includes("1 sites were refused"))).toBe(true);
  });
});

describe("the server", () => {
  it("listens on the loopback address unless told otherwise and answers", async () => {
    expect(new URL(service.address).hostname).toBe("127.0.0.1");
    const response = await fetch(`${service.address}/v1/campgrounds`);
    expect(await response.json()).toMatchObject({ numberMatched: 1 });
  });

  it("says plainly when the port is taken, the folder is not there, or PORT is no number", async () => {
    const port = Number(new URL(service.address).port);
    await expect(serve({ port, folder, version: "0", log: () => undefined })).rejects.toThrow(
      `Port ${port} on 127.0.0.1 is taken`,
    );
    const missing = join(folder, "missing");
    await expect(serve({ port: 0, folder: missing, version: "0" })).rejects.toThrow(
      `The folder ${missing} cannot be read`,
    );
    const before = process.env["PORT"];
    process.env["PORT"] = "80a";
    try {
      await expect(serve({ folder, version: "0", log: () => undefined })).rejects.toThrow('PORT is "80a"');
    } finally {
      if (before === undefined) delete process.env["PORT"];
      else process.env["PORT"] = before;
    }
  });

  it("cuts off a chunked body that goes on, with 413 and a closed connection", async () => {
    const chunk = `10000\r\n${"x".repeat(0x10000)}\r\n`;
    const heard = await raw([
      `${POST_FIT}Transfer-Encoding: chunked\r\n\r\n`,
      ...Array.from({ length: 40 }, () => chunk),
    ]);
    expect(heard).toMatch(/^HTTP\/1\.1 413 /);
    expect(heard.toLowerCase()).toContain("connection: close");
    expect(heard).toContain('"code":"body-too-large"');
  });

  it("refuses an honest large Content-Length without reading", async () => {
    const heard = await raw([`${POST_FIT}Content-Length: 99999999\r\n\r\n`]);
    expect(heard).toMatch(/^HTTP\/1\.1 413 /);
  });

  it("ends slow headers and slow bodies with 408", async () => {
    expect(await raw(["GET /healthz HTTP/1.1\r\nHost: pad"])).toMatch(/^HTTP\/1\.1 408 /);
    expect(await raw([`${POST_FIT}Content-Length: 20\r\n\r\n{`])).toMatch(/^HTTP\/1\.1 408 /);
  });

  it("answers broken requests with a problem: two lengths, large headers, no HTTP", async () => {
    const smuggled = `${POST_FIT}Content-Length: 5\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\nGET /healthz HTTP/1.1\r\nHost: x\r\n\r\n`;
    const heard = await raw([smuggled]);
    expect(heard).toMatch(/^HTTP\/1\.1 400 /);
    expect(heard.match(/HTTP\/1\.1/g)).toHaveLength(1);
    const wide = await raw([`GET /healthz HTTP/1.1\r\nHost: x\r\nX-Wide: ${"w".repeat(100_000)}\r\n\r\n`]);
    expect(wide).toMatch(/^HTTP\/1\.1 431 [\s\S]*application\/problem\+json/);
    expect(await raw(["hello\r\n\r\n"])).toMatch(/^HTTP\/1\.1 400 [\s\S]*application\/problem\+json/);
  });

  it("lets a request that runs end when it is told to stop, and takes no new one", async () => {
    const other = await serve({ port: 0, folder, version: "0", log: () => undefined });
    const response = await fetch(`${other.address}/openapi.json`);
    const stopped = other.stop();
    expect(((await response.json()) as { openapi: string }).openapi).toBe("3.1.0");
    await stopped;
    await expect(fetch(`${other.address}/healthz`)).rejects.toThrow();
  });
});
