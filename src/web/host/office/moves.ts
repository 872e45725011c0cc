/** Moves that were worked out: in words, and made all at once or not at all. */
import { ask, campgroundPath, refusalWords } from "../api.ts";
import { type Book, rereadBook } from "../book.ts";
import type { WireMove } from "../core/protocol.ts";
import { stayName } from "../words.ts";

export function movesText(moves: readonly WireMove[], book: Book, nameOf: (site: string | null) => string): string {
  const who = (id: string) => {
    const stay = book.stays.find((one) => one.id === id);
    return stay === undefined ? "the walk-in" : stayName(stay);
  };
  const parts = moves.map(({ stay, from, to }) =>
    to === null
      ? `${who(stay)} loses ${nameOf(from)}`
      : from === null
        ? `${who(stay)} on ${nameOf(to)}`
        : `${who(stay)} from ${nameOf(from)} to ${nameOf(to)}`,
  );
  return `${parts.join(", ")}.`;
}

/** Sends moves and releases; null when all went well, else why not. */
export async function makeMoves(book: Book, moves: readonly WireMove[]): Promise<string | null> {
  const base = `${campgroundPath(book.campground)}/assignment`;
  const released = moves.flatMap(({ stay, from, to }) => (to === null && from !== null ? [{ stay, from }] : []));
  const placed = moves.filter(({ to }) => to !== null);
  try {
    if (released.length > 0) await ask(`${base}/release`, { method: "POST", body: { stays: released } });
    if (placed.length > 0) await ask(`${base}/move`, { method: "POST", body: { moves: placed } });
    return null;
  } catch (fault) {
    return refusalWords(fault);
  } finally {
    await rereadBook();
  }
}
