/**
 * One line at one place: a pad exactly as big as the rig. The pedestal's error is round, so the probability that it lies
 * within the cord's reach b, seen from an inlet at the distance nu, is 1 - Q1(nu / sigma, b / sigma) (Marcum's Q).
 */
import { describe, expect, it } from "vitest";
import { fitRig } from "../../../src/fit/fit.ts";
import { BARE, measured, question } from "../core/builders.ts";

interface Shape {
  readonly length: number;
  readonly width: number;
  readonly fromRear: number;
}
const COACH: Shape = { length: 7.6, width: 2.4, fromRear: 3 };
/** So small that going round it adds less than its size: the plain disc. */
const SPECK: Shape = { length: 0.01, width: 0.006, fromRear: 0.004 };

/** Bessel function I0 scaled by exp(-|x|), by its integral (trapezia over a full period converge at once). */
function scaledBessel(x: number): number {
  const steps = 512;
  let sum = 0;
  for (let step = 0; step < steps; step++) sum += Math.exp(x * (Math.cos((2 * Math.PI * (step + 0.5)) / steps) - 1));
  return sum / steps;
}

/** 1 - Q1(nu / sigma, reach / sigma), by Simpson's rule over the Rice density. */
function withinReach(nu: number, reach: number, sigma: number): number {
  const steps = 4000;
  const width = reach / steps;
  const density = (r: number): number =>
    (r / sigma ** 2) * Math.exp(-((r - nu) ** 2) / (2 * sigma ** 2)) * scaledBessel((r * nu) / sigma ** 2);
  let sum = density(reach);
  for (let step = 1; step < steps; step++) sum += (step % 2 === 1 ? 4 : 2) * density(step * width);
  return (sum * width) / 3;
}

/** The product's probability; the pedestal straight out from the inlet, `reach` metres left for the ground route. */
function probability(shape: Shape, nu: number, reach: number, sigma: number): number {
  const { length, width, fromRear } = shape;
  const cord = { service: "power", fromRear, height: 0.9, length: reach + 0.9 + 1.1 + 0.6 } as const;
  const pedestal = {
    service: "power",
    along: measured(fromRear, sigma),
    left: measured(width / 2 + nu, sigma),
    height: 1.1,
  } as const;
  const asked = question(
    { length, width, connections: [cord] },
    { length, width, hookups: [pedestal] },
    { ...BARE, awning: "in" },
  );
  return fitRig({ ...asked, rig: { ...asked.rig, doors: [] } }).probability!;
}

/** Sampling error of the 256 draws: the largest seen against Monte Carlo when the method was chosen. */
const LATTICE = 0.04;

describe("one line at a fixed place", () => {
  it.each([
    [3, 5, 1, 0.969322],
    [3, 3.1, 0.1, 0.837344],
    [3, 5, 4, 0.449775],
  ])("distance %d, reach %d, sigma %d: the disc holds %d [derived: Marcum's Q]", (nu, reach, sigma, expected) => {
    expect(withinReach(nu, reach, sigma)).toBeCloseTo(expected, 6);
  });

  it.each([
    [3, 5, 1, 0.969322],
    [3, 3.1, 0.1, 0.837344],
    [3, 5, 4, 0.449775],
  ])("distance %d, reach %d, sigma %d: the product says %d for a rig without size", (nu, reach, sigma, expected) => {
    expect(Math.abs(probability(SPECK, nu, reach, sigma) - expected)).toBeLessThan(LATTICE);
  });

  it("a coach between inlet and error: the pedestal may fall beneath it or behind it, and the product says less", () => {
    const truth = routedShare(COACH, 3, 5, 4);
    expect(truth).toBeLessThan(0.449775 - 0.05);
    expect(Math.abs(probability(COACH, 3, 5, 4) - truth)).toBeLessThan(LATTICE);
    expect(Math.abs(probability(COACH, 3, 3.1, 0.1) - 0.837344)).toBeLessThan(LATTICE);
  });
});

/** Share of the error's plane from which the routed line is within reach: a fine grid over the normal density. */
function routedShare(shape: Shape, nu: number, reach: number, sigma: number): number {
  const [half, span, step] = [shape.width / 2, 6 * sigma, sigma / 50];
  let sum = 0;
  for (let x = -span + step / 2; x < span; x += step) {
    for (let y = -span + step / 2; y < span; y += step) {
      const run = groundRun(shape, shape.fromRear + x, half + nu + y);
      if (run <= reach) sum += Math.exp(-(x * x + y * y) / (2 * sigma ** 2));
    }
  }
  return (sum * step * step) / (2 * Math.PI * sigma ** 2);
}

/** Ground route round the body from the inlet in its left wall; no way to a pedestal beneath the rig. */
function groundRun({ length, width, fromRear }: Shape, along: number, left: number): number {
  const half = width / 2;
  if (left >= half) return Math.hypot(along - fromRear, left - half);
  const beneath = left > -half && along > 0 && along < length;
  if (beneath) return Number.POSITIVE_INFINITY;
  const rear = fromRear + (along <= 0 ? Math.hypot(along, half - left) : width + Math.hypot(along, left + half));
  const past = along - length;
  const front = length - fromRear + (past >= 0 ? Math.hypot(past, half - left) : width + Math.hypot(past, left + half));
  return Math.min(rear, front);
}
