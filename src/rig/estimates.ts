/** Making estimates and the list of what was taken for granted, while one rig is completed. */
import type { Assumption, Basis, Estimate } from "../units/estimate.ts";
import { formatLengthRange, type UnitSystem } from "../units/print.ts";
import type { QuantityRange } from "../units/schema.ts";
import type { RigClass } from "./completed.ts";
import type { SourcedRange } from "./defaults.ts";

/** A value as the record gives it, without an error of its own. */
export function exact(value: number, path: string, basis: Basis = "measured"): Estimate {
  return { value, low: value, high: value, sigma: 0, sigmaShared: 0, basis, path };
}

/** A value that lies between two ends. */
export function between(low: number, high: number, path: string, basis: Basis, source?: string): Estimate {
  const value = (low + high) / 2;
  return { value, low, high, sigma: 0, sigmaShared: 0, basis, path, ...(source === undefined ? {} : { source }) };
}

/** A given value or range; a range is words, not a measurement. */
export function given(range: QuantityRange, path: string): Estimate {
  return range.low === range.high ? exact(range.low, path) : between(range.low, range.high, path, "described");
}

/** What the parts of a rig need to know of the whole while they are completed. */
export interface Workbench {
  readonly rigClass: RigClass;
  /** The side away from the kerb, where connections are expected. */
  readonly road: "left" | "right";
  readonly kerb: "left" | "right";
  readonly length: Estimate;
  readonly width: Estimate;
  readonly height: Estimate;
  /** Units of the sentences in `assumed`. */
  readonly units: UnitSystem;
  readonly assumed: Assumption[];
}

/** Notes an assumption in words. */
export function assume(bench: Pick<Workbench, "assumed">, path: string, value: string, source: string): void {
  bench.assumed.push({ path, value, source });
}

/** Takes a range in metres for granted, and says so. */
export function assumeRange(
  bench: Pick<Workbench, "assumed" | "units">,
  path: string,
  { low, high, source }: SourcedRange,
  basis: Basis = "assumed",
): Estimate {
  assume(bench, path, formatLengthRange(low, high, bench.units), source);
  return between(low, high, path, basis, source);
}

/** A range given as shares of the rig's length. */
export function shareOfLength({ low, high, source }: SourcedRange, length: Estimate): SourcedRange {
  return { low: low * length.low, high: high * length.high, source };
}
