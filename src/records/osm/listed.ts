/** Values that the tagging scheme lists, for a warning about those that it does not: most often a slip of the pen. */
import table from "../../../data/osm-tags.json" with { type: "json" };
import type { Classified } from "./classify.ts";
import { type OsmNotes, quoted } from "./notes.ts";

/** Keys whose list is closed, and surface: its list is open, and a rig stands on it. */
const WATCHED: ReadonlyMap<string, ReadonlySet<string>> = new Map(
  table.tagging.enums
    .filter(({ closed, key }) => closed || key === "surface")
    .map(({ key }) => [
      key,
      new Set(table.tagging.enums.filter((one) => one.key === key).flatMap(({ options }) => options)),
    ]),
);

export function warnOfUnlisted({ element }: Classified, notes: OsmNotes): void {
  for (const [key, listed] of WATCHED) {
    const value = element.tags.get(key);
    if (value === undefined || listed.has(value)) continue;
    const text = `${key}=${quoted(value)} is not one that the tagging scheme offers.`;
    notes.warn("unlisted-value", element.key, key, text);
  }
}
