/**
 * Text without a browser: how wide it will be and where it wraps. Widths are those of a wide sans-serif (DejaVu Sans,
 * from memory, rounded up), so that narrower system faces leave room instead of running over.
 */
import { type Attributes, element, escapeText } from "./svg.ts";

/** System faces only: nothing is fetched. */
export const FONT_FAMILY = "system-ui, -apple-system, 'Segoe UI', Roboto, 'Helvetica Neue', Arial, sans-serif";
/** Distance between baselines as a multiple of the font size. */
export const LINE_HEIGHT = 1.25;
/** Height of the baseline above the bottom of a row, as a multiple of the font size. */
const DESCENT = 0.32;
const BOLD_FACTOR = 1.1;
const ELLIPSIS = "\u2026";

const NARROW = 0.36;
const MEDIUM = 0.44;
const LOWER = 0.63;
const CAPITAL = 0.72;
const WIDE = 0.98;
const IDEOGRAPH = 1.05;
const FIRST_IDEOGRAPH = 0x2e80;

function characterWidth(character: string): number {
  if (/[ ijl.,:;'|!\u00a0]/.test(character)) {
    return NARROW;
  }
  if (/[frtI()[\]/\\"-]/.test(character)) {
    return MEDIUM;
  }
  if (/[mwMW@%\u2026]/.test(character)) {
    return WIDE;
  }
  if ((character.codePointAt(0) ?? 0) >= FIRST_IDEOGRAPH) {
    return IDEOGRAPH;
  }
  return /[A-Z\u00c0-\u00de+=<>\u2212\u00b1&]/.test(character) ? CAPITAL : LOWER;
}

/** Upper estimate of the width of one row, pixels. */
export function textWidth(text: string, fontSize: number, bold = false): number {
  let sum = 0;
  for (const character of text) {
    sum += characterWidth(character);
  }
  return sum * fontSize * (bold ? BOLD_FACTOR : 1);
}

function breakWord(word: string, fits: (text: string) => boolean): string[] {
  const pieces: string[] = [];
  let piece = "";
  for (const character of word) {
    if (piece !== "" && !fits(piece + character)) {
      pieces.push(piece);
      piece = "";
    }
    piece += character;
  }
  return [...pieces, piece];
}

/** The longest beginning of the text that fits, with an ellipsis when something was cut. */
export function shorten(text: string, fontSize: number, maxWidth: number, bold = false): string {
  if (textWidth(text, fontSize, bold) <= maxWidth) {
    return text;
  }
  const characters = [...text];
  while (characters.length > 0 && textWidth(characters.join("") + ELLIPSIS, fontSize, bold) > maxWidth) {
    characters.pop();
  }
  return characters.join("").trimEnd() + ELLIPSIS;
}

/** Rows no wider than `maxWidth`; a word that is too long is broken, what is beyond `maxRows` ends in an ellipsis. */
export function wrapText(
  text: string,
  fontSize: number,
  maxWidth: number,
  maxRows = Number.POSITIVE_INFINITY,
  bold = false,
): string[] {
  const fits = (candidate: string): boolean => textWidth(candidate, fontSize, bold) <= maxWidth;
  const rows: string[] = [];
  let row = "";
  for (const word of text.split(" ").flatMap((whole) => (fits(whole) ? [whole] : breakWord(whole, fits)))) {
    const longer = row === "" ? word : `${row} ${word}`;
    if (row !== "" && !fits(longer)) {
      rows.push(row);
      row = word;
    } else {
      row = longer;
    }
  }
  rows.push(row);
  if (rows.length <= maxRows) {
    return rows;
  }
  const kept = rows.slice(0, maxRows - 1);
  return [...kept, shorten(rows.slice(maxRows - 1).join(" "), fontSize, maxWidth, bold)];
}

const BALANCE_STEP = 0.94;

/** As few rows as `wrapText` gives, of nearly equal width, so that no word is left alone on the last one. */
export function balanceText(text: string, fontSize: number, maxWidth: number, maxRows: number): string[] {
  let rows = wrapText(text, fontSize, maxWidth, maxRows);
  const whole = rows.join(" ");
  for (let width = maxWidth * BALANCE_STEP; width > fontSize; width *= BALANCE_STEP) {
    const narrower = wrapText(text, fontSize, width, maxRows);
    if (narrower.length > rows.length || narrower.join(" ") !== whole) {
      break;
    }
    rows = narrower;
  }
  return rows;
}

export function rowsHeight(rows: number, fontSize: number): number {
  return rows * fontSize * LINE_HEIGHT;
}

/** One row of upright text whose box starts at `top`. */
export function textRow(text: string, x: number, top: number, fontSize: number, attributes: Attributes = {}): string {
  const y = top + fontSize * (LINE_HEIGHT - DESCENT);
  return element("text", { x, y, "font-size": fontSize, ...attributes }, escapeText(text));
}

/** Rows one under the other, the first box starting at `top`. */
export function textBlock(
  rows: readonly string[],
  x: number,
  top: number,
  fontSize: number,
  attributes: Attributes = {},
): string {
  return rows.map((row, index) => textRow(row, x, top + rowsHeight(index, fontSize), fontSize, attributes)).join("");
}
