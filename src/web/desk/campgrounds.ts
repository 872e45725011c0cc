/** Records of the campgrounds that stops name, for the worker, and the names of their sites for a form. */
import { hasMeasured } from "../measure/shelf.ts";
import { keepCampground } from "../state/device.ts";
import type { Session } from "../state/session.ts";
import { type Wire, wireOf } from "./files.ts";

/** Ids of campgrounds that stops name, each once. */
export function campgroundsIn(trips: readonly Wire[]): readonly string[] {
  const ids = trips.flatMap(({ stops }) =>
    (Array.isArray(stops) ? stops : []).flatMap((stop) => {
      const { site, campground } = wireOf(stop);
      return [wireOf(site)["campground"], campground].filter((id): id is string => typeof id === "string");
    }),
  );
  return [...new Set(ids)];
}

export interface CampgroundRecord {
  readonly id: string;
  readonly name: string;
  readonly text: string;
  readonly sites: readonly { readonly id: string; readonly name: string }[];
}

const known = new Map<string, Promise<CampgroundRecord | null>>();

async function read(session: Session, id: string): Promise<CampgroundRecord | null> {
  const text = await session.textOf(id);
  if (text === null) return null;
  const { campground, features } = wireOf(JSON.parse(text));
  const name = String(wireOf(campground)["name"] ?? id);
  const sites = (Array.isArray(features) ? features : []).map(wireOf).flatMap((feature) => {
    const properties = wireOf(feature["properties"]);
    const own = feature["id"] ?? properties["id"];
    if (properties["kind"] !== "site" || own === undefined) return [];
    return [{ id: String(own), name: String(properties["name"] ?? own) }];
  });
  await keepCampground({ id, name, sites: sites.length, text });
  return { id, name, sites, text };
}

/** Null when neither the server nor this device has it; then it is asked for again the next time. */
export function campgroundRecord(session: Session, id: string): Promise<CampgroundRecord | null> {
  const found = known.get(id) ?? read(session, id).catch(() => null);
  known.set(id, found);
  found.then((record) => record === null && known.delete(id));
  return found;
}

/** Texts of those that can be had, with what was measured on this device. */
export async function campgroundTexts(session: Session, ids: readonly string[]): Promise<readonly string[]> {
  const records = await Promise.all(ids.map((id) => campgroundRecord(session, id)));
  const texts = records.flatMap((record) => (record === null ? [] : [record.text]));
  if (!hasMeasured()) return texts;
  const { withMeasured } = await import("../measure/measured.ts");
  return texts.map((text) => withMeasured(text));
}
