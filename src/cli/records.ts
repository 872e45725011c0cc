/** Rig, campground and site from files, or everything that is wrong with them. */
import { readFile } from "node:fs/promises";
import type { ReadRig } from "../http/rig-input.ts";
import { type CampgroundReading, type Refusal, readCampground } from "../records/geojson.ts";
import { type JsonValue, readJson } from "../records/json.ts";
import { isSite } from "../records/store.ts";
import { parseRig } from "../rig/parse.ts";
import { type CampgroundFeature, featureId } from "../site/feature.ts";
import type { Campground } from "../site/schema.ts";
import { nearest } from "../units/nearest.ts";
import { type Ending, inputError, usageError } from "./ending.ts";
import type { Given } from "./flags.ts";
import { printable } from "./layout.ts";
import type { Terminal } from "./terminal.ts";

/** The name that stands for the standard input. */
const STDIN = "-";
/** Faults told at once. */
const MOST_FAULTS = 50;
const NAMES_SHOWN = 12;
const LARGEST_FILE = 64 * 1024 * 1024;

/** The text of a file, or of the standard input when it is named "-". */
export async function readText(name: string, terminal: Terminal): Promise<string> {
  if (name === STDIN) return terminal.stdin();
  try {
    const bytes = await readFile(name);
    if (bytes.length > LARGEST_FILE) throw inputError(`${name} is larger than ${LARGEST_FILE} bytes.`);
    return bytes.toString("utf8");
  } catch (fault) {
    const reasons: Readonly<Record<string, string>> = {
      ENOENT: "there is no such file",
      EISDIR: "it is a folder",
      EACCES: "this user may not read it",
    };
    const { code, message } = fault as NodeJS.ErrnoException;
    if (code === undefined) throw fault;
    throw inputError(`${name} cannot be read: ${reasons[code] ?? message}.`);
  }
}

/** What messages call a file. */
export function titleOf(name: string): string {
  return name === STDIN ? "The standard input" : name;
}

/** The value of JSON text; a fault names its line and column. */
export function jsonOf(text: string, name: string): JsonValue {
  const read = readJson(text);
  if (read.ok) return read.value;
  throw inputError(
    `${titleOf(name)} cannot be read as JSON.`,
    ...read.faults.map(({ line, column, pointer, message }) => {
      const where = pointer === "" ? "" : ` (in ${printable(pointer)})`;
      return `  line ${line}, column ${column}${where}: ${printable(message)}`;
    }),
  );
}

interface Fault {
  readonly path: string;
  readonly message: string;
  readonly expected: string;
}

/** Every fault with its place and what is expected there. */
export function refusalOf(title: string, faults: readonly Fault[]): Ending {
  const rows = faults.slice(0, MOST_FAULTS).flatMap(({ path, message, expected }) => {
    const wanted = expected === "" || message.includes(expected) ? [] : [`      expected: ${printable(expected)}`];
    return [`  ${printable(path) || "the whole record"}: ${printable(message)}`, ...wanted];
  });
  const more = faults.length > MOST_FAULTS ? [`  and ${faults.length - MOST_FAULTS} more`] : [];
  return inputError(title, ...rows, ...more);
}

const counted = (faults: readonly unknown[]): string => (faults.length === 1 ? "one fault" : `${faults.length} faults`);

export async function readRigFile(name: string, terminal: Terminal): Promise<ReadRig> {
  const read = parseRig(jsonOf(await readText(name, terminal), name));
  if (read.ok) return { profile: read.rig, warnings: read.warnings };
  throw refusalOf(`${titleOf(name)} is no rig record: ${counted(read.errors)}.`, read.errors);
}

export interface CampgroundFile {
  readonly name: string;
  readonly campground: Campground;
  readonly features: readonly CampgroundFeature[];
  readonly sites: readonly CampgroundFeature[];
  readonly refused: readonly Refusal[];
}

/** Reads a campground. What was refused of it is told on the error stream; a document that cannot be used ends the command. */
export async function readCampgroundFile(name: string, terminal: Terminal): Promise<CampgroundFile> {
  const text = await readText(name, terminal);
  const { campground, document, features, report }: CampgroundReading = readCampground(text);
  const faults = report.refused.filter((fault) => document === null || fault.index === null);
  if (campground === null || document === null) {
    throw refusalOf(`${titleOf(name)} is no campground record: ${counted(faults)}.`, faults);
  }
  const lost = new Set(report.refused.map((fault) => fault.index)).size;
  if (lost > 0) {
    const what = lost === 1 ? "One feature" : `${lost} features`;
    terminal.error(`${titleOf(name)}: ${what} refused; padwright import ${name} says why.`);
  }
  return { name, campground, features, sites: features.filter(isSite), refused: report.refused };
}

const nameOf = (feature: CampgroundFeature): string => String(feature.properties["name"] ?? featureId(feature) ?? "");

/** The site of an id or a name; case does not matter where one site alone is meant. */
export function findSite(file: CampgroundFile, wanted: string): CampgroundFeature {
  const same = (text: string | null) => text?.toLowerCase() === wanted.toLowerCase();
  const exact = file.sites.filter((site) => featureId(site) === wanted);
  const found = exact.length > 0 ? exact : file.sites.filter((site) => same(featureId(site)) || same(nameOf(site)));
  const [site, second] = found;
  if (site !== undefined && second === undefined) return site;
  if (site !== undefined) {
    const ids = found.map((one) => featureId(one) ?? "one without an id").join(", ");
    throw inputError(`${found.length} sites are called "${printable(wanted)}". Name one by its id: ${printable(ids)}.`);
  }
  const broken = file.refused.filter((fault) => same(fault.id));
  if (broken.length > 0) throw refusalOf(`The record of site ${printable(wanted)} was refused.`, broken);
  throw inputError(...unknownSite(file, wanted));
}

function unknownSite(file: CampgroundFile, wanted: string): string[] {
  const names = file.sites.map(nameOf);
  if (names.length === 0) return [`${titleOf(file.name)} has no site.`];
  const near = nearest(wanted, [...names, ...file.sites.flatMap((site) => featureId(site) ?? [])]);
  const hint = near === null ? "" : ` Did you mean "${printable(near)}"?`;
  const more = names.length > NAMES_SHOWN ? `, and ${names.length - NAMES_SHOWN} more` : "";
  const shown = names.slice(0, NAMES_SHOWN).map(printable).join(", ");
  return [`${titleOf(file.name)} has no site "${printable(wanted)}".${hint}`, `Its sites: ${shown}${more}.`];
}

/** The standard input can be read once: two flags may not both ask for it. */
export function refuseSharedInput(given: Given, flags: readonly string[]): void {
  const asking = flags.filter((flag) => given.value(flag) === STDIN);
  if (asking.length > 1) throw usageError(`Only one of ${asking.map((flag) => `--${flag}`).join(", ")} can be "-".`);
}
