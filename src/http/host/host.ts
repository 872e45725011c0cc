/** What the routes for hosts are given: the ledger, and whose tokens are believed. */
import type { Ledger } from "../../ledger/ledger.ts";
import type { Grants } from "../../ledger/tokens.ts";
import type { LedgerStore } from "./ledger-store.ts";

export interface HostDependencies {
  readonly ledger: Ledger;
  /** The records of the ledger; the store of the application too. */
  readonly records: LedgerStore;
  /** Tokens of an identity provider; absent, only tokens of the command line are believed. */
  readonly webTokens?: WebTokens;
  /** Requests under way that carry an Idempotency-Key; one set for one process. */
  readonly underWay: Set<string>;
}

/** Checks a JSON Web Token; null when it is not to be believed. Throws only when the keys cannot be had. */
export type WebTokens = (token: string) => Promise<Principal | null>;

/** Who calls, as far as the host routes care. */
export interface Principal {
  /** Names the caller in the log and keeps their keys apart from those of others. */
  readonly subject: string;
  readonly grants: Grants;
}
