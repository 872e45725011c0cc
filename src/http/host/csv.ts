/**
 * A table of text: values separated by commas or semicolons (RFC 4180, with the semicolon that spreadsheets of half the
 * world write). Every cell knows the line and the column at which it begins.
 */

export interface Cell {
  readonly text: string;
  /** Counted from 1. */
  readonly line: number;
  readonly column: number;
}

export interface Row {
  /** Line on which the row begins. */
  readonly line: number;
  readonly cells: readonly Cell[];
  /** What breaks the grammar of the row; its cells are then not to be used. */
  readonly fault: string | null;
}

const BYTE_ORDER_MARK = 0xfeff;

/** The rows of a table, the first with the names of the columns among them. Empty lines are left out. */
export function readTable(text: string): readonly Row[] {
  const start = text.charCodeAt(0) === BYTE_ORDER_MARK ? 1 : 0;
  const firstLine = /[^\r\n]*/.exec(text.slice(start))?.[0] ?? "";
  const separator = !firstLine.includes(",") && firstLine.includes(";") ? ";" : ",";
  return new TableReader(text, start, separator).rows();
}

class TableReader {
  private line = 1;
  private lineStart: number;

  constructor(
    private readonly text: string,
    private at: number,
    private readonly separator: string,
  ) {
    this.lineStart = at;
  }

  rows(): Row[] {
    const rows: Row[] = [];
    while (this.at < this.text.length) {
      const row = this.row();
      const isEmpty = row.fault === null && row.cells.length === 1 && row.cells[0]?.text.trim() === "";
      if (!isEmpty) rows.push(row);
    }
    return rows;
  }

  private row(): Row {
    const { line } = this;
    const cells: Cell[] = [];
    let fault: string | null = null;
    for (;;) {
      const place = { line: this.line, column: this.at - this.lineStart + 1 };
      const isQuoted = this.text[this.at] === '"';
      const text = isQuoted ? this.quoted() : this.plain();
      if (text === null) {
        return {
          line,
          cells,
          fault: `A quoted cell begins at line ${place.line}, column ${place.column}, and never ends.`,
        };
      }
      cells.push({ text, ...place });
      if (this.text[this.at] === this.separator) {
        this.at += 1;
        continue;
      }
      if (!this.lineEnd()) {
        fault ??= `There is text after the closing quote at line ${this.line}, column ${this.at - this.lineStart + 1}.`;
        this.plain();
        if (this.text[this.at] === this.separator) {
          this.at += 1;
          continue;
        }
        this.lineEnd();
      }
      return { line, cells, fault };
    }
  }

  private plain(): string {
    const from = this.at;
    while (this.at < this.text.length && !this.isEnd(this.text[this.at] ?? "")) this.at += 1;
    return this.text.slice(from, this.at);
  }

  private isEnd(character: string): boolean {
    return character === this.separator || character === "\n" || character === "\r";
  }

  /** Null when the quote is never closed; then the text is at its end. */
  private quoted(): string | null {
    this.at += 1;
    let result = "";
    for (;;) {
      const close = this.text.indexOf('"', this.at);
      const until = close < 0 ? this.text.length : close;
      result += this.text.slice(this.at, until);
      this.countLines(this.at, until);
      this.at = until + 1;
      if (close < 0) return null;
      if (this.text[this.at] !== '"') return result;
      result += '"';
      this.at += 1;
    }
  }

  private countLines(from: number, until: number): void {
    for (
      let next = this.text.indexOf("\n", from);
      next >= 0 && next < until;
      next = this.text.indexOf("\n", next + 1)
    ) {
      this.line += 1;
      this.lineStart = next + 1;
    }
  }

  /** Goes past the end of a line; true also at the end of the text. */
  private lineEnd(): boolean {
    if (this.at >= this.text.length) return true;
    const length = this.text.startsWith("\r\n", this.at) ? 2 : this.isLineBreak() ? 1 : 0;
    this.at += length;
    if (length === 0) return false;
    this.line += 1;
    this.lineStart = this.at;
    return true;
  }

  private isLineBreak(): boolean {
    return this.text[this.at] === "\n" || this.text[this.at] === "\r";
  }
}
