/** padwright search: one rig, every site of a campground, ranked. */
import { rankSites } from "../fit/search.ts";
import { roseQuery } from "../fit/wind/rose-query.ts";
import { summaryOf } from "../http/search/search-sites.ts";
import { roseOf } from "../records/surroundings.ts";
import { completeRig } from "../rig/complete.ts";
import { compileAround, completeSite } from "../site/complete.ts";
import { EXIT, type ExitCode, usageError } from "./ending.ts";
import { OPTION_FLAGS, readFitOptions } from "./fit-options.ts";
import type { CommandSpec, Given } from "./flags.ts";
import { type CampgroundFile, readCampgroundFile, readRigFile, refuseSharedInput } from "./records.ts";
import { countVerdicts, isVerdict, searchReport, VERDICTS } from "./search-report.ts";
import { styleOf } from "./style.ts";
import type { Terminal } from "./terminal.ts";

const JSON_INDENT = 2;
/** Milliseconds before a search says how far it is. */
const PATIENCE = 1000;

export const SEARCH: CommandSpec = {
  name: "search",
  summary: "One rig at every site of a campground, ranked.",
  usage: "search --rig file --campground file [flags]",
  about: ["Fits the rig at every site and ranks them: by verdict, then by lines served, then by margin."],
  flags: {
    rig: { value: "file", required: true, help: "The rig's record (JSON)." },
    campground: { value: "file", required: true, help: "The campground's record (GeoJSON)." },
    limit: { value: "number", help: "Sites shown. Default all." },
    verdict: { value: "verdict", repeats: true, help: `Show only sites of this verdict: ${VERDICTS.join(", ")}.` },
    ...OPTION_FLAGS,
    json: { help: "The ranked list as JSON." },
  },
  operands: [],
  examples: [
    "padwright search --rig rig.json --campground camp.geojson --limit 10",
    "padwright search --rig rig.json --campground camp.geojson --verdict fits",
    "padwright search --rig rig.json --campground camp.geojson --json",
  ],
};

export async function searchCommand(given: Given, terminal: Terminal): Promise<ExitCode> {
  refuseSharedInput(given, ["rig", "campground", "options"]);
  const { limit, verdicts } = readFilters(given);
  const options = await readFitOptions(given, terminal);
  const rig = await readRigFile(given.value("rig") ?? "", terminal);
  const file = await readCampgroundFile(given.value("campground") ?? "", terminal);
  const { campground } = file;
  const completedRig = completeRig(rig.profile, {
    ...(campground.drivesOn === undefined ? {} : { drivesOn: campground.drivesOn }),
    electricalSystem: campground.electricalSystem ?? null,
    units: options.units,
    warnings: rig.warnings,
  });
  const around = compileAround(file.features, file.campground?.patterns);
  const sites = file.sites.map((feature) => completeSite(feature, campground, around, { base: "/site" }));
  const query = roseQuery(completedRig, null);
  const ranked = rankSites(completedRig, sites, options, progressOf(sites.length, terminal), (site) =>
    roseOf(site, file.features, query),
  ).map(({ fit }) => fit);
  terminal.passing("");
  const counts = countVerdicts(ranked);
  const shown = ranked
    .map((fit, index) => ({ fit, rank: index + 1 }))
    .filter(({ fit }) => verdicts.length === 0 || verdicts.includes(fit.verdict))
    .slice(0, limit);
  const broken = brokenSites(file);
  if (given.has("json")) {
    const answer = {
      campground: { id: campground.id, name: campground.name ?? null },
      rig: { id: completedRig.id, name: completedRig.name },
      counts,
      sites: shown.map(({ fit, rank }) => ({ rank, site: fit.site.id, name: fit.site.name, ...summaryOf(fit) })),
      refused: broken,
    };
    terminal.out(JSON.stringify(answer, null, JSON_INDENT));
    return EXIT.answered;
  }
  const rows = searchReport(shown, {
    width: terminal.width,
    style: styleOf(terminal.colour),
    campground: campground.name ?? campground.id,
    rig: completedRig.name ?? completedRig.id,
    counts,
    refused: broken.map(({ id }) => id),
  });
  for (const row of rows) terminal.out(row);
  return EXIT.answered;
}

function readFilters(given: Given) {
  const faults: string[] = [];
  const limit = given.value("limit");
  if (limit !== null && !/^[1-9]\d*$/.test(limit))
    faults.push(`--limit wants a whole number from 1, and "${limit}" is none.`);
  const asked = given.values("verdict");
  for (const word of asked) {
    if (!isVerdict(word)) faults.push(`"${word}" is no verdict: ${VERDICTS.join(", ")}.`);
  }
  if (faults.length > 0) throw usageError(...faults);
  return { limit: limit === null ? undefined : Number(limit), verdicts: asked.filter(isVerdict) };
}

function progressOf(all: number, terminal: Terminal): (done: number) => void {
  const start = terminal.clock();
  return (done) => {
    if (terminal.clock() - start > PATIENCE) terminal.passing(`${done} of ${all} sites`);
  };
}

/** Sites whose record was refused: they are in the list of nobody, so that they are named. */
function brokenSites(file: CampgroundFile): { readonly id: string | null; readonly faults: readonly string[] }[] {
  const kept = new Set(file.features.map(({ id }) => (id === undefined ? null : String(id))));
  const lost = file.refused.filter((fault) => fault.index !== null && !kept.has(fault.id));
  return [...new Set(lost.map(({ id }) => id))].map((id) => ({
    id,
    faults: lost.filter((fault) => fault.id === id).map(({ path, message }) => `${path}: ${message}`),
  }));
}
