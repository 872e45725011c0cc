/** The records that hosts write, as the worker sees them: the directory, and each campground's own object. */
import { type CampgroundStore, readStored, type StoredCampground } from "../records/store.ts";
import type { DirectoryAnswer, DirectoryEntry } from "./directory-object.ts";
import { DIRECTORY_NAME, INSIDE, RECORD_PATH } from "./names.ts";
import type { ObjectNamespace } from "./settings.ts";

export interface HostRecords extends CampgroundStore {
  /** A host has written through this place: look again at the next question. */
  readonly expire: () => void;
}

interface Options {
  readonly campgrounds: ObjectNamespace;
  readonly directory: ObjectNamespace;
  /** Milliseconds between two looks into the directory. */
  readonly interval: number;
  readonly now: () => number;
  readonly report: (fault: unknown) => void;
}

interface Kept {
  readonly version: number;
  readonly stored: StoredCampground;
}

/** Records kept in memory. */
const MOST_KEPT = 64;

export function hostRecords({ campgrounds, directory, interval, now, report }: Options): HostRecords {
  const entries = new Map<string, DirectoryEntry>();
  const kept = new Map<string, Kept>();
  let number: number | null = null;
  let looked = Number.NEGATIVE_INFINITY;

  const fetchNewer = async (): Promise<void> => {
    looked = now();
    const stub = directory.get(directory.idFromName(DIRECTORY_NAME));
    const reply = await stub.fetch(`${INSIDE}?since=${number ?? 0}`);
    if (!reply.ok) throw new Error(`The directory answered ${reply.status}.`);
    const answer = (await reply.json()) as DirectoryAnswer;
    for (const entry of answer.entries) entries.set(entry.id, entry);
    number = Math.max(number ?? 0, answer.number);
  };
  const look = async (): Promise<void> => {
    // Without any list a record of a host would be taken for one of the catalogue: that is no answer.
    if (number === null) await fetchNewer();
    else if (now() - looked >= interval) await fetchNewer().catch(report);
  };
  const read = async (id: string, version: number): Promise<StoredCampground> => {
    const known = kept.get(id);
    if (known !== undefined && known.version >= version) {
      kept.delete(id);
      kept.set(id, known);
      return known.stored;
    }
    const fresh = await readRecord(campgrounds, id);
    kept.delete(id);
    kept.set(id, fresh);
    for (const oldest of kept.keys()) {
      if (kept.size <= MOST_KEPT) break;
      kept.delete(oldest);
    }
    return fresh.stored;
  };
  return {
    expire: () => {
      looked = Number.NEGATIVE_INFINITY;
    },
    list: async () => {
      await look();
      return [...entries.values()].map(({ summary }) => summary).sort((a, b) => (a.id < b.id ? -1 : 1));
    },
    get: async (id) => {
      await look();
      const entry = entries.get(id);
      return entry === undefined ? null : read(id, entry.version);
    },
    version: async () => {
      await look();
      return String(number);
    },
  };
}

async function readRecord(campgrounds: ObjectNamespace, id: string): Promise<Kept> {
  const reply = await campgrounds.get(campgrounds.idFromName(id)).fetch(new URL(RECORD_PATH, INSIDE).href);
  if (!reply.ok) throw new Error(`The object of a campground answered ${reply.status}.`);
  const { version, document } = (await reply.json()) as { readonly version: number; readonly document: unknown };
  const stored = await readStored(document);
  if (typeof stored === "string") throw new Error(`Version ${version} of ${id} cannot be read: ${stored}`);
  return { version, stored };
}
