import fc from "fast-check";
import { describe, expect, it } from "vitest";
import receptacles from "../../data/receptacles.json" with { type: "json" };
import { rigJsonSchema } from "../../src/rig/json-schema.ts";
import { parseRig } from "../../src/rig/parse.ts";
import { plugIds } from "../../src/rig/vocabulary.ts";
import { fullRigInFeet, leastRig } from "./rigs.ts";

function errorsOf(input: unknown) {
  const read = parseRig(input);
  return read.ok ? [] : read.errors;
}
function warningsOf(input: unknown) {
  const read = parseRig(input);
  if (!read.ok) throw new Error(JSON.stringify(read.errors));
  return read.warnings;
}
/** The full rig with some members replaced. */
const full = (changes: Record<string, unknown>) => ({ ...fullRigInFeet, ...changes });
/** The full rig with one connection, built on a bare water connection. */
const joined = (connection: Record<string, unknown>) =>
  full({ connections: [{ service: "water", side: "left", fromRear: "6 ft", ...connection }] });

describe("a rig record that is right", () => {
  it("reads the least rig", () => {
    const read = parseRig(leastRig);
    expect(read).toMatchObject({ ok: true, warnings: [] });
    expect(read.ok && read.rig).toMatchObject({
      length: 7.62,
      height: 3.3528,
      power: { cord: 7.62 },
      sewerHose: 3.048,
    });
  });

  it("reads the full rig without a warning", () => {
    expect(warningsOf(fullRigInFeet)).toEqual([]);
  });

  it("knows exactly the plugs of the receptacle table", () => {
    expect(plugIds).toEqual(receptacles.devices.map((device) => device.id));
    expect(plugIds.length).toBeGreaterThanOrEqual(12);
  });
});

