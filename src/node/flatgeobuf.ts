/**
 * The sites of a store as one FlatGeobuf file, the bulk download for geographic information systems. GDAL writes it,
 * because it writes the spatial index and keeps what is unknown null; the types of the columns are stated, so that none
 * is guessed from whatever site comes first. Nested members are JSON text in the column `record`.
 */
import { execFile } from "node:child_process";
import { mkdtemp, open, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { featureText } from "../http/ogc/answer.ts";
import { collectionOf, featuresIn } from "../http/ogc/collections.ts";
import type { Column } from "../http/ogc/columns.ts";
import type { CampgroundStore } from "../records/store.ts";

export interface WrittenFlatGeobuf {
  /** Sites in the file. */
  readonly sites: number;
  /** Sites left out, because nothing is on record of where they lie: a file with an index has no room for them. */
  readonly withoutPlace: number;
  /** Entries in a node of the spatial index, as the header says. */
  readonly indexNodeSize: number;
}

const LAYER = "sites";
const VRT_TYPES: Readonly<Record<Column["type"], string>> = {
  string: "String",
  object: "String",
  number: "Real",
  integer: "Integer",
  boolean: 'Integer" subtype="Boolean',
};

/** @throws with a plain sentence when ogr2ogr is missing or fails, or when the file has no index. */
export async function writeFlatGeobuf(store: CampgroundStore, file: string): Promise<WrittenFlatGeobuf> {
  const collection = collectionOf(LAYER);
  if (collection === null) throw new Error("There is no collection of sites.");
  const folder = await mkdtemp(join(tmpdir(), "padwright-fgb-"));
  try {
    const lines = await open(join(folder, "sites.geojsonl"), "w");
    let [sites, withoutPlace] = [0, 0];
    // One campground is in memory at a time.
    for (const { id } of await store.list()) {
      const stored = await store.get(id);
      for (const feature of stored === null ? [] : featuresIn(collection, stored)) {
        if (feature.geometry === null) withoutPlace += 1;
        else {
          const { id: ogcId, geometry, properties } = feature;
          await lines.write(`${featureText(collection, { id: ogcId, geometry, properties })}\n`);
          sites += 1;
        }
      }
    }
    await lines.close();
    const source = join(folder, "sites.vrt");
    await writeSource(source, collection.columns);
    await rm(file, { force: true });
    await translate([
      "-f",
      "FlatGeobuf",
      file,
      source,
      LAYER,
      "-nln",
      LAYER,
      "-nlt",
      "GEOMETRY",
      "-lco",
      "SPATIAL_INDEX=YES",
    ]);
    const indexNodeSize = await readIndexNodeSize(file);
    if (indexNodeSize === 0) throw new Error(`${file} was written without a spatial index.`);
    return { sites, withoutPlace, indexNodeSize };
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

async function writeSource(path: string, columns: readonly Column[]): Promise<void> {
  const fields = [{ name: "id", type: "string" as const }, ...columns].map(
    ({ name, type }) => `<Field name="${name}" src="${name}" type="${VRT_TYPES[type]}"/>`,
  );
  const text = `<OGRVRTDataSource><OGRVRTLayer name="${LAYER}"><SrcDataSource relativeToVRT="1">sites.geojsonl</SrcDataSource><SrcLayer>sites</SrcLayer><GeometryType>wkbUnknown</GeometryType><LayerSRS>OGC:CRS84</LayerSRS>${fields.join("")}</OGRVRTLayer></OGRVRTDataSource>`;
  const target = await open(path, "w");
  await target.write(text);
  await target.close();
}

async function translate(words: readonly string[]): Promise<void> {
  const run = promisify(execFile);
  const { stderr } = await run("ogr2ogr", [...words]).catch((fault: NodeJS.ErrnoException & { stderr?: string }) => {
    if (fault.code === "ENOENT") throw new Error("ogr2ogr is not on this machine; it comes with GDAL (gdal-bin).");
    throw new Error(`ogr2ogr: ${fault.stderr?.trim() || fault.message}`);
  });
  if (/^ERROR/m.test(stderr)) throw new Error(`ogr2ogr: ${stderr.trim()}`);
}

/**
 * Reads the size of the index's nodes from the header, a FlatBuffers table (FlatGeobuf specification, header.fbs: the
 * tenth field, 16 bits, 16 when absent; from memory and checked against files written with and without an index).
 */
export async function readIndexNodeSize(file: string): Promise<number> {
  const handle = await open(file);
  try {
    const start = new DataView(new ArrayBuffer(PREAMBLE + LONG));
    await handle.read(start, 0, PREAMBLE + LONG, 0);
    if (MAGIC.some((byte, index) => start.getUint8(index) !== byte)) throw new Error(`${file} is no FlatGeobuf file.`);
    const size = start.getUint32(PREAMBLE, true);
    const header = new DataView(new ArrayBuffer(size));
    await handle.read(header, 0, size, PREAMBLE + LONG);
    const table = header.getUint32(0, true);
    const offsets = table - header.getInt32(table, true);
    const entry = 2 * SHORT + INDEX_NODE_SIZE_FIELD * SHORT;
    const here = entry < header.getUint16(offsets, true) ? header.getUint16(offsets + entry, true) : 0;
    return here === 0 ? USUAL_NODE_SIZE : header.getUint16(table + here, true);
  } finally {
    await handle.close();
  }
}

/** "fgb", major version 3, "fgb"; the byte after it is the patch version. */
const MAGIC = [0x66, 0x67, 0x62, 0x03, 0x66, 0x67, 0x62];
const PREAMBLE = MAGIC.length + 1;
const LONG = 4;
const SHORT = 2;
const INDEX_NODE_SIZE_FIELD = 9;
const USUAL_NODE_SIZE = 16;
