/**
 * The newest catalogue of an object source. It is asked for again after an interval; whoever reads from a store keeps
 * to the version that it was opened with, so that one answer never mixes two.
 */
import type { ObjectSource } from "./objects.ts";
import { type CatalogueStore, openCatalogue, pointedAt } from "./open.ts";

export interface CurrentCatalogue {
  /**
   * The store to answer with: at most `interval` older than the source, as long as the source can be reached. Throws
   * when no catalogue was ever opened.
   */
  get(): Promise<CatalogueStore>;
  /** Looks now; false when the newest was open already. Throws when the source cannot be read: the old one stays. */
  refresh(): Promise<boolean>;
}

export interface CurrentOptions {
  readonly source: ObjectSource;
  /** Milliseconds. */
  readonly interval: number;
  /** Milliseconds from any start. */
  readonly now: () => number;
  /** Told of a look that failed while an older catalogue goes on. */
  readonly report: (fault: unknown) => void;
}

export function currentCatalogue({ source, interval, now, report }: CurrentOptions): CurrentCatalogue {
  let open: CatalogueStore | null = null;
  let name = "";
  let looked = 0;

  const refresh = async (): Promise<boolean> => {
    looked = now();
    const newest = await pointedAt(source);
    if (open !== null && newest === name) return false;
    const fresh = await openCatalogue(source, { manifest: newest });
    open = fresh;
    name = newest;
    return true;
  };
  return {
    refresh,
    get: async () => {
      // Whoever comes while another one looks is answered from the old one: no request waits for the work of another.
      if (open === null) await refresh();
      else if (now() - looked >= interval) await refresh().catch(report);
      if (open === null) throw new Error("No catalogue is open.");
      return open;
    },
  };
}
