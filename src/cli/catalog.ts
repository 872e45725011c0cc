/** padwright catalog: any number of campground files to immutable objects with one index, and a look into them. */

import { campgroundFiles, countFiles, dropJournal, openJournal } from "../node/catalogue-files.ts";
import { writeFlatGeobuf } from "../node/flatgeobuf.ts";
import { objectFolder } from "../node/object-folder.ts";
import { buildCatalogue } from "../records/catalogue/build.ts";
import { openCatalogue } from "../records/catalogue/open.ts";
import { EXIT, type ExitCode, inputError, usageError } from "./ending.ts";
import type { CommandSpec, Given } from "./flags.ts";
import type { Terminal } from "./terminal.ts";

const SHOWN_REFUSALS = 20;
const BAR_WIDTH = 30;
const KILO = 1000;

export const CATALOG: CommandSpec = {
  name: "catalog",
  summary: "Campground files to a catalogue for object storage.",
  usage: "catalog build folder --out folder [flags]",
  about: [
    "Reads every .geojson file below a folder and writes one packed object per campground, named by its content, one spatial index and one manifest. The pointer catalogue.json is written last, so that a reader sees the old catalogue or the new one and never a mixture. A run that was broken off goes on where it stopped; objects that are there already are not written again.",
    "catalog show folder tells what a catalogue holds.",
  ],
  flags: {
    out: { value: "folder", help: "Where the catalogue is written (build)." },
    flatgeobuf: {
      value: "file",
      help: "Also writes all sites into one FlatGeobuf file with a spatial index (build); wants ogr2ogr of gdal-bin.",
    },
    fresh: { help: "Read every file anew, whatever an earlier run has done." },
    json: { help: "The outcome as JSON." },
  },
  operands: ["build|show", "folder"],
  examples: ["padwright catalog build records --out catalogue", "padwright catalog show catalogue"],
};

export async function catalogCommand(given: Given, terminal: Terminal): Promise<ExitCode> {
  const [what = "", folder = ""] = given.operands;
  if (what === "build") return build(folder, given, terminal);
  if (what === "show") return show(folder, given, terminal);
  throw usageError(`catalog does build or show, and "${what}" is neither.`);
}

async function build(folder: string, given: Given, terminal: Terminal): Promise<ExitCode> {
  const out = given.value("out");
  if (out === null) throw usageError("--out folder is missing.");
  const all = await countFiles(folder).catch((fault: unknown) => {
    throw inputError(`The folder ${folder} cannot be read: ${fault instanceof Error ? fault.message : String(fault)}`);
  });
  if (given.has("fresh")) await dropJournal(out);
  const journal = await openJournal(out);
  const { manifest, name, refused } = await buildCatalogue(campgroundFiles(folder), objectFolder(out), {
    finished: journal.finished,
    done: journal.add,
    progress: (files) => terminal.passing(bar(files, all)),
  });
  terminal.passing("");
  const bulk = given.value("flatgeobuf");
  const written =
    bulk === null
      ? null
      : await writeFlatGeobuf(await openCatalogue(objectFolder(out)), bulk).catch((fault: unknown) => {
          throw inputError(
            `The FlatGeobuf file was not written: ${fault instanceof Error ? fault.message : String(fault)}`,
          );
        });
  if (given.has("json")) {
    terminal.out(JSON.stringify({ manifest: name, ...manifest, refused, flatgeobuf: written }, null, 2));
    return EXIT.answered;
  }
  terminal.out(`${manifest.campgrounds} campgrounds, ${manifest.sites} sites, ${size(manifest.bytes)} packed.`);
  terminal.out(`Index ${size(manifest.index.bytes)}. Manifest ${name}.`);
  if (written !== null) {
    terminal.out(`${bulk}: ${written.sites} sites with an index; ${written.withoutPlace} without a place left out.`);
  }
  for (const { name: file, why } of refused.slice(0, SHOWN_REFUSALS)) terminal.out(`Left out ${file}: ${why}`);
  if (refused.length > SHOWN_REFUSALS) terminal.out(`and ${refused.length - SHOWN_REFUSALS} more files left out.`);
  return EXIT.answered;
}

async function show(folder: string, given: Given, terminal: Terminal): Promise<ExitCode> {
  const catalogue = await openCatalogue(objectFolder(folder)).catch((fault: unknown) => {
    throw inputError(`${folder}: ${fault instanceof Error ? fault.message : String(fault)}`);
  });
  const { manifest, entries } = catalogue;
  if (given.has("json")) {
    terminal.out(JSON.stringify({ manifest, campgrounds: entries }, null, 2));
    return EXIT.answered;
  }
  terminal.out(`${manifest.campgrounds} campgrounds, ${manifest.sites} sites, ${size(manifest.bytes)} packed.`);
  for (const { id, name, sites } of entries) terminal.out(`${id}: ${name}, ${sites} sites`);
  return EXIT.answered;
}

function bar(done: number, all: number): string {
  const filled = all === 0 ? BAR_WIDTH : Math.round((done / all) * BAR_WIDTH);
  return `[${"#".repeat(filled)}${".".repeat(BAR_WIDTH - filled)}] ${done} of ${all} files`;
}

function size(bytes: number): string {
  if (bytes < KILO) return `${bytes} bytes`;
  if (bytes < KILO * KILO) return `${(bytes / KILO).toFixed(1)} kB`;
  return `${(bytes / KILO / KILO).toFixed(1)} MB`;
}
