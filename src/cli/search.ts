/** padwright search: one rig, every site of a campground, ranked. */
import type { Fit } from "../fit/answer.ts";
import { type Ranked, rankSites } from "../fit/search.ts";
import { roseQuery } from "../fit/wind/rose-query.ts";
import { DIRECTION_FORM, readDirection } from "../geo/compass.ts";
import { siteInWind } from "../http/search/exposure.ts";
import { summaryOf } from "../http/search/search-sites.ts";
import { roseOf } from "../records/surroundings.ts";
import { completeRig } from "../rig/complete.ts";
import { compileAround, completeSite } from "../site/complete.ts";
import type { CompletedSite } from "../site/completed.ts";
import type { Rose } from "../wind/rose.ts";
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
    "sheltered-from": {
      value: "wind",
      help: "Show only sites that lie sheltered from a wind from there: a compass word, degrees, or prevailing for the one on record. No forecast is asked.",
    },
    order: { value: "rank|exposure", help: "By rank, or the least exposed to the wind first. Default rank." },
    ...OPTION_FLAGS,
    json: { help: "The ranked list as JSON." },
  },
  operands: [],
  examples: [
    "padwright search --rig rig.json --campground camp.geojson --limit 10",
    "padwright search --rig rig.json --campground camp.geojson --verdict fits",
    "padwright search --rig rig.json --campground camp.geojson --sheltered-from SW",
    "padwright search --rig rig.json --campground camp.geojson --json",
  ],
};

export async function searchCommand(given: Given, terminal: Terminal): Promise<ExitCode> {
  refuseSharedInput(given, ["rig", "campground", "options"]);
  const { limit, verdicts } = readFilters(given);
  const wind = readWind(given);
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
  const roseAt = (site: CompletedSite) => roseOf(site, file.features, query);
  const all = rankSites(completedRig, sites, options, progressOf(sites.length, terminal), roseAt);
  const ranked = inWind(all, wind, roseAt, options.units);
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

interface WindWish {
  readonly shelteredFrom: number | "prevailing" | null;
  readonly byExposure: boolean;
}

function readWind(given: Given): WindWish {
  const order = given.value("order") ?? "rank";
  if (order !== "rank" && order !== "exposure")
    throw usageError(`--order is rank or exposure, and "${order}" is neither.`);
  const word = given.value("sheltered-from");
  const byExposure = order === "exposure";
  if (word === null || word === "prevailing") return { shelteredFrom: word, byExposure };
  const from = readDirection(word);
  if (from === null)
    throw usageError(`--sheltered-from wants ${DIRECTION_FORM}, or prevailing, and "${word}" is none.`);
  return { shelteredFrom: from, byExposure };
}

/** Leaves out what is not sheltered or not known to be, and orders by exposure when that is asked. */
function inWind(
  ranked: readonly Ranked[],
  { shelteredFrom, byExposure }: WindWish,
  roseAt: (site: CompletedSite) => Rose | null,
  units: "us" | "metric",
): Fit[] {
  if (shelteredFrom === null && !byExposure) return ranked.map(({ fit }) => fit);
  const filters = shelteredFrom === null ? {} : { shelteredFrom };
  const judged = ranked.map(({ site, fit }) => ({
    fit,
    wind: siteInWind(roseAt(site), site.prevailingWind ?? null, filters, units),
  }));
  const kept = judged.filter(({ wind }) => wind.passes === "yes");
  const ratio = (one: (typeof kept)[number]) => one.wind.ratio ?? Number.POSITIVE_INFINITY;
  if (byExposure) kept.sort((a, b) => (ratio(a) === ratio(b) ? 0 : ratio(a) - ratio(b)));
  return kept.map(({ fit }) => fit);
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
