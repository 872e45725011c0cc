/** A table of stays: names of columns are paths into a stay (`rig.length`), rows are judged one by one. */
import type { StayEntry } from "../../ledger/stays.ts";
import { pointer } from "../../units/input-error.ts";
import { nearest } from "../../units/nearest.ts";
import type { ProblemError } from "../problem.ts";
import { type Cell, type Row, readTable } from "./csv.ts";
import { readStayEntry } from "./stay-input.ts";

export interface RowError {
  readonly line: number;
  readonly column: number | null;
  readonly name: string | null;
  readonly code: string;
  readonly message: string;
  readonly expected: string | null;
}

export interface StayRow {
  readonly line: number;
  readonly id: string;
  readonly entry: StayEntry;
}

/** How the text of a cell becomes a value. A length keeps its text, because only text can carry its unit. */
type CellKind = "text" | "whole" | "switch" | "words";

const COLUMNS: Readonly<Record<string, CellKind>> = {
  id: "text",
  arrival: "text",
  departure: "text",
  status: "text",
  "rig.class": "text",
  "rig.length": "text",
  "rig.width": "text",
  "rig.height": "text",
  "rig.power.plug": "text",
  "rig.power.cord": "text",
  "rig.waterHose": "text",
  "rig.sewerHose": "text",
  "rig.awning.projection": "text",
  "needs.power": "text",
  "needs.water": "text",
  "needs.sewer": "text",
  "needs.cable": "text",
  "needs.fill": "text",
  kitPolicy: "text",
  accessible: "switch",
  tight: "switch",
  mustHave: "words",
  wishes: "words",
  group: "text",
  priority: "whole",
  "party.name": "text",
  "party.phone": "text",
  "party.email": "text",
  "party.people": "whole",
  "party.plate": "text",
  "party.note": "text",
};

export const TABLE_COLUMNS: readonly string[] = Object.keys(COLUMNS);
const REQUIRED = ["id", "arrival", "departure", "rig.class", "rig.length"];

export type TableReading =
  | { readonly ok: false; readonly errors: readonly ProblemError[] }
  | { readonly ok: true; readonly rows: number; readonly read: RowReader };

/** Reads one row after the other, so that whoever has many can do something else between them. */
export type RowReader = (index: number) => StayRow | readonly RowError[];

/** The head of a table, checked, and a reader of its rows. */
export function readStayTable(text: string, mostRows: number): TableReading {
  const [head, ...rows] = readTable(text);
  const errors =
    head === undefined ? [headError(1, 1, "empty", "The table is empty.", REQUIRED.join(", "))] : headErrors(head);
  if (rows.length > mostRows) {
    errors.push(headError(1, 1, "too-many", `The table has ${rows.length} rows.`, `at most ${mostRows} rows`));
  }
  if (errors.length > 0 || head === undefined) return { ok: false, errors };
  const names = head.cells.map((cell) => cell.text.trim());
  const seen = new Map<string, number>();
  return { ok: true, rows: rows.length, read: (index) => readRow(rows[index] as Row, names, seen) };
}

function headErrors(head: Row): ProblemError[] {
  if (head.fault !== null) return [headError(head.line, 1, "bad-form", head.fault, "names of columns")];
  const errors: ProblemError[] = [];
  const seen = new Set<string>();
  for (const { text, line, column } of head.cells) {
    const name = text.trim();
    if (!Object.hasOwn(COLUMNS, name)) {
      const near = nearest(name, TABLE_COLUMNS);
      const hint = near === null ? "" : ` Did you mean "${near}"?`;
      errors.push(headError(line, column, "unknown-key", `This column is not known.${hint}`, TABLE_COLUMNS.join(", ")));
    } else if (seen.has(name)) {
      errors.push(headError(line, column, "duplicate", "This column is there twice.", "each column once"));
    }
    seen.add(name);
  }
  for (const name of REQUIRED.filter((one) => !seen.has(one))) {
    errors.push(headError(head.line, 1, "missing", `The column ${name} is missing.`, REQUIRED.join(", ")));
  }
  return errors;
}

