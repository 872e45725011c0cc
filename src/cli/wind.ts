/** padwright wind: how one site lies to the wind, and when an awning there is to be in. */
import { drawWindRose } from "../draw/rose.ts";
import { awningGivenSchema } from "../http/schemas/wind.ts";
import { windCase } from "../http/wind-case.ts";
import { siteWindToWire } from "../http/wind-wire.ts";
import { toInputErrors } from "../units/input-error.ts";
import { EXIT, type ExitCode, inputError, usageError } from "./ending.ts";
import { writeOut } from "./fit.ts";
import type { CommandSpec, Given } from "./flags.ts";
import { findSite, readCampgroundFile, refusalOf, refuseSharedInput } from "./records.ts";
import { styleOf } from "./style.ts";
import type { Terminal } from "./terminal.ts";
import { FORECAST_HELP, readWhen, WHEN_FLAGS } from "./when.ts";
import { windReport } from "./wind-report.ts";

const JSON_INDENT = 2;

export const WIND: CommandSpec = {
  name: "wind",
  summary: "One site in the wind: exposure by direction, what shelters, hours to take an awning in.",
  usage: "wind --campground file --site name [flags]",
  about: [
    "Says how exposed an awning is at the site, from which direction and sheltered by what, and with a wind or days when it is to be in. An estimate and never a permission.",
    ...FORECAST_HELP,
  ],
  flags: {
    campground: { value: "file", required: true, help: "The campground's record (GeoJSON)." },
    site: { value: "name", required: true, help: "Id or name of the site." },
    ...WHEN_FLAGS,
    side: { value: "left|right|rear|exit", help: "Side of the pad that the awning opens to." },
    azimuth: { value: "direction", help: "Where it opens to, as a compass word or degrees; instead of --side." },
    class: { value: "0..6", help: "EN 13561 wind class of the awning. Default: unknown, judged as class 1." },
    height: { value: "length", help: 'Middle of the open fabric above the ground, "8 ft". Default 2.5 m; assumed.' },
    units: { value: "us|metric", help: "Units of the report. Default metric." },
    rose: { value: "file", help: "Draws the rose into this file (SVG)." },
    json: { help: "The whole answer as JSON, as the API gives it." },
  },
  operands: [],
  examples: [
    "padwright wind --campground camp.geojson --site A12 --side right",
    "padwright wind --campground camp.geojson --site A12 --side right \\",
    '    --wind "20 mph from SW" --units us',
    "padwright wind --campground camp.geojson --site A12 \\",
    "    --from 2026-07-03 --to 2026-07-05 --json",
    "padwright wind --campground camp.geojson --site A12 \\",
    "    --forecast day.json --from 2026-07-04",
  ],
};

export async function windCommand(given: Given, terminal: Terminal): Promise<ExitCode> {
  refuseSharedInput(given, ["campground", "forecast"]);
  const units = given.value("units") ?? "metric";
  if (units !== "us" && units !== "metric") throw usageError(`--units wants us or metric, and "${units}" is neither.`);
  const awning = readAwning(given);
  const file = await readCampgroundFile(given.value("campground") ?? "", terminal);
  const feature = findSite(file, given.value("site") ?? "");
  const when = await readWhen(given, feature, terminal);
  const around = file.features.filter((other) => other !== feature);
  const read = { feature, campground: file.campground, around, features: file.features, warnings: [], version: null };
  const found = windCase(read, awning, when, units);
  const rose = given.value("rose");
  if (rose !== null) {
    if (found.exposureRose === null) throw inputError("Where the pad lies is not on record, so no rose can be drawn.");
    const options = {
      name: found.site.name,
      awning: found.azimuth,
      prevailing: found.exposure?.prevailing?.from ?? null,
      forecast: found.judged.wind?.from ?? [],
      units,
    } as const;
    await writeOut(rose, drawWindRose(found.exposureRose, options));
  }
  if (given.has("json")) {
    terminal.out(JSON.stringify(siteWindToWire(found), null, JSON_INDENT));
    return EXIT.answered;
  }
  const campground = file.campground.name ?? file.campground.id;
  for (const row of windReport(found, { width: terminal.width, style: styleOf(terminal.colour), campground })) {
    terminal.out(row);
  }
  return EXIT.answered;
}

function readAwning(given: Given) {
  const members = {
    ...memberOf(given, "side", "padSide"),
    ...memberOf(given, "azimuth", "azimuth"),
    ...memberOf(given, "height", "height"),
    ...(given.value("class") === null ? {} : { class: Number(given.value("class")) }),
  };
  const parsed = awningGivenSchema.safeParse(members);
  if (parsed.success) return parsed.data;
  throw refusalOf("The awning is refused.", toInputErrors(awningGivenSchema, parsed.error, members));
}

function memberOf(given: Given, flag: string, member: string): Record<string, string> {
  const value = given.value(flag);
  return value === null ? {} : { [member]: value };
}
