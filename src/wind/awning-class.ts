/** Wind classes of awnings, and how near a pressure comes to the class. */
import table from "../../data/awning-wind-classes.json" with { type: "json" };
import { dynamicPressure } from "./pressure.ts";

export type AwningLevel = "low" | "moderate" | "high" | "retract" | "unknown";

export interface AwningClass {
  readonly class: number;
  /** Pressure that the class is made for, newtons per square metre. */
  readonly limit: number;
  /** Speed whose pressure that is, metres per second. */
  readonly limitSpeed: number;
  /** True when nobody gave the class. */
  readonly assumed: boolean;
  /** True when the class is above what awnings with folding arms have. */
  readonly unusual: boolean;
}

/** Middle of an open awning above the ground, metres. */
export const DEFAULT_AWNING_HEIGHT = table.height.value;

/** Nominal pressure pN of a class; class 0 has none, its handbook speed stands for it. */
export function nominalPressure(windClass: number): number {
  const row = table.classes.find((one) => one.class === windClass);
  if (row === undefined) throw new RangeError(`there is no awning wind class ${windClass}`);
  return row.nominal ?? dynamicPressure(row.speed ?? 0);
}

/** Safety pressure pS of a class, newtons per square metre. */
export function safetyPressure(windClass: number): number {
  return table.safetyFactor * nominalPressure(windClass);
}

/** Metres per second whose pressure is the nominal one of the class. */
export function nominalSpeed(windClass: number): number {
  return Math.sqrt(nominalPressure(windClass) / dynamicPressure(1));
}

/** The class by which an awning is judged: its own, or the lowest tested one when nobody knows it. */
export function awningClass(windClass: number | null): AwningClass {
  const used = windClass ?? table.unknownClass.class;
  return {
    class: used,
    limit: nominalPressure(used),
    limitSpeed: nominalSpeed(used),
    assumed: windClass === null,
    unusual: used > table.usualCeiling.class,
  };
}

/** Level of a share of the nominal pressure. */
export function levelOf(utilisation: number): Exclude<AwningLevel, "unknown"> {
  const { moderateFrom, highFrom, retractFrom } = table.levels;
  if (utilisation >= retractFrom) return "retract";
  if (utilisation >= highFrom) return "high";
  return utilisation >= moderateFrom ? "moderate" : "low";
}
