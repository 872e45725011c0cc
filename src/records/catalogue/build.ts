/**
 * Builds a catalogue: one packed object per campground, named by its content; one index over all of them; one manifest
 * that names the index; and last the pointer `catalogue.json` to the manifest. Whoever reads follows the pointer once
 * and sees one version whole, because nothing that a manifest names ever changes.
 */
import { readStored } from "../store.ts";
import { type CatalogueEntry, envelopeOf } from "./entry.ts";
import { encodeIndex, INDEX_VERSION } from "./index-file.ts";
import { contentName, type ObjectSink, packed } from "./objects.ts";

export const POINTER = "catalogue.json";
export const MANIFEST_VERSION = 1;

export interface Manifest {
  readonly version: typeof MANIFEST_VERSION;
  readonly index: { readonly object: string; readonly version: number; readonly bytes: number };
  readonly campgrounds: number;
  readonly sites: number;
  /** Bytes of all records, packed. */
  readonly bytes: number;
}

/** One campground's file: its name and mark tell whether it is the one that an earlier, broken-off run has read. */
export interface CatalogueInput {
  readonly name: string;
  /** Changes when the file does. */
  readonly mark: string;
  readonly read: () => Promise<string>;
}

export interface RefusedInput {
  readonly name: string;
  readonly why: string;
}

/** What an earlier run has finished; kept by the caller from `done` calls. */
export interface Finished {
  readonly name: string;
  readonly mark: string;
  readonly entry: CatalogueEntry;
  readonly bytes: number;
}

export interface BuildOptions {
  readonly finished?: ReadonlyMap<string, Finished>;
  /** Hears of every campground as soon as its object is stored. */
  readonly done?: (finished: Finished) => Promise<void>;
  /** Hears the number of files read so far. */
  readonly progress?: (files: number) => void;
}

export interface Built {
  readonly manifest: Manifest;
  readonly name: string;
  readonly refused: readonly RefusedInput[];
}

/** Reads the files one after another: of each only its entry stays in memory. */
export async function buildCatalogue(
  inputs: AsyncIterable<CatalogueInput>,
  sink: ObjectSink,
  options: BuildOptions = {},
): Promise<Built> {
  const entries: CatalogueEntry[] = [];
  const ids = new Map<string, string>();
  const refused: RefusedInput[] = [];
  let bytes = 0;
  let files = 0;
  for await (const input of inputs) {
    const known = options.finished?.get(input.name);
    const reusable = known !== undefined && known.mark === input.mark && (await sink.has(known.entry.object));
    const finished = reusable ? known : await storeOne(input, sink);
    files++;
    options.progress?.(files);
    if (typeof finished === "string") {
      refused.push({ name: input.name, why: finished });
      continue;
    }
    const { entry } = finished;
    const other = ids.get(entry.id);
    if (other !== undefined) {
      refused.push({ name: input.name, why: `The id "${entry.id}" is taken by ${other}.` });
      continue;
    }
    ids.set(entry.id, input.name);
    entries.push(entry);
    bytes += finished.bytes;
    if (!reusable) await options.done?.(finished);
  }
  entries.sort((a, b) => (a.id < b.id ? -1 : 1));
  return { ...(await publish(entries, bytes, sink)), refused };
}

async function storeOne(input: CatalogueInput, sink: ObjectSink): Promise<Finished | string> {
  const text = await input.read();
  const stored = await readStored(text);
  if (typeof stored === "string") return stored;
  const { id, name, sites, brokenSites, version, box } = stored.summary;
  const bytes = await packed(JSON.stringify(stored.document));
  const object = `campgrounds/${await contentName(bytes, ".geojson.gz")}`;
  if (!(await sink.has(object))) await sink.put(object, bytes);
  const entry = apart({ id, name, object, version, sites, brokenSites, box, envelope: envelopeOf(stored) });
  return { name: input.name, mark: input.mark, entry, bytes: bytes.length };
}

/** A copy whose strings are its own: a piece of a text may keep the whole text in memory. */
const apart = (entry: CatalogueEntry): CatalogueEntry => JSON.parse(JSON.stringify(entry)) as CatalogueEntry;

async function publish(
  entries: readonly CatalogueEntry[],
  bytes: number,
  sink: ObjectSink,
): Promise<{ readonly manifest: Manifest; readonly name: string }> {
  const index = await encodeIndex(entries);
  const object = `index/${await contentName(index, ".pwci")}`;
  await sink.put(object, index);
  const manifest: Manifest = {
    version: MANIFEST_VERSION,
    index: { object, version: INDEX_VERSION, bytes: index.length },
    campgrounds: entries.length,
    sites: entries.reduce((sum, entry) => sum + entry.sites, 0),
    bytes,
  };
  const text = new TextEncoder().encode(JSON.stringify(manifest));
  const name = `manifests/${await contentName(text, ".json")}`;
  await sink.put(name, text);
  await sink.put(POINTER, new TextEncoder().encode(JSON.stringify({ manifest: name })));
  return { manifest, name };
}
