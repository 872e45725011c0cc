/** What an element becomes: the first row of the table of kinds that its tags fit. */
import table from "../../../data/osm-tags.json" with { type: "json" };
import type { OsmElement } from "./element.ts";
import type { OsmNotes } from "./notes.ts";

type Role =
  | "pitch"
  | "campground"
  | "pedestal"
  | "dump"
  | "fill"
  | "drinkingWater"
  | "gate"
  | "barrier"
  | "thing"
  | "tree"
  | "treeRow"
  | "ground"
  | "building"
  | "road"
  | "walkway"
  | "excluded";

export interface Classified {
  readonly element: OsmElement;
  readonly role: Role;
  /** Word of the record for barriers, things and ground. */
  readonly what: string | null;
  /** The key that decided. */
  readonly by: string;
}

interface Row {
  readonly key: string;
  readonly values: string | readonly string[];
  readonly role: string;
  readonly what?: string;
}

/** Null for an element that has no part in a campground's record. */
export function classify(element: OsmElement): Classified | null {
  for (const { key, values, role, what } of table.kinds as readonly Row[]) {
    const value = element.tags.get(key);
    if (value === undefined || !(values === "*" ? value !== "no" : values.includes(value))) continue;
    const found = { element, what: what ?? null, by: key };
    if (role !== "cabinet") return { ...found, role: role as Role };
    return hasSupply(element) ? { ...found, role: "pedestal" } : { ...found, role: "thing", what: "post" };
  }
  return null;
}

function hasSupply({ tags }: OsmElement): boolean {
  return [...tags.keys()].some((key) => key.startsWith("socket:") || key.startsWith("power_supply"));
}

/** The element with tags of older practice replaced as the tagging scheme says; the record keeps those that came. */
export function replaceDeprecated(element: OsmElement, notes: OsmNotes): OsmElement {
  let tags = element.tags;
  const keys: string[] = [];
  for (const { old, replace } of table.deprecated as readonly Replacement[]) {
    if (!Object.entries(old).every(([key, value]) => tags.get(key) === value)) continue;
    const [from] = Object.entries(old);
    const text = `${from?.join("=")} is older practice for ${Object.entries(replace).flat().join("=")}.`;
    notes.warn("deprecated-tag", element.key, from?.[0] ?? null, text);
    keys.push(...Object.keys(old));
    const changed = new Map(tags);
    for (const [key, value] of Object.entries(replace)) changed.set(key, value);
    tags = changed;
  }
  return tags === element.tags ? element : { ...element, tags, replaced: { original: element.tags, keys } };
}

interface Replacement {
  readonly old: Readonly<Record<string, string>>;
  readonly replace: Readonly<Record<string, string>>;
}
