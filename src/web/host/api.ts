/**
 * What the page asks the server as a host: the token of this sitting with every call, a key of its own with every
 * write, and whatever is refused in the server's words. Addresses carry ids alone, never a guest's name.
 */
import { makeStore } from "../state/store.ts";

const TOKEN_KEY = "padwright-host-token";

function readToken(): string | null {
  try {
    return sessionStorage.getItem(TOKEN_KEY);
  } catch {
    return null;
  }
}

export interface Sitting {
  /** The token, until the tab is closed; null when nobody has signed in. */
  readonly token: string | null;
  /** Why the last token is not used any more. */
  readonly why: string | null;
}

export const sitting = makeStore<Sitting>({ token: readToken(), why: null });

/** Keeps the token for this tab alone; null forgets it. */
export function signIn(token: string | null, why: string | null = null): void {
  try {
    if (token === null) sessionStorage.removeItem(TOKEN_KEY);
    else sessionStorage.setItem(TOKEN_KEY, token);
  } catch {
    // Without a store the token lasts until the page is loaded anew.
  }
  sitting.set({ token, why });
}

export interface HostFault {
  readonly code: string;
  readonly message: string;
  readonly pointer?: string;
}

/** A refusal of the server, or no answer at all (status 0). */
export class HostRefusal extends Error {
  constructor(
    readonly status: number,
    readonly code: string,
    message: string,
    readonly faults: readonly HostFault[] = [],
  ) {
    super(message);
  }

  get isOffline(): boolean {
    return this.status === 0;
  }
}

const UNAUTHORIZED = 401;
const NOT_FOUND = 404;
const PRECONDITION_FAILED = 412;

export const isStale = (fault: unknown): boolean =>
  fault instanceof HostRefusal && fault.status === PRECONDITION_FAILED;

/** Every sentence of a refusal, for the reader. */
export function refusalWords(fault: unknown): string {
  if (!(fault instanceof HostRefusal)) return fault instanceof Error ? fault.message : String(fault);
  const parts = fault.faults.map(({ message }) => message).filter((message) => message !== fault.message);
  return [fault.message, ...new Set(parts)].join(" ");
}

export interface Asked {
  readonly method?: "GET" | "POST" | "PUT" | "PATCH" | "DELETE";
  /** Value sent as JSON. */
  readonly body?: unknown;
  readonly match?: string;
  /** The same key for a write that is sent again; default: a fresh one. */
  readonly key?: string;
  readonly accept?: string;
  readonly signal?: AbortSignal;
}

/** A key that no other write has. */
export const freshKey = (): string => {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
};

function headersOf({ method = "GET", body, match, key, accept = "application/json" }: Asked): Record<string, string> {
  const { token } = sitting.get();
  return {
    Accept: accept,
    ...(token === null ? {} : { Authorization: `Bearer ${token}` }),
    ...(method === "GET" ? {} : { "Idempotency-Key": key ?? freshKey() }),
    ...(body === undefined
      ? {}
      : { "Content-Type": method === "PATCH" ? "application/merge-patch+json" : "application/json" }),
    ...(match === undefined ? {} : { "If-Match": match }),
  };
}

interface WireProblem {
  readonly code?: string;
  readonly detail?: string;
  readonly title?: string;
  readonly errors?: readonly HostFault[];
}

async function refusalOf(response: Response): Promise<HostRefusal> {
  const problem = (await response.json().catch(() => ({}))) as WireProblem;
  const words = problem.detail ?? problem.title ?? `The server answers with status ${response.status}.`;
  return new HostRefusal(response.status, problem.code ?? "unknown", words, problem.errors ?? []);
}

/** Sends; throws a HostRefusal for whatever is no success. A token that is not believed is forgotten. */
export async function send(path: string, asked: Asked = {}): Promise<Response> {
  const { method = "GET", body, signal } = asked;
  const response = await fetch(`./v1${path}`, {
    method,
    headers: headersOf(asked),
    cache: "no-store",
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    ...(signal === undefined ? {} : { signal }),
  }).catch((fault: unknown) => {
    if (fault instanceof DOMException && fault.name === "AbortError") throw fault;
    throw new HostRefusal(0, "out-of-reach", "The server cannot be reached now. Nothing was changed.");
  });
  if (response.ok) return response;
  const refusal = await refusalOf(response);
  if (response.status === UNAUTHORIZED && sitting.get().token !== null) {
    signIn(
      null,
      "This token is not believed here any more: it has expired, was revoked, or belongs to another server.",
    );
  }
  throw refusal;
}

export interface Answer<Body> {
  readonly body: Body;
  readonly tag: string | null;
}

/** An answer that was compressed on its way bears its tag as a weak one; what was read is the same thing. */
const strongTag = (tag: string | null): string | null => tag?.replace(/^W\//, "") ?? null;

export async function ask<Body>(path: string, asked: Asked = {}): Promise<Answer<Body>> {
  const response = await send(path, asked);
  return { body: (await response.json()) as Body, tag: strongTag(response.headers.get("ETag")) };
}

export const campgroundPath = (campground: string): string => `/campgrounds/${encodeURIComponent(campground)}`;

/** Words for a sign-in that was refused. */
export function signInWords(fault: unknown, name: string): string {
  if (!(fault instanceof HostRefusal)) return refusalWords(fault);
  switch (fault.status) {
    case UNAUTHORIZED:
      return "This token is not believed here: it has expired, was revoked, or belongs to another server.";
    case NOT_FOUND:
      return `This token is for another campground, or this server keeps no book of stays for ${name}.`;
    default:
      return refusalWords(fault);
  }
}
