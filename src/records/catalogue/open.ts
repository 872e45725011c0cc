/**
 * A catalogue read from any object source as a store of campgrounds. It keeps to the manifest that it was opened with,
 * so that a swap of the catalogue never mixes versions; `openCatalogue` again sees the new one.
 */

import { type CampgroundStore, type CampgroundSummary, readStored, type StoredCampground } from "../store.ts";
import type { Area } from "./area.ts";
import { boxesOf } from "./area.ts";
import { MANIFEST_VERSION, type Manifest, POINTER } from "./build.ts";
import type { CatalogueEntry } from "./entry.ts";
import { decodeIndex } from "./index-file.ts";
import { type ObjectSource, unpacked } from "./objects.ts";

export interface CatalogueStore extends CampgroundStore {
  readonly manifest: Manifest;
  readonly entries: readonly CatalogueEntry[];
}

export interface OpenOptions {
  /** Campgrounds kept in memory after reading; default 64. */
  readonly kept?: number;
  /** Name of the manifest; default: the one that the catalogue points at now. */
  readonly manifest?: string;
}

const KEPT = 64;

export async function openCatalogue(source: ObjectSource, options: OpenOptions = {}): Promise<CatalogueStore> {
  const name = options.manifest ?? (await pointedAt(source));
  const manifest = (await readJson(source, name)) as Manifest;
  if (manifest.version !== MANIFEST_VERSION) {
    throw new Error(`The manifest has version ${manifest.version}; version ${MANIFEST_VERSION} is known here.`);
  }
  const index = await decodeIndex(await read(source, manifest.index.object));
  const byId = new Map(index.entries.map((entry) => [entry.id, entry]));
  const kept = new Map<string, StoredCampground>();
  const most = options.kept ?? KEPT;

  const get = async (id: string): Promise<StoredCampground | null> => {
    const entry = byId.get(id);
    if (entry === undefined) return null;
    const known = kept.get(id);
    if (known !== undefined) {
      kept.delete(id);
      kept.set(id, known);
      return known;
    }
    const stored = await readStored(await unpacked(await read(source, entry.object)));
    if (typeof stored === "string") throw new Error(`${entry.object} of the catalogue cannot be read: ${stored}`);
    kept.set(id, stored);
    for (const oldest of kept.keys()) {
      if (kept.size <= most) break;
      kept.delete(oldest);
    }
    return stored;
  };

  return {
    manifest,
    entries: index.entries,
    list: async () => index.entries.map(summaryOf),
    meeting: async (area: Area) => index.meeting(boxesOf(area)).map(summaryOf),
    get,
    version: async () => name,
  };
}

/** Name of the manifest of the newest catalogue. */
export async function pointedAt(source: ObjectSource): Promise<string> {
  return ((await readJson(source, POINTER)) as { readonly manifest: string }).manifest;
}

function summaryOf({ id, name, sites, brokenSites, box, version, envelope }: CatalogueEntry): CampgroundSummary {
  return { id, name, sites, brokenSites, box, version, envelope };
}

async function read(source: ObjectSource, name: string): Promise<Uint8Array> {
  const bytes = await source.get(name);
  if (bytes === null) throw new Error(`The catalogue has no object ${name}.`);
  return bytes;
}

async function readJson(source: ObjectSource, name: string): Promise<unknown> {
  return JSON.parse(new TextDecoder().decode(await read(source, name)));
}
