/** Lengths as a plan prints them. Rounding goes against the reader's hope: needed up, available and margin down. */

export type UnitSystem = "us" | "metric";
export type Rounding = "nearest" | "up" | "down";

/** Exact: international yard and pound agreement, 1959 (from memory). */
export const METRES_PER_FOOT = 0.3048;
const INCHES_PER_FOOT = 12;
const METRES_PER_INCH = METRES_PER_FOOT / INCHES_PER_FOOT;
const METRIC_STEPS_PER_METRE = 100;
const METRIC_DECIMALS = 2;
/** A length within this share of a step of a whole step is that step: 7.62 m is 25 ft although the division is not exact. */
const STEP_TOLERANCE = 1e-6;
/** Keeps a number and its unit on one line. */
export const NO_BREAK_SPACE = "\u00a0";
const MINUS = "\u2212";

function steps(value: number, rounding: Rounding): number {
  const nearest = Math.round(value);
  if (rounding === "nearest" || Math.abs(value - nearest) < STEP_TOLERANCE) {
    return nearest;
  }
  return rounding === "up" ? Math.ceil(value) : Math.floor(value);
}

/** Metres as "7.62 m" or "25 ft 3 in"; "no limit" for infinity, "unknown" for what is no number. */
export function lengthText(metres: number, units: UnitSystem, rounding: Rounding = "nearest"): string {
  if (Number.isNaN(metres)) {
    return "unknown";
  }
  if (!Number.isFinite(metres)) {
    return "no limit";
  }
  if (units === "metric") {
    const count = steps(metres * METRIC_STEPS_PER_METRE, rounding);
    const sign = count < 0 ? MINUS : "";
    return `${sign}${(Math.abs(count) / METRIC_STEPS_PER_METRE).toFixed(METRIC_DECIMALS)}${NO_BREAK_SPACE}m`;
  }
  const count = steps(metres / METRES_PER_INCH, rounding);
  const feet = Math.floor(Math.abs(count) / INCHES_PER_FOOT);
  const inches = Math.abs(count) - feet * INCHES_PER_FOOT;
  const parts: string[] = [];
  if (feet > 0) {
    parts.push(`${feet}${NO_BREAK_SPACE}ft`);
  }
  if (inches > 0 || feet === 0) {
    parts.push(`${inches}${NO_BREAK_SPACE}in`);
  }
  return `${count < 0 ? MINUS : ""}${parts.join(NO_BREAK_SPACE)}`;
}
