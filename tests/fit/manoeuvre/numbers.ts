/** Numbers spread evenly between two ends, in thousandths: a plain double crowds about zero. */
import fc from "fast-check";

const STEPS = 1000;

export function evenly(min: number, max: number): fc.Arbitrary<number> {
  return fc.integer({ min: Math.round(min * STEPS), max: Math.round(max * STEPS) }).map((value) => value / STEPS);
}
