/**
 * Source: id-tagging-schema, the tagging scheme of OpenStreetMap's editor, package @openstreetmap/id-tagging-schema
 * 6.19.2 (ISC), files dist/fields.json, dist/presets.json and dist/deprecated.json: read. It says nothing of power at
 * single pitches (socket:*, power_supply:*), of drafts (camp_pitch:*) and of sewer, which it cannot check.
 */
import deprecated from "@openstreetmap/id-tagging-schema/dist/deprecated.json" with { type: "json" };
import fields from "@openstreetmap/id-tagging-schema/dist/fields.json" with { type: "json" };
import presets from "@openstreetmap/id-tagging-schema/dist/presets.json" with { type: "json" };
import scheme from "@openstreetmap/id-tagging-schema/package.json" with { type: "json" };
import { describe, expect, it } from "vitest";
import table from "../../data/osm-tags.json" with { type: "json" };
import { codes, features, node, pitch, type TagList, taken, way, xml } from "../records/osm/fixtures.ts";

interface Field {
  readonly key?: string;
  readonly reference?: { readonly key: string };
  readonly type: string;
  readonly options?: readonly string[];
  readonly customValues?: boolean;
  readonly minValue?: number;
}
const known = fields as unknown as Readonly<Record<string, Field | undefined>>;
const keyOf = (field: Field | undefined) => field?.key ?? field?.reference?.key;
const old = deprecated as unknown as readonly { readonly old: TagList; readonly replace?: TagList }[];
const known_presets = presets as unknown as Readonly<Record<string, { readonly tags: TagList }>>;

describe("the tagging scheme 6.19.2", () => {
  it("is the version that the table was read from", () => {
    expect(scheme.version).toBe("6.19.2");
  });

  it.each(table.tagging.enums.map((row) => [row.field, row] as const))("offers the same values of %s", (name, row) => {
    const field = known[name];
    expect(keyOf(field)).toBe(row.key);
    expect([...row.options].sort()).toEqual([...(field?.options ?? [])].sort());
    expect(row.closed).toBe(field?.customValues === false);
  });

  it.each(table.tagging.checks.map((row) => [row.field, row] as const))("has %s as yes, no or absent", (name, row) => {
    expect(known[name]).toMatchObject({ type: "check", key: row.key });
  });

  it.each(table.tagging.numbers.map((row) => [row.field, row] as const))("has %s as a number from 0", (name, row) => {
    expect(known[name]).toMatchObject({ type: "number", minValue: 0, key: row.key });
  });

  it.each(table.tagging.roadHeights.map((row) => [row.field, row] as const))(
    "has %s in metres or feet",
    (name, row) => {
      expect(known[name]).toMatchObject({ type: "roadheight", key: row.key });
      const { limits } = pitch({ [row.key]: "9'4\"" }) as { limits: Record<string, number> };
      expect(Object.values(limits)).toEqual([expect.closeTo(2.8448, 9)]);
    },
  );

  it("has presets for the tags that the table of kinds says it has", () => {
    const tags = Object.values(known_presets).flatMap((preset) =>
      Object.entries(preset.tags).map((pair) => pair.join("=")),
    );
    const said = table.kinds.filter(({ source }) => source.includes("presets.json"));
    expect(said.length).toBeGreaterThan(15);
    for (const { key, values } of said) {
      for (const value of Array.isArray(values) ? values : [values]) expect(tags).toContain(`${key}=${value}`);
    }
  });

  it("has no preset of a power supply, so that its row has another source", () => {
    expect(Object.values(known_presets).some(({ tags }) => tags["amenity"] === "power_supply")).toBe(false);
  });

  it("takes every value of its check fields on a pitch for what it is: yes, no, or unknown", () => {
    expect(pitch({ power_supply: "yes" })["services"]).toEqual({ power: "yes" });
    expect(pitch({ power_supply: "no" })["services"]).toEqual({ power: "no" });
    expect(pitch({})["services"]).toBeUndefined();
  });

  it("warns of a value outside each closed list, and of none inside", () => {
    for (const key of new Set(table.tagging.enums.filter(({ closed }) => closed).map((row) => row.key))) {
      const options = table.tagging.enums.filter((row) => row.key === key).flatMap((row) => row.options);
      const unlisted = (value: string) =>
        codes(taken(xml(node(1, -103.2, 44.1, { tourism: "camp_pitch", [key]: value })))).includes("unlisted-value");
      expect(unlisted("odd"), key).toBe(true);
      for (const option of options) expect(unlisted(option), `${key}=${option}`).toBe(false);
    }
  });
});

describe("its list of tags of older practice", () => {
  const touching = old.filter((rule) => Object.keys(rule.old).some((key) => key.startsWith("camp_")));

  it("has rules that touch camp_*", () => {
    expect(touching.length).toBeGreaterThan(0);
  });

  it.each(touching.map((rule) => [JSON.stringify(rule.old), rule] as const))("is applied: %s", (_, rule) => {
    expect(table.deprecated.map((row) => [row.old, row.replace])).toContainEqual([rule.old, rule.replace]);
    const before = taken(xml(node(1, -103.2, 44.1, rule.old)));
    const after = taken(xml(node(1, -103.2, 44.1, rule.replace ?? {})));
    expect(features(before, "site")).toHaveLength(1);
    expect(features(before, "site")[0]?.geometry).toEqual(features(after, "site")[0]?.geometry);
    expect(codes(before)).toContain("deprecated-tag");
  });

  it("is not a list of ours: no key that we read for a record is on it with the value that we read", () => {
    const outdated = new Set(
      old.filter((rule) => Object.keys(rule.old).length === 1).map((rule) => Object.entries(rule.old)[0]?.join("=")),
    );
    const ours = table.kinds.flatMap(({ key, values }) =>
      Array.isArray(values) ? values.map((value) => `${key}=${value}`) : [],
    );
    expect(ours.filter((tag) => outdated.has(tag))).toEqual([]);
  });
});

describe("its values of oneway", () => {
  it("are read, or are unknown", () => {
    const read = (oneway: string) => {
      const ends = [node(1, -103.2, 44.1), node(2, -103.2, 44.101)];
      return features(taken(xml(...ends, way(3, [1, 2], { highway: "service", oneway }))), "road")[0]?.properties[
        "oneWay"
      ];
    };
    const options = known["oneway"]?.options ?? [];
    expect(Object.fromEntries(options.map((option) => [option, read(option)]))).toEqual({
      undefined: undefined,
      yes: true,
      no: false,
      reversible: undefined,
      alternating: undefined,
    });
  });
});
