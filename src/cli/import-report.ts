/** What an import took, what it left, and what is still unknown. */
import type { CampgroundReport } from "../records/geojson.ts";
import type { OsmReport } from "../records/osm/report.ts";
import { section, table, wrap } from "./layout.ts";

export interface ImportReportOptions {
  readonly width: number;
  readonly verbose: boolean;
}

const BULLET = "  - ";
const SHOWN = 20;

/** The first entries, and how many more there are. */
function shortList(rows: readonly string[], { width, verbose }: ImportReportOptions): string[] {
  const shown = verbose ? rows : rows.slice(0, SHOWN);
  const more = rows.length > shown.length ? [`  and ${rows.length - shown.length} more; --verbose lists them`] : [];
  return [...shown.flatMap((row) => wrap(row, { width, first: BULLET })), ...more];
}

export function geojsonReport(report: CampgroundReport, name: string, options: ImportReportOptions): string[] {
  const { accepted, features, refused, warnings } = report;
  const faults = refused.map(
    ({ path, message, expected }) => `${path || "the document"}: ${message} Expected: ${expected}.`,
  );
  return [
    ...wrap(`${name}: ${accepted} of ${features ?? accepted} features taken.`, options),
    ...section("Refused", shortList(faults, options)),
    ...section(
      "Remarks",
      shortList(
        warnings.map(({ path, text }) => `${path || "the document"}: ${text}`),
        options,
      ),
    ),
  ];
}

export function osmReport(report: OsmReport, options: ImportReportOptions): string[] {
  const { nodes, ways, relations } = report.elements;
  const kinds = Object.entries(report.kinds).map(([kind, count]) => `${count} ${kind}`);
  const { assigned, unassigned } = report.pedestals;
  const facts = [
    `Read ${nodes} nodes, ${ways} ways and ${relations} relations (${report.format}).`,
    `Took ${kinds.length === 0 ? "nothing" : kinds.join(", ")}.`,
    ...(report.withoutPart > 0 ? [`${report.withoutPart} tagged elements have no part in a campground's record.`] : []),
    ...(report.beyondBox > 0 ? [`${report.beyondBox} lie beyond the box.`] : []),
    ...(report.takenForPitches > 0
      ? [`${report.takenForPitches} campgrounds of the tags were taken for single pitches.`]
      : []),
    ...(assigned + unassigned > 0 ? [`Power supplies: ${assigned} given to a pitch, ${unassigned} to none.`] : []),
  ];
  const remarks = report.warnings.map(
    ({ element, key, text }) => `${[element, key].filter(Boolean).join(" ") || "the data"}: ${text}`,
  );
  const cut = report.warningsLeftOut > 0 ? [`  and ${report.warningsLeftOut} more beyond the cap`] : [];
  const tags = report.tags.map(({ key, read, kept, ignored }) => [key, String(read), String(kept), String(ignored)]);
  return [
    ...wrap(facts.join(" "), options),
    ...section(
      "Still unknown",
      report.unknown.map(({ what, sites }) => `  ${what}: ${sites === 1 ? "one site" : `${sites} sites`}`),
    ),
    ...section("Remarks", [...shortList(remarks, options), ...cut]),
    ...(options.verbose && tags.length > 0
      ? section("Tags", table(TAG_COLUMNS, tags, { width: options.width, indent: "  " }))
      : []),
  ];
}

const TAG_COLUMNS = [
  { title: "tag" },
  { title: "read", align: "right" as const },
  { title: "kept", align: "right" as const },
  { title: "ignored", align: "right" as const },
];
