/** Makers of rigs, kits and receptacles for the power tests. */

import type { OfferedReceptacle, PowerInput } from "../../../src/fit/power/problem.ts";
import type { Appliance, KitItem, RigLine } from "../../../src/rig/completed.ts";
import type { CompletedReceptacle } from "../../../src/site/completed.ts";
import type { Estimate } from "../../../src/units/estimate.ts";

export function exactly(value: number, path = "/rig/power/line/length"): Estimate {
  return { value, low: value, high: value, sigma: 0, sigmaShared: 0, basis: "measured", path };
}

export function cord(parts: Partial<RigLine> & { readonly metres?: number } = {}): RigLine {
  const { metres = 7.62, ...rest } = parts;
  const length = exactly(metres);
  return {
    length,
    workingLength: length,
    gauge: null,
    diameter: null,
    drinkingWater: null,
    rating: null,
    fittings: 0,
    ...rest,
  };
}

export function kit(parts: Partial<KitItem> & Pick<KitItem, "item">): KitItem {
  return {
    plug: null,
    receptacle: null,
    rating: null,
    addsLength: 0,
    length: null,
    gauge: null,
    where: "aboard",
    path: "/rig/kit/0",
    ...parts,
  };
}

export function receptacle(type: string, parts: Partial<CompletedReceptacle> = {}): CompletedReceptacle {
  return {
    id: type,
    type,
    amps: null,
    ampsGiven: false,
    volts: null,
    state: "working",
    checkedAt: null,
    forSites: null,
    path: `/site/hookups/0/receptacles/${type}`,
    ...parts,
  };
}

export function offered(
  type: string,
  parts: Partial<CompletedReceptacle> & { readonly shared?: boolean } = {},
): OfferedReceptacle {
  const { shared = false, ...rest } = parts;
  return { hookup: "pedestal-7", shared, receptacle: receptacle(type, rest) };
}

export function appliance(name: string, watts: number, parts: Partial<Appliance> = {}): Appliance {
  return { name, watts, starts: null, fuel: "electric", bothLegs: false, ...parts };
}

export function input(parts: Partial<PowerInput> & Pick<PowerInput, "plug" | "receptacles">): PowerInput {
  return {
    cord: cord(),
    kit: [],
    appliances: [],
    siteId: "C-014",
    electricalSystem: "120/240",
    rules: { largerBreaker: null },
    policy: {},
    kitPolicy: "any",
    units: "us",
    ...parts,
  };
}
