/** Two stores as one: for a campground that both have, the upper one alone is believed. */
import type { Area } from "./catalogue/area.ts";
import { boxesOf } from "./catalogue/area.ts";
import type { Box } from "./place.ts";
import type { CampgroundStore, CampgroundSummary } from "./store.ts";

/** @param upper Short enough to be gone through: what hosts write themselves. */
export function overlaid(upper: CampgroundStore, lower: CampgroundStore): CampgroundStore {
  const join = async (below: readonly CampgroundSummary[], area: Area | null): Promise<CampgroundSummary[]> => {
    const above = await upper.list();
    const ids = new Set(above.map(({ id }) => id));
    const boxes = area === null ? null : boxesOf(area);
    const near =
      boxes === null ? above : above.filter(({ box }) => box !== null && boxes.some((one) => meet(one, box)));
    return [...near, ...below.filter(({ id }) => !ids.has(id))].sort((a, b) => (a.id < b.id ? -1 : 1));
  };
  const meeting = lower.meeting?.bind(lower);
  return {
    list: async () => join(await lower.list(), null),
    ...(meeting === undefined ? {} : { meeting: async (area: Area) => join(await meeting(area), area) }),
    get: async (id) => (await upper.get(id)) ?? (await lower.get(id)),
    version: async () => `${await upper.version()}.${await lower.version()}`,
  };
}

/** A box of a record may lie across the antimeridian; those of an area do not. */
function meet([west, south, east, north]: Box, [westOf, southOf, eastOf, northOf]: Box): boolean {
  if (southOf > north || northOf < south) return false;
  return westOf <= eastOf ? westOf <= east && eastOf >= west : westOf <= east || eastOf >= west;
}
