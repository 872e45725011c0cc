/** Whose tokens are believed at the edge: those that the settings list, and those of an identity provider. */
import * as z from "zod";
import type { WebTokens } from "../http/host/host.ts";
import { isLocalToken, sha256 } from "../http/host/local-tokens.ts";
import { webTokens } from "../http/host/web-tokens.ts";
import type { SqlDriver } from "../ledger/driver.ts";
import type { Ledger } from "../ledger/ledger.ts";
import { createToken, SCOPES } from "../ledger/tokens.ts";
import type { EdgeSettings } from "./settings.ts";

const listed = z.array(
  z.strictObject({
    id: z.string().min(1),
    hash: z.string().regex(/^[0-9a-f]{64}$/),
    name: z.string(),
    grants: z.record(z.string(), z.array(z.enum(SCOPES))),
    expiresAt: z.iso.datetime().nullable(),
  }),
);
export type ListedToken = z.infer<typeof listed>[number];

/** Throws when the setting is not the list that it should be; it is never quoted. */
export function listedTokens({ HOST_TOKENS }: EdgeSettings): readonly ListedToken[] {
  if (HOST_TOKENS === undefined || HOST_TOKENS.trim() === "") return [];
  try {
    return listed.parse(JSON.parse(HOST_TOKENS));
  } catch {
    throw new Error("HOST_TOKENS is no list of {id, hash, name, grants, expiresAt}.");
  }
}

export function webTokensOf(settings: EdgeSettings): WebTokens | undefined {
  const { TOKEN_KEYS: keys, TOKEN_ISSUER: issuer, TOKEN_AUDIENCE: audience } = settings;
  if (!keys && !issuer && !audience) return undefined;
  if (!keys || !issuer || !audience) throw new Error("TOKEN_KEYS, TOKEN_ISSUER and TOKEN_AUDIENCE go together.");
  return webTokens({ keys, issuer, audience, now: () => Date.now() });
}

/**
 * True when the bearer is known, whatever they may do. The object of a campground is not woken for others: each would
 * cost storage for an id that anybody can make up.
 */
export async function isKnownCaller(
  request: Request,
  tokens: readonly ListedToken[],
  web: WebTokens | undefined,
): Promise<boolean> {
  const [, token] = /^Bearer +([\x21-\x7e]{1,8192})$/i.exec(request.headers.get("authorization") ?? "") ?? [];
  if (token === undefined) return false;
  if (!isLocalToken(token)) return (await web?.(token).catch(() => null)) != null;
  const hash = await sha256(token);
  return tokens.some((one) => one.hash === hash);
}

/** Makes the ledger's tokens those of the settings; writes nothing when they are. */
export function settleTokens(ledger: Ledger, tokens: readonly ListedToken[]): void {
  const wanted = JSON.stringify(
    [...tokens]
      .sort((a, b) => (a.id < b.id ? -1 : 1))
      .map(({ id, hash, name, grants, expiresAt }) => [id, hash, name, JSON.stringify(grants), expiresAt]),
  );
  if (wanted === JSON.stringify(present(ledger.sql))) return;
  ledger.sql.transaction(() => {
    ledger.sql.run("DELETE FROM token");
    for (const { hash, ...token } of tokens) createToken(ledger, hash, token);
  });
}

const present = (sql: SqlDriver) =>
  sql
    .all("SELECT id, hash, name, grants, expires_at FROM token ORDER BY id")
    .map((row) => [row["id"], row["hash"], row["name"], row["grants"], row["expires_at"]]);
