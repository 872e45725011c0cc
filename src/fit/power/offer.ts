/** Whether a site's receptacle may be used by this site at all, before any plug is looked at. */
import { deviceOf, type PowerDevice } from "./devices.ts";
import type { OfferedReceptacle, PowerReason } from "./problem.ts";
import { familyLimits, supplyLimits } from "./supply-limits.ts";

export interface Offer {
  /** Why it may not be used, or why nobody can tell; null when it may. */
  readonly bar: { readonly kind: "refused" | "unknown"; readonly reason: PowerReason; readonly why: string } | null;
  /** Amperes of the breaker; null when the record gives none and the type is not known. */
  readonly breaker: number | null;
  readonly contested: boolean;
  readonly stateKnown: boolean;
}

/** Looks at state, allotment, recorded volts and breaker of a receptacle, for a site and an electrical system. */
export function offerOf(offered: OfferedReceptacle, siteId: string, electricalSystem: string | null): Offer {
  const { receptacle } = offered;
  const device = deviceOf(receptacle.type);
  const sites = receptacle.forSites;
  return {
    bar: stateBar(offered, siteId) ?? (device ? voltsBar(receptacle.volts, device, electricalSystem) : null),
    breaker: receptacle.ampsGiven ? receptacle.amps : (device?.amps ?? receptacle.amps),
    contested: sites === null ? offered.shared : sites.length > 1,
    stateKnown: receptacle.state !== "unknown",
  };
}

function stateBar(offered: OfferedReceptacle, siteId: string): Offer["bar"] {
  const { receptacle } = offered;
  const checked = receptacle.checkedAt === null ? "" : `, as of ${receptacle.checkedAt}`;
  if (receptacle.state === "failed") {
    return { kind: "refused", reason: "receptacle-failed", why: `The receptacle is recorded as failed${checked}.` };
  }
  if (receptacle.state === "taken") {
    return {
      kind: "refused",
      reason: "receptacle-taken",
      why: `The receptacle is recorded as taken${checked}; it serves one rig at a time.`,
    };
  }
  if (receptacle.forSites !== null && !receptacle.forSites.includes(siteId)) {
    const owners = receptacle.forSites.length === 0 ? "no site" : receptacle.forSites.join(", ");
    return { kind: "refused", reason: "other-site", why: `The receptacle is allotted to ${owners}, not to this site.` };
  }
  return null;
}

function within(volts: number, band: readonly number[] | null): boolean {
  const [low, high] = band ?? [];
  return low !== undefined && high !== undefined && volts >= low && volts <= high;
}

function voltsBar(volts: number | null, device: PowerDevice, electricalSystem: string | null): Offer["bar"] {
  const limits = familyLimits(device.system);
  const acrossLegs = device.hots > 1 ? limits.plausibleLegToLeg : null;
  if (volts !== null && !within(volts, limits.plausible) && !within(volts, acrossLegs)) {
    return {
      kind: "refused",
      reason: "voltage-recorded",
      why:
        `The record gives ${volts} V for a receptacle ${device.name}, which is for ${device.volts} V: miswired, or a ` +
        "mistake of the record. Measure before anything is connected.",
    };
  }
  const system = electricalSystem === null ? null : supplyLimits(electricalSystem);
  if (system && system.voltsToNeutral !== limits.voltsToNeutral) {
    return {
      kind: "unknown",
      reason: "voltage-contradiction",
      why:
        `The campground's record says ${electricalSystem} V, and the receptacle ${device.name} is for ${device.volts} V. ` +
        "Nobody can tell what it gives: ask the host and measure.",
    };
  }
  return null;
}
