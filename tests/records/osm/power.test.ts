import { describe, expect, it } from "vitest";
import { codes, feature, features, node, pitch, taken, way, xml } from "./fixtures.ts";

type Hookup = Record<string, unknown> & { receptacles?: Record<string, unknown>[] };

const hookups = (tags: Record<string, string>) => pitch(tags)["hookups"] as Hookup[] | undefined;
const receptacles = (tags: Record<string, string>) => hookups(tags)?.[0]?.receptacles;

describe("sockets", () => {
  it("reads every spelling of the same socket", () => {
    for (const key of ["nema_TT_30", "tt_30", "nema-tt30", "NEMA_TT_30", "nematt30"]) {
      expect(receptacles({ [`socket:${key}`]: "1" }), key).toEqual([{ type: "nema-tt-30" }]);
    }
    expect(receptacles({ "socket:nema5_15": "1" })).toEqual([{ type: "nema-5-15" }]);
    expect(receptacles({ "socket:nema_14_50": "1" })).toEqual([{ type: "nema-14-50" }]);
    expect(receptacles({ "socket:cee_blue": "1" })).toEqual([{ type: "iec-60309-2p-e-16" }]);
    expect(receptacles({ "socket:cee_blue_32a": "1" })).toEqual([{ type: "iec-60309-2p-e-32" }]);
    expect(receptacles({ "socket:as3112": "1" })).toEqual([{ type: "as-3112-10" }]);
    expect(receptacles({ "socket:schuko": "1" })).toEqual([{ type: "cee-7-3" }]);
  });

  it("counts what is counted; yes is not a count", () => {
    expect(receptacles({ "socket:nema_5_20": "3" })).toHaveLength(3);
    expect(receptacles({ "socket:nema_5_20": "yes" })).toHaveLength(1);
    expect(receptacles({ "socket:nema_5_20": "1;2" })).toHaveLength(1);
    expect(receptacles({ "socket:nema_5_20": "100" })).toHaveLength(24);
    for (const none of ["0", "no", "many", "-1", "1.5", "1e2"]) {
      expect(hookups({ "socket:nema_5_20": none }), none).toBeUndefined();
    }
  });

  it("takes breaker and volts from the socket, then from the supply, and never a rating as a breaker", () => {
    expect(receptacles({ "socket:nema_tt_30": "1" })?.[0]?.["amps"]).toBeUndefined();
    expect(
      receptacles({ "socket:nema_14_50": "1", "socket:nema_14_50:current": "30", "socket:nema_14_50:voltage": "120" }),
    ).toEqual([{ type: "nema-14-50", amps: 30, volts: 120 }]);
    expect(
      receptacles({ "socket:cee_blue": "1", "power_supply:maxcurrent": "6 A", "power_supply:voltage": "230" }),
    ).toEqual([{ type: "iec-60309-2p-e-16", amps: 6, volts: 230 }]);
    expect(receptacles({ "socket:cee_blue": "1", "power_supply:amperage": "10" })?.[0]).toMatchObject({ amps: 10 });
    expect(receptacles({ "socket:schuko": "1", "socket:schuko:output": "2.3" })?.[0]).toEqual({
      type: "cee-7-3",
      watts: 2300,
    });
  });

  it("gives each value of a list to the sockets of that rating", () => {
    const found = receptacles({
      "socket:cee_blue": "1",
      "socket:cee_blue_32a": "1",
      "power_supply:maxcurrent": "16;32",
    });
    expect(found).toEqual([
      { type: "iec-60309-2p-e-16", amps: 16 },
      { type: "iec-60309-2p-e-32", amps: 32 },
    ]);
    expect(pitch({ power_supply: "yes", "power_supply:maxcurrent": "16;32" })["limits"]).toBeUndefined();
    expect(pitch({ power_supply: "yes", "power_supply:maxcurrent": "16" })["limits"]).toEqual({ amps: 16 });
  });

  it("reads sockets as values of power_supply, in lists too", () => {
    expect(receptacles({ power_supply: "cee_17_blue" })).toEqual([{ type: "iec-60309-2p-e-16" }]);
    expect(receptacles({ power_supply: "nema_5_15; cee_17_red" })).toEqual([
      { type: "nema-5-15" },
      { type: "cee-red" },
    ]);
    expect(receptacles({ power_supply: "cee_17_blue", "socket:cee_blue": "2" })).toHaveLength(2);
  });

  it("keeps an unheard socket as a word and leaves out connectors for charging vehicles", () => {
    expect(receptacles({ "socket:Bayonet_9": "1" })).toEqual([{ type: "bayonet-9" }]);
    expect(hookups({ "socket:type2": "2" })).toBeUndefined();
  });

  it("claims neither yes nor no when the tags contradict each other", () => {
    const site = pitch({ power_supply: "no", "socket:cee_blue": "1" });
    expect(site["services"]).toBeUndefined();
    expect((site["osm"] as { remarks: string[] }).remarks.join(" ")).toContain("both");
  });

  it("has no meaning for socket alone", () => {
    expect(hookups({ socket: "yes" })).toBeUndefined();
  });
});

