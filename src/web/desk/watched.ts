/** A store of its own kind, watched by a component. */
import { useEffect, useState } from "preact/hooks";
import type { Store } from "../state/store.ts";

export function useWatched<State>(store: Store<State>): State {
  const [, redraw] = useState(0);
  useEffect(() => store.subscribe(() => redraw((count) => count + 1)), [store]);
  return store.get();
}

/** What a key of this device's storage holds; null when it holds nothing that can be read. */
export function readShelf(key: string): unknown {
  try {
    return JSON.parse(localStorage.getItem(key) ?? "null");
  } catch {
    return null;
  }
}

export function writeShelf(key: string, value: unknown): void {
  try {
    localStorage.setItem(key, JSON.stringify(value));
  } catch {
    // A full or forbidden storage: the page goes on without remembering.
  }
}
