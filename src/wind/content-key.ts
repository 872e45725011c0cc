/** A short name for a set of features: equal sets have equal names, whatever the order of features or members. */
import type { LonLat } from "../geo/tangent-plane.ts";
import type { CampgroundFeature } from "../site/feature.ts";

/** Offset basis and prime of the 32-bit FNV-1a hash (from memory); the second basis is our own. */
const BASES = [0x811c9dc5, 0x9747b28c] as const;
const PRIME = 0x01000193;
const HEX = 16;
const HEX_DIGITS = 8;

/** Key of features about a centre: 16 hexadecimal digits. */
export function contentKey(features: readonly CampgroundFeature[], centre: LonLat): string {
  const parts = features.map(({ id, geometry, properties }) => canonical([id ?? null, geometry, properties])).sort();
  const text = `${centre.longitude},${centre.latitude};${parts.join(";")}`;
  return BASES.map((basis) => hash(text, basis).toString(HEX).padStart(HEX_DIGITS, "0")).join("");
}

function canonical(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonical).join(",")}]`;
  if (typeof value !== "object" || value === null) return JSON.stringify(value) ?? "null";
  const entries = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1));
  return `{${entries.map(([name, member]) => `${JSON.stringify(name)}:${canonical(member)}`).join(",")}}`;
}

function hash(text: string, basis: number): number {
  let value = basis;
  for (let index = 0; index < text.length; index += 1) {
    value = Math.imul(value ^ text.charCodeAt(index), PRIME);
  }
  return value >>> 0;
}
