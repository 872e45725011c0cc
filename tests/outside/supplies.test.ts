/**
 * Supplies and generator against published figures. Each case names its source and how it was come by: "read" is text
 * seen at the source, "second-hand" a page that is not the standard, "derived" arithmetic on figures that were read,
 * "from memory" nothing more than that.
 */
import { describe, expect, it } from "vitest";
import { remaining } from "../../src/fit/stay/remaining.ts";
import type { Band, Levels } from "../../src/fit/stay/types.ts";
import { burnedBy, completeUse } from "../../src/fit/stay/use.ts";
import { wattsAtHeight } from "../../src/trip/running/generator.ts";
import { whatMayRun } from "../../src/trip/running/plan.ts";
import { LITRES_PER_US_GALLON, METRES_PER_FOOT } from "../../src/units/factors.ts";
import { rig, site } from "../fit/core/builders.ts";

const GALLON = LITRES_PER_US_GALLON;
const WATTS_PER_BTU_PER_HOUR = 1055.05585262 / 3600;

const even = (value: number): Band => ({ low: value, expected: value, high: value });
const rate = (value: number) => ({ low: value, expected: value, high: value });

/** Days for two people on 50 gal of fresh water and empty tanks of 40 gal (grey) and 30 gal (black). */
function days(gallons: number, people = 2) {
  const use = completeUse({
    people,
    use: { water: rate(gallons * GALLON), toilet: rate(2.5 * GALLON), offBoard: 0 },
  });
  const levels: Levels = {
    fresh: even(50 * GALLON),
    grey: even(0),
    black: even(0),
    propane: even(0),
    battery: even(0),
    generatorFuel: even(0),
  };
  const sizes = {
    fresh: 50 * GALLON,
    grey: 40 * GALLON,
    black: 30 * GALLON,
    propane: null,
    battery: null,
    generatorFuel: null,
  };
  return remaining({ levels, sizes, rates: use.rates, charger: null });
}

describe("days on the tanks, two people [use: Washington County MN SSTS code 2015, La. Admin. Code 51:XXV-115, read; toilet 2.5 gal from memory; days derived]", () => {
  it.each([
    [32, 0.68, 6, 0.78],
    [15, 1.6, 6, 1.67],
    [5, 8, 6, 5],
  ])("at %d gal a person and day: grey %d, black %d, fresh %d", (gallons, grey, black, fresh) => {
    const found = days(gallons);
    expect(found.grey.days.expected).toBeCloseTo(grey, 2);
    expect(found.black.days.expected).toBeCloseTo(black, 10);
    expect(found.fresh.days.expected).toBeCloseTo(fresh, 2);
  });

  it("nobody, or no more water than the toilet takes, divides by nothing", () => {
    expect(days(15, 0).grey.status).toBe("endless");
    expect(days(2.5).grey.status).toBe("endless");
    expect(days(2).grey.status).toBe("endless");
  });

  it("the presets are those figures", () => {
    const of = (water: string) => completeUse({ people: 1, use: { water } }).water.expected / GALLON;
    expect([of("connected"), of("moderate"), of("sparing")].map((value) => Math.round(value * 1e6) / 1e6)).toEqual([
      32, 15, 5,
    ]);
  });
});

describe("propane [91,502 BTU per US gallon: fmca.com, Polk's top 7 tips, second-hand]", () => {
  const gallons = (btuPerHour: number, hours: number) => burnedBy(btuPerHour * WATTS_PER_BTU_PER_HOUR, hours) / GALLON;

  it("14 gal hold 1,281,028 BTU [the page's own example]", () => {
    expect(14 / gallons(1_281_028, 1)).toBeCloseTo(1, 5);
  });

  it("26,000 BTU an hour burn a gallon in 3.5 hours [homesteady.com, second-hand]", () => {
    expect(gallons(26_000, 3.5)).toBeCloseTo(1, 1);
  });

  it("30,000 BTU an hour lit half of 8 hours burn 1.32 gal [pickcomfort.com, second-hand]", () => {
    expect(gallons(30_000, 4)).toBeCloseTo(1.32, 1);
    expect(gallons(20_000, 1)).toBeCloseTo(0.22, 2);
  });
});

describe("a generator's loss by height [motorhome owner's manual, https://www.easymanua.ls/monarch/se-2004/manual?p=290, read]", () => {
  it("5,500 W at 5,000 ft: 4,675 W net", () => {
    expect(wattsAtHeight(5500, 5000 * METRES_PER_FOOT)).toBeCloseTo(4675, 6);
  });
});

describe("loads on 30 A [watts: generator maker's owner's manual, read; sums derived]", () => {
  const appliance = (name: string, watts: number) =>
    ({ name, watts, starts: null, fuel: "electric", bothLegs: false }) as const;
  const coach = rig(
    { connections: [] },
    { appliances: [appliance("air conditioner", 1400), appliance("converter", 1000), appliance("microwave", 1500)] },
  );
  const power = {
    mating: "direct",
    receptacle: null,
    receptacleType: "nema-tt-30",
    hookup: null,
    why: "",
    chain: [],
    amps: 30,
    legs: 1,
    voltsToNeutral: 120,
    voltsLegToLeg: null,
    voltAmperes: 3600,
    continuousVoltAmperes: 2880,
    weakestLink: null,
    drop: null,
    canRun: [],
    alternatives: [],
  } as const;

  it("3,900 W trip 3,600; without the microwave 2,400 W run for hours within 2,880", () => {
    const [supply] = whatMayRun({ rig: coach, fit: { power }, site: site({ hookups: [] }), units: "us" }).supplies;
    expect(supply!.base).toEqual(["air conditioner", "converter"]);
    const trips = supply!.load!.canRun.filter((set) => !set.runs);
    expect(trips.map((set) => set.watts)).toEqual([3900]);
    expect(supply!.day).toMatchObject([{ appliance: "microwave", off: ["converter"], together: 2900, runs: true }]);
  });
});
