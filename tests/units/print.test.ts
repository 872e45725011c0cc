import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseQuantity } from "../../src/units/parse.ts";
import {
  formatCurrent,
  formatDegrees,
  formatLength,
  formatLengthRange,
  formatPercent,
  formatPower,
  formatPressure,
  formatSpeed,
  formatVoltage,
  formatVolume,
} from "../../src/units/print.ts";

const back = (dimension: "length" | "volume" | "pressure" | "speed" | "slope" | "angle", text: string): number => {
  const read = parseQuantity(dimension, text);
  if (!read.ok) throw new Error(`${text}: ${read.message}`);
  return read.value;
};

describe("lengths in words", () => {
  it.each([
    [0.42, "us", "nearest", "1 ft 5 in"],
    [0.42, "us", "down", "1 ft 4 in"],
    [0.42, "us", "up", "1 ft 5 in"],
    [0.42, "metric", "nearest", "0.42 m"],
    [0.4231, "metric", "up", "0.43 m"],
    [0.4231, "metric", "down", "0.42 m"],
    [7.62, "us", "down", "25 ft"],
    [7.62, "us", "up", "25 ft"],
    [0.2, "us", "down", "7 in"],
    [0, "us", "nearest", "0 in"],
    [4.5, "metric", "nearest", "4.50 m"],
    [-0.1, "us", "down", "-4 in"],
    [-0.42, "us", "down", "-1 ft 5 in"],
    [-0.001, "metric", "up", "0.00 m"],
    [-0.001, "metric", "down", "-0.01 m"],
  ] as const)("%d m in %s, rounded %s, is %s", (metres, units, round, text) => {
    expect(formatLength(metres, units, { round })).toBe(text);
  });

  it("widens a range outwards", () => {
    expect(formatLengthRange(2.444, 2.591, "metric")).toBe("2.44 m to 2.60 m");
    expect(formatLengthRange(0, 4.572, "us")).toBe("0 in to 15 ft");
    expect(formatLengthRange(3, 3, "metric")).toBe("3.00 m");
  });
});

describe("other quantities in words", () => {
  it.each([
    [formatVolume(143.845647792, "us"), "38 gal"],
    [formatVolume(143.6, "metric"), "144 L"],
    [formatPressure(310_264.078, "us"), "45 psi"],
    [formatPressure(310_000, "metric"), "310 kPa"],
    [formatSpeed(8.9408, "us"), "20 mph"],
    [formatSpeed(8.9408, "metric"), "32 km/h"],
    [formatPower(1500), "1500 W"],
    [formatCurrent(12.5), "12.5 A"],
    [formatVoltage(113.64, { round: "down" }), "113.6 V"],
    [formatPercent(1 / 48), "2.1 %"],
    [formatDegrees(0.0209), "1.2°"],
  ])("%s", (printed, expected) => {
    expect(printed).toBe(expected);
  });
});

describe("what is printed can be read again", () => {
  const metres = fc.double({ min: -40, max: 40, noNaN: true });
  it("within one step, on the right side", () => {
    fc.assert(
      fc.property(metres, fc.constantFrom("us" as const, "metric" as const), (value, units) => {
        const step = units === "us" ? 0.0254 : 0.01;
        const needed = back("length", formatLength(value, units, { round: "up" }));
        const available = back("length", formatLength(value, units, { round: "down" }));
        const plain = back("length", formatLength(value, units));
        expect(needed).toBeGreaterThanOrEqual(value - 1e-6);
        expect(needed - value).toBeLessThanOrEqual(step + 1e-6);
        expect(available).toBeLessThanOrEqual(value + 1e-6);
        expect(value - available).toBeLessThanOrEqual(step + 1e-6);
        expect(Math.abs(plain - value)).toBeLessThanOrEqual(step / 2 + 1e-6);
      }),
      { numRuns: 1000 },
    );
  });

  it("for volume, pressure, speed, slope and angle", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 500, noNaN: true }),
        fc.constantFrom("us" as const, "metric" as const),
        (x, units) => {
          expect(Math.abs(back("volume", formatVolume(x, units)) - x)).toBeLessThan(3.79 / 2 + 0.01);
          expect(Math.abs(back("pressure", formatPressure(x * 1000, units)) - x * 1000)).toBeLessThan(6895 / 2 + 1);
          expect(Math.abs(back("speed", formatSpeed(x, units)) - x)).toBeLessThan(0.4471 / 2 + 0.001);
          expect(Math.abs(back("slope", formatPercent(x / 1000)) - x / 1000)).toBeLessThan(0.00051);
          expect(Math.abs(back("angle", formatDegrees(x / 100)) - x / 100)).toBeLessThan(0.0009);
        },
      ),
    );
  });
});
