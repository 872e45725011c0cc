/**
 * Every write of a host runs here: admitted, tried once for each Idempotency-Key, and stored with its answer in one
 * transaction. A write that is refused leaves nothing behind, its key included: it may be sent again.
 */
import { type KeptAnswer, keepAnswer, keptAnswer } from "../../ledger/kept-answers.ts";
import { type Act, type Ledger, LedgerRefusal } from "../../ledger/ledger.ts";
import type { Scope } from "../../ledger/tokens.ts";
import { type BodyRule, bodyMediaType, bodyText } from "../body.ts";
import { negotiate } from "../negotiate.ts";
import { refuseParameters } from "../parameters.ts";
import { Problem } from "../problem.ts";
import type { Call } from "../route.ts";
import { admit, requireCampground } from "./admit.ts";
import type { HostDependencies } from "./host.ts";
import { sha256 } from "./local-tokens.ts";
import { databaseProblem, refusalProblem } from "./refusals.ts";

export const JSON_TYPE = "application/json";

/** One write under way. */
export interface Writing {
  readonly call: Call;
  readonly host: HostDependencies;
  readonly ledger: Ledger;
  readonly campground: string;
  readonly act: Act;
  /** Media type and text of the body; empty when the route takes none. */
  readonly mediaType: string;
  readonly text: string;
}

export interface WriteAnswer {
  readonly status: number;
  readonly body: unknown;
  readonly headers?: Readonly<Record<string, string>>;
  /** True for a preview: what was done is undone, and no key is kept. */
  readonly isPreview?: boolean;
}

/** The part that runs inside the transaction. It must not wait for anything. */
export type Effect = () => WriteAnswer;

/** Thrown by an effect when what it was made ready from has changed meanwhile: it is made ready anew. */
export class MadeReadyTooEarly extends Error {}

/** Carries the answer of a preview out of the transaction that it undoes. */
class Undone extends Error {
  constructor(readonly answer: KeptAnswer) {
    super();
  }
}

const LONGEST_KEY = 255;
const TRIES = 5;

export interface WriteRule {
  readonly scope: Scope;
  /** Null for a route without a body. */
  readonly body: BodyRule | null;
  /** JSON Pointer, in the body, of what the ledger is given. */
  readonly base: string;
  /** Query parameters that the route knows. */
  readonly parameters: readonly string[];
  /** True when the campground need not be there yet. */
  readonly mayBeNew: boolean;
}

/** Admits the caller and runs one write. `prepare` checks the body and does all that takes time. */
export async function write(
  call: Call,
  rule: WriteRule,
  prepare: (writing: Writing) => Effect | Promise<Effect>,
): Promise<Response> {
  const host = hostOf(call);
  const campground = call.params["id"] ?? "";
  const principal = await admit(call, host, campground, rule.scope);
  const key = readKey(call.request);
  negotiate(call.request.headers.get("accept"), [JSON_TYPE]);
  refuseParameters(call.url, rule.parameters, call.limits.parameterLength);
  if (!rule.mayBeNew) asProblems(rule, () => requireCampground(host, campground));
  const mediaType = rule.body === null ? "" : bodyMediaType(call.request, rule.body);
  const text = rule.body === null ? "" : await bodyText(call.request, rule.body);
  const tenant = `${campground} ${principal.subject}`;
  const digest = await requestDigest(call, mediaType, text);
  const { ledger, underWay } = host;
  const writing: Writing = {
    call,
    host,
    ledger,
    campground,
    act: { campground, actor: principal.subject },
    mediaType,
    text,
  };
  const known = asProblems(rule, () => repeated(ledger, tenant, key, digest));
  if (known !== null) return respond(known, true);
  const running = `${tenant} ${key}`;
  if (underWay.has(running)) throw inProgress();
  underWay.add(running);
  try {
    return await settle(rule, writing, { tenant, key, digest }, prepare);
  } finally {
    underWay.delete(running);
  }
}

interface Identity {
  readonly tenant: string;
  readonly key: string;
  readonly digest: string;
}

async function settle(
  rule: WriteRule,
  writing: Writing,
  { tenant, key, digest }: Identity,
  prepare: (writing: Writing) => Effect | Promise<Effect>,
): Promise<Response> {
  const { ledger } = writing;
  for (let tries = 1; ; tries += 1) {
    const effect = await prepare(writing);
    try {
      return asProblems(rule, () =>
        ledger.sql.transaction(() => {
          // Another process may have done it since we looked.
          const known = repeated(ledger, tenant, key, digest);
          if (known !== null) return respond(known, true);
          const { status, body, headers = {}, isPreview = false } = effect();
          const answer: KeptAnswer = { status, headers, body: JSON.stringify(body) };
          if (isPreview) throw new Undone(answer);
          keepAnswer(ledger, tenant, key, digest, answer);
          return respond(answer, false);
        }),
      );
    } catch (fault) {
      if (fault instanceof Undone) return respond(fault.answer, false);
      if (!(fault instanceof MadeReadyTooEarly)) throw fault;
      if (tries >= TRIES) throw new Problem("busy", "Others keep changing this.", [], { "Retry-After": "1" });
    }
  }
}

export function hostOf(call: Call): HostDependencies {
  if (call.host === null) throw new Error("A route for hosts without a ledger.");
  return call.host;
}

function asProblems<T>(rule: WriteRule, work: () => T): T {
  try {
    return work();
  } catch (fault) {
    throw fault instanceof LedgerRefusal ? refusalProblem(fault, rule.base) : databaseProblem(fault);
  }
}

/** The answer kept under the key; throws when the key was used for another request. */
function repeated(ledger: Ledger, tenant: string, key: string, digest: string): KeptAnswer | null {
  const known = keptAnswer(ledger, tenant, key, digest);
  if (known !== "other") return known;
  throw new Problem("idempotency-key-reused", "This key was used for another request.", [
    { header: KEY_HEADER, code: "reused", message: "Used for another request.", expected: "a fresh key" },
  ]);
}

const KEY_HEADER = "Idempotency-Key";

/** The key of a request; one in double quotes (a structured header string) is the same as without them. */
function readKey(request: Request): string {
  const given = request.headers.get(KEY_HEADER)?.trim() ?? "";
  const key = /^"(.*)"$/.exec(given)?.[1] ?? given;
  if (/^[\x21-\x7e]+$/.test(key) && key.length <= LONGEST_KEY) return key;
  throw new Problem("idempotency-key-missing", "Every write names a key of its own, such as a UUID.", [
    {
      header: KEY_HEADER,
      code: given === "" ? "missing" : "bad-form",
      message: given === "" ? "This header is missing." : "This key is not accepted.",
      expected: `1 to ${LONGEST_KEY} visible ASCII characters`,
    },
  ]);
}

function inProgress(): Problem {
  return new Problem("request-in-progress", "The first request under this key is still under way.", [], {
    "Retry-After": "1",
  });
}

/** Everything that makes a request what it is; a header that is not looked at may differ. */
function requestDigest({ request, url }: Call, mediaType: string, text: string): Promise<string> {
  const named = ["if-match", "if-none-match"].map((name) => request.headers.get(name));
  return sha256(JSON.stringify([request.method, url.pathname, url.search, mediaType, ...named, text]));
}

function respond({ status, headers, body }: KeptAnswer, isRepeated: boolean): Response {
  return new Response(body, {
    status,
    headers: {
      ...headers,
      "Content-Type": JSON_TYPE,
      "Cache-Control": "no-store",
      ...(isRepeated ? { "Idempotency-Replayed": "true" } : {}),
    },
  });
}
