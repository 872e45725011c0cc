/**
 * Late arrivals that this device gave a site. Without signal they wait here and their sites are given to nobody else;
 * with signal each is entered once, under a key of its own, and what the server refuses is shown.
 */
import { readShelf, writeShelf } from "../../desk/watched.ts";
import { makeStore } from "../../state/store.ts";
import { ask, campgroundPath, freshKey, HostRefusal, refusalWords } from "../api.ts";
import type { Span } from "../book.ts";

export interface LateArrival extends Span {
  /** Id of the stay. */
  readonly id: string;
  readonly campground: string;
  readonly site: string;
  readonly rig: Readonly<Record<string, unknown>>;
  readonly stayKey: string;
  readonly moveKey: string;
  /** Why the server would not have it; null while it was not asked. */
  readonly refused: string | null;
}

const SHELF = "padwright-late-arrivals";
const KEY_SHOWN = 8;

const read = (): readonly LateArrival[] => {
  const kept = readShelf(SHELF);
  return Array.isArray(kept) ? (kept as LateArrival[]) : [];
};

export const lateArrivals = makeStore<{ readonly waiting: readonly LateArrival[] }>({ waiting: read() });

function setWaiting(waiting: readonly LateArrival[]): void {
  lateArrivals.set({ waiting });
  writeShelf(SHELF, waiting);
}

export function lateArrival(campground: string, site: string, span: Span, rig: LateArrival["rig"]): LateArrival {
  const stayKey = freshKey();
  const { arrival, departure } = span;
  const id = `gate-${arrival}-${stayKey.slice(0, KEY_SHOWN)}`;
  return { id, campground, site, arrival, departure, rig, stayKey, moveKey: freshKey(), refused: null };
}

export type Entered = "entered" | "waits" | "refused";

/** Enters the stay and gives it its site; it waits when the server cannot be reached. */
export async function enter(one: LateArrival): Promise<Entered> {
  const others = () => lateArrivals.get().waiting.filter(({ id }) => id !== one.id);
  setWaiting([...others(), one]);
  const base = campgroundPath(one.campground);
  const { id, arrival, departure, rig, site } = one;
  try {
    await ask(`${base}/stays`, {
      method: "POST",
      key: one.stayKey,
      body: { id, arrival, departure, status: "in-house", rig },
    });
    await ask(`${base}/assignment/move`, {
      method: "POST",
      key: one.moveKey,
      body: { moves: [{ stay: id, from: null, to: site }] },
    });
    setWaiting(others());
    return "entered";
  } catch (fault) {
    if (fault instanceof HostRefusal && fault.isOffline) return "waits";
    setWaiting([...others(), { ...one, refused: refusalWords(fault) }]);
    return "refused";
  }
}

/** Tries all that wait, one after the other. */
export async function enterAll(): Promise<void> {
  for (const one of lateArrivals.get().waiting) await enter(one);
}

/** Takes one from the list: the host has settled it by hand. */
export function dropLate(id: string): void {
  setWaiting(lateArrivals.get().waiting.filter((one) => one.id !== id));
}
