/**
 * Receptacles and tap outlets of a campground as things that one stay at a time can hold. Those of a shared pedestal
 * bear the pedestal's id and belong to every site that names it; the others bear their site's.
 */
import { outletId, servesSite } from "../../assign/outlet.ts";
import type { Fit } from "../../fit/answer.ts";
import type { StoredCampground } from "../../records/store.ts";
import { aroundOf, isSite, siteOf } from "../../records/store.ts";
import { completeSite } from "../../site/complete.ts";
import type { CompletedHookup, CompletedSite } from "../../site/completed.ts";
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
        .filter((one) => servesSite(site, one))
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

/**
 * What a stay would hold on a site as its rig is fitted there: a shared receptacle as the ones of its kind of which the
 * first free will do, and a shared tap that it cannot do without. What nobody else can use is not held.
 */
export function sharedChoices(stored: StoredCampground, site: string, fit: Fit): string[][] {
  const feature = siteOf(stored, site);
  if (feature === null) return [];
  const { hookups } = completeSite(feature, stored.campground, aroundOf(stored), { base: "" });
  return hookups
    .filter(({ shared }) => shared)
    .flatMap((hookup): string[][] => {
      if (hookup.service === "power") return receptacleChoices(hookup, site, fit);
      const needs = fit.lines.some((line) => line.hookup === hookup.id && line.need === "required");
      return needs && isTap(hookup) ? [[outletId(site, hookup, null)]] : [];
    });
}

function receptacleChoices(hookup: CompletedHookup, site: string, fit: Fit): string[][] {
  const chosen = hookup.receptacles.find(({ id }) => hookup.id === fit.power.hookup && id === fit.power.receptacle);
  if (chosen === undefined) return [];
  const others = hookup.receptacles.filter(
    (one) => one !== chosen && one.type === chosen.type && one.state !== "failed" && servesSite(site, one),
  );
  return [[chosen, ...others].map((one) => outletId(site, hookup, one))];
}

const isTap = ({ service }: CompletedHookup): boolean => service === "water" || service === "fill";
