/** Opens the ledger of a file: brought to the present schema, ready for the application and for the command line. */
import type { Ledger } from "../ledger/ledger.ts";
import { migrate } from "../ledger/migrate.ts";
import { openLedgerFile } from "./ledger-driver.ts";

export interface OpenLedger {
  readonly ledger: Ledger;
  readonly close: () => void;
}

/** Makes the file when it is not there. Throws with a plain sentence when it cannot be used. */
export function openLedger(path: string): OpenLedger {
  try {
    const { sql, close } = openLedgerFile(path);
    try {
      migrate(sql);
    } catch (fault) {
      close();
      throw fault;
    }
    return { ledger: { sql, now: () => Date.now() }, close };
  } catch (fault) {
    throw new Error(`The ledger ${path} cannot be opened: ${fault instanceof Error ? fault.message : String(fault)}`, {
      cause: fault,
    });
  }
}
