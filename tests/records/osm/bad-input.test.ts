import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { importOsm } from "../../../src/records/osm/import.ts";
import { campgroundCollection } from "../../../src/site/schema.ts";
import { codes, feature, features, node, refusedWith, taken, way, xml } from "./fixtures.ts";

const MEBIBYTE = 1_048_576;

describe("XML from outside", () => {
  it("refuses document types, entities and bombs of them", () => {
    const bomb = `<?xml version="1.0"?><!DOCTYPE osm [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;">]><osm><node id="1" lat="1" lon="2"><tag k="name" v="&b;"/></node></osm>`;
    expect(refusedWith(bomb)).toBe("doctype-refused");
    const outside = `<!DOCTYPE osm [<!ENTITY x SYSTEM "file:///etc/passwd">]><osm><node id="1" lat="1" lon="2"><tag k="name" v="&x;"/></node></osm>`;
    expect(refusedWith(outside)).toBe("doctype-refused");
    expect(refusedWith(xml(`<node id="1" lat="1" lon="2"><tag k="name" v="&x;"/></node>`))).toBe("entity-refused");
    expect(refusedWith(xml(`<node id="1" lat="1" lon="2"><tag k="name" v="&#x110000;"/></node>`))).toBe(
      "entity-refused",
    );
  });

  it("reads the entities of XML and character references once", () => {
    const result = taken(
      xml(
        `<node id="1" lat="44.1" lon="-103.2"><tag k="tourism" v="camp_pitch"/><tag k="ref" v="A&amp;lt; &#233;&#xe9;"/></node>`,
      ),
    );
    expect(features(result, "site")[0]?.properties["name"]).toBe("A&lt; éé");
  });

  it("refuses what is too large, too deep, broken or something else", () => {
    expect(refusedWith(`<osm>${" ".repeat(10 * MEBIBYTE)}</osm>`)).toBe("too-large");
    expect(refusedWith(`<osm>${"é".repeat(6 * MEBIBYTE)}</osm>`)).toBe("too-large");
    expect(refusedWith(`<osm>${"é".repeat(MEBIBYTE)}</osm>`)).toBe("malformed-xml");
    expect(refusedWith(`<osm>${"<a>".repeat(50)}${"</a>".repeat(50)}</osm>`)).toBe("too-deep");
    expect(refusedWith(`<osm>${"<a/>".repeat(600_001)}</osm>`)).toBe("too-many-elements");
    expect(refusedWith("<osm><node id='1'></osm>")).toBe("malformed-xml");
    expect(refusedWith("<osm><node id='1' id='2'/></osm>")).toBe("malformed-xml");
    expect(refusedWith(`<osm><node ${'a="1" '.repeat(5000)}/></osm>`)).toBe("malformed-xml");
    const long = importOsm(`<osm><node ${'"'.repeat(19_000)}=1/></osm>`);
    expect(JSON.stringify(long).length).toBeLessThan(1000);
    expect(codes(taken("<osm></osm>"))).toEqual(["no-pitches"]);
    expect(refusedWith("<gpx></gpx>")).toBe("not-osm");
    expect(refusedWith("<")).toBe("malformed-xml");
  });

  it("leaves out deleted elements and doubles, and tells of places that are none", () => {
    const gone = taken(
      xml(`<node id="1" lat="44.1" lon="-103.2" visible="false"><tag k="tourism" v="camp_pitch"/></node>`),
    );
    expect(features(gone, "site")).toHaveLength(0);
    const twice = taken(
      xml(
        node(1, -103.2, 44.1, { tourism: "camp_pitch", ref: "1" }),
        node(1, -103.3, 44.1, { tourism: "camp_pitch", ref: "2" }),
      ),
    );
    expect(features(twice, "site").map(({ properties }) => properties["name"])).toEqual(["1"]);
    expect(codes(twice, "node/1")).toContain("duplicate-element");
    for (const [lat, lon] of [
      ["NaN", "1"],
      ["91", "1"],
      ["1", "-180.5"],
      ["", "1"],
      ["0x10", "1"],
      ["Infinity", "1"],
    ]) {
      const off = taken(xml(`<node id="1" lat="${lat}" lon="${lon}"><tag k="tourism" v="camp_pitch"/></node>`));
      expect(codes(off, "node/1"), `${lat} ${lon}`).toContain("bad-position");
      expect(features(off, "site")[0]?.geometry).toBeNull();
    }
  });

  it("refuses an area over the antimeridian that is not cut, and keeps the rest", () => {
    const across = [node(1, 179.999, 10), node(2, -179.999, 10), node(3, -179.999, 10.001)];
    const result = taken(
      xml(...across, way(5, [1, 2, 3, 1], { natural: "water" }), node(9, 179.9985, 10, { tourism: "camp_pitch" })),
    );
    expect(codes(result, "way/5")).toEqual(["refused-record"]);
    expect(features(result, "site")).toHaveLength(1);
  });

  it("refuses a building whose outline crosses itself", () => {
    const corners = [
      node(1, -103.2, 44.1),
      node(2, -103.199, 44.1),
      node(3, -103.199, 44.101),
      node(4, -103.2, 44.101),
    ];
    const result = taken(xml(...corners, way(5, [1, 3, 2, 4, 1], { building: "yes" })));
    expect(codes(result, "way/5")).toEqual(["refused-record"]);
    expect(result.collection.features).toHaveLength(0);
  });

  it("takes no key that reaches for a prototype", () => {
    const result = taken(
      xml(node(1, -103.2, 44.1, { tourism: "camp_pitch", constructor: "x" }).replace("constructor", "__proto__")),
    );
    expect(codes(result, "node/1")).toContain("ignored-tag");
    expect(Object.keys((feature(result, "node-1").properties["osm"] as { tags: object }).tags)).toEqual(["tourism"]);
    expect(({} as Record<string, unknown>)["x"]).toBeUndefined();
  });
});

