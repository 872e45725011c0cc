/** Brings records from files into a ledger that does not have them yet; what a ledger has is never overwritten. */
import type { Ledger } from "../../ledger/ledger.ts";
import { recordVersion, writeRecord } from "../../ledger/records.ts";
import { memoryStore, type RecordSource, type RefusedSource } from "../../records/store.ts";
import { featureId } from "../../site/feature.ts";
import { recordParts } from "./record-input.ts";
import { todayAt } from "./today.ts";

/** Who the log names for what came from files. */
const IMPORT = "import";

export interface Imported {
  /** Ids of the campgrounds that were written. */
  readonly written: readonly string[];
  readonly refused: readonly RefusedSource[];
}

export async function importRecords(ledger: Ledger, sources: readonly RecordSource[]): Promise<Imported> {
  const { store, refused } = await memoryStore(sources);
  const written: string[] = [];
  const left: RefusedSource[] = [...refused];
  for (const { id } of await store.list()) {
    const stored = await store.get(id);
    if (stored === null) continue;
    const parts = recordParts(stored);
    const nameless = stored.features.some(
      (feature, index) =>
        parts.features[index]?.site === null && feature.properties["kind"] === "site" && featureId(feature) === null,
    );
    const ids = parts.features.flatMap(({ site }) => (site === null ? [] : [site]));
    if (nameless || new Set(ids).size < ids.length) {
      left.push({ name: id, why: "A ledger wants an id of its own for every site." });
      continue;
    }
    const isNew = ledger.sql.transaction(() => {
      if (recordVersion(ledger, id) !== null) return false;
      writeRecord(ledger, { campground: id, actor: IMPORT }, parts, null, todayAt(ledger, stored));
      return true;
    });
    if (isNew) written.push(id);
  }
  return { written, refused: left };
}
