/** padwright import: open map data, or a campground's GeoJSON, to a checked record with a report. */
import { readCampground } from "../records/geojson.ts";
import { importOsm, type OsmImport } from "../records/osm/import.ts";
import { EXIT, type ExitCode } from "./ending.ts";
import { writeOut } from "./fit.ts";
import type { CommandSpec, Given } from "./flags.ts";
import { geojsonReport, osmReport } from "./import-report.ts";
import { readText, refusalOf, titleOf } from "./records.ts";
import type { Terminal } from "./terminal.ts";

const JSON_INDENT = 1;

export const IMPORT: CommandSpec = {
  name: "import",
  summary: "Open map data to a campground record, or a check of a record.",
  usage: "import file [flags]",
  about: [
    "Takes OSM XML, Overpass JSON or GeoJSON with OpenStreetMap's tags and makes a campground record of it. A file that is such a record already is checked and cleaned. Without --out nothing is written but the report.",
  ],
  flags: {
    out: {
      value: "file",
      help: "Writes the record here; - is the standard output, and the report goes to the error stream.",
    },
    id: { value: "id", help: "Id of the campground. Default: made from its element." },
    name: { value: "name", help: "Its name. Default: that of its element." },
    around: { value: "way/12", help: "Takes only what lies in and round this element." },
    json: { help: "The report as JSON." },
    verbose: { help: "List every tag and every remark." },
  },
  operands: ["file"],
  examples: [
    "padwright import camp.osm --out camp.geojson",
    "padwright import overpass.json --around way/12 --out camp.geojson",
    "padwright import camp.geojson",
  ],
};

export async function importCommand(given: Given, terminal: Terminal): Promise<ExitCode> {
  const name = given.operands[0] ?? "";
  const text = await readText(name, terminal);
  const out = given.value("out");
  // The record and its report must not run into each other on one stream.
  const tell = out === "-" ? terminal.error : terminal.out;
  const options = { width: terminal.width, verbose: given.has("verbose") };
  const { record, report, rows } = isRecord(text)
    ? checkRecord(text, name, options)
    : takeMap(text, name, given, options);
  if (given.has("json")) tell(JSON.stringify(report, null, 2));
  else for (const row of rows) tell(row);
  if (out === "-") terminal.out(JSON.stringify(record, null, JSON_INDENT));
  else if (out !== null) await writeOut(out, JSON.stringify(record, null, JSON_INDENT));
  return EXIT.answered;
}

interface Imported {
  readonly record: unknown;
  readonly report: unknown;
  readonly rows: readonly string[];
}

/** A FeatureCollection with the member `campground` is a record; anything else is open map data. */
function isRecord(text: string): boolean {
  try {
    const value: unknown = JSON.parse(text.replace(/^\ufeff/, ""));
    return typeof value === "object" && value !== null && "campground" in value;
  } catch {
    return false;
  }
}

interface Show {
  readonly width: number;
  readonly verbose: boolean;
}

function checkRecord(text: string, name: string, show: Show): Imported {
  const { document, report, campground } = readCampground(text);
  if (document === null || campground === null) {
    throw refusalOf(`${titleOf(name)} is no campground record.`, report.refused);
  }
  return { record: document, report, rows: geojsonReport(report, campground.name ?? campground.id, show) };
}

function takeMap(text: string, name: string, given: Given, show: Show): Imported {
  const [id, title, around] = [given.value("id"), given.value("name"), given.value("around")];
  const taken: OsmImport = importOsm(text, {
    ...(id === null ? {} : { campgroundId: id }),
    ...(title === null ? {} : { name: title }),
    ...(around === null ? {} : { bboxOf: around }),
  });
  if (!taken.ok) throw refusalOf(`${titleOf(name)} cannot be imported.`, taken.errors);
  return { record: taken.collection, report: taken.report, rows: osmReport(taken.report, show) };
}
