/** What stays on the device: small things in localStorage, campground records in IndexedDB. Failing to keep never stops the page. */
import rentalCoach from "../../../data/demo/rigs/rental-coach.json" with { type: "json" };
import type { Language } from "../../trip/card/card.ts";
import type { SiteRow } from "../core/protocol.ts";
import { type Kept, NO_FILTERS } from "./store.ts";

const KEY = "padwright";
const DATABASE = "padwright";
const RECORDS = "campgrounds";
const RANKINGS = "rankings";

/** The device's language, when cards are written in it. */
function ownLanguage(): Language {
  const own = typeof navigator === "undefined" ? "" : navigator.language.slice(0, 2);
  return own === "es" || own === "fr" || own === "de" ? own : "en";
}

/** A first visit starts with an invented rig, so that there is something to see. */
function firstVisit(): Kept {
  const us = typeof navigator !== "undefined" && /^en-(US|LR)|^my\b/.test(navigator.language);
  return {
    rig: rentalCoach,
    units: us ? "us" : "metric",
    question: {},
    campground: null,
    filters: NO_FILTERS,
    order: "rank",
    chosen: [],
    fixes: {},
    wind: { kind: "none" },
    narrowView: "list",
    cardLanguage: ownLanguage(),
  };
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** What the last visit kept; what cannot be read is as on a first visit. */
export function readKept(): Kept {
  const first = firstVisit();
  try {
    const read: unknown = JSON.parse(localStorage.getItem(KEY) ?? "null");
    if (!isObject(read)) return first;
    const alike = (key: keyof Kept) =>
      key in read &&
      (first[key] === null || Array.isArray(first[key]) === Array.isArray(read[key])) &&
      (first[key] === null
        ? typeof read[key] === "string" || read[key] === null
        : typeof read[key] === typeof first[key]);
    const kept = Object.fromEntries(
      (Object.keys(first) as (keyof Kept)[]).filter(alike).map((key) => [key, read[key]]),
    );
    return { ...first, ...kept };
  } catch {
    return first;
  }
}

export function writeKept(kept: Kept): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(kept));
  } catch {
    // A full or forbidden store: the page goes on without remembering.
  }
}

export interface KeptCampground {
  readonly id: string;
  readonly name: string;
  readonly sites: number;
  /** The GeoJSON text as it was loaded. */
  readonly text: string;
}

function database(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const opening = indexedDB.open(DATABASE, 1);
    opening.onupgradeneeded = () => {
      opening.result.createObjectStore(RECORDS, { keyPath: "id" });
      opening.result.createObjectStore(RANKINGS);
    };
    opening.onsuccess = () => resolve(opening.result);
    opening.onerror = () => reject(opening.error);
  });
}

async function within<Result>(
  name: string,
  mode: IDBTransactionMode,
  ask: (records: IDBObjectStore) => IDBRequest<Result>,
): Promise<Result | null> {
  try {
    const open = await database();
    return await new Promise<Result | null>((resolve, reject) => {
      const request = ask(open.transaction(name, mode).objectStore(name));
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    }).finally(() => open.close());
  } catch {
    return null;
  }
}

export const keepCampground = (campground: KeptCampground) =>
  within(RECORDS, "readwrite", (records) => records.put(campground));
export const keptCampground = (id: string): Promise<KeptCampground | null> =>
  within<KeptCampground | undefined>(RECORDS, "readonly", (records) => records.get(id)).then((found) => found ?? null);
export const keptCampgrounds = (): Promise<readonly KeptCampground[]> =>
  within<KeptCampground[]>(RECORDS, "readonly", (records) => records.getAll()).then((found) => found ?? []);

interface KeptRanking {
  readonly key: string;
  readonly rows: readonly SiteRow[];
}

/** The slot of the last ranking; older ones are not worth their room. */
const LAST = "last";

/** Keeps the last ranking only, under everything that it depends on. */
export const keepRanking = (key: string, rows: readonly SiteRow[]) =>
  within(RANKINGS, "readwrite", (rankings) => rankings.put({ key, rows } satisfies KeptRanking, LAST));
export const keptRanking = (key: string): Promise<readonly SiteRow[] | null> =>
  within<KeptRanking | undefined>(RANKINGS, "readonly", (rankings) => rankings.get(LAST)).then((found) =>
    found?.key === key ? found.rows : null,
  );
