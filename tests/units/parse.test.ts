import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Dimension } from "../../src/units/dimension.ts";
import { parseQuantity, type QuantityFault } from "../../src/units/parse.ts";
import { readQuantity, TEXT_PATTERN } from "../../src/units/schema.ts";

const NBSP = "\u00a0";

/** Written form, SI value. */
const LENGTHS: readonly (readonly [string, number])[] = [
  ["25 ft", 7.62],
  ["25ft", 7.62],
  ["25 FT", 7.62],
  ["25'", 7.62],
  ["25 feet", 7.62],
  ["25-foot", 7.62],
  ["25 ft.", 7.62],
  [`25${NBSP}ft`, 7.62],
  ["  25 ft ", 7.62],
  ["+25 ft", 7.62],
  ["7.6 m", 7.6],
  ["7.6m", 7.6],
  [".5 m", 0.5],
  ["760 cm", 7.6],
  ["7600 mm", 7.6],
  ["7.6 metres", 7.6],
  ["11 ft 2 in", 3.4036],
  ["11 ft. 2 in.", 3.4036],
  ["11 ft, 2 in", 3.4036],
  ["11'2\"", 3.4036],
  ["11' 2\"", 3.4036],
  ["11'-2\"", 3.4036],
  ["11'2", 3.4036],
  ["11’ 2”", 3.4036],
  ["11′ 2″", 3.4036],
  ["11''", 0.2794],
  ["11' 2 1/2\"", 3.4163],
  ["11-1/2 in", 0.2921],
  ["11½ in", 0.2921],
  ["5/8 in", 0.015875],
  ["6'", 1.8288],
  ["30 in", 0.762],
  ["0 ft", 0],
  ["2 yd", 1.8288],
  ["-3 ft", -0.9144],
  ["−3 ft", -0.9144],
  ["-11 ft 2 in", -3.4036],
];

const OTHERS: readonly (readonly [Dimension, string, number])[] = [
  ["volume", "38 gal", 143.845647792],
  ["volume", "38 US gal", 143.845647792],
  ["volume", "10 imp gal", 45.4609],
  ["volume", "144 l", 144],
  ["volume", "144 L", 144],
  ["current", "50 A", 50],
  ["current", "50amp", 50],
  ["voltage", "120 V", 120],
  ["power", "1500 W", 1500],
  ["power", "1.5 kW", 1500],
  ["pressure", "3 bar", 300_000],
  ["pressure", "310 kPa", 310_000],
  ["pressure", "0.31 MPa", 310_000],
  ["speed", "36 km/h", 10],
  ["speed", "20 mph", 8.9408],
  ["speed", "10 kn", 5.144444444444445],
  ["slope", "2 %", 0.02],
  ["slope", "1:48", 1 / 48],
  ["slope", "-1:48", -1 / 48],
  ["slope", "1 in 48", 1 / 48],
  ["slope", "1/4 in/ft", 1 / 48],
  ["slope", "45 deg", 1],
  ["slope", "45°", 1],
  ["angle", "180 deg", Math.PI],
  ["angle", "100 %", Math.PI / 4],
];

/** Written form, fault, words that the message must hold. */
const REFUSED: readonly (readonly [Dimension, string, QuantityFault, string])[] = [
  ["length", "25", "no-unit", "25 of what? Write 25 ft or 7.62 m."],
  ["current", "50", "no-unit", "50 of what? Write 50 A."],
  ["slope", "0.02", "no-unit", "Write 2 % or"],
  ["length", "7,6 m", "decimal-comma", "write 7.6 m"],
  ["power", "1,500 W", "decimal-comma", "write 1500 W or 1.500 W"],
  ["length", "25 gal", "wrong-dimension", '"25 gal" is a volume, and a length is wanted here: write 25 ft or 7.62 m.'],
  ["volume", "25 ft", "wrong-dimension", "is a length, and a volume is wanted"],
  ["slope", "2 in", "wrong-dimension", "is a length, and a slope"],
  ["length", "NaN", "not-a-number", "not a number"],
  ["length", "Infinity m", "not-a-number", "not a number"],
  ["length", "-inf ft", "not-a-number", "not a number"],
  ["length", "1e308 m", "exponent", "in full"],
  ["length", "", "empty", "write 25 ft or 7.62 m"],
  ["length", "   ", "empty", "write 25 ft"],
  ["length", "12 ft 15 in", "unreadable", "13 ft 3 in"],
  ["length", "11.5 ft 2 in", "unreadable", "feet whole"],
  ["length", "11 ft 2", "unreadable", "11 ft 2 in"],
  ["length", "11 ft -2 in", "unreadable", "cannot be read"],
  ["length", "25-30 ft", "range", '["25 ft", "30 ft"]'],
  ["length", "25 to 30 ft", "range", '["25 ft", "30 ft"]'],
  ["length", "25 ft to 30 ft", "range", '["25 ft", "30 ft"]'],
  ["length", "about 25 ft", "unreadable", "cannot be read"],
  ["length", "1/0 ft", "unreadable", "cannot be read"],
  ["length", "25 furlongs", "unknown-unit", "Known units: m, ft, in"],
  ["power", "2 MW", "unknown-unit", "Known units: W, kW"],
  ["slope", "1:0", "unreadable", "1:48"],
  ["length", "9".repeat(80), "too-long", "80 characters"],
];

