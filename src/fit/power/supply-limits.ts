/** Nominal, lawful and wanted volts of each supply. Table and sources: data/supply-limits.json. */
import table from "../../../data/supply-limits.json" with { type: "json" };
import type { DeviceFamily } from "./devices.ts";

export interface SupplyLimits {
  readonly id: string;
  readonly voltsToNeutral: number;
  readonly voltsLegToLeg: number | null;
  /** Lowest and highest lawful volts at the supply. */
  readonly lowest: number;
  readonly highest: number;
  /** Recorded volts outside these contradict the receptacle's type. */
  readonly plausible: readonly number[];
  readonly plausibleLegToLeg: readonly number[] | null;
  /** Share of the rating that may be drawn for three hours or more. */
  readonly continuousRatio: number;
  /** Volts at the rig: at or above `fine` nothing is said; below `watch` they are low; below `stop` motors stop. */
  readonly fine: number;
  readonly watch: number;
  readonly stop: number;
  readonly source: string;
  readonly mark: string;
  readonly continuousSource: string;
  readonly thresholdSource: string;
}

const SYSTEMS: readonly SupplyLimits[] = table.systems;

/** Shares of the nominal volts that NEC's informational notes name for a drop. */
export const DROP_NOTES = table.dropNotes;

/** The limits of an electrical system by its word; null for a word that the table does not have. */
export function supplyLimits(system: string): SupplyLimits | null {
  return SYSTEMS.find((each) => each.id === system) ?? null;
}

/** The limits of a device's family: both 120 V systems share them but for the volts from leg to leg. */
export function familyLimits(family: DeviceFamily): SupplyLimits {
  const found = supplyLimits(family);
  if (!found) throw new Error(`data/supply-limits.json has no system ${family}`);
  return found;
}

/** True when volts measured at the service lie within the lawful band. Source: COMAR 20.50.07.02 for 120 V. */
export function lawfulAtService(system: string, volts: number): boolean | null {
  const limits = supplyLimits(system);
  return limits ? volts >= limits.lowest && volts <= limits.highest : null;
}
