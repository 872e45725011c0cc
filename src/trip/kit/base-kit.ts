/** The base kit, which no reckoning takes away, and the boxes in which kit travels. Table: data/base-kit.json. */
import table from "../../../data/base-kit.json" with { type: "json" };
import kitData from "../../../data/kit.json" with { type: "json" };
import type { CompletedRig, KitItem } from "../../rig/completed.ts";
import type { StockThing } from "../request.ts";
import { kitItemOf, plugOf } from "./things.ts";

export type KitWhere = "aboard" | "to pack" | "lent" | "to buy";

export interface BaseEntry {
  readonly id: string;
  /** Item words of data/kit.json, one of which is enough. */
  readonly items: readonly string[];
  readonly title: string;
  readonly where: Exclude<KitWhere, "lent">;
  /** Where the thing that counts stands in the request: a pointer under the rig or the stock; null when it is to buy. */
  readonly path: string | null;
  readonly box: string;
  /** Where it is used at the site. */
  readonly place: string;
  readonly why: string;
  readonly withoutIt: string;
  readonly source: string;
  readonly mark: string;
}

export interface Box {
  readonly id: string;
  readonly title: string;
  /** Ids of base entries and items. */
  readonly holds: readonly string[];
}

type Row = (typeof table.entries)[number];

const wordsOf = (item: string) => kitData.items[item as keyof typeof kitData.items];
export const titleOf = (item: string): string => wordsOf(item)?.title ?? item;
export const withoutOf = (item: string): string => wordsOf(item)?.without ?? "";

export function boxOf(item: string): string {
  return (table.boxes.find((box) => box.holds.includes(item)) ?? table.otherBox).id;
}

/** Every box that holds something, with what it holds. */
export function boxesOf(entries: readonly { readonly id: string; readonly box: string }[]): readonly Box[] {
  return [...table.boxes, table.otherBox].flatMap(({ id, title }) => {
    const holds = entries.filter((entry) => entry.box === id).map((entry) => entry.id);
    return holds.length === 0 ? [] : [{ id, title, holds }];
  });
}

/** A tester without a plug on record counts, because most have the plug of the cord that they came with. */
function counts(row: Row, kit: Pick<KitItem, "item" | "plug">, plug: string | null): boolean {
  if (!row.anyOf.includes(kit.item)) return false;
  return !row.ownPlug || kit.plug === plug || (kit.plug === null && kit.item === "tester");
}

interface Found {
  readonly where: BaseEntry["where"];
  readonly path: string | null;
}

/** A thing that is taken along for the sites. */
export interface Taken {
  readonly kit: KitItem;
  readonly where: KitWhere;
  readonly path: string;
}

function find(row: Row, rig: CompletedRig, stock: readonly StockThing[], chosen: readonly Taken[]): Found {
  const plug = plugOf(rig);
  const own = rig.kit.find((kit) => kit.where === "aboard" && counts(row, kit, plug));
  if (own !== undefined) return { where: "aboard", path: `/rig${own.path}` };
  const line = rig.connections.find((one) => one.service === row.for && one.line !== null);
  if (row.own && line !== undefined) return { where: "aboard", path: `/rig${line.path}` };
  // A hose that is taken along for a site is the base kit's hose as well.
  const taken = chosen.find(({ kit, where }) => where !== "lent" && counts(row, kit, plug));
  if (taken !== undefined) return { where: taken.where === "to buy" ? "to buy" : "to pack", path: taken.path };
  const depot = rig.kit.find((kit) => counts(row, kit, plug));
  if (depot !== undefined) return { where: "to pack", path: `/rig${depot.path}` };
  const shelf = stock.findIndex((one) => (one.count ?? 1) > 0 && counts(row, kitItemOf(one, ""), plug));
  return shelf < 0 ? { where: "to buy", path: null } : { where: "to pack", path: `/stock/${shelf}` };
}

/** The base kit of a rig; `chosen` is what is taken along for the sites. */
export function baseKit(
  rig: CompletedRig,
  stock: readonly StockThing[],
  chosen: readonly Taken[],
): readonly BaseEntry[] {
  const has = (service: string | null) => service === null || rig.connections.some((one) => one.service === service);
  return table.entries
    .filter((row) => has(row.for))
    .map((row) => ({
      id: row.id,
      items: row.anyOf,
      title: row.anyOf.map(titleOf).join(" or "),
      ...find(row, rig, stock, chosen),
      box: boxOf(row.anyOf[0] ?? ""),
      place: row.place,
      why: row.why,
      withoutIt: withoutOf(row.anyOf[0] ?? ""),
      source: row.source,
      mark: row.mark,
    }));
}