describe("JSON from outside", () => {
  it("refuses what it cannot read", () => {
    expect(refusedWith("")).toBe("malformed-json");
    expect(refusedWith("{")).toBe("malformed-json");
    expect(refusedWith(`${"[".repeat(5000)}${"]".repeat(5000)}`)).toBe("too-deep");
    expect(refusedWith('{"elements": [], "elements": []}')).toBe("duplicate-key");
    expect(refusedWith({ type: "Topology" })).toBe("not-osm");
    expect(refusedWith(undefined)).toBe("not-json");
    for (const nothing of [null, 5, [], true]) expect(refusedWith(nothing)).toBe("not-osm");
    expect(refusedWith({ elements: 5 }, { format: "overpass" })).toBe("not-osm");
    expect(refusedWith({ type: "FeatureCollection", features: "x" })).toBe("not-osm");
    expect(refusedWith({ elements: [] }, { format: "xml" })).toBe("not-osm");
    const mercator = { type: "name", properties: { name: "urn:ogc:def:crs:EPSG::3857" } };
    expect(refusedWith({ type: "FeatureCollection", crs: mercator, features: [] })).toBe("other-reference-system");
    const cyclic: Record<string, unknown> = { elements: [] };
    cyclic["self"] = cyclic;
    expect(refusedWith(cyclic)).toBe("too-deep");
  });

  it("keeps a pitch whose geometry is none, without a place", () => {
    const properties = { tourism: "camp_pitch", ref: "3" };
    const far = { type: "Feature", properties, geometry: { type: "Point", coordinates: [44.1, -103.2] } };
    const result = taken({ type: "FeatureCollection", features: [far, 5, null, { type: "Feature" }] });
    expect(features(result, "site")[0]).toMatchObject({ geometry: null, properties: { name: "3" } });
    expect(codes(result)).toEqual(expect.arrayContaining(["bad-position", "ignored-element"]));
  });

  it("refuses an element that is asked for and not there", () => {
    expect(refusedWith({ elements: [] }, { bboxOf: "way/3" })).toBe("unknown-element");
  });

  it("tells of hstore that cannot be read", () => {
    const properties = { tourism: "camp_pitch", other_tags: '"ref"=>"3", broken' };
    const geometry = { type: "Point", coordinates: [-103.2, 44.1] };
    const result = taken({ type: "FeatureCollection", features: [{ type: "Feature", properties, geometry }] });
    expect(codes(result, "feature/1")).toContain("ignored-tag");
  });
});

const SOUND = xml(
  node(1, -103.2, 44.1, { tourism: "camp_pitch", ref: "7", "socket:nema_14_50": "2", maxlength: "40'", incline: "5%" }),
  node(2, -103.2, 44.10005, { amenity: "power_supply", "socket:cee_blue": "1;2", "power_supply:maxcurrent": "16;32" }),
  node(3, -103.201, 44.101),
  node(4, -103.2, 44.101),
  node(5, -103.2, 44.102),
  way(6, [3, 4, 5, 3], { building: "yes", "building:levels": "2" }),
  way(7, [3, 4], { highway: "service", maxheight: "3.2", oneway: "-1" }),
  `<relation id="8"><member type="way" ref="6" role="outer"/><tag k="type" v="multipolygon"/><tag k="natural" v="water"/></relation>`,
);
const SOUND_JSON = JSON.stringify({
  type: "FeatureCollection",
  features: [
    {
      type: "Feature",
      id: "node/1",
      geometry: { type: "Point", coordinates: [-103.2, 44.1] },
      properties: { tourism: "camp_pitch", maxheight: "11'2\"" },
    },
    {
      type: "Feature",
      geometry: {
        type: "Polygon",
        coordinates: [
          [
            [-103.2, 44],
            [-103.1, 44],
            [-103.1, 44.1],
            [-103.2, 44],
          ],
        ],
      },
      properties: { osm_id: "5", other_tags: '"natural"=>"water"' },
    },
  ],
});
const SPLINTERS = [
  "<",
  ">",
  '"',
  "&amp;",
  "&x;",
  "é",
  "\u0000",
  "1e999",
  "-",
  "NaN",
  "null",
  "]]>",
  "<![CDATA[",
  "<!--",
  "tag",
  "{",
  "}",
  "[",
  ",",
  ";",
  "'",
  "\\",
];

