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
  { title: "pack", align: "right" as const },
  { title: "buy", align: "right" as const },
  { title: "answer", wraps: true as const },
];

function cellRow({ rank, name, works, counts, stops, why }: Cell): string[] {
  const sites = stops.flatMap((stop) => stop.site ?? []).join(", ");
  const lent = counts.lent === 0 ? "" : `, ${counts.lent} to borrow`;
  const words = works === "yes" ? `works${sites === "" ? "" : `: ${sites}`}${lent}` : `${WORKS_WORDS[works]}. ${why}`;
  return [String(rank), name, String(counts.toPack), String(counts.toBuy), words];
}

function stockRows({ stock }: DeskPlan, width: number): string[] {
  const rows = stock.flatMap(({ description, count, periods }) =>
    periods.map(({ from, to, out, left, short }) => [
      from,
      to,
      `${out} of ${count}`,
      short > 0 ? `${short} short` : `${left} left`,
      description,
    ]),
  );
  const columns = [{ title: "from" }, { title: "to" }, { title: "out" }, { title: "rest" }];
  const last = { title: "thing", wraps: true as const };
  return rows.length === 0 ? [] : table([...columns, last], rows, { width, indent: INDENT });
}
