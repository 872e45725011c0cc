/** Campground files of folders as the input of a catalogue, and the journal by which a broken-off build goes on. */

import { createReadStream } from "node:fs";
import { appendFile, mkdir, readdir, readFile, rm, stat } from "node:fs/promises";
import { join } from "node:path";
import { createInterface } from "node:readline";
import type { CatalogueInput, Finished } from "../records/catalogue/build.ts";

const ENDING = ".geojson";
const JOURNAL = "building.jsonl";

/** Every .geojson file below the folder, in the order of the paths; one name is held at a time. */
export async function* campgroundFiles(folder: string): AsyncGenerator<CatalogueInput> {
  const entries = await readdir(folder, { withFileTypes: true });
  entries.sort((a, b) => (a.name < b.name ? -1 : 1));
  for (const entry of entries) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) yield* campgroundFiles(path);
    else if (entry.isFile() && entry.name.endsWith(ENDING)) {
      const { size, mtimeMs } = await stat(path);
      yield { name: path, mark: `${size} ${mtimeMs}`, read: () => readFile(path, "utf8") };
    }
  }
}

export async function countFiles(folder: string): Promise<number> {
  let count = 0;
  for await (const _ of campgroundFiles(folder)) count++;
  return count;
}

export interface Journal {
  readonly finished: ReadonlyMap<string, Finished>;
  readonly add: (finished: Finished) => Promise<void>;
}

/** What earlier runs on this catalogue have read. A last line that was cut off is left out. */
export async function openJournal(folder: string): Promise<Journal> {
  await mkdir(folder, { recursive: true });
  const path = join(folder, JOURNAL);
  const finished = new Map<string, Finished>();
  const exists = await stat(path).then(
    () => true,
    () => false,
  );
  if (exists) {
    for await (const line of createInterface({ input: createReadStream(path), crlfDelay: Infinity })) {
      const read = readLine(line);
      if (read !== null) finished.set(read.name, read);
    }
  }
  return { finished, add: (one) => appendFile(path, `${JSON.stringify(one)}\n`) };
}

function readLine(line: string): Finished | null {
  try {
    return JSON.parse(line) as Finished;
  } catch {
    return null;
  }
}

/** Forgets what earlier runs have read. */
export async function dropJournal(folder: string): Promise<void> {
  await rm(join(folder, JOURNAL), { force: true });
}
