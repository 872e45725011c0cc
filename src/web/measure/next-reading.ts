/** What to measure next, and what each mark still lacks. */
import type { Solved } from "./solve-walk.ts";
import { labelOf, type Walk } from "./walk.ts";

export interface Pair {
  readonly from: string;
  readonly to: string;
}

const CORNERS = ["rear-left", "rear-right", "exit-left", "exit-right"] as const;
/** Tapes to a mark from which on another one only checks. */
const FIXED_BY = 2;

const joins = (pair: Pair, a: string, b: string): boolean =>
  (pair.from === a && pair.to === b) || (pair.from === b && pair.to === a);
const has = (walk: Walk, a: string, b: string): boolean => walk.readings.some((reading) => joins(reading, a, b));

/** Marks to which a mark has tapes. */
function partners(walk: Walk, id: string): string[] {
  const found = walk.readings.flatMap(({ from, to }) => (from === id ? [to] : to === id ? [from] : []));
  return [...new Set(found)];
}

function cornersFor(walk: Walk, solved: Solved, id: string): string[] {
  const known = solved.corners.map((corner) => corner.id);
  // Without any size the rear corners are the next that will be known.
  const usable = known.length === 0 ? ["rear-left", "rear-right"] : known;
  return usable.filter((corner) => !has(walk, id, corner));
}

/** The reading that helps most: the pad's width and length, then two tapes to each mark, then one that checks. */
export function nextReading(walk: Walk, solved: Solved): Pair | null {
  if (solved.width === null || !(solved.width.taped || has(walk, "rear-left", "rear-right"))) {
    if (!has(walk, "rear-left", "rear-right")) return { from: "rear-left", to: "rear-right" };
  }
  if ((solved.length === null || !solved.length.taped) && !has(walk, "rear-left", "exit-left"))
    return { from: "rear-left", to: "exit-left" };
  const free = walk.marks.filter(({ kind }) => kind !== "corner");
  const offset = new Set(walk.offsets.map(({ mark }) => mark));
  const placed = new Set(solved.places.map(({ id }) => id));
  for (const tapes of [FIXED_BY, FIXED_BY + 1]) {
    for (const { id, kind } of free) {
      const enough = kind === "wheel-stop" ? tapes - 1 : tapes;
      if (partners(walk, id).length >= enough || (offset.has(id) && placed.has(id))) continue;
      const [corner] = cornersFor(walk, solved, id);
      if (corner !== undefined) return { from: id, to: corner };
    }
  }
  return has(walk, "rear-left", "exit-right") ? null : { from: "rear-left", to: "exit-right" };
}

/** What a mark lacks, in words; null when its place is known. A question about two places is no lack. */
export function lackOf(walk: Walk, solved: Solved, id: string): string | null {
  const mark = walk.marks.find((one) => one.id === id);
  if (mark === undefined || mark.kind === "corner") return null;
  if (solved.places.some((one) => one.id === id) || solved.questions.some((one) => one.id === id)) return null;
  const offset = walk.offsets.find((one) => one.mark === id);
  if (offset !== undefined) return "The pad's width is needed first: rear left to rear right corner.";
  const tapes = partners(walk, id);
  if (mark.kind === "wheel-stop" && tapes.length === 0) return "One distance from a corner to its middle.";
  if (tapes.length === 0) return "Two distances, from two corners.";
  const unknown = tapes.filter(
    (one) => !solved.places.some((place) => place.id === one) && !CORNERS.some((corner) => corner === one),
  );
  if (unknown.length > 0)
    return `The place of the ${labelOf(walk, unknown[0] as string)} is needed first, or a distance from a corner.`;
  if (tapes.length === 1)
    return `One more distance, from another corner than the ${labelOf(walk, tapes[0] as string)}.`;
  if (solved.width === null || solved.length === null) return "The pad's width and length are needed first.";
  return "Its tapes lie nearly in one line: one more distance, from a corner on another side.";
}
