/** Two hosts change one site: what each changed, what collides, and what is written in the end. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mergePatch } from "../../src/http/host/merge-patch.ts";
import type { JsonValue } from "../../src/records/json.ts";
import {
  changesBetween,
  conflictsOf,
  type Json,
  mergedRecord,
  mergePatchOf,
  pathText,
  valueAt,
  withValue,
} from "../../src/web/host/record/merge.ts";

const BASE: Json = {
  id: "curlew-4",
  properties: {
    name: "Curlew 4",
    pad: { length: 13.7, width: 4.2 },
    services: { power: "yes", sewer: "no" },
    hookups: [
      { id: "power", service: "power", at: { along: 2.7, left: 3.7 } },
      { id: "tap", service: "water", at: { along: 3.3, left: 3.5 } },
    ],
  },
};
const at = (...path: string[]) => ["properties", ...path];
const changed = (...changes: readonly (readonly [readonly string[], Json | undefined])[]): Json =>
  changes.reduce<Json>((record, [path, value]) => withValue(record, path, value) as Json, BASE);

describe("changes of two hosts", () => {
  it("of different entries of one list do not collide", () => {
    const mine = changed([at("hookups", "#power", "at", "along"), 5.1]);
    const theirs = changed([at("hookups", "#tap", "at", "left"), -2.2], [at("name"), "Curlew Four"]);
    expect(conflictsOf(BASE, mine, theirs)).toEqual([]);
    const merged = mergedRecord(BASE, mine, theirs, new Set());
    expect(valueAt(merged, at("hookups", "#power", "at", "along"))).toBe(5.1);
    expect(valueAt(merged, at("hookups", "#tap", "at", "left"))).toBe(-2.2);
    expect(valueAt(merged, at("name"))).toBe("Curlew Four");
  });

  it("of one leaf collide, and the choice decides", () => {
    const mine = changed([at("pad", "length"), 12.1], [at("pad", "width"), 4.4]);
    const theirs = changed([at("pad", "length"), 14.9]);
    expect(conflictsOf(BASE, mine, theirs)).toEqual([
      { path: at("pad", "length"), base: 13.7, mine: 12.1, theirs: 14.9 },
    ]);
    const length = pathText(at("pad", "length"));
    expect(valueAt(mergedRecord(BASE, mine, theirs, new Set()), at("pad"))).toEqual({ length: 14.9, width: 4.4 });
    expect(valueAt(mergedRecord(BASE, mine, theirs, new Set([length])), at("pad", "length"))).toBe(12.1);
  });

  it("leave a value that stays theirs known as they know it", () => {
    const tap = at("hookups", "#tap");
    const mine = changed([[...tap, "at", "along"], 6.6], [[...tap, "basis"], "mapped"], [[...tap, "accuracy"], 0.5]);
    const theirs = changed([[...tap, "at", "along"], 3.9]);
    expect(valueAt(mergedRecord(BASE, mine, theirs, new Set()), tap)).not.toHaveProperty("basis");
    const own = mergedRecord(BASE, mine, theirs, new Set([pathText([...tap, "at", "along"])]));
    expect(valueAt(own, tap)).toMatchObject({ at: { along: 6.6 }, basis: "mapped", accuracy: 0.5 });
  });

  it("to the same value are no conflict", () => {
    const both = changed([at("services", "sewer"), "yes"]);
    expect(conflictsOf(BASE, both, both)).toEqual([]);
  });

  it("collide when one took away what the other changed", () => {
    const mine = changed([at("hookups", "#tap", "at", "along"), 9.9]);
    const theirs: Json = {
      ...(BASE as object),
      properties: { ...(valueAt(BASE, at()) as object), hookups: [] },
    } as Json;
    expect(conflictsOf(BASE, mine, theirs)).toMatchObject([{ mine: 9.9, theirs: undefined }]);
  });
});

describe("a merge patch", () => {
  it("is null for equal records and takes away with null", () => {
    expect(mergePatchOf(BASE, BASE)).toBeNull();
    expect(mergePatchOf(BASE, changed([at("pad", "width"), undefined]))).toEqual({
      properties: { pad: { width: null } },
    });
  });

  it("leads from any record to any other", () => {
    const leaf = fc.oneof(fc.integer({ min: -9, max: 9 }), fc.constantFrom("yes", "no"), fc.boolean());
    const object = fc.dictionary(
      fc.constantFrom("a", "b", "c"),
      fc.oneof(leaf, fc.dictionary(fc.constantFrom("d", "e"), leaf)),
    );
    fc.assert(
      fc.property(object, object, (one, other) => {
        const patch = mergePatchOf(one, other);
        expect(patch === null ? one : mergePatch(one, patch as JsonValue)).toEqual(other);
      }),
      { numRuns: 500 },
    );
  });

  it("of what I alone changed leaves everything else as the other left it", () => {
    const theirs = changed([at("name"), "Other"]);
    const merged = mergedRecord(BASE, changed([at("services", "sewer"), "yes"]), theirs, new Set());
    expect(changesBetween(theirs, merged).map(({ path }) => pathText(path))).toEqual(["services, sewer"]);
  });
});
