/** The known word that a mistyped one most likely meant. */

/** Edits that turn one word into the other: insert, delete, replace, or swap two neighbours. */
export function editDistance(from: string, to: string): number {
  const rows: number[][] = [Array.from({ length: to.length + 1 }, (_, column) => column)];
  for (let row = 1; row <= from.length; row += 1) {
    const above = rows[row - 1] ?? [];
    const current = [row];
    for (let column = 1; column <= to.length; column += 1) {
      const replaced = (above[column - 1] ?? 0) + (from[row - 1] === to[column - 1] ? 0 : 1);
      const deleted = (above[column] ?? 0) + 1;
      const inserted = (current[column - 1] ?? 0) + 1;
      const swaps = row > 1 && column > 1 && from[row - 1] === to[column - 2] && from[row - 2] === to[column - 1];
      const swapped = swaps ? (rows[row - 2]?.[column - 2] ?? 0) + 1 : replaced;
      current.push(Math.min(replaced, deleted, inserted, swapped));
    }
    rows.push(current);
  }
  return rows[from.length]?.[to.length] ?? 0;
}

const LONGEST_WORD = 64;
/** A word of three letters may be wrong in one of them, a long one in a third. */
const SHARE_OF_EDITS = 3;

/** Case, hyphens, underscores and spaces do not tell words apart here. */
function bare(word: string): string {
  return word.toLowerCase().replace(/[^a-z0-9]/g, "");
}

/** The nearest known word, or null when none is near enough to be what was meant. */
export function nearest(word: string, known: readonly string[]): string | null {
  const wanted = bare(word.slice(0, LONGEST_WORD));
  if (wanted === "") return null;
  let best: { readonly word: string; readonly distance: number } | null = null;
  for (const candidate of known) {
    const plain = bare(candidate);
    const contained = plain.includes(wanted) || wanted.includes(plain);
    // "tt30" is meant as "nema-tt-30" although most letters are missing; a plain edit still goes before that.
    const edits = editDistance(wanted, plain);
    const distance =
      contained && Math.min(wanted.length, plain.length) >= SHARE_OF_EDITS
        ? Math.min(edits, 1 + edits / LONGEST_WORD)
        : edits;
    if (distance <= Math.max(1, wanted.length / SHARE_OF_EDITS) && (!best || distance < best.distance)) {
      best = { word: candidate, distance };
    }
  }
  return best?.word ?? null;
}
