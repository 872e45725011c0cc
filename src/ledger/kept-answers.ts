/**
 * Answers kept for repeated requests: a write names a key, its answer is stored in the transaction of its effect, and
 * the same request under the same key gets the same bytes again without a second effect.
 */
import { numberOf, textOf } from "./driver.ts";
import { instant, type Ledger } from "./ledger.ts";

export interface KeptAnswer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string;
}

const HOUR = 3_600_000;
/** Promised is a day; the rest is room for clocks that were put right meanwhile. */
const KEPT_FOR = 72 * HOUR;
/** Rows removed at one write, so that none pays for many. */
const PURGED_AT_ONCE = 20;

/** The answer under a key; `other` when the key was used for another request; null when it is new. */
export function keptAnswer(ledger: Ledger, tenant: string, key: string, request: string): KeptAnswer | "other" | null {
  const row = ledger.sql.get("SELECT * FROM kept_answer WHERE tenant = ? AND key = ?", tenant, key);
  if (row === null) return null;
  if (textOf(row, "request") !== request) return "other";
  return {
    status: numberOf(row, "status"),
    headers: JSON.parse(textOf(row, "headers")) as Readonly<Record<string, string>>,
    body: textOf(row, "body"),
  };
}

/**
 * Keeps an answer, and forgets some of those that are older than three days.
 *
 * @param request Digest of everything that makes the request what it is.
 */
export function keepAnswer(ledger: Ledger, tenant: string, key: string, request: string, answer: KeptAnswer): void {
  ledger.sql.run(
    `DELETE FROM kept_answer WHERE (tenant, key) IN
       (SELECT tenant, key FROM kept_answer WHERE at < ? ORDER BY at LIMIT ?)`,
    new Date(ledger.now() - KEPT_FOR).toISOString(),
    PURGED_AT_ONCE,
  );
  ledger.sql.run(
    "INSERT INTO kept_answer (tenant, key, request, at, status, headers, body) VALUES (?, ?, ?, ?, ?, ?, ?)",
    tenant,
    key,
    request,
    instant(ledger),
    answer.status,
    JSON.stringify(answer.headers),
    answer.body,
  );
}
