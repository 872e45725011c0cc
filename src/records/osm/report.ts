/** What an import tells: what was taken, what became of every tag, what stays unknown, what to look at. */
import type { CampgroundFeature } from "../../site/feature.ts";
import type { OsmSource } from "./element.ts";
import type { OsmNotes, OsmWarning, TagCount } from "./notes.ts";

export interface OsmReport {
  readonly format: OsmSource["format"];
  /** Elements in the data. */
  readonly elements: { readonly nodes: number; readonly ways: number; readonly relations: number };
  /** Features of the record, by kind. */
  readonly kinds: Readonly<Record<string, number>>;
  /** Elements with tags that have no part in a campground's record. */
  readonly withoutPart: number;
  /** Elements beyond the box that was asked for. */
  readonly beyondBox: number;
  /** Campgrounds of the tags that were taken for single pitches. */
  readonly takenForPitches: number;
  /** Power supplies given to one pitch, and those given to none. */
  readonly pedestals: { readonly assigned: number; readonly unassigned: number };
  readonly tags: readonly TagCount[];
  readonly warnings: readonly OsmWarning[];
  /** Warnings beyond the cap. */
  readonly warningsLeftOut: number;
  /** What is missing, and on how many sites. */
  readonly unknown: readonly { readonly what: string; readonly sites: number }[];
}

export interface OsmTally {
  withoutPart: number;
  beyondBox: number;
  takenForPitches: number;
  assigned: number;
  unassigned: number;
}

export function reportOf(
  source: OsmSource,
  features: readonly CampgroundFeature[],
  tally: OsmTally,
  notes: OsmNotes,
): OsmReport {
  const kinds: Record<string, number> = {};
  for (const { properties } of features) {
    const kind = String(properties["kind"]);
    kinds[kind] = (kinds[kind] ?? 0) + 1;
  }
  const { nodes, ways, relations, format } = source;
  const { assigned, unassigned, ...rest } = tally;
  return {
    format,
    elements: { nodes, ways, relations },
    kinds,
    ...rest,
    pedestals: { assigned, unassigned },
    tags: notes.tagCounts(),
    warnings: notes.warnings,
    warningsLeftOut: notes.warningsLeftOut,
    unknown: unknownOf(features.filter(({ properties }) => properties["kind"] === "site")),
  };
}

/** JSON members of a site that a fit asks for. A service counts as known when it is yes or no. */
const ASKED = [
  ["name"],
  ["layout"],
  ["heading"],
  ["pad", "length"],
  ["pad", "width"],
  ["pad", "surface"],
  ["pad", "grade"],
  ["pad", "crossfall"],
  ["services", "power"],
  ["services", "water"],
  ["services", "sewer"],
  ["limits", "length"],
  ["limits", "width"],
  ["limits", "height"],
] as const;

function unknownOf(sites: readonly CampgroundFeature[]): OsmReport["unknown"] {
  const missing = ASKED.map((path) => ({
    what: path.join("."),
    sites: sites.filter(({ properties }) => at(properties, path) === undefined).length,
  }));
  const powered = sites.filter(({ properties }) => at(properties, ["services", "power"]) === "yes");
  const power = (site: CampgroundFeature): readonly Record<string, unknown>[] =>
    ((site.properties["hookups"] ?? []) as readonly Record<string, unknown>[]).filter(
      ({ service }) => service === "power",
    );
  return [
    ...missing,
    {
      what: "place of the power hookup",
      sites: powered.filter((site) => !power(site).some((one) => one["at"])).length,
    },
    { what: "receptacles", sites: powered.filter((site) => !power(site).some((one) => one["receptacles"])).length },
  ].filter(({ sites }) => sites > 0);
}

function at(properties: Readonly<Record<string, unknown>>, path: readonly string[]): unknown {
  return path.reduce<unknown>(
    (value, key) => (typeof value === "object" && value !== null ? (value as Record<string, unknown>)[key] : undefined),
    properties,
  );
}
