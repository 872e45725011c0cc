/** The known word nearest to an unknown one, for "did you mean". */

/** Words further apart than this share of their length are not offered. */
const FARTHEST_SHARE = 0.5;
const LONGEST_WORD = 64;

/** Null when nothing known is near. */
export function nearestWord(word: string, known: Iterable<string>): string | null {
  if (word.length > LONGEST_WORD) return null;
  let best: string | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of known) {
    const distance = editDistance(word.toLowerCase(), candidate.toLowerCase());
    if (distance < least && distance <= Math.max(word.length, candidate.length) * FARTHEST_SHARE) {
      best = candidate;
      least = distance;
    }
  }
  return best;
}

/** Levenshtein distance: insertions, deletions and replacements of one character. */
function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 0; i < a.length; i += 1) {
    const next = [i + 1];
    for (let j = 0; j < b.length; j += 1) {
      const replaced = (row[j] ?? 0) + (a[i] === b[j] ? 0 : 1);
      next.push(Math.min(replaced, (row[j + 1] ?? 0) + 1, (next[j] ?? 0) + 1));
    }
    row = next;
  }
  return row[b.length] ?? 0;
}
