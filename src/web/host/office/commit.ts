/** Writes a small change and its moves, in the order in which each step is possible. */
import { ask, campgroundPath, refusalWords } from "../api.ts";
import { type Book, type HostClosure, type HostStay, rereadBook } from "../book.ts";
import type { WireMove } from "../core/protocol.ts";
import { makeMoves } from "./moves.ts";

export type Draft =
  | { readonly kind: "walk-in"; readonly stay: HostStay }
  | { readonly kind: "failed"; readonly closure: HostClosure; readonly sites: readonly string[] }
  | { readonly kind: "later"; readonly stay: HostStay; readonly departure: string };

/** Null when all was written; else what was not, and what was. */
export async function commit(book: Book, draft: Draft, moves: readonly WireMove[]): Promise<string | null> {
  const base = campgroundPath(book.campground);
  try {
    if (draft.kind === "walk-in") {
      const { id, arrival, departure, rig } = draft.stay;
      await ask(`${base}/stays`, { method: "POST", body: { id, arrival, departure, rig } });
      const words = await makeMoves(book, moves);
      return words === null ? null : `The walk-in is entered and has no site yet. ${words}`;
    }
    if (draft.kind === "failed") {
      const { id, site, outlet, firstNight, until, why } = draft.closure;
      const what = site === null ? { outlet } : { site };
      await ask(`${base}/closures`, { method: "POST", body: { id, ...what, firstNight, until, why } });
      const words = await makeMoves(book, moves);
      return words === null ? null : `The closure is entered, nobody is moved. ${words}`;
    }
    // The others go first: the longer nights are refused while somebody else has one of them.
    const words = moves.length === 0 ? null : await makeMoves(book, moves);
    if (words !== null) return words;
    const { body } = await ask<{ readonly version: number }>(`${base}/stays/${encodeURIComponent(draft.stay.id)}`);
    await ask(`${base}/stays/${encodeURIComponent(draft.stay.id)}`, {
      method: "PATCH",
      body: { departure: draft.departure },
      match: `"${body.version}"`,
    });
    return null;
  } catch (fault) {
    return refusalWords(fault);
  } finally {
    await rereadBook();
  }
}
