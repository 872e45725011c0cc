/** A gust where the forecast gives only a mean. */
import table from "../../data/gust-factors.json" with { type: "json" };

export type GustExposure = "in-land" | "off-land" | "off-sea" | "at-sea";

/** Gust of three seconds over the mean of ten minutes (WMO/TD-No. 1555 table 1.1). */
export function gustFactor(exposure: GustExposure): number {
  return table.factors.find((one) => one.exposure === exposure)!.factor;
}

export interface KnownGust {
  /** Metres per second. */
  readonly speed: number;
  readonly estimated: boolean;
}

/**
 * The gust to reckon with: the forecast's own, never below its mean; estimated from the mean when it gives none. The
 * estimate takes the inland factor everywhere: the factor of an onshore wind is smaller, so that smoother ground would
 * lower the gust.
 *
 * @returns Null when neither is known.
 */
export function knownGust(gust: number | null, mean: number | null): KnownGust | null {
  if (gust !== null) return { speed: Math.max(gust, mean ?? gust), estimated: false };
  return mean === null ? null : { speed: mean * gustFactor("in-land"), estimated: true };
}
