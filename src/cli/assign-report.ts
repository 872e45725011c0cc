/** An assignment as tables: who stands where and why, who has no site, what feeders carry. */
import type { AssignmentAnswer } from "../http/assignment/run.ts";
import type { AssignmentStayWire } from "../http/schemas/assignment.ts";
import { printable, section, table, wrap } from "./layout.ts";
import type { Style } from "./style.ts";

export interface AssignReportOptions {
  /** Names of sites by id. */
  readonly names: ReadonlyMap<string, string>;
  readonly stays: ReadonlyMap<string, AssignmentStayWire>;
  readonly width: number;
  readonly style: Style;
}

type Placed = AssignmentAnswer["places"][number];
type Unplaced = AssignmentAnswer["unplaced"][number];

const PERCENT = 100;
const RULES_SHOWN = 3;

const PLACED_COLUMNS = [
  { title: "stay" },
  { title: "nights" },
  { title: "site" },
  { title: "points", align: "right" as const },
  { title: "next best, and what it costs", wraps: true as const },
];

export function assignReport(answer: AssignmentAnswer, options: AssignReportOptions): string[] {
  const { width, style } = options;
  const { counts } = answer;
  const placed = answer.places.map((place) => placedRow(place, options));
  return [
    style.bold(`${counts.placed} of ${counts.stays} stays have a site`),
    ...wrap(standing(answer), { width }),
    "",
    ...table(PLACED_COLUMNS, placed, { width }),
    ...(answer.unplaced.length === 0
      ? []
      : [
          "",
          ...section(
            "Without a site",
            answer.unplaced.flatMap((one) => unplacedRows(one, options)),
          ),
        ]),
    ...(answer.given === null ? [] : ["", ...section("The plan that was sent", givenRows(answer.given, width))]),
    ...(answer.feeders.length === 0 ? [] : ["", ...section("Feeders", feederRows(answer.feeders, width))]),
  ];
}

/** How good the plan is known to be; never more than that. */
function standing({ status, value, bound, gap, gapShare, work, counts }: AssignmentAnswer): string {
  const end = work.cutShort ? " The search was cut short." : "";
  const holes = `${counts.shortGaps} short holes, ${counts.moved} moved. Seed ${work.seed}.${end}`;
  if (status === "optimal") return `Optimal: no plan is worth more than ${round(value)} points. ${holes}`;
  if (status === "bound-unknown" || bound === null || gap === null) {
    return `Worth ${round(value)} points; how far that is from the best is not known. ${holes}`;
  }
  const share = gapShare === null ? "" : ` (${(PERCENT * gapShare).toFixed(2)} % of the points of fit)`;
  return `Feasible: worth ${round(value)} points, and no plan more than ${round(bound)}${share}. ${holes}`;
}

/** Points that the next site would cost. */
const costWords = (cost: number): string => (Math.round(cost) === 0 ? "as good" : `-${round(cost)}`);

const round = (points: number): string => points.toFixed(0);

function nights(stay: string, { stays }: AssignReportOptions): string {
  const wire = stays.get(stay);
  return wire === undefined ? "" : `${wire.arrival} to ${wire.departure.slice("YYYY-".length)}`;
}

function placedRow(place: Placed, options: AssignReportOptions): string[] {
  const { names } = options;
  const nameOf = (site: string | null) => (site === null ? "no site" : printable(names.get(site) ?? site));
  const next = place.alternatives.map(({ site, cost, moves }) => {
    const others = moves.map(({ stay, to }) => `${stay} to ${nameOf(to)}`);
    return `${nameOf(site)} ${costWords(cost)}${others.length === 0 ? "" : ` (${others.join(", ")})`}`;
  });
  const why = place.bound ? "in house or promised" : next.join("; ") || "no other site";
  return [printable(place.stay), nights(place.stay, options), nameOf(place.site), round(place.points), why];
}

function unplacedRows(one: Unplaced, options: AssignReportOptions): string[] {
  const rules = one.blocking.slice(0, RULES_SHOWN).map(({ rule, sites }) => `${rule} at ${sites}`);
  const words = `${printable(one.stay)}, ${nights(one.stay, options)}: ${one.eligible} sites would do by the fit; ${rules.join(", ")}. ${changeWords(one, options)}`;
  return wrap(words, { width: options.width, first: "  ", rest: "    " });
}

function changeWords({ change }: Unplaced, { names }: AssignReportOptions): string {
  const nameOf = (site: string | null) => (site === null ? "no site" : printable(names.get(site) ?? site));
  switch (change.kind) {
    case "place":
    case "move-others":
      return `Would do: ${change.moves.map(({ stay, to }) => `${stay} to ${nameOf(to)}`).join(", ")}.`;
    case "other-nights":
      return `Would do: ${change.arrival} to ${change.departure} on ${nameOf(change.site)}.`;
    case "waive-rule":
      return `Would do: ${nameOf(change.site)}, if "${change.rule}" may be waived.`;
    case "none":
      return "No small change was found.";
  }
}

function givenRows(given: NonNullable<AssignmentAnswer["given"]>, width: number): string[] {
  const head = given.sound ? "It breaks nothing." : "It cannot be kept:";
  const gap = given.gap === null ? "" : ` At most ${round(given.gap)} points from the best.`;
  return [
    ...wrap(`${head} Worth ${round(given.value)} points.${gap}`, { width, first: "  ", rest: "  " }),
    ...given.breaches.flatMap(({ code, stay, site, other, resource, night }) => {
      const parts = [code, stay, site, other === null ? null : `with ${other}`, resource, night];
      return wrap(parts.filter((part) => part !== null).join(", "), { width, first: "  ", rest: "    " });
    }),
  ];
}

function feederRows(feeders: AssignmentAnswer["feeders"], width: number): string[] {
  const rows = feeders.flatMap(({ name, sites, design, prudent, capacity, designExceeds, warnings, unknownSites }) => {
    const limit = capacity === null ? "capacity not given" : `capacity ${round(capacity)} VA`;
    const over = designExceeds === true ? " Above it." : "";
    const unknown = unknownSites.length === 0 ? "" : ` Receptacles not on record: ${unknownSites.join(", ")}.`;
    const planned = warnings.length === 0 ? "" : ` Planned nights above it (advice): ${warnings.join(", ")}.`;
    const words = `${printable(name)}: ${sites} sites, design load ${round(design)} VA, prudent ${round(prudent)} VA, ${limit}.${over}${unknown}${planned}`;
    return wrap(words, { width, first: "  ", rest: "    " });
  });
  const notes = feeders[0]?.notes ?? [];
  return [...rows, ...notes.flatMap((note) => wrap(note, { width, first: "  ", rest: "  " }))];
}
