/** Text for a terminal: wrapped paragraphs and aligned tables. Records may hold anything, so that all text is cleaned. */

/** Control characters, and those that turn the direction of text: a record must not steer the terminal. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: finding control characters is the purpose.
const STEERING = /[\u0000-\u001f\u007f-\u009f\u200e\u200f\u2028-\u202e\u2066-\u2069]/g;

/** The text without anything that steers a terminal, in one line. */
export function printable(text: string): string {
  return text.replace(/\s+/g, " ").replace(STEERING, "?");
}

export interface WrapOptions {
  readonly width: number;
  /** Before the first row. */
  readonly first?: string;
  /** Before every other row; default: spaces as long as `first`. */
  readonly rest?: string;
}

/** One paragraph in rows of at most `width` columns; a word that is longer is cut. */
export function wrap(text: string, { width, first = "", rest = " ".repeat(first.length) }: WrapOptions): string[] {
  const rows: string[] = [];
  let row = first;
  let isEmpty = true;
  const end = () => {
    rows.push(row.trimEnd());
    row = rest;
    isEmpty = true;
  };
  for (const word of printable(text).split(" ").filter(Boolean)) {
    let left = word;
    if (!isEmpty && row.length + 1 + left.length > width) end();
    for (let room = width - row.length; isEmpty && left.length > room; room = width - row.length) {
      row += left.slice(0, room);
      left = left.slice(room);
      end();
    }
    row += isEmpty ? left : ` ${left}`;
    isEmpty = left === "" && isEmpty;
  }
  if (!isEmpty || rows.length === 0) rows.push(row.trimEnd());
  return rows;
}

export interface Column {
  readonly title: string;
  readonly align?: "right";
  /** Takes what room is left and wraps; only the last column may. */
  readonly wraps?: true;
}

const GAP = "  ";
const LEAST_WRAPPED = 16;

/** Rows of cells under their titles after an indent; columns are as wide as their longest cell. */
export function table(
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  { width, indent = "" }: { readonly width: number; readonly indent?: string },
): string[] {
  const cells = [columns.map((column) => column.title), ...rows.map((row) => row.map(printable))];
  const widths = columns.map((_, index) => Math.max(...cells.map((row) => row[index]?.length ?? 0)));
  const fixed = columns.reduce(
    (sum, column, index) => (column.wraps ? sum : sum + (widths[index] ?? 0) + GAP.length),
    indent.length,
  );
  return cells.flatMap((row) => {
    const parts = columns.map((column, index) => {
      const cell = row[index] ?? "";
      if (column.wraps) return "";
      return column.align === "right" ? cell.padStart(widths[index] ?? 0) : cell.padEnd(widths[index] ?? 0);
    });
    const last = columns.length - 1;
    if (!columns[last]?.wraps) return [`${indent}${parts.join(GAP)}`.trimEnd()];
    const lead = [indent, ...parts.slice(0, last).map((part) => `${part}${GAP}`)].join("");
    return wrap(row[last] ?? "", { width: Math.max(width, fixed + LEAST_WRAPPED), first: lead });
  });
}

/** A heading and what stands under it, with a blank row before; nothing when there is nothing to say. */
export function section(title: string, rows: readonly string[]): string[] {
  return rows.length === 0 ? [] : ["", title, ...rows];
}
