/** The word lists of a rig record. */
import receptacles from "../../data/receptacles.json" with { type: "json" };

export const rigClasses = [
  "van",
  "class-a",
  "class-b",
  "class-c",
  "travel-trailer",
  "fifth-wheel",
  "truck-camper",
  "folding-trailer",
] as const;

export const services = ["power", "water", "fill", "sewer", "cable"] as const;
export const walls = ["left", "right", "rear", "front"] as const;
/** Walls from which a slide or an awning can come. */
export const openingWalls = ["left", "right", "rear"] as const;
export const couplings = ["four-wheels-down", "dolly", "trailer", "ball", "fifth-wheel"] as const;
export const hotOutletKinds = ["furnace", "water-heater", "generator-exhaust", "refrigerator"] as const;
export const fuels = ["electric", "gas", "either"] as const;
export const supplyPaths = ["transfer-switch", "cord-in-box"] as const;
export const kitPlaces = ["aboard", "depot"] as const;
export const bases = ["measured", "mapped", "gps", "described", "code", "assumed"] as const;
/** Bases whose values are ranges without a probability. */
export const rangedBases: readonly (typeof bases)[number][] = ["described", "code", "assumed"];

/** Ids of plugs and of the receptacles that bear the same name. */
export const plugIds: readonly string[] = receptacles.devices.map((device) => device.id);

/** The supply system of a plug ("120/240", "230"), or null when the plug is not known. */
export function systemOfPlug(plug: string | null): string | null {
  return receptacles.devices.find((device) => device.id === plug)?.system ?? null;
}
