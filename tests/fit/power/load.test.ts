import { describe, expect, it } from "vitest";
import { loadAnswer } from "../../../src/fit/power/load.ts";
import { appliance } from "./case.ts";

const THIRTY = { legs: 1, amps: 30, continuousAmps: 24, voltsToNeutral: 120 };
const FIFTY = { legs: 2, amps: 50, continuousAmps: 40, voltsToNeutral: 120 };

describe("what may run together", () => {
  it("tells hours, a short time and an overload apart", () => {
    const answer = loadAnswer(
      [appliance("air conditioner", 1400), appliance("converter", 1000), appliance("microwave", 1500)],
      THIRTY,
    );
    expect(answer.canRun.map((set) => [set.watts, set.runs, set.continuous])).toEqual([
      [2500, true, true],
      [2400, true, true],
      [2900, true, false],
      [3900, false, false],
    ]);
  });
  it("keeps sets apart that run only when split over two legs", () => {
    const answer = loadAnswer([appliance("first heater", 3500), appliance("second heater", 3300)], FIFTY);
    expect(answer.canRun.map((set) => set.appliances)).toEqual([["first heater"], ["second heater"]]);
    expect(answer.dependsOnSplit.map((set) => [set.watts, set.runs])).toEqual([[6800, false]]);
  });
  it("loads both legs with an appliance that needs both", () => {
    const answer = loadAnswer([appliance("range", 9000, { bothLegs: true }), appliance("heater", 1501)], FIFTY);
    expect(answer.canRun.find((set) => set.appliances.includes("range"))?.watts).toBe(9000);
    expect(answer.canRun.find((set) => !set.runs)?.watts).toBe(10501);
  });
  it("leaves gas out and says what can run on gas", () => {
    const answer = loadAnswer(
      [appliance("furnace", 900, { fuel: "gas" }), appliance("refrigerator", 400, { fuel: "either" })],
      THIRTY,
    );
    expect(answer.canRun.map((set) => set.appliances)).toEqual([["refrigerator"]]);
    expect(answer.notes).toEqual(["refrigerator can run on gas instead."]);
  });
  it("has nothing to say without appliances", () => {
    expect(loadAnswer([], THIRTY)).toEqual({ canRun: [], dependsOnSplit: [], dead: [], notes: [] });
  });
  it("one appliance above the supply trips it alone", () => {
    const answer = loadAnswer([appliance("kiln", 3700), appliance("fan", 100)], THIRTY);
    expect(answer.canRun.filter((set) => !set.runs).map((set) => set.appliances)).toEqual([["kiln"]]);
  });
});
