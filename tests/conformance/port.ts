/** The HTTP contract as a list of cases that know nothing of where they run: each sends requests and looks at answers. */
import { expect } from "vitest";
import { freshToken } from "../../src/http/host/local-tokens.ts";
import { EXAMPLE_COLLECTION } from "../../src/http/openapi/examples.ts";

/** Whatever JSON may be: the cases look into it. */
export type Json = ReturnType<typeof JSON.parse>;
export type Call = (request: Request) => Promise<Response>;

/** One place under test. It holds the example campground, and believes the token for every campground. */
export interface World {
  readonly call: Call;
  readonly token: string;
  /** Solver that /v1/limits names: the one difference between places. */
  readonly exactSolver: "none" | "highs";
}

export interface Case {
  readonly name: string;
  /** Routes that it holds to the contract, as "GET /healthz". */
  readonly routes: readonly string[];
  readonly run: (send: Sender, world: World) => Promise<void>;
}

export interface Sent {
  readonly status: number;
  readonly headers: Headers;
  readonly text: string;
  /** Throws when the text is no JSON. */
  readonly body: () => Json;
}

export interface SendOptions {
  readonly body?: unknown;
  readonly type?: string;
  readonly headers?: Readonly<Record<string, string>>;
  /** True to come as the host. */
  readonly host?: boolean;
}

export type Sender = (method: string, path: string, options?: SendOptions) => Promise<Sent>;

export const ORIGIN = "http://pad.test";
export const TOKEN = freshToken();
let keys = 0;

export function senderFor({ call, token }: World): Sender {
  return async (method, path, { body, type = "application/json", headers = {}, host = false } = {}) => {
    keys += 1;
    const response = await call(
      new Request(ORIGIN + path, {
        method,
        ...(body === undefined ? {} : { body: typeof body === "string" ? body : JSON.stringify(body) }),
        headers: {
          ...(body === undefined ? {} : { "Content-Type": type }),
          ...(host ? { Authorization: `Bearer ${token}` } : {}),
          ...(host && method !== "GET" ? { "Idempotency-Key": `conformance-${keys}` } : {}),
          ...headers,
        },
      }),
    );
    const text = await response.text();
    return { status: response.status, headers: response.headers, text, body: () => JSON.parse(text) };
  };
}

/** Fails unless the answer has the status; gives its JSON. */
export function ok(sent: Sent, status = 200): Json {
  if (sent.status !== status) throw new Error(`status ${sent.status}, not ${status}: ${sent.text.slice(0, 600)}`);
  return sent.body();
}

export function refused(sent: Sent, status: number, code: string): Json {
  const problem = ok(sent, status);
  expect([problem.code, sent.headers.get("content-type")]).toEqual([code, "application/problem+json"]);
  expect(problem.instance).toBe(`urn:uuid:${sent.headers.get("request-id")}`);
  return problem;
}

/** A GET that is asked again with the tag that it gave. */
export async function conditional(send: Sender, path: string, options: SendOptions = {}): Promise<Sent> {
  const first = await send("GET", path, options);
  expect([path, first.status, first.text.slice(0, first.status === 200 ? 0 : 300)]).toEqual([path, 200, ""]);
  // A compressed answer has a weak tag, which compares all the same.
  const tag = first.headers.get("etag") ?? "";
  expect(tag).toMatch(/^(W\/)?".+"$/);
  const again = await send("GET", path, { ...options, headers: { ...options.headers, "If-None-Match": tag } });
  expect([path, again.status, again.text]).toEqual([path, 304, ""]);
  return first;
}

let camps = 0;

/** A campground of its own for a case that writes; gives its address. */
export async function ownCamp(send: Sender): Promise<string> {
  camps += 1;
  const id = `conformance-${camps}`;
  const [first, second] = EXAMPLE_COLLECTION.features;
  const campground = { ...EXAMPLE_COLLECTION.campground, id };
  const base = `/v1/campgrounds/${id}`;
  const written = await send("PUT", base, {
    host: true,
    body: { ...EXAMPLE_COLLECTION, campground, features: [first, second] },
    headers: { "If-None-Match": "*" },
  });
  expect(ok(written, 201)).toMatchObject({ written: true, version: 1 });
  return base;
}
