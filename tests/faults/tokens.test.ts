/** Tokens of an identity provider: expired, early, unsigned, signed with what is published, for others, and in floods. */
import { exportJWK, generateKeyPair, type JWTPayload, SignJWT, UnsecuredJWT } from "jose";
import { beforeAll, describe, expect, it } from "vitest";
import { webTokens } from "../../src/http/host/web-tokens.ts";
import { BASE, type Hosts, openHosts } from "../http/host/hosts.ts";
import { START } from "../ledger/ledgers.ts";

const ISSUER = "https://people.example";
const AUDIENCE = "padwright";
const KEYS = "https://people.example/keys";
const SECONDS = Math.floor(START / 1000);

let pair: Awaited<ReturnType<typeof generateKeyPair>>;
let stranger: Awaited<ReturnType<typeof generateKeyPair>>;
let published: Record<string, unknown>;
beforeAll(async () => {
  pair = await generateKeyPair("ES256", { extractable: true });
  stranger = await generateKeyPair("ES256");
  published = { ...(await exportJWK(pair.publicKey)), kid: "k1", alg: "ES256", use: "sig" };
});

const CLAIMS: JWTPayload = {
  iss: ISSUER,
  aud: AUDIENCE,
  sub: "wren",
  exp: SECONDS + 600,
  padwright: { "alder-flat": ["read"] },
};

const sign = (claims: JWTPayload = CLAIMS, header: Record<string, unknown> = {}, key = pair.privateKey) =>
  new SignJWT(claims).setProtectedHeader({ alg: "ES256", kid: "k1", ...header } as { alg: string }).sign(key);
const without = (claim: string): JWTPayload =>
  Object.fromEntries(Object.entries(CLAIMS).filter(([name]) => name !== claim));

interface Provider {
  asked: number;
  answer: () => Promise<Response>;
}

/** Hosts that believe a provider, which can be told how to answer; and a clock for both. */
async function withProvider(): Promise<Hosts & { provider: Provider; status: (token: string) => Promise<number> }> {
  const provider: Provider = { asked: 0, answer: async () => Response.json({ keys: [published] }) };
  let hosts: Hosts | undefined;
  const fetch = async () => {
    provider.asked += 1;
    return provider.answer();
  };
  const now = () => hosts?.ledger.at ?? START;
  hosts = await openHosts({ webTokens: webTokens({ keys: KEYS, issuer: ISSUER, audience: AUDIENCE, now, fetch }) });
  const { app } = hosts;
  const status = async (token: string) =>
    (await app.request(`${BASE}/stays`, { headers: { Authorization: `Bearer ${token}` } })).status;
  return { ...hosts, provider, status };
}

