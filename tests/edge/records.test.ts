/** What the edge answers from: a catalogue that is swapped, what a host wrote over it, and a static server. */
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { gzipSync } from "node:zlib";
import type { Miniflare } from "miniflare";
import { afterEach, describe, expect, it } from "vitest";
import { EXAMPLE_COLLECTION, EXAMPLE_RIG } from "../../src/http/openapi/examples.ts";
import { buildCatalogue } from "../../src/records/catalogue/build.ts";
import type { ObjectSink } from "../../src/records/catalogue/objects.ts";
import { senderFor, TOKEN } from "../conformance/port.ts";
import { hostToken } from "../conformance/suite.ts";
import { bundleWorker } from "./bundle-worker.ts";
import { bucketSink, openEdge } from "./runtime.ts";

const MOST_BYTES = 1_000_000;
const open: { dispose?: () => Promise<void>; close?: () => void }[] = [];
afterEach(async () => {
  for (const one of open.splice(0)) {
    await one.dispose?.();
    one.close?.();
  }
});

async function put(sink: ObjectSink, name: string): Promise<void> {
  const campground = { ...EXAMPLE_COLLECTION.campground, name };
  const text = JSON.stringify({ ...EXAMPLE_COLLECTION, campground });
  await buildCatalogue(
    (async function* () {
      yield { name: "alder-flat.geojson", mark: name, read: async () => text };
    })(),
    sink,
  );
}

function sender(edge: Miniflare) {
  const call = async (request: Request) => {
    const body = request.body === null ? {} : { body: await request.arrayBuffer() };
    const headers = Object.fromEntries(request.headers);
    const reply = await edge.dispatchFetch(request.url, { method: request.method, headers, ...body });
    return reply as unknown as Response;
  };
  return senderFor({ call, token: TOKEN, exactSolver: "none" });
}

const ALDER = "/v1/campgrounds/alder-flat";
const tokens = async () => ({ HOST_TOKENS: JSON.stringify([await hostToken()]) });

describe("records at the edge", () => {
  it("follow a swap of the catalogue, and what a host writes is believed before it", async () => {
    const edge = await openEdge({ settings: { ...(await tokens()), CATALOGUE_SECONDS: "0" } });
    open.push(edge);
    const sink = await bucketSink(edge);
    const send = sender(edge);
    const nameNow = async () => (await send("GET", ALDER)).body().campground.name;
    const before = await send("GET", "/readyz");
    expect([before.status, before.body().detail]).toEqual([503, "Not ready: catalogue."]);
    expect((await send("GET", ALDER)).body().code).toBe("busy");
    await put(sink, "First (invented)");
    expect(await nameNow()).toBe("First (invented)");
    await put(sink, "Second (invented)");
    expect(await nameNow()).toBe("Second (invented)");
    const campground = { ...EXAMPLE_COLLECTION.campground, name: "Host's own (invented)" };
    const written = await send("PUT", ALDER, {
      host: true,
      body: { ...EXAMPLE_COLLECTION, campground },
      headers: { "If-None-Match": "*" },
    });
    expect(written.status).toBe(201);
    await put(sink, "Third (invented)");
    expect(await nameNow()).toBe("Host's own (invented)");
    const { campgrounds } = (await send("GET", "/v1/campgrounds")).body();
    expect(campgrounds.map((one: { name: string }) => one.name)).toEqual(["Host's own (invented)"]);
  });

  it("come from any static server, and a redirect is no object", async () => {
    const objects = new Map<string, Uint8Array>();
    const sink: ObjectSink = {
      get: async (name) => objects.get(name) ?? null,
      has: async (name) => objects.has(name),
      put: async (name, bytes) => void objects.set(name, bytes),
    };
    await put(sink, "Static (invented)");
    const base = await serveObjects(objects);
    const edge = await openEdge({ bucket: false, settings: { CATALOGUE_ADDRESS: `${base}/catalogue` } });
    open.push(edge);
    expect((await sender(edge)("GET", ALDER)).body().campground.name).toBe("Static (invented)");
    const led = await openEdge({ bucket: false, settings: { CATALOGUE_ADDRESS: `${base}/moved` } });
    open.push(led);
    expect((await sender(led)("GET", "/readyz")).status).toBe(503);
  });

  it("and guests are in no line of the log, nor is a token", async () => {
    let said = "";
    const edge = await openEdge({
      settings: await tokens(),
      said: (line) => {
        said += line;
      },
    });
    open.push(edge);
    await put(await bucketSink(edge), "Quiet (invented)");
    const send = sender(edge);
    const party = { name: "Wren Canary", plate: "CANARY-1", phone: "+1 555 0100" };
    const stay = { id: "canary-stay", arrival: "2031-06-01", departure: "2031-06-02", rig: EXAMPLE_RIG, party };
    const host = { host: true };
    const record = { ...host, body: EXAMPLE_COLLECTION, headers: { "If-None-Match": "*" } };
    expect((await send("PUT", ALDER, record)).status).toBe(201);
    expect((await send("POST", `${ALDER}/stays`, { ...host, body: stay })).status).toBe(201);
    expect((await send("POST", `${ALDER}/stays`, { ...host, body: stay })).status).toBe(409);
    expect((await send("GET", `${ALDER}/stays/canary-stay?name=Wren%20Canary`, host)).status).toBe(400);
    // The runtime's output comes by a pipe, later than the answer: the line of the last request ends it.
    const last = () => said.split("\n").filter((line) => /"route":"[^"]*\{stay\}","status":400,.*\}$/.test(line));
    await expect.poll(last, { timeout: 10_000 }).toHaveLength(1);
    expect(said).toMatch(/"route":"\/v1\/campgrounds\/\{id\}\/stays","status":409/);
    for (const canary of ["Canary", "CANARY-1", "555 0100", "canary-stay", TOKEN]) expect(said).not.toContain(canary);
  });

  it("and the worker is small, without the exact solver", async () => {
    const text = await bundleWorker();
    expect(gzipSync(text).length).toBeLessThan(MOST_BYTES);
    expect(text).not.toMatch(/highs\.wasm|Highs_/);
  });
});

async function serveObjects(objects: ReadonlyMap<string, Uint8Array>): Promise<string> {
  const server: Server = createServer((request, response) => {
    const [, folder, ...rest] = (request.url ?? "").split("/");
    const name = rest.join("/");
    if (folder === "moved") {
      response.writeHead(302, { Location: `/catalogue/${name}` }).end();
      return;
    }
    const bytes = objects.get(name);
    response.writeHead(bytes === undefined ? 404 : 200).end(bytes);
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  open.push({ close: () => server.close() });
  return `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
}
