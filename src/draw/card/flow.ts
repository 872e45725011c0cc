/**
 * The card's rows set in two columns of one sheet. Widths are upper estimates (text.ts), so that what fits here fits
 * in a browser; the size of the text is the largest at which everything stays on the sheet.
 */
import { faceWidth } from "./face.ts";
import type { CardPart, CardRow, RowStyle } from "./parts.ts";

/** Points, as the page has them: beneath the smallest nobody reads it at arm's length. */
const LARGEST = 10.5;
const SMALLEST = 7;
const STEP = 0.1;
/** CSS pixels in a point. */
export const PIXELS_PER_POINT = 96 / 72;

/** The sheet that A4 and Letter both hold within margins of 7 mm: as narrow as A4, as low as Letter. CSS pixels. */
export const SHEET = { width: 739, height: 995, gap: 16 } as const;

/** Height of a line as a multiple of its size, as the page sets it. */
export const LEADING = 1.16;
const INDENT = 1.5;
const TITLE_SCALE = 1.08;
const TITLE_ABOVE = 0.4;
const TITLE_BELOW = 0.2;

export interface Piece {
  readonly text: string;
  readonly style: RowStyle;
  readonly x: number;
}

export interface SetLine {
  readonly column: 0 | 1;
  /** Upper edge, pixels from the top of the columns. */
  readonly top: number;
  readonly size: number;
  /** Part whose title this is. */
  readonly title: boolean;
  /** Id of the row that begins here; null within one. */
  readonly row: string | null;
  readonly mark: string | null;
  readonly pieces: readonly Piece[];
}

export interface SetCard {
  readonly points: number;
  readonly lines: readonly SetLine[];
  /** Height of the taller column. */
  readonly height: number;
}

interface Loose extends Omit<SetLine, "column" | "top"> {
  readonly above: number;
  readonly height: number;
  /** Stays with what follows. */
  readonly keep: boolean;
}

const BOX = "\u2610";

const isBold = (style: RowStyle): boolean => style === "strong";

/** The words of a row as lines of pieces, none wider than the room. */
function wrapped(row: CardRow, size: number, indent: number, room: number): Piece[][] {
  const lines: Piece[][] = [[]];
  let x = 0;
  const space = faceWidth(" ", size, false);
  for (const { text, style } of row.pieces) {
    for (const word of text.split(" ")) {
      const width = faceWidth(word, size, isBold(style));
      const line = lines.at(-1) ?? [];
      if (x > 0 && x + width > room) {
        lines.push([{ text: word, style, x: indent }]);
        x = width + space;
        continue;
      }
      const last = line.at(-1);
      if (last !== undefined && last.style === style) line[line.length - 1] = { ...last, text: `${last.text} ${word}` };
      else line.push({ text: word, style, x: indent + x });
      x += width + space;
    }
  }
  return lines;
}

function markOf(row: CardRow, number: number): string | null {
  if (row.mark === "number") return `${number}.`;
  return row.mark === "dot" ? "\u2022" : null;
}

/** Boxes to tick follow each other in one row. */
function inOneRow(rows: readonly CardRow[]): CardRow[] {
  const boxes = rows.filter(({ mark }) => mark === "box");
  const [first] = boxes;
  if (first === undefined) return [...rows];
  const pieces = boxes.flatMap((row) => [{ text: BOX, style: "plain" as const }, ...row.pieces]);
  return [{ id: first.id, mark: "none", pieces }, ...rows.filter(({ mark }) => mark !== "box")];
}

function looseLines(part: CardPart, size: number, width: number): Loose[] {
  const title: Loose = {
    size: size * TITLE_SCALE,
    title: true,
    row: part.id,
    mark: null,
    pieces: [{ text: part.title, style: "strong", x: 0 }],
    above: size * TITLE_ABOVE,
    height: size * (TITLE_SCALE * LEADING + TITLE_BELOW),
    keep: true,
  };
  const ordered = part.rows.some(({ mark }) => mark === "number");
  let number = 0;
  const rows = inOneRow(part.rows).flatMap((row) => {
    if (row.mark === "number") number += 1;
    const indent = row.mark === "none" ? 0 : INDENT * size;
    const set = wrapped(row, size, indent, width - indent);
    return set.map(
      (pieces, index): Loose => ({
        size,
        title: false,
        row: index === 0 ? row.id : null,
        mark: index === 0 ? markOf(row, number) : null,
        pieces,
        above: 0,
        height: size * LEADING,
        // A row is not torn between the columns, and what heads an order stays with its first step.
        keep: index < set.length - 1 || (ordered && row.mark === "none"),
      }),
    );
  });
  return [title, ...rows];
}

/** Lines put one under the other, in the second column from where the first is full; null when both are. */
function placed(lines: readonly Loose[], taken: number, room: number): SetCard["lines"] | null {
  const set: SetLine[] = [];
  let column: 0 | 1 = 0;
  let top = taken;
  for (let from = 0; from < lines.length; ) {
    let to = from;
    while (lines[to]?.keep === true) to += 1;
    const group = lines.slice(from, to + 1);
    const height = group.reduce((sum, { above, height: own }) => sum + above + own, 0);
    if (top + height > room) {
      if (column === 1) return null;
      column = 1;
      top = 0;
    }
    for (const { above, height: own, keep: _keep, ...line } of group) {
      set.push({ ...line, column, top: top + above });
      top += above + own;
    }
    from = to + 1;
  }
  return set;
}

const bottomOf = ({ top, size }: SetLine): number => top + size * LEADING;

/**
 * @param taken Height that the first column loses to the plan, pixels.
 * @param room Height of the columns, pixels.
 */
export function setCard(parts: readonly CardPart[], taken: number, room: number): SetCard {
  const width = (SHEET.width - SHEET.gap) / 2;
  const attempt = (points: number, height: number): SetCard | null => {
    const size = points * PIXELS_PER_POINT;
    const lines = placed(
      parts.flatMap((part) => looseLines(part, size, width)),
      taken,
      height,
    );
    return lines === null ? null : { points, lines, height: Math.max(taken, ...lines.map(bottomOf)) };
  };
  for (let points = LARGEST; points > SMALLEST - STEP / 2; points -= STEP) {
    const set = attempt(points, room);
    if (set !== null) return set;
  }
  // Too much for one sheet at a size that can be read: it grows, rather than lose a word.
  for (let height = room + SHEET.height / 4; ; height += SHEET.height / 4) {
    const set = attempt(SMALLEST, height);
    if (set !== null) return set;
  }
}