/** Title, input, pointer, code, words of the message. */
const BROKEN: readonly (readonly [string, unknown, string, string, string])[] = [
  ["nothing", undefined, "", "missing", "an object"],
  ["null", null, "", "wrong-type", "an object"],
  ["a list", [], "", "wrong-type", "an object"],
  ["no class", { length: 7 }, "/class", "missing", "class-a"],
  ["no length", { class: "van" }, "/length", "missing", "25 ft or 7.62 m"],
  ["a class in other words", full({ class: "Class C" }), "/class", "not-in-list", 'Did you mean "class-c"?'],
  ["an unknown key", full({ heigth: 3 }), "/heigth", "unknown-key", 'Did you mean "height"?'],
  ["a key in another spelling", full({ ground_clearance: 3 }), "/ground_clearance", "unknown-key", '"groundClearance"'],
  ["an unknown key inside", joined({ fromrear: 1 }), "/connections/0/fromrear", "unknown-key", '"fromRear"'],
  [
    "a plug in other words",
    { ...leastRig, power: { plug: "TT-30", cord: 7 } },
    "/power/plug",
    "not-in-list",
    '"nema-tt-30"',
  ],
  ["a length without unit", full({ length: "25" }), "/length", "no-unit", "25 of what? Write 25 ft or 7.62 m."],
  ["a volume for a length", full({ width: "8 gal" }), "/width", "wrong-dimension", "is a volume"],
  ["a negative length", full({ height: "-11 ft" }), "/height", "too-small", "-11 ft is impossible"],
  ["a length of nothing", full({ height: 0 }), "/height", "too-small", "0 m is impossible"],
  ["a height in millimetres as a bare number", full({ height: 3350 }), "/height", "too-large", "A bare number is in m"],
  ["the largest number", full({ width: 1e308 }), "/width", "too-large", "too much"],
  ["a decimal comma", full({ width: "2,4 m" }), "/width", "decimal-comma", "write 2.4 m"],
  ["power beside connections", full({ power: leastRig.power }), "/power", "conflict", "connections[0]"],
  ["waterHose beside connections", full({ waterHose: "25 ft" }), "/waterHose", "conflict", "connections[1]"],
  ["sewerHose beside connections", full({ sewerHose: "10 ft" }), "/sewerHose", "conflict", "connections[2]"],
  ["awning beside awnings", full({ awning: { projection: 2 } }), "/awning", "conflict", '"awnings"'],
  [
    "a connection beyond the nose",
    joined({ fromRear: "34 ft" }),
    "/connections/0/fromRear",
    "impossible",
    "34 ft, and the rig is 33.3 ft long",
  ],
  [
    "a range that ends beyond the nose",
    joined({ fromRear: ["1 ft", "34 ft"] }),
    "/connections/0/fromRear",
    "impossible",
    "34 ft",
  ],
  [
    "a range that runs backwards",
    joined({ fromRear: ["9 ft", "1 ft"] }),
    "/connections/0/fromRear",
    "range",
    '["1 ft", "9 ft"]',
  ],
  [
    "a connection above the roof",
    joined({ height: "11 ft" }),
    "/connections/0/height",
    "impossible",
    "above the rig's height",
  ],
  ["a connection beside the body", joined({ left: "5 ft" }), "/connections/0/left", "impossible", "4 ft"],
  ["a connection left and right at once", joined({ left: "-2 ft" }), "/connections/0/left", "impossible", "other side"],
  ["a plug on a hose", joined({ plug: "nema-tt-30" }), "/connections/0/plug", "conflict", "no plug"],
  [
    "a gauge on a hose",
    joined({ line: { length: 7, gauge: "10 AWG" } }),
    "/connections/0/line/gauge",
    "conflict",
    "water",
  ],
  [
    "amperes on a hose",
    joined({ line: { length: 7, rating: "30 A" } }),
    "/connections/0/line/rating",
    "wrong-dimension",
    "125 psi",
  ],
  [
    "a gauge that is a number",
    joined({ service: "power", line: { length: 7, gauge: 10 } }),
    "/connections/0/line/gauge",
    "wrong-type",
    "10 of what?",
  ],
  [
    "a working length beyond the label",
    joined({ line: { length: "25 ft", workingLength: "26 ft" } }),
    "/connections/0/line/workingLength",
    "impossible",
    "26 ft",
  ],
  ["a described point", joined({ basis: "described" }), "/connections/0/fromRear", "range", "[low, high]"],
  [
    "an accuracy of words",
    joined({ basis: "code", fromRear: [0, 4], accuracy: 0.1 }),
    "/connections/0/accuracy",
    "conflict",
    "code",
  ],
  ["a satellite fix without accuracy", joined({ basis: "gps" }), "/connections/0/accuracy", "missing", "gps"],
  [
    "one id twice",
    full({
      doors: [
        { id: "d", side: "right", fromRear: 2 },
        { id: "d", side: "left", fromRear: 3 },
      ],
    }),
    "/doors/1/id",
    "duplicate",
    "doors[0]",
  ],
  [
    "a slide beyond the nose",
    full({ slideouts: [{ side: "left", fromRear: "30 ft", length: "4 ft", depth: "2 ft" }] }),
    "/slideouts/0/fromRear",
    "impossible",
    "34 ft",
  ],
  [
    "a slide without a place",
    full({ slideouts: [{ side: "left", length: "4 ft", depth: "2 ft" }] }),
    "/slideouts/0/fromRear",
    "missing",
    "rearmost",
  ],
  [
    "a slide above the roof",
    full({ slideouts: [{ side: "left", fromRear: 1, length: 1, depth: 1, top: "11 ft" }] }),
    "/slideouts/0/top",
    "impossible",
    "above",
  ],
  [
    "a slide upside down",
    full({ slideouts: [{ side: "left", fromRear: 1, length: 1, depth: 1, bottom: 2, top: 1.5 }] }),
    "/slideouts/0/top",
    "impossible",
    "lower edge",
  ],
  [
    "a rear slide wider than the rig",
    full({ slideouts: [{ side: "rear", length: "9 ft", depth: 1 }] }),
    "/slideouts/0/length",
    "impossible",
    "8 ft wide",
  ],
  [
    "a rear slide placed along the rig",
    full({ slideouts: [{ side: "rear", fromRear: 1, length: 1, depth: 1 }] }),
    "/slideouts/0/fromRear",
    "conflict",
    "left",
  ],
  [
    "a door beyond the nose",
    full({ doors: [{ side: "right", fromRear: "32 ft", width: "26 in" }] }),
    "/doors/0/fromRear",
    "impossible",
    "a door",
  ],
  [
    "a hot outlet beyond the nose",
    full({ hotOutlets: [{ what: "furnace", side: "right", fromRear: 11 }] }),
    "/hotOutlets/0/fromRear",
    "impossible",
    "11 m",
  ],
  ["axles longer than the rig", full({ wheelbase: "25 ft" }), "/wheelbase", "impossible", "36 ft"],
  [
    "an awning longer than the rig",
    { ...leastRig, awning: { projection: 2, length: "26 ft" } },
    "/awning/length",
    "impossible",
    "longer than the rig",
  ],
  [
    "too many doors",
    full({ doors: Array.from({ length: 13 }, () => ({ side: "rear" })) }),
    "/doors",
    "too-many",
    "at most 12",
  ],
  [
    "a wind class of 7",
    full({ awnings: [{ side: "right", projection: 2, windClass: 7 }] }),
    "/awnings/0/windClass",
    "too-large",
    "at most 6",
  ],
  ["an id with a space", full({ id: "a b" }), "/id", "bad-form", "letters"],
  ["a date in words", joined({ observedAt: "last May" }), "/connections/0/observedAt", "wrong-type", "2024-05-17"],
  [
    "a prototype key",
    JSON.parse('{"class":"van","length":6,"__proto__":{"height":3}}'),
    "/__proto__",
    "unknown-key",
    "not known",
  ],
  ["a constructor key", full({ constructor: 1 }), "/constructor", "unknown-key", "not known"],
];

