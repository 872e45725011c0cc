import { describe, expect, it } from "vitest";
import { latticePoints, normalQuantile } from "../../../src/fit/uncertainty/lattice.ts";

/** Standard normal distribution function by Simpson's rule from 0: shares nothing with the quantile. */
function normalShare(z: number): number {
  const steps = 4000;
  const width = z / steps;
  const density = (x: number): number => Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
  let sum = density(0) + density(z);
  for (let step = 1; step < steps; step++) sum += (step % 2 === 1 ? 4 : 2) * density(step * width);
  return 0.5 + (sum * width) / 3;
}

describe("quantile of the normal distribution", () => {
  it.each([
    [0.5, 0],
    [0.75, 0.674489750196],
    [0.9, 1.281551565545],
    [0.95, 1.644853626951],
    [0.975, 1.95996398454],
    [0.99, 2.326347874041],
    [0.995, 2.575829303549],
    [0.999, 3.090232306168],
  ])("at %d is %d [handbook tables of the normal distribution: from memory]", (probability, quantile) => {
    expect(normalQuantile(probability)).toBeCloseTo(quantile, 7);
    expect(normalQuantile(1 - probability)).toBeCloseTo(-quantile, 7);
  });

  it("inverts the integral of the density, in the middle, in the tails and where the two formulas meet", () => {
    for (const probability of [
      1e-6, 1e-4, 0.003, 0.024, 0.02425, 0.0243, 0.1, 0.31, 0.5, 0.6, 0.9757, 0.97576, 0.9999,
    ]) {
      const quantile = normalQuantile(probability);
      // The formula's relative error of 1.15e-9 in the quantile grows in the tail's share by the quantile's square.
      const allowed = 1.2e-9 * (1 + quantile ** 2) + 1e-10;
      expect(Math.abs(normalShare(quantile) / probability - 1)).toBeLessThan(allowed);
    }
  });

  it("rises everywhere", () => {
    let last = Number.NEGATIVE_INFINITY;
    for (let step = 1; step < 5000; step++) {
      const next = normalQuantile(step / 5000);
      expect(next).toBeGreaterThan(last);
      last = next;
    }
  });
});

describe("lattice of draws", () => {
  it("in one dimension steps by the golden ratio from one half [phi_1 is the root of x^2 = x + 1: derived]", () => {
    const golden = (Math.sqrt(5) - 1) / 2;
    const points = latticePoints(8, 1);
    for (const [index, point] of points.entries()) {
      expect(point).toBeCloseTo((0.5 + (index + 1) * golden) % 1, 12);
    }
  });

  it("in two dimensions steps by powers of the plastic number [1.324717957244746: from memory]", () => {
    const plastic = 1.324717957244746;
    const points = latticePoints(5, 2);
    for (let row = 0; row < 5; row++) {
      expect(points[2 * row]).toBeCloseTo((0.5 + (row + 1) / plastic) % 1, 12);
      expect(points[2 * row + 1]).toBeCloseTo((0.5 + (row + 1) / plastic ** 2) % 1, 12);
    }
  });

  it.each([1, 2, 4, 7, 12])(
    "fills the unit cube of %d dimensions: means, corners and no value at an end",
    (dimensions) => {
      const count = 256;
      const points = latticePoints(count, dimensions);
      expect(points).toHaveLength(count * dimensions);
      for (let axis = 0; axis < dimensions; axis++) {
        const column = Array.from({ length: count }, (_, row) => points[row * dimensions + axis]!);
        expect(Math.min(...column)).toBeGreaterThan(0);
        expect(Math.max(...column)).toBeLessThan(1);
        expect(column.reduce((sum, value) => sum + value, 0) / count).toBeCloseTo(0.5, 1);
        // In each quarter of the axis lies a quarter of the points, within three of 256.
        for (let quarter = 0; quarter < 4; quarter++) {
          const within = column.filter((value) => Math.floor(value * 4) === quarter).length;
          expect(Math.abs(within - count / 4)).toBeLessThanOrEqual(count / 32);
        }
      }
    },
  );

  it("no two axes move together", () => {
    const [count, dimensions] = [256, 8];
    const points = latticePoints(count, dimensions);
    for (let one = 0; one < dimensions; one++) {
      for (let other = one + 1; other < dimensions; other++) {
        let sum = 0;
        for (let row = 0; row < count; row++) {
          sum += (points[row * dimensions + one]! - 0.5) * (points[row * dimensions + other]! - 0.5);
        }
        expect(Math.abs((sum / count) * 12)).toBeLessThan(0.2);
      }
    }
  });

  it("is the same every time", () => {
    expect(latticePoints(64, 3)).toEqual(latticePoints(64, 3));
  });
});
