/** Makes what the routes for hosts are given from a ledger. */
import type { Ledger } from "../../ledger/ledger.ts";
import type { HostDependencies, WebTokens } from "./host.ts";
import { ledgerStore } from "./ledger-store.ts";

export function openHost(ledger: Ledger, webTokens?: WebTokens): HostDependencies {
  return {
    ledger,
    records: ledgerStore(ledger),
    underWay: new Set(),
    ...(webTokens === undefined ? {} : { webTokens }),
  };
}
