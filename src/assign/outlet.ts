/** Names of receptacles and tap outlets, the things of a site that one stay at a time can hold. */
import type { CompletedHookup, CompletedReceptacle } from "../site/completed.ts";

/**
 * Id of a receptacle, or of a tap when `receptacle` is null. Those of a pedestal bear the pedestal's id, so that every
 * site which names that pedestal means the same thing; the others bear their site's.
 */
export function outletId(site: string, hookup: CompletedHookup, receptacle: CompletedReceptacle | null): string {
  if (hookup.pedestal !== null) return `${hookup.pedestal}/${receptacle?.id ?? hookup.id}`;
  // Two hookups of one site may number their receptacles alike.
  return receptacle === null ? `${site}/${hookup.id}` : `${site}/${hookup.id}/${receptacle.id}`;
}

/** True when the record has it for this site. */
export const servesSite = (site: string, receptacle: CompletedReceptacle): boolean =>
  receptacle.forSites === null || receptacle.forSites.includes(site);
