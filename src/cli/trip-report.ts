/** A trip as a report to read: the same numbers and sentences as in the JSON. */
import { type Say, sayer } from "../fit/say.ts";
import type { KitChoice } from "../trip/kit/pack.ts";
import type { StopPlan, TripPlan } from "../trip/plan.ts";
import type { Works } from "../trip/settle.ts";
import { printable, section, table, wrap } from "./layout.ts";
import type { Style } from "./style.ts";

export interface TripReportOptions {
  readonly width: number;
  readonly style: Style;
}

const BULLET = "  - ";
const INDENT = "  ";

export const WORKS_WORDS: Readonly<Record<Works, string>> = {
  yes: "works",
  tight: "tight",
  unknown: "unknown",
  no: "does not work",
};

export function tripReport(plan: TripPlan, options: TripReportOptions): string[] {
  const { width, style } = options;
  const say = sayer(plan.stops.find((stop) => stop.fit !== null)?.fit?.units ?? "metric");
  const bullets = (texts: readonly string[]) => texts.flatMap((text) => wrap(text, { width, first: BULLET }));
  const { kit, supplies } = plan;
  return [
    style.bold(printable(`${plan.rig.name ?? plan.rig.id ?? "The rig"}, ${plan.from} to ${plan.to}`)),
    ...wrap(`${plan.nights} nights, ${supplies.people} people`, { width }),
    "",
    style.bold(WORKS_WORDS[plan.works].toUpperCase()),
    ...wrap(plan.headline, { width }),
    ...section(style.bold("Stops"), stopRows(plan.stops, say, width)),
    ...section(
      style.bold("Why not"),
      bullets(
        plan.stops.flatMap(({ index, blocking }) => (blocking === null ? [] : [`Stop ${index + 1}: ${blocking.why}`])),
      ),
    ),
    ...section(style.bold("Kit for these sites"), kitRows(kit.items, width)),
    ...section(
      style.bold("In its place would do"),
      bullets(kit.alternatives.map((one) => `${one.description} (${one.where}). ${one.why}`)),
    ),
    ...section(style.bold("Base kit"), baseRows(plan, width)),
    ...section(style.bold("Boxes"), boxRows(plan, width)),
    ...section(style.bold("Tanks"), tankRows(plan, width)),
    ...section(style.bold("On the way"), bullets(supplies.events.map((event) => event.why))),
  ];
}

function stopRows(stops: readonly StopPlan[], say: Say, width: number): string[] {
  const rows = stops.map((stop) => {
    const { index, name, arrive, nights, fit, next, kind } = stop;
    const margin = fit?.bestMargin ?? null;
    const spare = next.map((one) => `${one.name} (${one.verdict})`).join(", ");
    return [
      String(index + 1),
      arrive,
      String(nights),
      fit?.site.name ?? name,
      fit?.verdict ?? (kind === "off-grid" ? "off grid" : "no free site"),
      margin === null ? "-" : say.available(margin),
      spare === "" ? "-" : spare,
    ];
  });
  return table(
    [
      { title: "#", align: "right" },
      { title: "arrive" },
      { title: "nights", align: "right" },
      { title: "site" },
      { title: "verdict" },
      { title: "margin", align: "right" },
      { title: "next-best", wraps: true },
    ],
    rows,
    { width, indent: INDENT },
  );
}

function kitRows(items: readonly KitChoice[], width: number): string[] {
  const rows = items.map((item) => {
    const sites = item.neededFor.map((need) => `${need.stop + 1} ${need.site}${need.chosen ? "" : " (spare)"}`);
    const [first] = item.neededFor;
    const without = first === undefined ? item.withoutIt : `Without it, ${first.site}: ${first.verdictWithout}.`;
    return [item.where, item.description, `${sites.join(", ")}. ${without}`];
  });
  const columns = [{ title: "where" }, { title: "thing" }, { title: "needed for", wraps: true as const }];
  return rows.length === 0 ? [] : table(columns, rows, { width, indent: INDENT });
}

function baseRows({ kit }: TripPlan, width: number): string[] {
  const places = ["aboard", "to pack", "to buy"] as const;
  const rows = places.flatMap((where) => {
    const titles = kit.base.filter((entry) => entry.where === where).map((entry) => entry.title);
    return titles.length === 0 ? [] : [[where, titles.join("; ")]];
  });
  return table([{ title: "where" }, { title: "things", wraps: true }], rows, { width, indent: INDENT });
}

function boxRows({ kit }: TripPlan, width: number): string[] {
  const names = new Map<string, string>([
    ...kit.base.map((one) => [one.id, one.title] as const),
    ...kit.items.map((one) => [one.id, one.description] as const),
  ]);
  const rows = kit.boxes.map(({ title, holds }) => [title, holds.map((id) => names.get(id) ?? id).join("; ")]);
  return table([{ title: "box" }, { title: "holds", wraps: true }], rows, { width, indent: INDENT });
}

const DAYS_SHOWN = 1;

/** Days that a tank lasts, the fewest and the most, were nothing connected. */
function days({ low, high }: { readonly low: number | null; readonly high: number | null }): string {
  if (low === null) return "?";
  const print = (value: number) => (Math.floor(value * 10 ** DAYS_SHOWN) / 10 ** DAYS_SHOWN).toFixed(DAYS_SHOWN);
  return high === null ? `${print(low)}+` : `${print(low)} to ${print(high)}`;
}

function tankRows({ supplies }: TripPlan, width: number): string[] {
  const rows = supplies.stops.map((stop, index) => [
    String(index + 1),
    ...(["fresh", "grey", "black"] as const).map((store) => {
      const { status, days: band } = stop.remaining[store];
      return status === "known" ? days(band) : status;
    }),
    stop.nextDump === null ? "none" : stop.nextDump.name,
  ]);
  return table(
    [
      { title: "#", align: "right" },
      { title: "fresh, days" },
      { title: "grey, days" },
      { title: "black, days" },
      { title: "next dump", wraps: true },
    ],
    rows,
    { width, indent: INDENT },
  );
}