describe("a rig record that is wrong", () => {
  it.each(BROKEN)("refuses %s", (_, input, path, code, words) => {
    const errors = errorsOf(input);
    expect(errors.map((error) => [error.path, error.code])).toEqual([[path, code]]);
    expect(errors[0]?.message).toContain(words);
    expect(errors[0]?.got.length).toBeLessThan(70);
    expect(errors[0]?.expected).not.toBe("");
  });

  it("tells every error at once, those of fields and those between fields", () => {
    const found = errorsOf(full({ width: "8", colour: "red", power: leastRig.power, wheelbase: "30 ft" }));
    expect(found.map((error) => error.path).sort()).toEqual(["/colour", "/power", "/wheelbase", "/width"]);
  });
});

describe("a rig record that is odd is kept, and asks", () => {
  it.each([
    [{ ...leastRig, power: { plug: "nema-tt-30", cord: 25 } }, "/power/cord", "Did you mean 25 ft (7.62 m)?"],
    [{ ...leastRig, length: 30 }, "/length", "Did you mean 30 ft (9.14 m)?"],
    [{ ...leastRig, length: "30 m" }, "/length", "Did you mean 30 ft"],
    [{ ...leastRig, length: 35 }, "/length", "a bare number is in m"],
    [{ ...leastRig, height: "11 m" }, "/height", "Did you mean 11 ft"],
    [{ ...leastRig, height: "3.4 ft" }, "/height", "Did you mean 3.4 m"],
    [{ ...leastRig, sewerHose: 10 }, "/sewerHose", "Did you mean 10 ft"],
    [{ ...leastRig, width: "1 ft" }, "/width", "usual is 4.59 ft to 9.51 ft"],
    [{ ...leastRig, tanks: { fresh: "900 gal" } }, "/tanks/fresh", "fresh tank is 900 gal"],
    [{ ...leastRig, modelLength: "26 ft" }, "/modelLength", "rearmost"],
    [{ ...leastRig, appliances: [{ name: "pump", watts: 90, starts: 60 }] }, "/appliances/0/starts", "swapped"],
    [
      {
        ...leastRig,
        sewerHose: undefined,
        connections: [{ service: "sewer", side: "left", fromRear: 1, height: "5 ft" }],
      },
      "/connections/0/height",
      "sewer",
    ],
  ])("%#", (input, path, words) => {
    const warnings = warningsOf(input);
    expect(warnings.map((warning) => warning.path)).toEqual([path]);
    expect(warnings[0]?.text).toContain(words);
  });

  it("does not ask about a 25 m cord that says so, or a 24 ft one", () => {
    expect(warningsOf({ ...leastRig, power: { plug: "cee-7-3", cord: "25 m" } })).toEqual([]);
    expect(warningsOf({ ...leastRig, power: { plug: "nema-tt-30", cord: "24 ft" } })).toEqual([]);
  });

  it("never alters the value", () => {
    const read = parseRig({ ...leastRig, power: { plug: "nema-tt-30", cord: 25 } });
    expect(read.ok && read.rig.power?.cord).toBe(25);
  });
});

