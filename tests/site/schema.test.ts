import { describe, expect, test } from "vitest";
import { SITE_SCHEMA_NAMES, siteJsonSchema } from "../../src/site/json-schema.ts";
import { siteProperties } from "../../src/site/schema.ts";

describe("the campsite schema", () => {
  test("quantities are read in their units, degrees become radians, unknown members stay", () => {
    const read = siteProperties.parse({
      heading: 90,
      pad: { length: "40 ft", width: [3, "4 m"], grade: "2 %", crossfall: -0.01, gravelDepth: "deep" },
      hookups: [{ service: "water", pressure: "50 psi", drinkable: true }],
      access: { angle: 60 },
    });
    expect(read.heading).toBeCloseTo(Math.PI / 2, 12);
    expect(read.pad?.length).toEqual({ low: 12.192, high: 12.192 });
    expect(read.pad?.width).toEqual({ low: 3, high: 4 });
    expect(read.pad?.grade).toBeCloseTo(0.02, 12);
    expect(read.pad?.["gravelDepth"]).toBe("deep");
    expect(read.hookups?.[0]?.pressure).toBeCloseTo(344_738, 0);
    expect(read.hookups?.[0]?.drinkable).toBe("yes");
    expect(read.access?.angle).toBeCloseTo(Math.PI / 3, 12);
    expect(read.services).toBeUndefined();
  });

  test.each([
    ["hookups", [{ service: "gas" }]],
    ["hookups", [{ service: "power", at: { along: 5000, left: 0 } }]],
    ["heading", 361],
    ["obstacles", [{ what: "tree", at: { along: 1, left: 2 } }]],
    ["observedAt", "2026-02-31x"],
    ["facings", []],
  ])("%s %j is refused", (member, value) => {
    const read = siteProperties.safeParse({ [member]: value });
    expect(read.success).toBe(false);
    expect(read.error?.issues[0]?.path[0]).toBe(member);
  });

  test.each(SITE_SCHEMA_NAMES)("the JSON Schema of %s names its members and takes numbers or texts", (name) => {
    const schema = siteJsonSchema(name, "https://example.org/schemas");
    const text = JSON.stringify(schema);
    expect(schema["$id"]).toBe(`https://example.org/schemas/${name}.json`);
    expect(schema["$schema"]).toContain("2020-12");
    expect(text).toContain("crossfall");
    expect(text).toContain('"type":"string"');
    expect(text).not.toContain('"additionalProperties":false');
  });
});
