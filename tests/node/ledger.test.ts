import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { freshToken, sha256 } from "../../src/http/host/local-tokens.ts";
import { EXAMPLE_COLLECTION } from "../../src/http/openapi/examples.ts";
import { createToken } from "../../src/ledger/tokens.ts";
import { openLedger } from "../../src/node/ledger.ts";
import { serve } from "../../src/node/serve.ts";

let folder: string;
let path: string;
const said: string[] = [];
const start = (records: boolean) =>
  serve({
    port: 0,
    ledger: path,
    ...(records ? { folder } : {}),
    version: "0.1.0-test",
    page: null,
    log: (line) => said.push(line),
  });

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "padwright-ledger-"));
  path = join(folder, "park.sqlite");
  await writeFile(join(folder, "alder-flat.geojson"), JSON.stringify(EXAMPLE_COLLECTION));
});
afterAll(() => rm(folder, { recursive: true }));

describe("a server over a ledger", () => {
  it("brings a folder in once, never over what hosts wrote, and fits from the newest version", async () => {
    const first = await start(true);
    expect(said).toContain("Brought alder-flat into the ledger.");
    const { ledger, close } = openLedger(path);
    const token = freshToken();
    createToken(ledger, await sha256(token), { id: "t", name: "", grants: { "*": ["records"] }, expiresAt: null });
    close();
    const address = "/v1/campgrounds/alder-flat/sites/A7";
    const tag = (await fetch(first.address + address)).headers.get("etag") ?? "";
    const patch = { properties: { pad: { length: "20 ft" } } };
    const headers = { Authorization: `Bearer ${token}`, "Idempotency-Key": "k1", "If-Match": tag };
    const written = await fetch(first.address + address, {
      method: "PATCH",
      body: JSON.stringify(patch),
      headers: { ...headers, "Content-Type": "application/merge-patch+json" },
    });
    expect(await written.json()).toMatchObject({ written: true, version: 2, sites: { changed: ["A7"] } });
    await first.stop();
    said.length = 0;
    const second = await start(true);
    expect(said).toEqual([]);
    const rig = { class: "class-c", length: "25 ft", height: "11 ft" };
    const answer = await fetch(`${second.address}/v1/fit`, {
      method: "POST",
      body: JSON.stringify({ rig, site: { campground: "alder-flat", site: "A7" } }),
      headers: { "Content-Type": "application/json" },
    });
    expect(await answer.json()).toMatchObject({ verdict: "does not fit" });
    await second.stop();
  });

  it("lists the routes for hosts only where there is a ledger", async () => {
    const pathsOf = async (service: Awaited<ReturnType<typeof start>>) => {
      const document = (await (await fetch(`${service.address}/openapi.json`)).json()) as { paths: object };
      await service.stop();
      return Object.keys(document.paths);
    };
    const stays = "/v1/campgrounds/{id}/stays";
    expect(await pathsOf(await start(false))).toContain(stays);
    const plain = await serve({ port: 0, folder, version: "0", page: null, log: () => undefined });
    expect((await fetch(`${plain.address}/v1/campgrounds/alder-flat/stays`)).status).toBe(404);
    expect(await pathsOf(plain)).not.toContain(stays);
  });

  it("says plainly when the file is no ledger", async () => {
    const text = join(folder, "notes.sqlite");
    await writeFile(text, "this is no database, whatever its name says, and it is long enough to be read as one");
    expect(() => openLedger(text)).toThrow(`The ledger ${text} cannot be opened`);
    await expect(serve({ port: 0, ledger: text, version: "0", page: null })).rejects.toThrow("cannot be opened");
  });
});
