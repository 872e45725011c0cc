/**
 * The catalogue's index: which campgrounds lie where and what they offer at the most, in one immutable object. Layout,
 * all numbers little-endian: the magic "PWCI", a 16-bit version, 16 bits of nought, a 32-bit length and that many
 * bytes of packed JSON (the entries), padding to 8 bytes, then the tree over the boxes as Flatbush writes it.
 */
import Flatbush from "flatbush";
import type { Box } from "../place.ts";
import type { CatalogueEntry } from "./entry.ts";
import { packed, unpacked } from "./objects.ts";

const MAGIC = "PWCI";
export const INDEX_VERSION = 1;
const HEADER_BYTES = 12;
const VERSION_AT = 4;
const LENGTH_AT = 8;
const WORD = 8;

export interface CatalogueIndex {
  readonly entries: readonly CatalogueEntry[];
  /** Entries whose box meets one of these boxes, each once, in the order of the entries. */
  readonly meeting: (boxes: readonly Box[]) => readonly CatalogueEntry[];
}

/** Boxes of an entry without longitudes that run over the antimeridian. */
function flatBoxes([west, south, east, north]: Box): Box[] {
  if (west <= east) return [[west, south, east, north]];
  return [
    [west, south, 180, north],
    [-180, south, east, north],
  ];
}

export async function encodeIndex(entries: readonly CatalogueEntry[]): Promise<Uint8Array<ArrayBuffer>> {
  const json = await packed(JSON.stringify(entries));
  const tree = treeOf(entries);
  const start = padded(HEADER_BYTES + json.length);
  const bytes = new Uint8Array(start + tree.length);
  const view = new DataView(bytes.buffer);
  bytes.set(new TextEncoder().encode(MAGIC));
  view.setUint16(VERSION_AT, INDEX_VERSION, true);
  view.setUint32(LENGTH_AT, json.length, true);
  bytes.set(json, HEADER_BYTES);
  bytes.set(tree, start);
  return bytes;
}

const padded = (length: number): number => Math.ceil(length / WORD) * WORD;

function treeOf(entries: readonly CatalogueEntry[]): Uint8Array {
  const boxes = entries.flatMap(({ box }) => (box === null ? [] : flatBoxes(box)));
  if (boxes.length === 0) return new Uint8Array(0);
  const tree = new Flatbush(boxes.length);
  for (const [west, south, east, north] of boxes) tree.add(west, south, east, north);
  tree.finish();
  return new Uint8Array(tree.data);
}

/** Throws with a plain sentence for bytes that are no index of a version that is known. */
export async function decodeIndex(bytes: Uint8Array): Promise<CatalogueIndex> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const magic = new TextDecoder().decode(bytes.subarray(0, MAGIC.length));
  if (bytes.length < HEADER_BYTES || magic !== MAGIC) throw new Error("This is no catalogue index.");
  const version = view.getUint16(VERSION_AT, true);
  if (version !== INDEX_VERSION) {
    throw new Error(`The catalogue index has version ${version}; version ${INDEX_VERSION} is known here.`);
  }
  const length = view.getUint32(LENGTH_AT, true);
  const start = padded(HEADER_BYTES + length);
  if (start > bytes.length) throw new Error("The catalogue index is cut short.");
  const text = await unpacked(bytes.subarray(HEADER_BYTES, HEADER_BYTES + length));
  const entries = JSON.parse(text) as CatalogueEntry[];
  // A tree wants its own buffer.
  const tree = start === bytes.length ? null : Flatbush.from(bytes.slice(start).buffer);
  const owners = entries.flatMap(({ box }, place) => (box === null ? [] : flatBoxes(box).map(() => place)));
  return {
    entries,
    meeting: (boxes) => {
      if (tree === null) return [];
      const places = new Set(
        boxes.flatMap(([west, south, east, north]) => tree.search(west, south, east, north)).map((box) => owners[box]!),
      );
      return [...places].sort((a, b) => a - b).map((place) => entries[place]!);
    },
  };
}
