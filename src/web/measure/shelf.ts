/** Where measured sites are kept on the device. Small and apart: most visitors have measured nothing. */

export const MEASURED_KEY = "padwright-measured";

/** The part of `Storage` that is needed; a browser may have none. */
export interface Shelf {
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
}

export function shelfHere(): Shelf | null {
  try {
    return localStorage;
  } catch {
    return null;
  }
}

/** True when something was ever measured here. */
export function hasMeasured(shelf = shelfHere()): boolean {
  try {
    return (shelf?.getItem(MEASURED_KEY) ?? null) !== null;
  } catch {
    return false;
  }
}
