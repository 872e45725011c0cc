import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import * as z from "zod";
import { digestOf, readCursor, writeCursor } from "../../src/http/cursor.ts";
import { negotiate } from "../../src/http/negotiate.ts";
import { writeYaml } from "../../src/http/openapi/yaml.ts";
import { Problem } from "../../src/http/problem.ts";
import { matchesTag } from "../../src/http/representation.ts";
import { check } from "../../src/http/validate.ts";

const codeOf = (work: () => unknown) => {
  try {
    work();
  } catch (thrown) {
    return thrown instanceof Problem ? thrown.code : thrown;
  }
  return "none";
};

describe("negotiation", () => {
  const offered = ["application/json", "image/svg+xml"] as const;
  it.each([
    [null, "application/json"],
    ["*/*", "application/json"],
    ["image/svg+xml", "image/svg+xml"],
    ["application/json;q=0.4, image/svg+xml;q=0.5", "image/svg+xml"],
    ["image/*", "image/svg+xml"],
    ["*/*;q=0.1, application/json;q=0", "image/svg+xml"],
    ["text/html, */*;q=0.2", "application/json"],
  ])("%s gives %s", (accept, given) => {
    expect(negotiate(accept, offered)).toBe(given);
  });
  it("refuses what it cannot give", () => {
    expect(codeOf(() => negotiate("text/csv", offered))).toBe("not-acceptable");
    expect(codeOf(() => negotiate("application/json;q=0", ["application/json"]))).toBe("not-acceptable");
  });
});

describe("entity tags", () => {
  it("compare weakly for If-None-Match", () => {
    expect(matchesTag('"a", W/"b"', '"b"')).toBe(true);
    expect(matchesTag('"b;br"', '"b"')).toBe(true);
    expect(matchesTag('"b;zstd"', '"b"')).toBe(false);
    expect(matchesTag("*", '"b"')).toBe(true);
    expect(matchesTag('"a"', '"b"')).toBe(false);
    expect(matchesTag(null, '"b"')).toBe(false);
  });
});

describe("cursors", () => {
  it("return what they were given for, and nothing else", async () => {
    const query = await digestOf({ bbox: [1, 2, 3, 4] });
    const other = await digestOf({ bbox: [1, 2, 3, 5] });
    const cursor = writeCursor({ after: 40, version: "v-ü-1", query });
    expect(cursor).toMatch(/^[A-Za-z0-9_-]+$/);
    expect(readCursor(cursor, { version: "v-ü-1", query })).toBe(40);
    expect(codeOf(() => readCursor(cursor, { version: "v2", query }))).toBe("stale-cursor");
    expect(codeOf(() => readCursor(cursor, { version: "v-ü-1", query: other }))).toBe("invalid-cursor");
    for (const broken of ["", "%%%", cursor.slice(3), writeCursor({ after: -1, version: "v-ü-1", query }), "W10"]) {
      expect(codeOf(() => readCursor(broken, { version: "v-ü-1", query }))).toBe("invalid-cursor");
    }
  });
});

describe("validation", () => {
  const schema = z.strictObject({
    size: z.strictObject({ depth: z.number().max(5) }),
    word: z.enum(["left", "right"]),
    list: z.array(z.union([z.string(), z.strictObject({ at: z.number() })])),
  });
  it("words every fault at once, with pointers from the root of the body and the nearest key", () => {
    const result = check(schema, { size: { depth: 9, dept: 1 }, word: "lef", list: ["a", 7], extra: 1 }, "/rig");
    expect(result.ok ? [] : result.errors).toEqual([
      expect.objectContaining({ pointer: "/rig/size/depth", expected: "at most 5", got: "9" }),
      expect.objectContaining({
        pointer: "/rig/size/dept",
        code: "unknown-key",
        message: expect.stringContaining('"depth"'),
      }),
      expect.objectContaining({
        pointer: "/rig/word",
        code: "not-in-list",
        message: expect.stringContaining('"left"'),
      }),
      expect.objectContaining({ pointer: "/rig/list/1", code: "wrong-type", got: "7" }),
      expect.objectContaining({ pointer: "/rig/extra", code: "unknown-key", expected: "one of size, word, list" }),
    ]);
  });
  it("cuts a pointer that ends in a huge key", () => {
    const result = check(schema, { size: { depth: 1 }, word: "left", list: [], ["k".repeat(10_000)]: 1 });
    expect(JSON.stringify(result).length).toBeLessThan(1000);
  });
});

describe("YAML", () => {
  it("says the same as the value it was made from", () => {
    const value = {
      openapi: "3.1.0",
      "200": { description: "yes", "application/json": [] },
      paths: {
        "/v1/{id}": [{ a: 1, b: [[1, 2], { c: null }] }, "no", "- x", "a: b", "#", "", " lead", "line\nbreak", "é…"],
      },
      on: true,
      empty: {},
      number: -0.5e-9,
    };
    expect(parse(writeYaml(value))).toEqual(value);
  });
});