/** Degrees of latitude for metres, near enough for a test. */
const north = (metres: number): number => 44.1 + metres / 111_120;

describe("power supplies on the map", () => {
  const post = (id: number, metres: number, tags = {}) =>
    node(id, -103.2, north(metres), { amenity: "power_supply", ...tags });
  const camp = (id: number, metres: number, tags = {}) =>
    node(id, -103.2, north(metres), { tourism: "camp_pitch", ...tags });

  it("goes to the one pitch that is near", () => {
    const result = taken(xml(camp(1, 0), camp(2, 60), post(9, 12, { "socket:nema_14_50": "1" })));
    const [hookup] = feature(result, "node-1").properties["hookups"] as Hookup[];
    expect(hookup).toMatchObject({
      service: "power",
      pedestal: "node-9",
      basis: "mapped",
      receptacles: [{ type: "nema-14-50" }],
    });
    expect((hookup as unknown as { at: { position: number[] } }).at.position).toEqual([-103.2, north(12)]);
    expect(feature(result, "node-1").properties["services"]).toEqual({ power: "yes" });
    expect(feature(result, "node-2").properties["hookups"]).toBeUndefined();
    expect(result.report.pedestals).toEqual({ assigned: 1, unassigned: 0 });
  });

  it("stays unassigned between two pitches and far from all", () => {
    const result = taken(xml(camp(1, 0), camp(2, 20), post(8, 9), post(9, 50)));
    expect(features(result, "site").every(({ properties }) => properties["hookups"] === undefined)).toBe(true);
    expect(features(result, "obstacle").map(({ id, properties }) => [id, properties["what"]])).toEqual([
      ["node-8", "pedestal"],
      ["node-9", "pedestal"],
    ]);
    expect(result.report.pedestals).toEqual({ assigned: 0, unassigned: 2 });
    expect(
      result.report.warnings.filter(({ code }) => code === "unassigned-pedestal").map(({ element }) => element),
    ).toEqual(["node/8", "node/9"]);
  });

  it("belongs to the pitch whose area holds it, whatever is near", () => {
    const corner = (id: number, east: number, up: number) => node(id, -103.2 + east / 80_000, north(up));
    const area = [corner(21, -5, -8), corner(22, 5, -8), corner(23, 5, 8), corner(24, -5, 8)];
    const result = taken(
      xml(...area, way(20, [21, 22, 23, 24, 21], { tourism: "camp_pitch" }), camp(1, 14), post(9, 7)),
    );
    expect((feature(result, "way-20").properties["hookups"] as Hookup[]).map(({ id }) => id)).toEqual(["node-9"]);
    expect(feature(result, "node-1").properties["hookups"]).toBeUndefined();
  });

  it("does not overrule a pitch that says it has no power, nor one that contradicts itself", () => {
    const no = taken(xml(camp(1, 0, { power_supply: "no" }), post(9, 4)));
    expect(feature(no, "node-1").properties["services"]).toBeUndefined();
    expect(codes(no, "node/1")).toEqual(["contradiction"]);
    const both = taken(xml(camp(1, 0, { power_supply: "no", "socket:cee_blue": "1" }), post(9, 4)));
    expect(feature(both, "node-1").properties["services"]).toBeUndefined();
  });

  it("takes the sockets of the pitch when it names none", () => {
    const result = taken(xml(camp(1, 0, { "socket:nema_tt_30": "1" }), post(9, 4)));
    const own = feature(result, "node-1").properties["hookups"] as Hookup[];
    expect(own).toHaveLength(1);
    expect(own[0]).toMatchObject({ id: "node-9", receptacles: [{ type: "nema-tt-30" }] });
  });

  it("reads a street cabinet as a supply only when it has sockets", () => {
    const cabinet = { man_made: "street_cabinet", utility: "power" };
    const at = (tags: Record<string, string>) => taken(xml(camp(1, 0), node(9, -103.2, north(5), tags)));
    expect(at({ ...cabinet, "socket:cee_blue": "2" }).report.pedestals.assigned).toBe(1);
    expect(at(cabinet).report.pedestals.assigned).toBe(0);
    expect(feature(at(cabinet), "node-9").properties["what"]).toBe("post");
  });
});
