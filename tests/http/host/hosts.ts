/** An application over a ledger in memory with the example campground, and the tokens of its hosts. */
import { createApp, type Dependencies } from "../../../src/http/app.ts";
import type { WebTokens } from "../../../src/http/host/host.ts";
import { importRecords } from "../../../src/http/host/import-records.ts";
import { freshToken, sha256 } from "../../../src/http/host/local-tokens.ts";
import { openHost } from "../../../src/http/host/open.ts";
import { EXAMPLE_COLLECTION } from "../../../src/http/openapi/examples.ts";
import { createToken, type Grants } from "../../../src/ledger/tokens.ts";
import { emptyLedger, type TestLedger } from "../../ledger/ledgers.ts";

export const BASE = "/v1/campgrounds/alder-flat";
export const RIG = { class: "class-c", length: "25 ft", height: "11 ft", power: { plug: "nema-tt-30", cord: "25 ft" } };
export const stay = (id: string, arrival: string, departure: string, more: Record<string, unknown> = {}) => ({
  id,
  arrival,
  departure,
  rig: RIG,
  party: { name: "Wren Canary", phone: "+1 555 0100" },
  ...more,
});

export interface Hosts {
  readonly ledger: TestLedger;
  readonly app: ReturnType<typeof createApp>;
  readonly logged: unknown[];
  /** Makes a token with these scopes. */
  readonly token: (grants: Grants, expiresAt?: string | null) => Promise<string>;
  /** Sends as the office, which may do everything at Alder Flat. */
  readonly send: (method: string, path: string, body?: unknown, headers?: Record<string, string>) => Promise<Response>;
}

let keys = 0;
export const freshKey = (): string => {
  keys += 1;
  return `key-${keys}`;
};

export async function openHosts(
  more: Partial<Dependencies> & { webTokens?: WebTokens; path?: string } = {},
): Promise<Hosts> {
  const { webTokens, path, ...rest } = more;
  const ledger = emptyLedger(path);
  await importRecords(ledger, [{ name: "example", input: EXAMPLE_COLLECTION }]);
  const host = openHost(ledger, webTokens);
  const logged: unknown[] = [];
  let ids = 0;
  const app = createApp({
    store: host.records,
    host,
    clock: () => 0,
    now: ledger.now,
    requestId: () => {
      ids += 1;
      return `3a0c4d5e-6f70-4812-9a3b-${String(ids).padStart(12, "0")}`;
    },
    version: "0.1.0-test",
    log: (entry) => logged.push(entry),
    ...rest,
  });
  const token = async (grants: Grants, expiresAt: string | null = null) => {
    const text = freshToken();
    const hash = await sha256(text);
    createToken(ledger, hash, { id: hash.slice(0, 8), name: "test", grants, expiresAt });
    return text;
  };
  const office = await token({ "alder-flat": ["read", "stays", "records"] });
  const send: Hosts["send"] = async (method, address, body, headers = {}) => {
    const isText = typeof body === "string";
    const mediaType = isText ? "text/csv" : method === "PATCH" ? "application/merge-patch+json" : "application/json";
    return app.request(address.startsWith("/v1") ? address : BASE + address, {
      method,
      ...(body === undefined ? {} : { body: isText ? body : JSON.stringify(body) }),
      headers: {
        Authorization: `Bearer ${office}`,
        ...(method === "GET" ? {} : { "Idempotency-Key": freshKey() }),
        ...(body === undefined ? {} : { "Content-Type": mediaType }),
        ...headers,
      },
    });
  };
  return { ledger, app, logged, token, send };
}

/** The JSON of an answer of this status. */
export async function answered<T = Record<string, unknown>>(response: Response, status: number): Promise<T> {
  const text = await response.text();
  if (response.status !== status) throw new Error(`status ${response.status}, not ${status}: ${text.slice(0, 800)}`);
  return JSON.parse(text) as T;
}

interface Refused {
  readonly code: string;
  readonly errors: readonly {
    readonly code: string;
    readonly message: string;
    readonly pointer?: string;
    line?: number;
    column?: number;
  }[];
}

/** The problem of an answer of this status and code. */
export async function refused(response: Response, status: number, code: string): Promise<Refused> {
  const problem = await answered<Refused & { readonly type: string }>(response, status);
  if (problem.code !== code) throw new Error(`code ${problem.code}, not ${code}: ${JSON.stringify(problem)}`);
  if (response.headers.get("content-type") !== "application/problem+json") throw new Error("not a problem");
  return problem;
}
