/** Who asks, for the limits: the bearer of a token that is believed, or else whoever is at the address. */
import { validToken } from "../../ledger/tokens.ts";
import type { HostDependencies } from "../host/host.ts";
import { isLocalToken, sha256 } from "../host/local-tokens.ts";

const LONGEST_TOKEN = 8192;

/** A token that is not believed counts for nothing: it could be a new one with every request. */
export async function callerKey(request: Request, address: string, host: HostDependencies | null): Promise<string> {
  const header = request.headers.get("authorization") ?? "";
  const [, token] = /^Bearer +([\x21-\x7e]+)$/i.exec(header.length > LONGEST_TOKEN ? "" : header) ?? [];
  if (token === undefined || host === null) return `address ${address}`;
  if (isLocalToken(token)) {
    const entry = validToken(host.ledger, await sha256(token));
    return entry === null ? `address ${address}` : `token ${entry.id}`;
  }
  // When the keys of the provider cannot be had, the route itself says so.
  const principal = await host.webTokens?.(token).catch(() => null);
  return principal === null || principal === undefined ? `address ${address}` : `subject ${principal.subject}`;
}
