/**
 * Widths of the card's face. It is set in Arial or a face of the same metrics (Liberation Sans, Helvetica), whose
 * widths are those of Helvetica's published metrics, from memory, in thousandths of the size; a test holds them to a
 * browser's own.
 */
const WIDTHS: readonly (readonly [number, string])[] = [
  [191, "'"],
  [222, "ijl"],
  [278, " ftI.,:;!/\\[]|\u00a0"],
  [333, "r()-\u201c\u201d\u201e"],
  [355, '"\u2022'],
  [500, "cksvxyzJ"],
  [584, "+=<>~"],
  [611, "FTZ"],
  [667, "ABEKPSVXY&"],
  [722, "CDHNRUw"],
  [778, "GOQ"],
  [833, "mM"],
  [889, "%"],
  [944, "W"],
  [1000, "\u2192\u2026\u2610@"],
];
const USUAL = 556;
const PER_SIZE = 1000;
/** Bold is wider by this share, and narrow letters by this much; and a little air for what a printer rounds. */
const BOLD = 1.1;
const BOLD_NARROW = 56;
const NARROW = /[ijlftr]/;
const AIR = 1.01;
const FIRST_IDEOGRAPH = 0x2e80;

const OF_LETTER = new Map(WIDTHS.flatMap(([width, letters]) => [...letters].map((letter) => [letter, width] as const)));

function widthOf(character: string): number {
  if ((character.codePointAt(0) ?? 0) >= FIRST_IDEOGRAPH) return PER_SIZE;
  return OF_LETTER.get(character) ?? USUAL;
}

function boldWidthOf(character: string): number {
  const width = widthOf(character);
  return Math.max(width * BOLD, NARROW.test(character) ? width + BOLD_NARROW : 0);
}

/** Upper estimate of the width of a row, in the unit of the size. */
export function faceWidth(text: string, size: number, bold: boolean): number {
  let sum = 0;
  // A letter with an accent is as wide as without: the accents come apart and count nothing.
  for (const character of text.normalize("NFD").replace(/\p{Mn}/gu, ""))
    sum += bold ? boldWidthOf(character) : widthOf(character);
  return (sum / PER_SIZE) * size * AIR;
}
