/** A feature of a collection, and its id: the ids of the campground and of what is in it, joined by colons. */
import type { WireGeometry } from "../../../site/feature.ts";

export interface OgcFeature {
  readonly id: string;
  readonly geometry: WireGeometry | null;
  /** Every column of the collection, null where the record does not say. */
  readonly properties: Readonly<Record<string, unknown>>;
}

/** Colons and percent signs inside a part are escaped, so that two different lists of parts never give one id. */
export function joinId(...parts: readonly string[]): string {
  return parts.map((part) => part.replaceAll("%", "%25").replaceAll(":", "%3A")).join(":");
}

/** The campground that an id belongs to. */
export function campgroundOfId(id: string): string {
  const [first = ""] = id.split(":");
  return first.replaceAll("%3A", ":").replaceAll("%25", "%");
}
