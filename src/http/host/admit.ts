/**
 * Who may come in: the bearer of a token that is believed, to the campgrounds that it names, for the scopes that it
 * names. A campground that the token has nothing to do with is answered like one that is not there, before anything
 * is looked up, so that neither words nor time tell them apart.
 */
import { recordVersion } from "../../ledger/records.ts";
import { type Grants, type Scope, validToken } from "../../ledger/tokens.ts";
import { Problem } from "../problem.ts";
import type { Call } from "../route.ts";
import type { HostDependencies, Principal } from "./host.ts";
import { isLocalToken, sha256 } from "./local-tokens.ts";
import { KeysOutOfReach } from "./web-tokens.ts";

const LONGEST_TOKEN = 8192;
const ANY_CAMPGROUND = "*";

/** The caller, when they may do what `scope` says here. Throws the problem otherwise. */
export async function admit(call: Call, host: HostDependencies, campground: string, scope: Scope): Promise<Principal> {
  const principal = await authenticate(call.request, host);
  const scopes = scopesOf(principal.grants, campground);
  if (scopes.length === 0) throw absentCampground();
  if (!scopes.includes(scope)) {
    throw new Problem("forbidden", `This token lacks the scope ${scope} here.`, [], {
      "WWW-Authenticate": `Bearer realm="padwright", error="insufficient_scope", scope="${scope}"`,
    });
  }
  return principal;
}

export const absentCampground = (): Problem =>
  new Problem("not-found", "There is no campground of this id, or this token has nothing to do with it.");

/** Throws when the ledger does not hold the campground. */
export function requireCampground(host: HostDependencies, campground: string): void {
  if (recordVersion(host.ledger, campground) === null) throw absentCampground();
}

function scopesOf(grants: Grants, campground: string): readonly Scope[] {
  const own = Object.hasOwn(grants, campground) ? (grants[campground] ?? []) : [];
  const everywhere = Object.hasOwn(grants, ANY_CAMPGROUND) ? (grants[ANY_CAMPGROUND] ?? []) : [];
  return [...own, ...everywhere];
}

async function authenticate(request: Request, host: HostDependencies): Promise<Principal> {
  const header = request.headers.get("authorization");
  if (header === null) throw unauthorized("This route wants a bearer token in the Authorization header.", null);
  const [, token = ""] = /^Bearer +([\x21-\x7e]+)$/i.exec(header.length > LONGEST_TOKEN ? "" : header) ?? [];
  const principal = token === "" ? null : await principalOf(token, host);
  if (principal === null) throw unauthorized("This token is not believed here: it may be expired.", "invalid_token");
  return principal;
}

async function principalOf(token: string, { ledger, webTokens }: HostDependencies): Promise<Principal | null> {
  if (isLocalToken(token)) {
    const entry = validToken(ledger, await sha256(token));
    return entry === null ? null : { subject: `token ${entry.id}`, grants: entry.grants };
  }
  if (webTokens === undefined) return null;
  try {
    return await webTokens(token);
  } catch (fault) {
    if (!(fault instanceof KeysOutOfReach)) throw fault;
    throw new Problem("busy", "The keys that tokens are checked with cannot be had now.", [], { "Retry-After": "30" });
  }
}

function unauthorized(detail: string, error: string | null): Problem {
  const reason = error === null ? "" : `, error="${error}"`;
  return new Problem("unauthorized", detail, [], { "WWW-Authenticate": `Bearer realm="padwright"${reason}` });
}
