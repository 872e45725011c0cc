/** The files of the trip and desk commands: one request from several files, and the store that answers for places. */
import type { FitOptions } from "../fit/options.ts";
import type { ReadRequest } from "../http/trip-input.ts";
import { type CampgroundStore, memoryStore } from "../records/store.ts";
import { inputError, usageError } from "./ending.ts";
import { readFitOptions } from "./fit-options.ts";
import type { FlagSpec, Given } from "./flags.ts";
import { jsonOf, readText, refusalOf, titleOf } from "./records.ts";
import type { Terminal } from "./terminal.ts";

export const CAMPGROUNDS: FlagSpec = {
  value: "file",
  required: true,
  repeats: true,
  help: "A campground's record (GeoJSON) that stops name by its id.",
};

export type Members = Readonly<Record<string, unknown>>;

export async function readMembers(name: string, terminal: Terminal): Promise<Members> {
  const value = jsonOf(await readText(name, terminal), name);
  if (typeof value === "object" && value !== null && !Array.isArray(value)) return value as Members;
  throw inputError(`${titleOf(name)} must hold a JSON object.`);
}

/** The list under a member of a file, for instance `fleet` in a fleet's file; null without the flag. */
export async function readList(given: Given, flag: string, terminal: Terminal): Promise<readonly unknown[] | null> {
  const name = given.value(flag);
  if (name === null) return null;
  const list = (await readMembers(name, terminal))[flag];
  if (Array.isArray(list)) return list;
  throw inputError(`${titleOf(name)} has no list "${flag}".`);
}

/** The campgrounds of the files. One that cannot be read ends the command. */
export async function storeOf(given: Given, terminal: Terminal): Promise<CampgroundStore> {
  const sources = [];
  for (const name of given.values("campground")) sources.push({ name, input: await readText(name, terminal) });
  const { store, refused } = await memoryStore(sources);
  if (refused.length > 0) throw inputError(...refused.map(({ name, why }) => `${titleOf(name)}: ${why}`));
  return store;
}

export function accepted<T>({ input, errors }: ReadRequest<T>, what: string): T {
  if (input !== null) return input;
  const count = errors.length === 1 ? "one fault" : `${errors.length} faults`;
  const faults = errors.map(({ pointer = "", message, expected = "" }) => ({ path: pointer, message, expected }));
  throw refusalOf(`This ${what} is refused: ${count}.`, faults);
}

const OPTION_NAMES = ["option", "options", "need", "units"] as const;

/** Options from flags; null when none is given, so that those of the file stand. */
export async function optionsFromFlags(
  given: Given,
  fileHasOptions: boolean,
  terminal: Terminal,
): Promise<FitOptions | null> {
  const named = OPTION_NAMES.filter((name) => given.values(name).length > 0);
  if (named.length === 0) return null;
  if (fileHasOptions) throw usageError(`The file has options of its own: leave --${named[0]} out, or them.`);
  return readFitOptions(given, terminal);
}
