/** padwright fit: one rig, one site. */
import { writeFile } from "node:fs/promises";
import { drawPlan } from "../draw/plan.ts";
import { drawWayIn } from "../draw/way-in.ts";
import { fitCase } from "../http/fit-case.ts";
import { fitToWire } from "../http/wire.ts";
import { EXIT, type ExitCode, inputError } from "./ending.ts";
import { OPTION_FLAGS, readFitOptions } from "./fit-options.ts";
import { fitReport } from "./fit-report.ts";
import type { CommandSpec, Given } from "./flags.ts";
import { findSite, readCampgroundFile, readRigFile, refuseSharedInput } from "./records.ts";
import { styleOf } from "./style.ts";
import type { Terminal } from "./terminal.ts";
import { FORECAST_HELP, readWhen, WHEN_FLAGS } from "./when.ts";

const JSON_INDENT = 2;

export const FIT: CommandSpec = {
  name: "fit",
  summary: "One rig on one site: verdict, stance, lines, power, kit, fixes, cautions.",
  usage: "fit --rig file --campground file --site name [flags]",
  about: [
    "Says whether the rig hooks up at the site, by how much every line reaches, what must be in the kit and how to park. With --wind or --from also when the awning is to be in; never a permission.",
    ...FORECAST_HELP,
  ],
  flags: {
    rig: { value: "file", required: true, help: "The rig's record (JSON)." },
    campground: { value: "file", required: true, help: "The campground's record (GeoJSON)." },
    site: { value: "name", required: true, help: "Id or name of the site." },
    plan: { value: "file", help: "Draws the plan into this file (SVG)." },
    "way-in": { value: "file", help: "Draws the way in and out into this file (SVG)." },
    ...WHEN_FLAGS,
    ...OPTION_FLAGS,
    json: { help: "The whole answer as JSON, as the API gives it." },
    strict: { help: "End with 4 unless the rig fits, with or without kit." },
    verbose: { help: "List every check, assumption and source." },
  },
  operands: [],
  examples: [
    "padwright fit --rig rig.json --campground camp.geojson --site A12 --units us",
    "padwright fit --rig rig.json --campground camp.geojson --site A12 --plan a.svg",
    "padwright fit --rig rig.json --campground camp.geojson --site A12 \\",
    '    --wind "20 mph from SW"',
    "padwright fit --rig - --campground camp.geojson --site A12 \\",
    "    --need sewer=required --option kitPolicy=aboard --json < rig.json",
  ],
};

export async function fitCommand(given: Given, terminal: Terminal): Promise<ExitCode> {
  refuseSharedInput(given, ["rig", "campground", "options", "forecast"]);
  const options = await readFitOptions(given, terminal);
  const rig = await readRigFile(given.value("rig") ?? "", terminal);
  const file = await readCampgroundFile(given.value("campground") ?? "", terminal);
  const feature = findSite(file, given.value("site") ?? "");
  const around = file.features.filter((other) => other !== feature);
  const read = {
    feature,
    campground: file.campground,
    around,
    features: file.features,
    warnings: [],
    version: null,
  };
  const when = await readWhen(given, feature, terminal);
  const fit = fitCase(rig, read, options, when);
  const plan = given.value("plan");
  if (plan !== null) await writeOut(plan, drawPlan(fit));
  const wayIn = given.value("way-in");
  if (wayIn !== null) await writeOut(wayIn, drawWayIn(fit));
  if (given.has("json")) terminal.out(JSON.stringify(fitToWire(fit), null, JSON_INDENT));
  else {
    const campground = file.campground.name ?? file.campground.id;
    const style = styleOf(terminal.colour);
    const rows = fitReport(fit, { width: terminal.width, style, verbose: given.has("verbose"), campground });
    for (const row of rows) terminal.out(row);
  }
  const fits = fit.verdict === "fits" || fit.verdict === "fits with kit";
  return given.has("strict") && !fits ? EXIT.noFit : EXIT.answered;
}

/** Writes a file that the user named. */
export async function writeOut(name: string, text: string): Promise<void> {
  await writeFile(name, text.endsWith("\n") ? text : `${text}\n`).catch((fault: NodeJS.ErrnoException) => {
    throw inputError(`${name} cannot be written: ${fault.message}.`);
  });
}
