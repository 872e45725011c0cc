/** A desk as a report to read: departures with the units that would do, what to load, the stock by date. */
import type { Cell } from "../trip/desk/cell.ts";
import type { DeskPlan, DeskTripPlan } from "../trip/desk/desk.ts";
import { printable, section, table, wrap } from "./layout.ts";
import type { Style } from "./style.ts";
import { WORKS_WORDS } from "./trip-report.ts";

export interface DeskReportOptions {
  readonly width: number;
  readonly style: Style;
}

const INDENT = "  ";
const BULLET = "  - ";

export function deskReport(plan: DeskPlan, options: DeskReportOptions): string[] {
  const { width, style } = options;
  const rows = plan.trips.flatMap((trip, index) => [...(index === 0 ? [] : [""]), ...tripRows(trip, options)]);
  const short = plan.stock.flatMap(({ description, periods }) =>
    periods
      .filter((period) => period.short > 0)
      .map(({ from, to, short: missing, trips }) => {
        const when = from === to ? from : `${from} to ${to}`;
        return `${description}: ${missing} missing ${when}, wanted by ${trips.join(", ")}.`;
      }),
  );
  return [
    ...rows,
    ...section(style.bold("Stock out"), stockRows(plan, width)),
    ...section(
      style.bold("Stock that runs short"),
      short.flatMap((text) => wrap(text, { width, first: BULLET })),
    ),
  ];
}

function tripRows(trip: DeskTripPlan, { width, style }: DeskReportOptions): string[] {
  const chosen = trip.units.find((cell) => cell.unit === trip.unit);
  const who = chosen === undefined ? "no unit" : `${chosen.name}${trip.given ? " (booked)" : ""}`;
  const pick = trip.pick.filter((thing) => thing.where !== "aboard");
  const clash = trip.clashes.length === 0 ? "" : ` On other trips at the same time: ${trip.clashes.join(", ")}.`;
  return [
    style.bold(printable(`${trip.from}  ${trip.name}: ${who}`)),
    ...wrap(`Back ${trip.to}. ${trip.why}${clash}`, { width }),
    ...table(COLUMNS, trip.units.map(cellRow), { width, indent: INDENT }),
    ...(pick.length === 0
      ? []
      : wrap(`Load: ${pick.map((one) => `${one.description} (${one.where})`).join("; ")}.`, { width })),
  ];
}

const COLUMNS = [
  { title: "#", align: "right" as const },
  { title: "unit" },
  { title: "answer" },
  { title: "sites" },
  { title: "why", wraps: true as const },
];

function cellRow(cell: Cell): string[] {
  const sites = cell.stops.flatMap((stop) => stop.site ?? []).join(", ");
  return [String(cell.rank), cell.name, WORKS_WORDS[cell.works], sites === "" ? "-" : sites, cell.why];
}

function stockRows({ stock }: DeskPlan, width: number): string[] {
  const rows = stock.flatMap(({ description, count, periods }) =>
    periods.map(({ from, to, out, left, short }) => [
      description,
      from,
      to,
      `${out} of ${count}`,
      short > 0 ? `${short} short` : `${left} left`,
    ]),
  );
  const columns = [{ title: "thing" }, { title: "from" }, { title: "to" }, { title: "out" }, { title: "" }];
  return rows.length === 0 ? [] : table(columns, rows, { width, indent: INDENT });
}
