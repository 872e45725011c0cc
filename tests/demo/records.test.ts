/** The demo records: made by their script, read without a refusal, marked as invented, and as varied as they claim. */
import { describe, expect, it } from "vitest";
import { demoText } from "../../data/demo/make.ts";
import { parseRig } from "../../src/rig/parse.ts";
import { campgroundText, DEMO_RIG, reading, rigNames, rigRecord, sites } from "./demo.ts";

const MOST_BYTES = 600_000;

function features(kind: string) {
  return reading.features.filter((feature) => feature.properties["kind"] === kind);
}

describe("the invented campground", () => {
  it("is what its script makes", () => {
    expect(demoText()).toBe(campgroundText);
    expect(Buffer.byteLength(campgroundText)).toBeLessThan(MOST_BYTES);
  });

  it("is read without a refusal and without a warning of the reader", () => {
    expect(reading.report.refused).toEqual([]);
    expect(reading.report.warnings).toEqual([]);
    expect(reading.report.accepted).toBe(reading.report.features);
  });

  it("says that it is invented and may be used freely", () => {
    const campground = reading.campground as Record<string, unknown>;
    expect(campground["name"]).toMatch(/invented/);
    expect(campground["invented"]).toBe(true);
    expect(campground["licence"]).toBe("CC0-1.0");
    expect(JSON.stringify(campground["sources"])).toMatch(/[Ii]nvented/);
  });

  it("raises one question only: the pad whose stated length is not that of its outline", () => {
    const asked = sites.flatMap((site) => site.warnings.map((warning) => ({ site: site.id, ...warning })));
    expect(asked.map(({ site, code, path }) => ({ site, code, path }))).toEqual([
      { site: "field-8", code: "contradiction", path: "/properties/pad/length" },
    ]);
  });

  it("has one drawing that serves forty sites, ten of them mirrored", () => {
    const copies = features("site").filter((feature) => feature.properties["pattern"] === "curlew");
    expect(copies).toHaveLength(40);
    expect(copies.filter((feature) => feature.properties["mirror"] === true)).toHaveLength(10);
    const power = (id: string) =>
      sites.find((site) => site.id === id)?.hookups.find((hookup) => hookup.service === "power")?.left?.value ?? 0;
    expect(power("curlew-31")).toBeCloseTo(-power("curlew-7"), 9);
    expect(power("curlew-7")).toBeGreaterThan(0);
  });

  it("has everything round the sites that a search, a card or the wind asks for", () => {
    for (const kind of ["road", "gate", "dump", "fill", "propane", "shelter", "ground", "obstacle"]) {
      expect(features(kind), kind).not.toHaveLength(0);
    }
    const what = new Set([...features("shelter"), ...features("ground")].map((feature) => feature.properties["what"]));
    for (const word of ["trees", "hedge", "building", "water", "open", "wood", "built"]) expect(what).toContain(word);
    const roads = features("road").map((feature) => feature.properties);
    expect(roads.some((road) => road["oneWay"] === true)).toBe(true);
    expect(roads.some((road) => typeof road["clearHeight"] === "number")).toBe(true);
    expect(roads.every((road) => typeof road["width"] === "number")).toBe(true);
  });

  it("has doubtful records of every kind", () => {
    const bases = new Set(sites.flatMap((site) => site.hookups.map((hookup) => hookup.along?.basis ?? "nowhere")));
    for (const basis of ["measured", "mapped", "described", "nowhere"]) expect(bases).toContain(basis);
    expect(sites.some((site) => site.pad.width === null)).toBe(true);
    expect(sites.some((site) => Object.values(site.services).every((known) => known === "unknown"))).toBe(true);
    expect(sites.some((site) => site.closed !== null)).toBe(true);
    expect(sites.some((site) => site.limits.length !== null)).toBe(true);
    expect(sites.filter((site) => site.accessible === "yes").length).toBeGreaterThanOrEqual(2);
    const states = new Set(
      sites.flatMap((site) => site.hookups.flatMap((hookup) => hookup.receptacles.map((one) => one.state))),
    );
    for (const state of ["working", "failed", "unknown"]) expect(states).toContain(state);
    const shared = sites.flatMap((site) => site.hookups.filter((hookup) => hookup.shared));
    expect(shared.some((hookup) => hookup.receptacles.every((one) => one.forSites !== null))).toBe(true);
    expect(shared.some((hookup) => hookup.receptacles.every((one) => one.forSites === null))).toBe(true);
  });

  it("places the hookups of the site made by tape where the tape was laid, to the centimetre that was read", () => {
    const taped = sites.find((site) => site.id === "field-6");
    const power = taped?.hookups.find((hookup) => hookup.service === "power");
    expect(power?.along?.value).toBeCloseTo(3.4, 1);
    expect(power?.left?.value).toBeCloseTo(3.6, 1);
    expect(taped?.pad.length?.value).toBeCloseTo(12.6, 1);
    expect(taped?.pad.origin).toBeNull();
  });
});

describe("the invented fleet", () => {
  it("has six rigs with the demo rig among them", () => {
    expect(rigNames).toHaveLength(6);
    expect(rigNames).toContain(DEMO_RIG);
  });

  it.each(rigNames)("%s is read without a refusal or a question and is marked invented", (name) => {
    const parsed = parseRig(rigRecord(name));
    expect(parsed.ok ? parsed.warnings : parsed.errors).toEqual([]);
    expect(parsed.ok).toBe(true);
    if (!parsed.ok) return;
    const { rig } = parsed;
    expect(rig.name).toMatch(/invented/);
    for (const member of ["connections", "doors", "awnings", "tanks", "appliances", "kit"] as const) {
      expect(rig[member], member).toBeDefined();
    }
    expect(rig.connections?.some(({ service, height }) => service === "sewer" && height !== undefined)).toBe(true);
  });

  it("differs in plugs, sides, slides, generators and where the kit lies", () => {
    const rigs = rigNames.flatMap((name) => {
      const parsed = parseRig(rigRecord(name));
      return parsed.ok ? [parsed.rig] : [];
    });
    const inlets = rigs.map((rig) => rig.connections?.find(({ service }) => service === "power"));
    expect(new Set(inlets.map((inlet) => inlet?.plug))).toEqual(new Set(["nema-5-15", "nema-tt-30", "nema-14-50"]));
    expect(new Set(inlets.map((inlet) => inlet?.side))).toEqual(new Set(["left", "right"]));
    expect(new Set(rigs.map((rig) => rig.slideouts?.length ?? 0))).toEqual(new Set([0, 1, 2]));
    const paths = new Set(rigs.map((rig) => rig.generator?.suppliesThrough));
    expect(paths).toEqual(new Set(["transfer-switch", "cord-in-box", undefined]));
    const places = new Set(rigs.flatMap((rig) => rig.kit ?? []).map((item) => item.where ?? "aboard"));
    expect(places).toEqual(new Set(["aboard", "depot"]));
  });
});
