/** POST …/stays/import: a whole table of stays. A bad row is an error in that row, and the others are taken. */
import { LedgerRefusal } from "../../../ledger/ledger.ts";
import { createStay, readStay, updateStay } from "../../../ledger/stays.ts";
import { Problem } from "../../problem.ts";
import type { Route } from "../../route.ts";
import { query, writeRoute } from "../describe.ts";
import { switchParameter, wordParameter } from "../queries.ts";
import { wireOf } from "../stay-input.ts";
import { type RowError, readStayTable, type StayRow, TABLE_COLUMNS } from "../stay-table.ts";
import type { Writing } from "../writing.ts";

const CSV_TYPE = "text/csv";
/** Rows read before others get their turn. */
const ROWS_AT_ONCE = 100;

const importRoute = writeRoute(
  {
    method: "POST",
    path: "/stays/import",
    operationId: "importStays",
    scope: "stays",
    summary: "Enter a table of stays",
    description: `CSV (RFC 4180; commas, or semicolons throughout) whose first row names the columns, of which id, arrival, departure, rig.class and rig.length must be there: ${TABLE_COLUMNS.join(", ")}. Lengths carry their unit ("25 ft"). Several words stand with | between them; switches are yes or no. Every row is taken or refused by itself; the report says which and where. All that is taken is written in one transaction.`,
    parameters: [
      query("existing", "What becomes of a row whose stay is there already and differs.", {
        type: "string",
        enum: ["refuse", "update"],
        default: "refuse",
      }),
      query("preview", "True to get the report and write nothing.", { type: "boolean", default: false }),
    ],
    body: {
      description: "The table.",
      content: { [CSV_TYPE]: { schema: { type: "string" } } },
      most: "importBodyBytes",
    },
    answer: "TableReport",
  },
  async (writing) => {
    const { url, limits } = writing.call;
    const existing = wordParameter(url, "existing", ["refuse", "update"]);
    const isPreview = switchParameter(url, "preview");
    const table = readStayTable(writing.text, limits.tableRows);
    if (!table.ok) throw new Problem("invalid-request", "The head of the table cannot be used.", table.errors);
    const rows: StayRow[] = [];
    const errors: RowError[] = [];
    for (let index = 0; index < table.rows; index += 1) {
      if (index % ROWS_AT_ONCE === 0) await nextTurn();
      const row = table.read(index);
      if ("entry" in row) rows.push(row);
      else errors.push(...row);
    }
    const refusedRows = table.rows - rows.length;
    return () => {
      const counts = { created: 0, updated: 0, unchanged: 0 };
      const faults = [...errors];
      for (const row of rows) {
        const outcome = enter(writing, row, existing === "update");
        if (typeof outcome === "string") counts[outcome] += 1;
        else faults.push(outcome);
      }
      const taken = counts.created + counts.updated + counts.unchanged;
      const body = {
        written: !isPreview,
        rows: table.rows,
        ...counts,
        refused: refusedRows + rows.length - taken,
        errors: faults.sort((a, b) => a.line - b.line).slice(0, limits.rowErrorsListed),
        errorCount: faults.length,
      };
      return { status: 200, body, isPreview };
    };
  },
);

const nextTurn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

function enter(
  { ledger, act }: Writing,
  { line, id, entry }: StayRow,
  mayUpdate: boolean,
): "created" | "updated" | "unchanged" | RowError {
  const refused = (code: string, message: string, expected: string | null): RowError => ({
    line,
    column: null,
    name: null,
    code,
    message,
    expected,
  });
  const before = readStay(ledger, act.campground, id);
  if (before === null) {
    createStay(ledger, act, id, entry);
    return "created";
  }
  if (canonical(wireOf(before)) === canonical(wireOf({ ...before, ...entry }))) return "unchanged";
  if (!mayUpdate) return refused("exists", `There is another stay ${id} already.`, "existing=update to change it");
  try {
    updateStay(ledger, act, before, entry);
    return "updated";
  } catch (fault) {
    // The ledger refuses before it writes, so that the other rows stand.
    if (!(fault instanceof LedgerRefusal)) throw fault;
    return refused(fault.code, fault.message, null);
  }
}

/** JSON with the members of every object in one order: a table and a form write them in different ones. */
function canonical(value: unknown): string {
  return JSON.stringify(value, (_key, inner: unknown) =>
    typeof inner === "object" && inner !== null && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1)))
      : inner,
  );
}

export const STAY_TABLE_ROUTES: readonly Route[] = [importRoute];
