/** A server as it is operated: its log, a swap of its catalogue, its readiness. */
import { spawn } from "node:child_process";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { EXAMPLE_COLLECTION, EXAMPLE_RIG } from "../../src/http/openapi/examples.ts";
import { createToken } from "../../src/ledger/tokens.ts";
import { openLedger } from "../../src/node/ledger.ts";
import { objectFolder } from "../../src/node/object-folder.ts";
import { type Service, serve } from "../../src/node/serve.ts";
import { buildCatalogue } from "../../src/records/catalogue/build.ts";
import { TOKEN } from "../conformance/port.ts";
import { hostToken } from "../conformance/suite.ts";

let folder: string;
let service: Service | undefined;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "padwright-operations-"));
});
afterEach(async () => {
  await service?.stop();
  service = undefined;
  await rm(folder, { recursive: true });
});

async function put(name: string): Promise<void> {
  const campground = { ...EXAMPLE_COLLECTION.campground, name };
  const text = JSON.stringify({ ...EXAMPLE_COLLECTION, campground });
  await buildCatalogue(
    (async function* () {
      yield { name: "alder-flat.geojson", mark: name, read: async () => text };
    })(),
    objectFolder(folder),
  );
}

const COMMON = { port: 0, version: "0.1.0-test", page: null, settings: {} } as const;
const nameNow = async () => {
  const reply = await fetch(`${service?.address}/v1/campgrounds/alder-flat`);
  return ((await reply.json()) as { campground: { name: string } }).campground.name;
};

describe("a server over a catalogue", () => {
  it("answers from the new one after it looked, drops no request meanwhile, and goes on when the source is gone", async () => {
    await put("First (invented)");
    const lines: string[] = [];
    service = await serve({ ...COMMON, catalogue: folder, log: (line) => lines.push(line) });
    expect(await nameNow()).toBe("First (invented)");
    await put("Second (invented)");
    expect(await nameNow()).toBe("First (invented)");
    const asked = Array.from({ length: 20 }, () => nameNow());
    await service.refresh();
    const names = new Set(await Promise.all(asked));
    expect([...names].every((name) => /^(First|Second) \(invented\)$/.test(name))).toBe(true);
    expect(await nameNow()).toBe("Second (invented)");
    expect(lines.filter((line) => line.startsWith("Answers from the new catalogue"))).toHaveLength(1);
    const ready = () => fetch(`${service?.address}/readyz`);
    expect((await ready()).status).toBe(200);
    await rm(join(folder, "catalogue.json"));
    await service.refresh();
    expect(await nameNow()).toBe("Second (invented)");
    expect([(await ready()).status, lines.at(-1)]).toEqual([503, expect.stringMatching(/was not looked at again/)]);
  });

  it("looks again by itself", async () => {
    await put("First (invented)");
    service = await serve({ ...COMMON, catalogue: folder, catalogueInterval: 20, log: () => undefined });
    await put("Second (invented)");
    await expect.poll(nameNow, { timeout: 5000 }).toBe("Second (invented)");
  });

  it("as a process looks again on SIGHUP and ends in order on SIGTERM", async () => {
    await put("First (invented)");
    const words = [
      "--import",
      "tsx",
      "src/cli/main.ts",
      "serve",
      "--port",
      "0",
      "--log",
      "json",
      "--catalogue",
      folder,
    ];
    const child = spawn(process.execPath, words, { stdio: ["ignore", "ignore", "pipe"] });
    try {
      let said = "";
      child.stderr.on("data", (data) => {
        said += String(data);
      });
      const address = () => /http:\/\/127\.0\.0\.1:\d+/.exec(said)?.[0];
      await expect.poll(address, { timeout: 60_000 }).toBeDefined();
      const name = async () => {
        const reply = await fetch(`${address()}/v1/campgrounds/alder-flat`);
        return ((await reply.json()) as { campground: { name: string } }).campground.name;
      };
      expect(await name()).toBe("First (invented)");
      await put("Second (invented)");
      child.kill("SIGHUP");
      await expect.poll(name, { timeout: 10_000 }).toBe("Second (invented)");
      const ended = new Promise<number | null>((resolve) => child.once("exit", resolve));
      child.kill("SIGTERM");
      expect(await ended).toBe(0);
      const lines = said.trim().split("\n");
      expect(lines.map((line) => (JSON.parse(line) as { event: string }).event)).toContain("service");
    } finally {
      child.kill("SIGKILL");
    }
  });

  it("does not start without one", async () => {
    await expect(serve({ ...COMMON, catalogue: folder })).rejects.toThrow(/^The catalogue .* cannot be opened: /);
  });
});

describe("the log as JSON", () => {
  it("has a line for each request, with its id, and no guest, no address below a template, no token", async () => {
    const path = join(folder, "park.sqlite");
    const { ledger, close } = openLedger(path);
    const { hash, ...token } = await hostToken();
    createToken(ledger, hash, token);
    close();
    const lines: string[] = [];
    service = await serve({ ...COMMON, ledger: path, logForm: "json", log: (line) => lines.push(line) });
    let serial = 0;
    const send = (method: string, address: string, body?: unknown, headers = {}) => {
      serial += 1;
      return fetch(service?.address + address, {
        method,
        ...(body === undefined ? {} : { body: typeof body === "string" ? body : JSON.stringify(body) }),
        headers: {
          Authorization: `Bearer ${TOKEN}`,
          "Content-Type": "application/json",
          "Idempotency-Key": `key-${serial}`,
          ...headers,
        },
      });
    };
    const base = "/v1/campgrounds/alder-flat";
    expect((await send("PUT", base, EXAMPLE_COLLECTION, { "If-None-Match": "*" })).status).toBe(201);
    const party = { name: "Wren Canary", plate: "CANARY-1", phone: "+1 555 0100" };
    const stay = { id: "canary-stay", arrival: "2031-06-01", departure: "2031-06-02", rig: EXAMPLE_RIG, party };
    const made = await send("POST", `${base}/stays`, stay);
    expect(made.status).toBe(201);
    expect((await send("POST", `${base}/stays`, `{"party": Wren Canary}`)).status).toBe(400);
    expect((await send("GET", `${base}/stays/canary-stay?plate=CANARY-1`)).status).toBe(400);
    expect((await send("GET", `${base}/stays/canary-stay`)).status).toBe(200);
    const read = lines.map((line) => JSON.parse(line) as { event: string; requestId?: string; status?: number });
    const requests = read.filter(({ event }) => event === "request");
    expect(requests.map(({ status }) => status)).toEqual([201, 201, 400, 400, 200]);
    expect(requests[1]?.requestId).toBe(made.headers.get("request-id"));
    for (const canary of ["Canary", "CANARY-1", "555 0100", "canary-stay", TOKEN]) {
      expect(lines.join("\n")).not.toContain(canary);
    }
  });
});
