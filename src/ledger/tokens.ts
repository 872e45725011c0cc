/**
 * Tokens that the command line makes. The ledger keeps the SHA-256 of a token and never the token: whoever reads the
 * file cannot use what is in it.
 */
import { type SqlRow, textOf, textOrNull } from "./driver.ts";
import { instant, type Ledger } from "./ledger.ts";

export const SCOPES = ["read", "stays", "records"] as const;
export type Scope = (typeof SCOPES)[number];

/** Scopes by campground id; the id `*` stands for every campground. */
export type Grants = Readonly<Record<string, readonly Scope[]>>;

export interface TokenEntry {
  readonly id: string;
  /** What it is for, in the words of whoever made it. */
  readonly name: string;
  readonly grants: Grants;
  readonly createdAt: string;
  readonly expiresAt: string | null;
  readonly revokedAt: string | null;
}

/** @param hash SHA-256 of the whole token, in lower case hexadecimal. */
export function createToken(
  ledger: Ledger,
  hash: string,
  token: Pick<TokenEntry, "id" | "name" | "grants" | "expiresAt">,
): void {
  ledger.sql.run(
    "INSERT INTO token (id, hash, name, grants, created_at, expires_at, revoked_at) VALUES (?, ?, ?, ?, ?, ?, NULL)",
    token.id,
    hash,
    token.name,
    JSON.stringify(token.grants),
    instant(ledger),
    token.expiresAt,
  );
}

/** The token of a hash, when it is neither revoked nor expired. */
export function validToken(ledger: Ledger, hash: string): TokenEntry | null {
  const row = ledger.sql.get(
    "SELECT * FROM token WHERE hash = ? AND revoked_at IS NULL AND (expires_at IS NULL OR expires_at > ?)",
    hash,
    instant(ledger),
  );
  return row === null ? null : tokenOf(row);
}

export function listTokens(ledger: Ledger): readonly TokenEntry[] {
  return ledger.sql.all("SELECT * FROM token ORDER BY created_at, id").map(tokenOf);
}

/** False when there is no such token. One that is revoked already keeps its first date. */
export function revokeToken(ledger: Ledger, id: string): boolean {
  const row = ledger.sql.get(
    "UPDATE token SET revoked_at = coalesce(revoked_at, ?) WHERE id = ? RETURNING id",
    instant(ledger),
    id,
  );
  return row !== null;
}

function tokenOf(row: SqlRow): TokenEntry {
  return {
    id: textOf(row, "id"),
    name: textOf(row, "name"),
    grants: JSON.parse(textOf(row, "grants")) as Grants,
    createdAt: textOf(row, "created_at"),
    expiresAt: textOrNull(row, "expires_at"),
    revokedAt: textOrNull(row, "revoked_at"),
  };
}
