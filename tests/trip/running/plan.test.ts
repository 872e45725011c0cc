/** What may run, worked by hand. */
import { describe, expect, it } from "vitest";
import type { PowerAnswer } from "../../../src/fit/answer.ts";
import type { Appliance, CompletedRig } from "../../../src/rig/completed.ts";
import { generatorHours, readHours, wattsAtHeight } from "../../../src/trip/running/generator.ts";
import { whatMayRun } from "../../../src/trip/running/plan.ts";
import { rig, site } from "../../fit/core/builders.ts";

const one = (name: string, watts: number, more: Partial<Appliance> = {}): Appliance => ({
  name,
  watts,
  starts: null,
  fuel: "electric",
  bothLegs: false,
  ...more,
});

const APPLIANCES = [
  one("air conditioner", 1500, { starts: 2800 }),
  one("water heater", 1400, { fuel: "either" }),
  one("refrigerator", 300, { fuel: "either" }),
  one("converter", 600),
  one("microwave", 1450),
  one("furnace", 140, { fuel: "gas" }),
];

function coach(more: Partial<CompletedRig> = {}) {
  return rig({ connections: [{ service: "power", fromRear: 1.7, length: 7.6 }] }, { appliances: APPLIANCES, ...more });
}

const POWER: PowerAnswer = {
  mating: "direct",
  receptacle: "r1",
  receptacleType: "nema-tt-30",
  hookup: "pedestal",
  why: "direct",
  chain: [],
  amps: 30,
  legs: 1,
  voltsToNeutral: 120,
  voltsLegToLeg: null,
  voltAmperes: 3600,
  continuousVoltAmperes: 2880,
  weakestLink: "the rig's own rating, 30 A",
  drop: null,
  canRun: [],
  alternatives: [],
};
const place = { ...site({ hookups: [] }), electricalSystem: "120/240" };

function run(power: PowerAnswer | null, more: Partial<CompletedRig> = {}, at: typeof place | null = place) {
  return whatMayRun({ rig: coach(more), fit: power === null ? null : { power }, site: at, units: "metric" });
}

describe("on the site's supply", () => {
  const [supply] = run(POWER).supplies;

  it("leaves on what may run for hours: within 2,880 of 3,600 W", () => {
    // Without the microwave (minutes) and the furnace (gas): 1500 + 600 + 300 = 2400, 1500 + 1400 = 2900 is too much.
    expect(supply!.base).toEqual(["air conditioner", "refrigerator", "converter"]);
    expect(supply!.watts).toBe(3600);
    expect(supply!.continuousWatts).toBe(2880);
  });

  it("names what gives way for the microwave: first what can run on gas, then the converter", () => {
    const step = supply!.day.find((each) => each.appliance === "microwave");
    // 2400 + 1450 = 3850; the refrigerator off: 3550, within 3600 for minutes.
    expect(step).toMatchObject({ off: ["refrigerator"], together: 3550, runs: true });
    expect(step!.why).toContain("can run on gas");
  });

  it("holds a load of hours to the continuous rule", () => {
    const step = supply!.day.find((each) => each.appliance === "water heater");
    // 1400 for hours beside 1500: 2900 > 2880, so the air conditioner has to go; the others may then stay.
    expect(step).toMatchObject({ off: ["air conditioner"], together: 2300, runs: true });
    expect(step!.why).toContain("Or run it on gas.");
  });

  it("says what trips, in watts", () => {
    const trips = supply!.load!.canRun.filter((set) => !set.runs);
    expect(trips.length).toBeGreaterThan(0);
    expect(trips.every((set) => set.watts > 3600)).toBe(true);
  });

  it("leaves out gas appliances", () => {
    expect(supply!.day.map((step) => step.appliance)).not.toContain("furnace");
  });

  it("after an adapter to 15 A tells what does not run even alone", () => {
    const weak = { ...POWER, amps: 15, voltAmperes: 1800, continuousVoltAmperes: 1440 };
    const [less] = run(weak).supplies;
    const unit = less!.day.find((step) => step.appliance === "air conditioner");
    expect(unit).toMatchObject({ runs: false, off: [] });
    expect(unit!.why).toContain("1,440 W for three hours or more");
    const oven = less!.day.find((step) => step.appliance === "microwave");
    expect(oven!.runs).toBe(true);
    expect(oven!.together).toBeLessThanOrEqual(1800);
  });

  it("on one leg does not run what needs both", () => {
    const [less] = run(POWER, { appliances: [one("dryer", 2000, { bothLegs: true }), one("converter", 600)] }).supplies;
    expect(less!.day).toMatchObject([{ appliance: "dryer", runs: false }]);
    expect(less!.day[0]!.why).toContain("both legs");
  });

  it("is nothing where the plug is refused or there is no power", () => {
    expect(run({ ...POWER, mating: "refused" }).supplies).toEqual([]);
    expect(run(null, {}, null).supplies).toEqual([]);
  });

  it("with unknown amperes claims nothing", () => {
    const unknown = { ...POWER, mating: "unknown", amps: null, legs: null, voltsToNeutral: null } as const;
    const [supply] = run({ ...unknown, voltAmperes: null, continuousVoltAmperes: null }).supplies;
    expect(supply).toMatchObject({ watts: null, load: null, voltage: null });
  });
});

