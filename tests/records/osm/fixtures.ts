/** Small open map data, all invented: an imaginary campground near 44.1 north, 103.2 west. */
import { expect } from "vitest";
import { importOsm, type OsmImport, type OsmOptions } from "../../../src/records/osm/import.ts";
import type { CampgroundFeature } from "../../../src/site/feature.ts";

export type TagList = Readonly<Record<string, string>>;

export const xml = (...inner: string[]): string => `<?xml version="1.0"?><osm version="0.6">${inner.join("")}</osm>`;

const escaped = (text: string): string => text.replace(/&/g, "&amp;").replace(/"/g, "&quot;").replace(/</g, "&lt;");

const tagXml = (tags: TagList): string =>
  Object.entries(tags)
    .map(([k, v]) => `<tag k="${escaped(k)}" v="${escaped(v)}"/>`)
    .join("");

export const node = (id: number, lon: number, lat: number, tags: TagList = {}): string =>
  `<node id="${id}" lat="${lat}" lon="${lon}">${tagXml(tags)}</node>`;

export const way = (id: number, refs: readonly number[], tags: TagList = {}): string =>
  `<way id="${id}">${refs.map((ref) => `<nd ref="${ref}"/>`).join("")}${tagXml(tags)}</way>`;

export const relation = (
  id: number,
  members: readonly (readonly [ref: number, role: string])[],
  tags: TagList,
): string =>
  `<relation id="${id}">${members.map(([ref, role]) => `<member type="way" ref="${ref}" role="${role}"/>`).join("")}${tagXml(tags)}</relation>`;

export type Taken = Extract<OsmImport, { ok: true }>;

/** The import, which must succeed. */
export function taken(input: unknown, options?: OsmOptions): Taken {
  const result = importOsm(input, options);
  if (!result.ok) throw new Error(JSON.stringify(result.errors));
  return result;
}

/** The code of the first error of an import, which must fail. */
export function refusedWith(input: unknown, options?: OsmOptions): string {
  const result = importOsm(input, options);
  expect(result.ok).toBe(false);
  return result.ok ? "" : (result.errors[0]?.code ?? "no error");
}

export function features(result: Taken, kind: string): readonly CampgroundFeature[] {
  return result.collection.features.filter(({ properties }) => properties["kind"] === kind);
}

export function feature(result: Taken, id: string): CampgroundFeature {
  const found = result.collection.features.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no feature ${id}`);
  return found;
}

/** The one pitch of data that hold a single node with these tags. */
export function pitch(tags: TagList, more: readonly string[] = []): Readonly<Record<string, unknown>> {
  const result = taken(xml(node(11, -103.2, 44.1, { tourism: "camp_pitch", ...tags }), ...more));
  return feature(result, "node-11").properties;
}

export function codes(result: Taken, element?: string): readonly string[] {
  return result.report.warnings
    .filter((one) => element === undefined || one.element === element)
    .map(({ code }) => code);
}
