/** What could be taken along: what lies in the depot, what a campground lends, what is sold. */
import kitData from "../../../data/kit.json" with { type: "json" };
import { ADAPTERS, listedAdapter, soldExtension } from "../../fit/power/adapters.ts";
import type { CompletedRig, KitItem } from "../../rig/completed.ts";
import type { LentThing, StockThing } from "../request.ts";
import type { CoverThing } from "./cover.ts";
import { THREAD_ADAPTER } from "./worth.ts";

/** Hoses and cables of the kit that lengthen a line when joined. */
export const JOINED = ["drinking-hose", "sewer-hose", "cable"] as const;
export const EXTENSION = "extension";
export const SUMS: ReadonlySet<string> = new Set(JOINED);

export type Origin = "depot" | "lent" | "sold";

/** A thing that may be chosen. */
export interface Thing extends CoverThing {
  readonly origin: Origin;
  readonly kit: KitItem;
}

/** Two of a kind are as many as a line is lengthened by. */
const MOST_ALIKE = 2;

/** First what must be bought, then what must be packed, then what must be borrowed, then length. */
function costOf(origin: Origin, kit: KitItem): readonly number[] {
  return [origin === "sold" ? 1 : 0, origin === "lent" ? 0 : 1, origin === "lent" ? 1 : 0, kit.addsLength];
}

export const adapterGroup = (plug: string, receptacle: string): string => `adapter ${plug} ${receptacle}`;

interface Place {
  readonly group: string;
  readonly amount: number;
}

/** Where a thing counts for this rig; null when it does nothing for its lines. */
function placeOf(kit: KitItem, plug: string | null): Place | null {
  if ((JOINED as readonly string[]).includes(kit.item))
    return kit.addsLength > 0 ? { group: kit.item, amount: kit.addsLength } : null;
  if (kit.item === THREAD_ADAPTER) return { group: THREAD_ADAPTER, amount: 1 };
  if (plug === null) return null;
  if (kit.item === EXTENSION) {
    const sold = soldExtension(plug, 0);
    const fits = kit.plug === plug && kit.receptacle === plug && (kit.rating ?? 0) >= (sold?.extension.rating ?? 0);
    return fits && kit.length !== null ? { group: EXTENSION, amount: kit.addsLength } : null;
  }
  if (kit.item !== "adapter" || kit.plug === null || kit.receptacle !== plug) return null;
  const listed = listedAdapter(kit.plug, kit.receptacle);
  if (listed === null || (kit.rating !== null && kit.rating < listed.rating)) return null;
  return { group: adapterGroup(kit.plug, kit.receptacle), amount: 1 };
}

function thingsOf(kit: KitItem, origin: Origin, plug: string | null, id: string, stop: number | null, count = 1) {
  const place = placeOf(kit, plug);
  if (place === null) return [];
  const cost = costOf(origin, kit);
  return Array.from({ length: Math.min(count, MOST_ALIKE) }, (_, index): Thing => {
    return { id: `${id}.${index}`, ...place, stop, cost, origin, kit };
  });
}

type WireThing = StockThing | LentThing;

export function kitItemOf(thing: WireThing, path: string): KitItem {
  return {
    item: thing.item,
    plug: thing.plug ?? null,
    receptacle: thing.receptacle ?? null,
    rating: thing.rating ?? null,
    addsLength: thing.addsLength ?? thing.length ?? 0,
    length: thing.length ?? null,
    gauge: thing.gauge ?? null,
    where: "aboard",
    path,
  };
}

const plain = (item: string, more: Partial<KitItem> = {}): KitItem => ({
  item,
  plug: null,
  receptacle: null,
  rating: null,
  addsLength: more.length ?? 0,
  length: null,
  gauge: null,
  where: "aboard",
  path: "/catalogue",
  ...more,
});

/** A hose or cable of this length. */
export const hoseOf = (item: string, length: number): KitItem => plain(item, { length });

export const adapterOf = (plug: string, receptacle: string): KitItem => {
  const rating = listedAdapter(plug, receptacle)?.rating ?? null;
  return plain("adapter", { plug, receptacle, rating });
};

export const threadAdapter = (): KitItem => plain(THREAD_ADAPTER);

/** The extension that is sold for a plug, at any length; null when none is. */
export function extensionOf(plug: string, length: number): KitItem | null {
  const sold = soldExtension(plug, 0);
  if (sold === null) return null;
  const { rating, gauge } = sold.extension;
  return plain(EXTENSION, { plug, receptacle: plug, rating, gauge, length });
}

/** Everything that is sold for the lines of a rig with this plug, in the lengths in which it is sold. */
function soldKit(plug: string | null): KitItem[] {
  const hoses = JOINED.flatMap((item) => kitData.items[item].soldLengths.any.map((length) => hoseOf(item, length)));
  if (plug === null) return [...hoses, threadAdapter()];
  const adapters = ADAPTERS.filter((one) => one.receptacle === plug).map((one) => adapterOf(one.plug, plug));
  const rating = String(soldExtension(plug, 0)?.extension.rating ?? "");
  const lengths = (kitData.items.extension.soldLengths as Readonly<Record<string, readonly number[]>>)[rating] ?? [];
  const cords = lengths.flatMap((length) => extensionOf(plug, length) ?? []);
  return [...hoses, threadAdapter(), ...adapters, ...cords];
}

export const plugOf = (rig: CompletedRig): string | null =>
  rig.connections.find((one) => one.service === "power")?.plug ?? null;

export const aboardKit = (rig: CompletedRig): readonly KitItem[] => rig.kit.filter((item) => item.where === "aboard");

/** Everything that this rig could take along; `lends` by stop. */
export function thingsFor(
  rig: CompletedRig,
  stock: readonly StockThing[],
  lends: readonly (readonly LentThing[])[],
): readonly Thing[] {
  const plug = plugOf(rig);
  const own = rig.kit.flatMap((kit, index) =>
    kit.where === "depot" ? thingsOf({ ...kit, where: "aboard" }, "depot", plug, `depot-${index}`, null) : [],
  );
  const shelf = stock.flatMap((one, index) =>
    thingsOf(kitItemOf(one, `/stock/${index}`), "depot", plug, `stock-${index}`, null, one.count ?? 1),
  );
  const lent = lends.flatMap((list, stop) =>
    list.flatMap((one, index) =>
      thingsOf(kitItemOf(one, `/stops/${stop}/lends/${index}`), "lent", plug, `lent-${stop}-${index}`, stop),
    ),
  );
  const sold = soldKit(plug).flatMap((kit, index) => thingsOf(kit, "sold", plug, `sold-${index}`, null, MOST_ALIKE));
  return [...own, ...shelf, ...lent, ...sold];
}
