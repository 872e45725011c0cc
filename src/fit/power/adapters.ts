/**
 * Adapters, extensions and protectors: the catalogue of listed ones, and how a thing of the rig's kit is recognised
 * as one of them. Table and sources: data/adapters.json.
 */

import table from "../../../data/adapters.json" with { type: "json" };
import kit from "../../../data/kit.json" with { type: "json" };
import type { KitItem } from "../../rig/completed.ts";
import type { Gauge } from "../../units/gauge.ts";

export interface CatalogueAdapter {
  readonly id: string;
  readonly description: string;
  /** Plug that enters the site's receptacle. */
  readonly plug: string;
  /** Receptacle that takes the rig's plug. */
  readonly receptacle: string;
  /** Amperes. */
  readonly rating: number;
  /** True when it may stand behind a breaker larger than its rating. */
  readonly largerBreaker: boolean;
  /** Amperes of a breaker inside the adapter; null when it has none. */
  readonly ownBreaker: number | null;
  readonly withCaution: boolean;
  readonly cautions: readonly string[];
  readonly source: string;
  readonly mark: string;
}

export interface CatalogueExtension {
  readonly plug: string;
  /** Amperes. */
  readonly rating: number;
  readonly gauge: Gauge;
  readonly source: string;
}

/** Listed one-piece adapters; for a pair of ends there is one, and the usual one for a rig's plug stands first. */
export const ADAPTERS: readonly CatalogueAdapter[] = table.adapters;
const EXTENSIONS = table.extensions as readonly CatalogueExtension[];
/** Metres, shortest first, by amperes. */
const SOLD_LENGTHS: Readonly<Record<string, readonly number[]>> = kit.items.extension.soldLengths;

/** Kinds of kit that stand in the line between the receptacle and the rig. */
export type LineKit = "adapter" | "protector" | "extension";

/**
 * What a kit item is in the power line; null for everything else. An item that joins two receptacles is never part of
 * a line, whatever else its name says.
 */
export function lineKitKind(item: KitItem): LineKit | null {
  if (item.plug === null && item.receptacle === null) return null;
  const name = item.item.toLowerCase();
  const named = (words: readonly string[]): boolean => words.some((word) => name.includes(word));
  if (named(table.itemWords.never)) return null;
  if (named(table.itemWords.adapter)) return "adapter";
  if (named(table.itemWords.protector)) return "protector";
  if (named(table.itemWords.extension)) return "extension";
  return null;
}

/** The listed adapter with these ends; null when none is listed. */
export function listedAdapter(plug: string, receptacle: string): CatalogueAdapter | null {
  return ADAPTERS.find((adapter) => adapter.plug === plug && adapter.receptacle === receptacle) ?? null;
}

/** The extension sold for a plug and the shortest sold length of at least `length` metres; null when none is sold. */
export function soldExtension(
  plug: string,
  length: number,
): { readonly extension: CatalogueExtension; readonly length: number } | null {
  const extension = EXTENSIONS.find((entry) => entry.plug === plug);
  const sold = extension && SOLD_LENGTHS[String(extension.rating)]?.find((each) => each >= length);
  return extension && sold !== undefined ? { extension, length: sold } : null;
}