describe("volts", () => {
  const drop = {
    volts: 7.1,
    ratio: 0.059,
    voltsAtRigFromNominal: 112.9,
    voltsAtRigFromLowest: 106.9,
    status: "low",
    why: "",
  } as const;

  it("tell the reading before plugging in, and what is left at the rig", () => {
    const { voltage } = run({ ...POWER, drop }).supplies[0]!;
    expect(voltage).toMatchObject({ supply: { low: 114, high: 126 }, status: "low" });
    expect(voltage!.why).toContain("between 114 V and 126 V");
    expect(voltage!.why).toContain("106.9 V from the lowest lawful 114 V");
  });

  it("without a known cord are not judged", () => {
    expect(run(POWER).supplies[0]!.voltage).toMatchObject({ atRig: null, status: "unknown" });
  });

  it("of a 230 V supply are its own", () => {
    const power = { ...POWER, voltsToNeutral: 230, amps: 16, voltAmperes: 3680, continuousVoltAmperes: 3680 };
    const { voltage } = run(power, {}, { ...place, electricalSystem: "230" }).supplies[0]!;
    expect(voltage!.supply).toEqual({ low: 207, high: 253 });
  });
});

describe("the generator", () => {
  const boxed = { watts: 4000, suppliesThrough: "cord-in-box" } as const;

  it("whose cord must sit in its box says so", () => {
    const [own] = run(null, { generator: boxed }, null).supplies;
    expect(own!.transfer!.why).toContain("the coach is dead although the generator runs");
    expect(own!.transfer!.why).toContain("tripped breaker");
    const [switched] = run(null, { generator: { ...boxed, suppliesThrough: "transfer-switch" } }, null).supplies;
    expect(switched!.transfer!.why).not.toContain("dead although");
  });

  it("loses by height, and passes no more than the rig's main breaker", () => {
    const at = (elevation: number) => run(null, { generator: boxed }, { ...place, elevation }).supplies[0]!;
    // 1,524 m are 5,000 ft: 15 % of 4000.
    expect(at(1524).watts).toBeCloseTo(3400, 6);
    expect(at(1524).continuousWatts).toBeCloseTo(2880, 6);
    // At the sea 4000 W, but a 30 A main at 120 V.
    expect(at(0).watts).toBe(3600);
    expect(at(3048).continuousWatts).toBeCloseTo(2800, 6);
  });

  it("says when the height is not on record", () => {
    const [own] = run(null, { generator: boxed }, { ...place, elevation: null }).supplies;
    expect(own!.notes.some((note) => note.text.includes("not on record"))).toBe(true);
  });

  it("names a start that it cannot bear, and what needs both legs", () => {
    const small = { ...boxed, watts: 2500 };
    const appliances = [...APPLIANCES, one("dryer", 2000, { bothLegs: true })];
    const [own] = run(null, { generator: small, appliances }, { ...place, elevation: 0 }).supplies;
    expect(own!.notes.map((note) => note.text).join(" ")).toContain("air conditioner draws 2,800 W");
    expect(own!.notes.map((note) => note.text).join(" ")).toContain("dryer needs both legs");
  });

  it("comes with its exhaust's caution and the host's hours", () => {
    const answer = run(POWER, { generator: boxed });
    expect(answer.supplies.map((supply) => supply.from)).toEqual(["site", "generator"]);
    expect(answer.cautions[0]!.text).toContain("carbon monoxide");
    expect(answer.generatorHours!.why).toContain("ask the host");
    expect(run(POWER).generatorHours).toBeNull();
    expect(run(POWER).cautions).toEqual([]);
  });
});

describe("generator hours in a host's words", () => {
  it.each([
    [
      "08:00-10:00, 17:00-19:30",
      [
        { from: 8, to: 10 },
        { from: 17, to: 19.5 },
      ],
    ],
    ["8 am to 8 pm", [{ from: 8, to: 20 }]],
    ["10-11 am", [{ from: 10, to: 11 }]],
    ["12 pm to 3 pm", [{ from: 12, to: 15 }]],
    ["not allowed", []],
    ["8-10", null],
    ["22:00-06:00", null],
    ["in the afternoon", null],
  ])("%s", (words, hours) => {
    expect(readHours(words)).toEqual(hours);
  });

  it("are told as they stand, and a refusal is a refusal", () => {
    expect(generatorHours("in the afternoon", true).why).toContain("in the afternoon");
    expect(generatorHours("none", true).why).toContain("may not run");
    expect(generatorHours(null, false).why).toContain("local rules");
  });
});

describe("appliances that nobody listed", () => {
  it("are those of the class, with the top of the published range, and said to be assumed", () => {
    const answer = run(POWER, { appliances: [] });
    const unit = answer.appliances.find((each) => each.name === "roof air conditioner");
    expect(unit).toMatchObject({ watts: 1800, starts: 3500, assumed: true, duty: "hours" });
    expect(answer.appliances.find((each) => each.name === "microwave")).toMatchObject({ watts: 1500, duty: "minutes" });
    expect(answer.assumed[0]!.path).toBe("/rig/appliances");
    expect(run(POWER).assumed).toEqual([]);
  });
});

describe("height", () => {
  it("below the sea gives nothing more, and none is negative", () => {
    expect(wattsAtHeight(4000, -80)).toBe(4000);
    expect(wattsAtHeight(4000, 20_000)).toBe(0);
  });
});