/** A piece cut out at a share of the length, and something put in. */
function withCut(text: string, share: number, drop: number, put: string): string {
  const start = Math.floor(share * text.length);
  return text.slice(0, start) + put + text.slice(start + drop);
}

/** One quoted text or one number replaced whole, so that most of the result is still XML or JSON. */
function withValue(text: string, share: number, put: string): string {
  const values = [...text.matchAll(/"[^"<>]*"|-?\d+\.\d+/g)];
  const chosen = values[Math.floor(share * values.length)];
  if (chosen === undefined) return text;
  const quoted = chosen[0].startsWith('"');
  const plain = put.replace(/["\\<\p{Cc}]/gu, "");
  const next = quoted ? `"${plain}"` : String(Number(put) || put.length * 97);
  return text.slice(0, chosen.index) + next + text.slice(chosen.index + chosen[0].length);
}

describe("mutated input", () => {
  it("never crashes, and what it takes is valid", () => {
    const at = fc.double({ min: 0, max: 1, noNaN: true });
    const put = fc.oneof(fc.constantFrom(...SPLINTERS), fc.string({ maxLength: 4 }));
    const cut = fc.record({ text: fc.constantFrom(SOUND, SOUND_JSON), at, drop: fc.nat({ max: 12 }), put });
    const value = fc.record({ text: fc.constantFrom(SOUND, SOUND_JSON), at, drop: fc.constant(null), put });
    let passed = 0;
    fc.assert(
      fc.property(fc.array(fc.oneof(cut, value, value, value), { minLength: 1, maxLength: 3 }), (cuts) => {
        const mutated = cuts.reduce(
          (now, { at, drop, put }) => (drop === null ? withValue(now, at, put) : withCut(now, at, drop, put)),
          cuts[0]?.text ?? "",
        );
        const result = importOsm(mutated);
        if (!result.ok) {
          expect(result.errors.length).toBeGreaterThan(0);
          return;
        }
        passed += 1;
        expect(campgroundCollection.safeParse(result.collection).success).toBe(true);
      }),
      { numRuns: 1000 },
    );
    expect(passed).toBeGreaterThan(200);
  });

  it("takes any object without crashing", () => {
    const member = fc.oneof(
      fc.jsonValue(),
      fc.constantFrom<unknown>(Number.NaN, undefined, 1e308, -0, "node", [[1, 2]]),
    );
    const element = fc.record({
      type: fc.constantFrom("node", "way", "relation", "x"),
      id: member,
      lat: member,
      lon: member,
      nodes: member,
      geometry: member,
      members: member,
      center: member,
      tags: member,
    });
    const thing = fc.record({
      type: fc.constantFrom("Feature", "x"),
      id: member,
      geometry: fc.oneof(member, fc.record({ type: fc.constantFrom("Point", "Polygon"), coordinates: member })),
      properties: fc.oneof(
        member,
        fc.dictionary(fc.constantFrom("tourism", "tags", "other_tags", "osm_id", "natural"), member),
      ),
    });
    const document = fc.oneof(
      fc.record({ elements: fc.array(element) }),
      fc.record({ type: fc.constant("FeatureCollection"), features: fc.array(thing) }),
    );
    fc.assert(
      fc.property(document, (value) => {
        const result = importOsm(value);
        expect(result.ok || result.errors.length > 0).toBe(true);
      }),
      { numRuns: 500 },
    );
  });

  it("takes any value of any tag", () => {
    const keys = [
      "maxlength",
      "socket:nema_tt_30",
      "power_supply",
      "power_supply:maxcurrent",
      "incline",
      "gps:accuracy_m",
      "survey:date",
      "surface",
      "ref",
      "camp_pitch:drain",
    ];
    fc.assert(
      fc.property(fc.dictionary(fc.constantFrom(...keys), fc.oneof(fc.string(), fc.double().map(String))), (tags) => {
        const element = { type: "node", id: 1, lat: 44.1, lon: -103.2, tags: { tourism: "camp_pitch", ...tags } };
        const result = importOsm({ elements: [element] });
        expect(result.ok && result.report.kinds["site"]).toBe(1);
      }),
      { numRuns: 500 },
    );
  });
});