describe("reading never throws", () => {
  const keys = fc.constantFrom(
    "class",
    "length",
    "power",
    "connections",
    "awning",
    "__proto__",
    "constructor",
    "kit",
    "x",
  );
  it("on any JSON", () => {
    fc.assert(
      fc.property(fc.oneof(fc.jsonValue(), fc.dictionary(keys, fc.jsonValue())), (input) => {
        const read = parseRig(input);
        if (read.ok) return;
        expect(read.errors.length).toBeGreaterThan(0);
        for (const error of read.errors) expect(error.message).not.toBe("");
      }),
      { numRuns: 1000 },
    );
  });

  it("on a right record with one value replaced anywhere", () => {
    const places: (string | number)[][] = [];
    const walk = (value: unknown, path: (string | number)[]): void => {
      places.push(path);
      if (Array.isArray(value)) {
        for (const [index, inner] of value.entries()) walk(inner, [...path, index]);
      } else if (typeof value === "object" && value !== null) {
        for (const [key, inner] of Object.entries(value)) walk(inner, [...path, key]);
      }
    };
    walk(fullRigInFeet, []);
    const replaced = (value: unknown, path: (string | number)[], by: unknown): unknown => {
      const [part, ...rest] = path;
      if (part === undefined) return by;
      const copy = (Array.isArray(value) ? [...value] : { ...(value as object) }) as Record<string | number, unknown>;
      copy[part] = replaced(copy[part], rest, by);
      return copy;
    };
    const values = fc.oneof(
      fc.jsonValue(),
      fc.double(),
      fc.constantFrom("1e308 m", "-3 ft", "25", Number.NaN, undefined, [1, 2], ["2 ft", "1 ft"]),
    );
    fc.assert(
      fc.property(fc.constantFrom(...places), values, (path, value) => {
        const read = parseRig(replaced(fullRigInFeet, path, value));
        if (!read.ok) expect(read.errors.length).toBeGreaterThan(0);
      }),
      { numRuns: 1000 },
    );
  });

  it("on depth, cycles and objects that throw", () => {
    let deep: unknown = 1;
    for (let level = 0; level < 20_000; level += 1) deep = [deep];
    expect(parseRig({ class: "van", length: deep }).ok).toBe(false);
    expect(parseRig({ ...leastRig, connections: deep }).ok).toBe(false);
    const cycle: Record<string, unknown> = { class: "van" };
    cycle["length"] = cycle;
    expect(parseRig(cycle).ok).toBe(false);
    const thrower = {
      class: "van",
      get length(): number {
        throw new Error("no");
      },
    };
    expect(parseRig(thrower).ok).toBe(false);
    for (const input of [Symbol("x"), () => 1, 3n, new Map(), new Date()]) expect(parseRig(input).ok).toBe(false);
  });
});

describe("the JSON Schema", () => {
  const schema = rigJsonSchema();
  it("is closed, and asks for class and length", () => {
    expect(schema).toMatchObject({ type: "object", additionalProperties: false, required: ["class", "length"] });
  });
  it("describes lengths as a number or a text with examples", () => {
    const length = schema.properties?.["length"];
    expect(length).toMatchObject({ anyOf: [{ type: "number", exclusiveMinimum: 0 }, { type: "string" }] });
    expect(JSON.stringify(schema)).not.toContain('"examples":[]');
  });
  it("lists every member that the reader knows", () => {
    expect(Object.keys(schema.properties ?? {})).toEqual(expect.arrayContaining(Object.keys(fullRigInFeet)));
  });
});
