/**
 * Receptacles and tap outlets of a campground as things that one stay at a time can hold. Those of a shared pedestal
 * bear the pedestal's id and belong to every site that names it; the others bear their site's.
 */
import type { StoredCampground } from "../../records/store.ts";
import { aroundOf, isSite, siteOf } from "../../records/store.ts";
import { completeSite } from "../../site/complete.ts";
import type { CompletedHookup, CompletedReceptacle, CompletedSite } from "../../site/completed.ts";
import { featureId } from "../../site/feature.ts";

export interface Outlet {
  readonly id: string;
  readonly service: "power" | "water" | "fill";
  /** Receptacle of the vocabulary; null for a tap. */
  readonly type: string | null;
  readonly sites: readonly string[];
  readonly shared: boolean;
  readonly state: string | null;
}

/** Every receptacle and tap outlet of a campground, in the order of the record. */
export function outletsOf(stored: StoredCampground): readonly Outlet[] {
  const outlets = new Map<string, Outlet>();
  for (const feature of stored.features.filter(isSite)) {
    const site = featureId(feature);
    if (site === null) continue;
    for (const outlet of siteOutlets(completeSite(feature, stored.campground, aroundOf(stored), { base: "" }), site)) {
      const known = outlets.get(outlet.id);
      const sites = [...new Set([...(known?.sites ?? []), ...outlet.sites])];
      outlets.set(outlet.id, { ...outlet, sites, shared: outlet.shared || sites.length > 1 });
    }
  }
  return [...outlets.values()];
}

function siteOutlets(completed: CompletedSite, site: string): Outlet[] {
  return completed.hookups.flatMap((hookup): Outlet[] => {
    const { service, shared } = hookup;
    if (service === "power") {
      return hookup.receptacles
        .filter(({ forSites }) => forSites === null || forSites.includes(site))
        .map((one) => ({
          id: outletId(site, hookup, one),
          service,
          type: one.type,
          sites: [site],
          shared,
          state: one.state,
        }));
    }
    if (service !== "water" && service !== "fill") return [];
    return [{ id: outletId(site, hookup, null), service, type: null, sites: [site], shared, state: null }];
  });
}

function outletId(site: string, hookup: CompletedHookup, receptacle: CompletedReceptacle | null): string {
  const owner = hookup.pedestal ?? site;
  // Two hookups of one site may number their receptacles alike; two sites name one pedestal's alike on purpose.
  const own = receptacle?.id ?? hookup.id;
  return hookup.pedestal === null && receptacle !== null ? `${owner}/${hookup.id}/${own}` : `${owner}/${own}`;
}

/**
 * The shared receptacle that a rig would use on a site, as the ones of its kind of which the first free will do; empty
 * when it would use none that others share.
 *
 * @param receptacle Id within the site of the receptacle that the fit has chosen; null for none.
 */
export function sharedChoices(stored: StoredCampground, site: string, receptacle: string | null): string[][] {
  const feature = siteOf(stored, site);
  if (feature === null || receptacle === null) return [];
  const completed = completeSite(feature, stored.campground, aroundOf(stored), { base: "" });
  const isChosen = (one: CompletedReceptacle) => one.id === receptacle;
  const hookup = completed.hookups.find((one) => one.service === "power" && one.receptacles.some(isChosen));
  const chosen = hookup?.receptacles.find(isChosen);
  if (hookup === undefined || chosen === undefined || !hookup.shared) return [];
  const serves = (one: CompletedReceptacle) => one.forSites === null || one.forSites.includes(site);
  const others = hookup.receptacles.filter((one) => {
    return one !== chosen && one.type === chosen.type && one.state !== "failed" && serves(one);
  });
  return [[chosen, ...others].map((one) => outletId(site, hookup, one))];
}
