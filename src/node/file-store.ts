/** The campground store of the default entry point: a folder of .geojson files, read when the process starts. */
import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { memoryStore, type RecordSource } from "../records/store.ts";

const ENDING = ".geojson";

/**
 * Reads every .geojson file of a folder, in the order of their names; folders inside it are not entered. A file that
 * is no campground is refused and told of. Throws when the folder itself cannot be read.
 */
export async function openFolder(folder: string): ReturnType<typeof memoryStore> {
  const entries = await readdir(folder, { withFileTypes: true });
  const names = entries.filter((entry) => entry.isFile() && entry.name.endsWith(ENDING)).map((entry) => entry.name);
  const sources: RecordSource[] = [];
  for (const name of names.sort()) sources.push({ name, input: await readFile(join(folder, name), "utf8") });
  return memoryStore(sources);
}