const headError = (line: number, column: number, code: string, message: string, expected: string): ProblemError => ({
  pointer: "",
  code,
  message,
  expected,
  line,
  column,
});

/** @param seen Ids of the rows before, with their lines. */
function readRow(row: Row, names: readonly string[], seen: Map<string, number>): StayRow | readonly RowError[] {
  const whole = (code: string, message: string, expected: string | null): RowError[] => [
    { line: row.line, column: null, name: null, code, message, expected },
  ];
  if (row.fault !== null) return whole("bad-form", row.fault, "quotes in pairs");
  if (row.cells.length !== names.length) {
    return whole("bad-form", `This row has ${row.cells.length} cells.`, `${names.length} cells`);
  }
  const cells = new Map(names.map((name, index) => [name, row.cells[index] as Cell]));
  const errors: RowError[] = [];
  const value: Record<string, unknown> = {};
  for (const [name, cell] of cells) {
    const text = cell.text.trim();
    if (text === "") continue;
    const given = cellValue(text, COLUMNS[name] ?? "text");
    if (given === undefined)
      errors.push(cellError(name, cell, "bad-form", "This cannot be read.", EXPECTED[COLUMNS[name] ?? "text"]));
    else put(value, name.split("."), given);
  }
  const read = readStayEntry(value);
  const told = new Set(errors.map((error) => error.name));
  if (!read.ok)
    errors.push(
      ...read.errors.map((error) => rowError(error, row, cells)).filter(({ name }) => name === null || !told.has(name)),
    );
  if (errors.length > 0 || !read.ok) return errors;
  if (read.id === null) return whole("missing", "This row has no id.", "an id of its own");
  const before = seen.get(read.id);
  if (before !== undefined) {
    return [cellError("id", cells.get("id") as Cell, "duplicate", `Line ${before} has this id.`, "an id of its own")];
  }
  seen.set(read.id, row.line);
  return { line: row.line, id: read.id, entry: read.entry };
}

const EXPECTED: Readonly<Record<CellKind, string>> = {
  text: "text",
  whole: "a whole number",
  switch: "yes or no",
  words: "words with | between them",
};

function cellValue(text: string, kind: CellKind): unknown {
  if (kind === "whole") return /^\d{1,9}$/.test(text) ? Number(text) : undefined;
  if (kind === "switch") return text === "yes" ? true : text === "no" ? false : undefined;
  if (kind === "words") return text.split("|").map((word) => word.trim());
  return text;
}

function put(target: Record<string, unknown>, path: readonly string[], value: unknown): void {
  const [key, ...rest] = path as [string, ...string[]];
  if (rest.length === 0) {
    target[key] = value;
    return;
  }
  const inner = (target[key] ?? {}) as Record<string, unknown>;
  target[key] = inner;
  put(inner, rest, value);
}

const cellError = (name: string, cell: Cell, code: string, message: string, expected: string): RowError => ({
  line: cell.line,
  column: cell.column,
  name,
  code,
  message,
  expected,
});

/** A fault of the stay as a fault of the cell that it came from; of the whole row when it came from none. */
function rowError(error: ProblemError, row: Row, cells: ReadonlyMap<string, Cell>): RowError {
  const at = error.pointer ?? "";
  const name = [...cells.keys()]
    .filter((one) => at === pointer(one.split(".")) || at.startsWith(`${pointer(one.split("."))}/`))
    .sort((a, b) => b.length - a.length)[0];
  const cell = name === undefined ? undefined : cells.get(name);
  const expected = error.expected ?? "";
  if (name === undefined || cell === undefined) {
    const message = `${at}: ${error.message}`;
    return { line: row.line, column: null, name: null, code: error.code, message, expected };
  }
  return cellError(name, cell, error.code, error.message, expected);
}