describe("quantities as people write them", () => {
  it.each(LENGTHS)("%j is %d m", (text, metres) => {
    const read = parseQuantity("length", text);
    expect(read.ok && read.value).toBeCloseTo(metres, 12);
  });

  it.each(OTHERS)("as a %s, %j is %d in SI", (dimension, text, si) => {
    const read = parseQuantity(dimension, text);
    expect(read.ok && read.value).toBeCloseTo(si, 9);
  });

  it("reads 45 psi as 310 264 Pa [0.45359237 kg x 9.80665 m/s2 over (0.0254 m)^2; definitions from memory]", () => {
    const read = parseQuantity("pressure", "45 psi");
    expect(read.ok && read.value).toBeCloseTo((45 * 0.45359237 * 9.80665) / 0.0254 ** 2, 6);
  });

  it.each(REFUSED)("as a %s, %j is refused as %s", (dimension, text, fault, words) => {
    const read = parseQuantity(dimension, text);
    expect(read.ok).toBe(false);
    if (read.ok) return;
    expect(read.code).toBe(fault);
    expect(read.message).toContain(words);
  });

  it("tells the gallons apart", () => {
    const american = parseQuantity("volume", "10 gal");
    const imperial = parseQuantity("volume", "10 imperial gallons");
    expect(american.ok && imperial.ok && imperial.value / american.value).toBeCloseTo(1.20095, 5);
  });
});

describe("limits speak the caller's unit", () => {
  const limits = { positive: true, max: 12.192 };
  it.each([
    ["45 ft", "45 ft is too much: at most 40 ft"],
    ["14 m", "14 m is too much: at most 12.1 m"],
    ["0 ft", "0 ft is impossible here"],
    ["-3 ft", "-3 ft is impossible here"],
    [45, "45 m is too much"],
    [1e308, "is too much"],
    [Number.NaN, "not a number"],
    [Number.POSITIVE_INFINITY, "not a number"],
  ])("%j", (input, words) => {
    const read = readQuantity("length", input, limits);
    expect("message" in read && read.message).toContain(words);
  });

  it("says of a bare number in which unit it was taken", () => {
    const read = readQuantity("length", 45, limits);
    expect("message" in read && read.message).toContain("A bare number is in m");
  });

  it("takes the limit itself", () => {
    expect(readQuantity("length", "40 ft", limits)).toMatchObject({ value: 12.192 });
  });
});

describe("laws of reading", () => {
  it("gives the same number for feet and for their exact metric form", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 400 }), fc.integer({ min: 0, max: 11 }), (feet, inches) => {
        const tenths = feet * 3048 + inches * 254;
        const american = parseQuantity("length", `${feet} ft ${inches} in`);
        const metric = parseQuantity("length", `${(tenths / 10_000).toFixed(4)} m`);
        expect(american.ok && metric.ok && Math.abs(american.value - metric.value)).toBeLessThanOrEqual(1e-12);
      }),
    );
  });

  it("never throws and never gives a value that is not a number", () => {
    const alphabet = fc.constantFrom(..."0123456789.,'\"/-+: ftincm°%½′″eEgalNaI\u00a0");
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.string({ unit: alphabet, maxLength: 14 })), (text) => {
        for (const dimension of ["length", "volume", "slope", "angle", "pressure"] as const) {
          const read = parseQuantity(dimension, text);
          if (read.ok) expect(Number.isFinite(read.value)).toBe(true);
          else expect(read.message.length).toBeGreaterThan(0);
        }
      }),
      { numRuns: 3000 },
    );
  });

  it("publishes a pattern that every text it reads matches, and no bare number does", () => {
    const pattern = new RegExp(TEXT_PATTERN);
    for (const [text] of LENGTHS) expect(text).toMatch(pattern);
    for (const [, text] of OTHERS) expect(text).toMatch(pattern);
    for (const text of ["25", "7.6", "25 ", "-3"]) expect(text).not.toMatch(pattern);
  });
});