describe("a token of the identity provider", () => {
  it("is believed when it is signed, in time and for us, and gives the scopes of its claim", async () => {
    const { status, app, ledger } = await withProvider();
    expect(await status(await sign())).toBe(200);
    expect(await status(await sign({ ...CLAIMS, padwright: { "*": ["read"] } }))).toBe(200);
    expect(await status(await sign({ ...CLAIMS, padwright: { "alder-flat": ["stays"] } }))).toBe(403);
    expect(await status(await sign({ ...CLAIMS, padwright: { elsewhere: ["read"] } }))).toBe(404);
    expect(await status(await sign(without("padwright")))).toBe(404);
    const token = await sign({ ...CLAIMS, padwright: { "alder-flat": ["stays", "read"] } });
    const hold = { id: "h1", site: "A7", arrival: "2027-06-01", departure: "2027-06-02" };
    const made = await app.request(`${BASE}/holds`, {
      method: "POST",
      body: JSON.stringify(hold),
      headers: { Authorization: `bearer ${token}`, "Idempotency-Key": "k", "Content-Type": "application/json" },
    });
    expect(made.status).toBe(201);
    expect(ledger.sql.get("SELECT actor FROM change_entry WHERE kind = 'hold'")?.["actor"]).toBe(`${ISSUER} wren`);
  });

  it("is 401 with a challenge when anything about it is wrong", async () => {
    const { status, app } = await withProvider();
    const shared = new TextEncoder().encode(JSON.stringify(published));
    const raw = (await exportJWK(pair.publicKey)).x ?? "";
    const good = await sign();
    const [head = "", body = "", mark = ""] = good.split(".");
    const wrong: Record<string, string> = {
      "expired beyond the leeway": await sign({ ...CLAIMS, exp: SECONDS - 61 }),
      "not yet valid": await sign({ ...CLAIMS, nbf: SECONDS + 61 }),
      "without an end": await sign(without("exp")),
      "without a subject": await sign(without("sub")),
      "with an empty subject": await sign({ ...CLAIMS, sub: "" }),
      "of another issuer": await sign({ ...CLAIMS, iss: "https://others.example" }),
      "without an issuer": await sign(without("iss")),
      "for others": await sign({ ...CLAIMS, aud: "others" }),
      "without an audience": await sign(without("aud")),
      "signed by a stranger": await sign(CLAIMS, {}, stranger.privateKey),
      "with an unknown key": await sign(CLAIMS, { kid: "k9" }),
      "without a key id": await sign(CLAIMS, { kid: undefined }),
      unsigned: new UnsecuredJWT(CLAIMS).encode(),
      "HS256 with the published key": await new SignJWT(CLAIMS)
        .setProtectedHeader({ alg: "HS256", kid: "k1" })
        .sign(shared),
      "HS256 with the key's own bytes": await new SignJWT(CLAIMS)
        .setProtectedHeader({ alg: "HS256", kid: "k1" })
        .sign(new TextEncoder().encode(raw.padEnd(32, "0"))),
      altered: `${head}.${btoa(JSON.stringify({ ...CLAIMS, padwright: { "*": ["records"] } })).replaceAll("=", "")}.${mark}`,
      cut: `${head}.${body}.`,
      "with scopes that are none": await sign({ ...CLAIMS, padwright: { "alder-flat": ["admin"] } }),
      "with scopes as text": await sign({ ...CLAIMS, padwright: "alder-flat" }),
      garbage: "a.b.c",
      "a megabyte": "x".repeat(1_000_000),
    };
    for (const [what, token] of Object.entries(wrong)) {
      const response = await app.request(`${BASE}/stays`, { headers: { Authorization: `Bearer ${token}` } });
      expect([what, response.status]).toEqual([what, 401]);
      expect(response.headers.get("www-authenticate")).toContain('error="invalid_token"');
    }
    expect(await status(await sign({ ...CLAIMS, exp: SECONDS - 59 }))).toBe(200);
    expect(await status(await sign({ ...CLAIMS, nbf: SECONDS + 59 }))).toBe(200);
  });

  it("makes one request for keys in a cool-down, whatever keys are asked for", async () => {
    const { status, provider, ledger } = await withProvider();
    for (let n = 0; n < 50; n += 1) expect(await status(await sign(CLAIMS, { kid: `flood-${n}` }))).not.toBe(200);
    expect(await status(await sign())).toBe(200);
    expect(provider.asked).toBe(1);
    ledger.at += 29_000;
    for (let n = 0; n < 50; n += 1) await status(await sign(CLAIMS, { kid: `late-${n}` }));
    expect(provider.asked).toBe(1);
  });

  it("makes one request in a cool-down too while the provider is down, and says 503 meanwhile", async () => {
    const { status, provider, ledger } = await withProvider();
    const good = provider.answer;
    const broken: (() => Promise<Response>)[] = [
      () => Promise.reject(new TypeError("connection refused")),
      async () => new Response("down", { status: 500 }),
      async () => new Response("<html>", { headers: { "Content-Type": "text/html" } }),
      async () => Response.json({ keys: "none" }),
      async () => Response.redirect("http://169.254.169.254/keys", 302),
    ];
    let expected = 0;
    for (const answer of broken) {
      provider.answer = answer;
      expected += 1;
      for (let n = 0; n < 20; n += 1) expect(await status(await sign())).toBe(503);
      expect(provider.asked).toBe(expected);
      ledger.at += 30_000;
    }
    provider.answer = good;
    expect(await status(await sign({ ...CLAIMS, exp: SECONDS + 6000 }))).toBe(200);
    // A clock that is put back does not lock the keys out.
    ledger.at -= 3_600_000;
    expect(await status(await sign({ ...CLAIMS, exp: SECONDS + 6000 }))).toBe(200);
  });
});
