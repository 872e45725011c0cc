/**
 * The ledger: what a campground's hosts enter and decide. Reading functions may be called at any time; those that
 * write are called inside `sql.transaction`, so that an effect, its log entry and the answer kept for a repeated
 * request stand or fall together.
 */
import type { SqlDriver } from "./driver.ts";

export interface Ledger {
  readonly sql: SqlDriver;
  /** Milliseconds since 1970 UTC. */
  readonly now: () => number;
}

/** Who writes, and in which campground. */
export interface Act {
  readonly campground: string;
  /** Subject of the token; never a person's name of ours. */
  readonly actor: string;
}

export type RefusalCode =
  /** The thing that the call names is not there. */
  | "absent"
  /** Something of this id is there already. */
  | "exists"
  /** It has changed since the caller looked. */
  | "changed"
  /** Another stay or a hold has the site or the outlet on one of the nights. */
  | "taken"
  /** The site or the outlet is closed on one of the nights. */
  | "closed"
  /** The host has promised this site to the stay. */
  | "locked"
  /** The stay's status does not allow it. */
  | "wrong-status"
  /** Stays or holds that are not over need it. */
  | "in-use";

export interface RefusalPart {
  readonly code: RefusalCode;
  readonly message: string;
  /** JSON Pointer below the thing that was sent; empty for the whole. */
  readonly pointer: string;
}

/** Thrown when the ledger cannot do what it is told; the transaction around it is undone. */
export class LedgerRefusal extends Error {
  readonly code: RefusalCode;

  constructor(readonly parts: readonly [RefusalPart, ...RefusalPart[]]) {
    super(parts[0].message);
    this.code = parts[0].code;
  }
}

export function refuse(code: RefusalCode, message: string, pointer = ""): never {
  throw new LedgerRefusal([{ code, message, pointer }]);
}

/** The ledger's present instant, as it is stored: ISO 8601 in UTC. */
export const instant = (ledger: Ledger): string => new Date(ledger.now()).toISOString();
