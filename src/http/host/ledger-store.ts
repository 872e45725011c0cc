/** The campground store over a ledger: the newest version of every record, read once for each version. */
import type { Ledger } from "../../ledger/ledger.ts";
import { listRecords, readRecord, recordVersion } from "../../ledger/records.ts";
import { type CampgroundStore, readStored, type StoredCampground } from "../../records/store.ts";
import { entityTag } from "../representation.ts";
import { sha256 } from "./local-tokens.ts";

interface Kept {
  readonly version: number;
  readonly stored: StoredCampground;
  readonly tag: string;
}

export interface LedgerStore extends CampgroundStore {
  /** A campground as the store holds it, with the number of its version and the entity tag of its document. */
  kept(id: string): Promise<Kept | null>;
}

/** Campgrounds whose read form is kept in memory; others are read again when they are asked for. */
const MOST_KEPT = 200;
const VERSION_DIGITS = 24;

export function ledgerStore(ledger: Ledger): LedgerStore {
  const cache = new Map<string, Kept>();
  const kept = async (id: string): Promise<Kept | null> => {
    const version = recordVersion(ledger, id);
    if (version === null) return null;
    const known = cache.get(id);
    if (known?.version === version) return known;
    const fresh = await readKept(ledger, id, version);
    cache.delete(id);
    cache.set(id, fresh);
    for (const oldest of cache.keys()) {
      if (cache.size <= MOST_KEPT) break;
      cache.delete(oldest);
    }
    return fresh;
  };
  return {
    kept,
    get: async (id) => (await kept(id))?.stored ?? null,
    list: async () => {
      const summaries = [];
      for (const { id } of listRecords(ledger)) {
        const one = await kept(id);
        if (one !== null) summaries.push(one.stored.summary);
      }
      return summaries;
    },
    version: async () => (await sha256(JSON.stringify(listRecords(ledger)))).slice(0, VERSION_DIGITS),
  };
}

async function readKept(ledger: Ledger, id: string, version: number): Promise<Kept> {
  const record = readRecord(ledger, id, version);
  const stored = record === null ? "it is not there" : await readStored(record.document);
  // What is in the ledger was read before it was written: this means a changed reader or a damaged file.
  if (typeof stored === "string") throw new Error(`Version ${version} of ${id} cannot be read: ${stored}`);
  return { version, stored, tag: await documentTag(stored) };
}

/** Entity tag of a campground's document: the one that reading it gives. */
export const documentTag = (stored: StoredCampground): Promise<string> =>
  entityTag(new TextEncoder().encode(JSON.stringify(stored.document)));
