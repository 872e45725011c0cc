import { describe, expect, it } from "vitest";
import { parseDesk, parseTrip } from "../../src/trip/parse.ts";

const STOPS = [
  { arrive: "2025-07-01", leave: "2025-07-03", campground: "willow-bend" },
  { arrive: "2025-07-03", leave: "2025-07-04", offGrid: true },
  { arrive: "2025-07-04", leave: "2025-07-09", site: { campground: "willow-bend", site: "near" } },
];
const TRIP = { rig: {}, stops: STOPS, party: { adults: 2 } };
const told = (input: unknown) => parseTrip(input).errors.map((error) => [error.path, error.code]);
const withStop = (index: number, change: Readonly<Record<string, unknown>>) => ({
  ...TRIP,
  stops: STOPS.map((stop, place) => (place === index ? { ...stop, ...change } : stop)),
});

describe("what is asked of a trip", () => {
  it("is read when nothing is wrong with it", () => {
    expect(told(TRIP)).toEqual([]);
    expect(parseTrip(TRIP).value?.stops).toHaveLength(3);
  });

  it.each<[string, unknown, string, string]>([
    ["a stop that overlaps the one before", withStop(1, { arrive: "2025-07-02" }), "/stops/1/arrive", "conflict"],
    ["nights without a site", withStop(2, { arrive: "2025-07-06" }), "/stops/2/arrive", "missing"],
    [
      "a stop without a place",
      { ...TRIP, stops: [{ arrive: "2025-07-01", leave: "2025-07-02" }] },
      "/stops/0",
      "missing",
    ],
    ["two places at once", withStop(0, { offGrid: true }), "/stops/0/offGrid", "conflict"],
    ["a date that is none", withStop(0, { arrive: "2025-06-31" }), "/stops/0/arrive", "impossible"],
    ["leaving before arriving", withStop(2, { leave: "2025-07-02" }), "/stops/2/leave", "impossible"],
    ["no night at all", withStop(2, { leave: "2025-07-04" }), "/stops/2/leave", "impossible"],
    ["a negative party", { ...TRIP, party: { adults: -1 } }, "/party/adults", "too-small"],
    ["half a person", { ...TRIP, party: { adults: 1.5 } }, "/party/adults", "wrong-type"],
    ["nobody", { ...TRIP, party: { adults: 0 } }, "/party/adults", "impossible"],
    ["no rig", { ...TRIP, rig: undefined }, "/rig", "missing"],
    ["a rig and a fleet", { ...TRIP, fleet: [{ id: "a", rig: {} }], unit: "a" }, "/fleet", "conflict"],
    ["a fleet without a unit", { ...TRIP, rig: undefined, fleet: [{ id: "a", rig: {} }] }, "/unit", "missing"],
    [
      "a unit that the fleet lacks",
      { ...TRIP, rig: undefined, fleet: [{ id: "a", rig: {} }], unit: "b" },
      "/unit",
      "not-in-list",
    ],
    ["a hire that begins before its first stop", { ...TRIP, from: "2025-06-30" }, "/stops/0/arrive", "missing"],
    ["a hire that ends before its last stop", { ...TRIP, to: "2025-07-08" }, "/stops/2/leave", "conflict"],
    ["a hire that ends before it begins", { ...TRIP, from: "2025-07-01", to: "2025-06-01" }, "/to", "impossible"],
    ["a trip that is too long", withStop(2, { leave: "2025-12-31" }), "/stops", "too-many"],
    ["sites on offer off the grid", withStop(1, { among: ["a"] }), "/stops/1/among", "conflict"],
    [
      "a heat below the cold",
      withStop(1, { temperature: { low: 9, high: 4 } }),
      "/stops/1/temperature/high",
      "impossible",
    ],
    [
      "use that does not rise",
      { ...TRIP, use: { water: { low: 9, expected: 7, high: 12 } } },
      "/use/water",
      "impossible",
    ],
    ["an unknown key", { ...TRIP, stopps: [] }, "/stopps", "unknown-key"],
    ["nothing", null, "", "wrong-type"],
  ])("refuses %s", (_, input, path, code) => {
    expect(told(input)).toContainEqual([path, code]);
  });

  it("tells everything at once", () => {
    const bad = {
      ...withStop(1, { arrive: "2025-07-02", leave: "2025-02-30" }),
      party: { adults: -3 },
      options: { comfort: "wide" },
    };
    expect(told(bad).map(([path]) => path)).toEqual(
      expect.arrayContaining(["/stops/1/arrive", "/stops/1/leave", "/party/adults", "/options/comfort"]),
    );
  });
});

describe("what is asked of a desk", () => {
  const DESK = { fleet: [{ id: "a", rig: {} }], trips: [{ id: "x", stops: STOPS, party: { adults: 2 } }] };
  const toldDesk = (input: unknown) => parseDesk(input).errors.map((error) => [error.path, error.code]);

  it("is read, and every rule of a trip holds for each booking", () => {
    expect(toldDesk(DESK)).toEqual([]);
    const broken = {
      ...DESK,
      trips: [DESK.trips[0], { ...withStop(2, { arrive: "2025-07-06" }), id: "y", rig: undefined }],
    };
    expect(toldDesk(broken)).toContainEqual(["/trips/1/stops/2/arrive", "missing"]);
  });

  it("refuses ids that are there twice and units that are not there", () => {
    const twice = {
      fleet: [...DESK.fleet, { id: "a", rig: {} }],
      trips: [{ ...DESK.trips[0], unit: "c" }, DESK.trips[0]],
    };
    expect(toldDesk(twice)).toEqual([
      ["/fleet/1/id", "duplicate"],
      ["/trips/1/id", "duplicate"],
      ["/trips/0/unit", "not-in-list"],
    ]);
  });
});
