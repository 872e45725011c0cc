import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readJson } from "../../src/records/json.ts";

const faultsOf = (text: string) => {
  const reading = readJson(text);
  return reading.ok ? [] : reading.faults;
};

describe("the strict JSON reader", () => {
  it("agrees with JSON.parse on every value that JSON can write", () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 6 }), (value) => {
        const text = JSON.stringify(value);
        if (/"(__proto__|constructor|prototype)"/.test(text)) return;
        for (const written of [text, JSON.stringify(value, null, 2), `\ufeff${text}\n`]) {
          expect(readJson(written)).toEqual({ ok: true, value: JSON.parse(text) });
        }
      }),
      { numRuns: 500, seed: 11 },
    );
  });

  it("agrees with JSON.parse on which damaged texts are not JSON", () => {
    const whole = '{"a":[1,-2.5e3,"x\\u00e9\\n"],"b":{"c":null,"d":true},"e":false}';
    fc.assert(
      fc.property(
        fc.nat(whole.length - 1),
        fc.constantFrom("", "{", "]", ",", '"', "\\", "0", "\u0001", "N"),
        (at, c) => {
          const text = whole.slice(0, at) + c + whole.slice(at + 1);
          let parses = true;
          try {
            JSON.parse(text);
          } catch {
            parses = false;
          }
          const malformed = faultsOf(text).some((fault) => fault.code === "malformed-json");
          expect(malformed).toBe(!parses);
        },
      ),
      { numRuns: 1000, seed: 12 },
    );
  });

  it("says where malformed text breaks", () => {
    expect(faultsOf('{\n  "rig": {\n    "length": 7.6,,\n')).toEqual([
      expect.objectContaining({ code: "malformed-json", pointer: "/rig", line: 3, column: 19 }),
    ]);
    expect(faultsOf("")[0]).toMatchObject({ code: "malformed-json", pointer: "", line: 1, column: 1 });
    expect(faultsOf("NaN")[0]?.code).toBe("malformed-json");
    expect(faultsOf("-Infinity")[0]?.code).toBe("malformed-json");
    expect(faultsOf("01")[0]?.code).toBe("malformed-json");
  });

  it("gathers duplicate and prototype keys with their pointers", () => {
    const faults = faultsOf('{"a":1,"b":{"x/y":1,"x/y":2},"a":3,"__proto__":{"admin":true},"constructor":1}');
    expect(faults.map((fault) => [fault.code, fault.pointer])).toEqual([
      ["duplicate-key", "/b/x~1y"],
      ["duplicate-key", "/a"],
      ["forbidden-key", "/__proto__"],
      ["forbidden-key", "/constructor"],
    ]);
    expect(({} as Record<string, unknown>)["admin"]).toBeUndefined();
    expect(faultsOf('{"\\u005f_proto__":1}')[0]?.code).toBe("forbidden-key");
  });

  it("reads 32 levels and refuses 33, and a million without a deep stack", () => {
    const nested = (levels: number) => "[".repeat(levels) + "]".repeat(levels);
    expect(readJson(nested(32)).ok).toBe(true);
    expect(faultsOf(nested(33))).toEqual([expect.objectContaining({ code: "too-deep", line: 1, column: 33 })]);
    expect(faultsOf(nested(1_000_000))[0]?.code).toBe("too-deep");
  });

  it("refuses a number that overflows and keeps one that does not", () => {
    expect(faultsOf('{"length":[1e400]}')).toEqual([
      expect.objectContaining({ code: "number-out-of-range", pointer: "/length/0" }),
    ]);
    expect(readJson("1e308")).toEqual({ ok: true, value: 1e308 });
  });
});
