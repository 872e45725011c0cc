/** What was ticked off a pick list, kept on this device by booking and unit. */
import { makeStore } from "../state/store.ts";
import { wireOf } from "./files.ts";
import { readShelf, useWatched, writeShelf } from "./watched.ts";

const KEY = "padwright-packed";

interface PackedState {
  readonly lists: Readonly<Record<string, readonly string[]>>;
}

function readLists(): PackedState["lists"] {
  const lists = Object.entries(wireOf(readShelf(KEY)));
  return Object.fromEntries(lists.map(([key, ids]) => [key, Array.isArray(ids) ? ids.map(String) : []]));
}

const packed = makeStore<PackedState>({ lists: readLists() });

export function usePacked(list: string) {
  const { lists } = useWatched(packed);
  const ids: ReadonlySet<string> = new Set(lists[list] ?? []);
  const keep = (next: readonly string[]) => {
    const changed = { ...packed.get().lists, [list]: next };
    packed.set({ lists: changed });
    writeShelf(KEY, changed);
  };
  return {
    ids,
    tick: (id: string, on: boolean) => keep(on ? [...ids, id] : [...ids].filter((one) => one !== id)),
    clear: () => keep([]),
  };
}
