/** The records of a folder of .geojson files, read when the process starts. */
import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import type { RecordSource } from "../records/store.ts";

const ENDING = ".geojson";

/**
 * The texts of every .geojson file of a folder, in the order of their names; folders inside it are not entered. Throws
 * when the folder itself cannot be read.
 */
export async function readFolder(folder: string): Promise<readonly RecordSource[]> {
  const entries = await readdir(folder, { withFileTypes: true });
  const names = entries.filter((entry) => entry.isFile() && entry.name.endsWith(ENDING)).map((entry) => entry.name);
  const sources: RecordSource[] = [];
  for (const name of names.sort()) sources.push({ name, input: await readFile(join(folder, name), "utf8") });
  return sources;
}
