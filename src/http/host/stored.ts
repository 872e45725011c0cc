/** The record of the campground that a host route is about. */
import type { StoredCampground } from "../../records/store.ts";
import { absentCampground } from "./admit.ts";
import type { HostDependencies } from "./host.ts";

/** The newest version with its number and tag. Throws the problem of a campground that is not there. */
export async function keptRecord({ records }: HostDependencies, campground: string) {
  const kept = await records.kept(campground);
  if (kept === null) throw absentCampground();
  return kept;
}

export async function storedRecord(host: HostDependencies, campground: string): Promise<StoredCampground> {
  return (await keptRecord(host, campground)).stored;
}
