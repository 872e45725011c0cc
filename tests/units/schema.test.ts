import { describe, expect, it } from "vitest";
import * as z from "zod";
import { formatGauge, gaugeSchema, parseGauge } from "../../src/units/gauge.ts";
import { pointer, shorten, toInputErrors } from "../../src/units/input-error.ts";
import { editDistance, nearest } from "../../src/units/nearest.ts";
import { angle, length, lengthOrRange, slope } from "../../src/units/schema.ts";

describe("schemas of quantities", () => {
  it("take a bare number as SI and an angle's as degrees", () => {
    expect(length().parse(7.5)).toBe(7.5);
    expect(length().parse("25 ft")).toBe(7.62);
    expect(slope().parse(0.02)).toBe(0.02);
    expect(angle().parse(90)).toBeCloseTo(Math.PI / 2, 12);
  });

  it("take a range, low end first", () => {
    const range = lengthOrRange({ min: 0 });
    expect(range.parse("3 ft")).toEqual({ low: 0.9144, high: 0.9144 });
    expect(range.parse(["3 ft", 2])).toEqual({ low: 0.9144, high: 2 });
    expect(range.safeParse([2, "3 ft"]).error?.issues[0]?.message).toContain('["3 ft", "2"]');
    expect(range.safeParse(["3 ft", "25"]).error?.issues[0]).toMatchObject({
      path: [1],
      message: "25 of what? Write 25 ft or 7.62 m.",
    });
    expect(range.safeParse([1, 2, 3]).success).toBe(false);
    expect(range.safeParse([]).success).toBe(false);
  });

  it("refuse what is neither number nor text", () => {
    for (const input of [null, true, {}, [], undefined]) expect(length().safeParse(input).success).toBe(false);
  });

  it("describe their input for a JSON Schema", () => {
    const schema = z.toJSONSchema(length({ positive: true, max: 30, description: "Cord." }), { io: "input" });
    expect(schema).toMatchObject({
      description: "Cord.",
      anyOf: [{ type: "number", exclusiveMinimum: 0, maximum: 30 }, { type: "string" }],
    });
    expect(z.toJSONSchema(lengthOrRange(), { io: "input" }).anyOf).toHaveLength(3);
    expect(z.toJSONSchema(length(), { io: "output" })).toMatchObject({ type: "number" });
  });
});

describe("conductor sizes", () => {
  it.each([
    ["10 AWG", { awg: 10 }],
    ["AWG 10", { awg: 10 }],
    ["10awg", { awg: 10 }],
    ["6 gauge", { awg: 6 }],
    ["2.5 mm2", { squareMillimetres: 2.5 }],
    ["2.5mm²", { squareMillimetres: 2.5 }],
  ])("%s", (text, gauge) => {
    expect(parseGauge(text)).toEqual(gauge);
    expect(parseGauge(formatGauge(gauge))).toEqual(gauge);
  });
  it.each(["10", "0 AWG", "30 AWG", "900 mm2", "2,5 mm2", ""])("refuses %j", (text) => {
    expect(parseGauge(text)).toBeNull();
  });
  it("asks 10 of what", () => {
    expect(gaugeSchema.safeParse(10).error?.issues[0]?.message).toBe('10 of what? Write "10 AWG" or "2.5 mm2".');
  });
});

describe("errors of input", () => {
  const schema = z.strictObject({
    width: length(),
    side: z.enum(["left", "right"]),
    parts: z
      .array(z.strictObject({ depth: length().optional() }))
      .max(2)
      .optional(),
  });
  const errors = (input: unknown) => {
    const parsed = schema.safeParse(input);
    return parsed.success ? [] : toInputErrors(schema, parsed.error, input);
  };

  it("names the nearest known key, also within a list, one error for each key", () => {
    const found = errors({ width: 1, side: "left", widht: 2, parts: [{ dpeth: 1, zzz: 2 }] });
    expect(found.map((error) => [error.path, error.code])).toEqual([
      ["/parts/0/dpeth", "unknown-key"],
      ["/parts/0/zzz", "unknown-key"],
      ["/widht", "unknown-key"],
    ]);
    expect(found[0]?.message).toContain('Did you mean "depth"?');
    expect(found[1]?.message).not.toContain("Did you mean");
    expect(found[2]?.message).toContain('Did you mean "width"?');
  });

  it("tells missing from wrong, all at once", () => {
    const found = errors({ side: "lift", parts: [1] });
    expect(found.map((error) => [error.path, error.code])).toEqual([
      ["/width", "missing"],
      ["/side", "not-in-list"],
      ["/parts/0", "wrong-type"],
    ]);
    expect(found[1]?.message).toContain('Did you mean "left"?');
  });

  it("escapes pointers and shortens what it shows", () => {
    expect(pointer(["a/b", "~c", 0])).toBe("/a~1b/~0c/0");
    expect(shorten("x".repeat(500)).length).toBeLessThan(70);
    expect(shorten({ a: { b: 1 } })).toBe("an object with a");
  });

  it("counts a swap of neighbours as one edit", () => {
    expect(editDistance("heigth", "height")).toBe(1);
    expect(editDistance("kitten", "sitting")).toBe(3);
    expect(nearest("tt30", ["nema-5-15", "nema-tt-30", "nema-14-30"])).toBe("nema-tt-30");
    expect(nearest("qqqqqq", ["length"])).toBeNull();
  });
});
