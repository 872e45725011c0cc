/** What is loaded into a unit, as the lists of desk, trip and paper show it: by box, each thing with its purpose. */
import type { DeskTripPlan } from "../../trip/desk/desk.ts";
import type { Box, KitWhere } from "../../trip/kit/base-kit.ts";
import type { KitChoice } from "../../trip/kit/pack.ts";
import type { TripKit } from "../../trip/plan.ts";
import type { LoadWords } from "../core/trip-protocol.ts";

export interface LoadThing {
  readonly id: string;
  readonly title: string;
  readonly where: KitWhere;
  /** What it is for, sentences. */
  readonly purpose: readonly string[];
  /** What happens without it. */
  readonly without: string;
}

export interface LoadBox {
  readonly id: string;
  readonly title: string;
  readonly things: readonly LoadThing[];
}

const ORDER: readonly KitWhere[] = ["to buy", "to pack", "lent", "aboard"];

/** Things are known by their words, so that desk and trip mean the same one; of two alike the second has a number. */
function named(things: readonly LoadThing[]): LoadThing[] {
  const seen = new Map<string, number>();
  return things.map((thing) => {
    const count = (seen.get(thing.title) ?? 0) + 1;
    seen.set(thing.title, count);
    return { ...thing, id: count === 1 ? thing.title : `${thing.title} ${count}` };
  });
}

function boxed(boxes: readonly Box[], things: ReadonlyMap<string, LoadThing>): readonly LoadBox[] {
  return boxes.flatMap(({ id, title, holds }) => {
    const held = holds.flatMap((one) => things.get(one) ?? []);
    held.sort((a, b) => ORDER.indexOf(a.where) - ORDER.indexOf(b.where));
    return held.length === 0 ? [] : [{ id, title, things: named(held) }];
  });
}

const FOR_SITES = "For the sites of this trip.";

export function loadOfDesk(trip: DeskTripPlan, words: LoadWords): readonly LoadBox[] {
  const own = words[trip.id] ?? {};
  const things = trip.pick.map(({ id, description, where }): readonly [string, LoadThing] => {
    const { place = "", why = "", withoutIt = "" } = own[id] ?? {};
    const purpose = [place, why].filter((text) => text !== "");
    return [
      id,
      { id, title: description, where, purpose: purpose.length === 0 ? [FOR_SITES] : purpose, without: withoutIt },
    ];
  });
  return boxed(trip.boxes, new Map(things));
}

function sitesOf({ neededFor }: KitChoice): string {
  const sites = neededFor.map(({ stop, site, chosen }) => `${site} (stop ${stop + 1}${chosen ? "" : ", spare"})`);
  return sites.length === 0 ? FOR_SITES : `For ${[...new Set(sites)].join(", ")}.`;
}

/** What becomes of the first site that wants it. */
function withoutOf({ neededFor, withoutIt }: KitChoice): string {
  const [first] = neededFor;
  return first === undefined ? withoutIt : `${withoutIt} ${first.site} is then: ${first.verdictWithout}.`;
}

export function loadOfTrip({ base, items, boxes }: TripKit): readonly LoadBox[] {
  const things = new Map<string, LoadThing>();
  const taken = new Map(items.map((item) => [item.path, item]));
  for (const item of items) {
    const entry = base.find((one) => one.path === item.path);
    const purpose = [sitesOf(item), ...(entry === undefined ? [] : [entry.place])];
    things.set(item.id, {
      id: item.id,
      title: item.description,
      where: item.where,
      purpose,
      without: withoutOf(item),
    });
  }
  for (const { id, title, where, path, place, why, withoutIt } of base) {
    // A hose that is taken along for a site is the base kit's hose as well, and is listed once.
    if (path !== null && taken.has(path)) continue;
    things.set(id, { id, title, where, purpose: [place, why], without: withoutIt });
  }
  return boxed(boxes, things);
}
