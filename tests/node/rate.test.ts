/** Limits per caller on a real server: by address, and apart from it by a token that is believed. */
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { freshToken, sha256 } from "../../src/http/host/local-tokens.ts";
import { createToken } from "../../src/ledger/tokens.ts";
import { openLedger } from "../../src/node/ledger.ts";
import { type Service, serve } from "../../src/node/serve.ts";

let folder: string;
let service: Service;
const token = freshToken();

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "padwright-rate-"));
  const path = join(folder, "park.sqlite");
  const { ledger, close } = openLedger(path);
  createToken(ledger, await sha256(token), { id: "t", name: "", grants: { "*": ["read"] }, expiresAt: null });
  close();
  const rate = { quota: 2, window: 600 };
  service = await serve({ port: 0, ledger: path, version: "0", page: null, log: () => undefined, settings: {}, rate });
});
afterAll(async () => {
  await service.stop();
  await rm(folder, { recursive: true });
});

const ask = async (authorization?: string): Promise<number> => {
  const headers = authorization === undefined ? {} : { Authorization: authorization };
  return (await fetch(`${service.address}/v1/vocabulary`, { headers })).status;
};

describe("limits per caller", () => {
  it("count an address, whatever tokens it makes up, and a token that is believed by itself", async () => {
    expect([await ask(), await ask("Bearer made-up"), await ask(), await ask(`Bearer ${freshToken()}`)]).toEqual([
      200, 200, 429, 429,
    ]);
    expect([await ask(`Bearer ${token}`), await ask(`Bearer ${token}`), await ask(`Bearer ${token}`)]).toEqual([
      200, 200, 429,
    ]);
    expect((await fetch(`${service.address}/healthz`)).status).toBe(200);
  });
});
