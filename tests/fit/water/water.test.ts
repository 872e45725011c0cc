import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sayer } from "../../../src/fit/say.ts";
import { hoseLoss } from "../../../src/fit/water/loss.ts";
import { threadMating } from "../../../src/fit/water/thread.ts";
import { type WaterInput, waterAnswer } from "../../../src/fit/water/water.ts";
import type { RigLine } from "../../../src/rig/completed.ts";
import { PASCALS_PER_PSI } from "../../../src/units/factors.ts";
import { hookup, INCH, known } from "../clearance/fixtures.ts";

const say = sayer("us");
const line: RigLine = {
  length: known(7.62),
  workingLength: known(7.62),
  gauge: null,
  diameter: 0.5 * INCH,
  drinkingWater: true,
  rating: null,
  fittings: 0,
};
const tap = (over: object) =>
  hookup({
    water: { thread: "3/4-11.5NH", pressure: 50 * PASCALS_PER_PSI, drinkable: "yes", seasonal: null, ...over },
  });
const base: WaterInput = { hookup: tap({}), line, connectionPath: "/rig/connections/1", kit: [], hours: null };

function statuses(over: Partial<WaterInput>): Record<string, string> {
  return Object.fromEntries(waterAnswer({ ...base, ...over }, say).checks.map((one) => [one.id, one.status]));
}
const items = (over: Partial<WaterInput>) => waterAnswer({ ...base, ...over }, say).kit.map((one) => one.item);

describe("water at a site", () => {
  it("everything known and in order passes, and a regulator is still advised", () => {
    expect(statuses({})).toEqual({
      "water.drinkable": "pass",
      "water.season": "not applicable",
      "water.hose": "pass",
      "water.thread": "pass",
      "water.pressure": "pass",
    });
    expect(items({})).toEqual(["water-regulator"]);
    expect(items({ kit: ["water-regulator"] })).toEqual([]);
  });

  it("what nobody said is unknown", () => {
    const made = statuses({
      hookup: tap({ thread: null, pressure: null, drinkable: "unknown", seasonal: "shut November to April" }),
      line: { ...line, drinkingWater: null },
    });
    expect(new Set(Object.values(made))).toEqual(new Set(["unknown"]));
  });

  it("a garden hose fails until a drinking hose is in the kit", () => {
    expect(statuses({ line: { ...line, drinkingWater: false } })["water.hose"]).toBe("fail");
    expect(items({ line: { ...line, drinkingWater: false } })).toContain("drinking-hose");
    expect(statuses({ line: { ...line, drinkingWater: false }, kit: ["drinking-hose"] })["water.hose"]).toBe(
      "pass with kit",
    );
    expect(statuses({ line: null })["water.hose"]).toBe("fail");
  });

  it("water that is not fit to drink fails", () => {
    expect(statuses({ hookup: tap({ drinkable: "no" }) })["water.drinkable"]).toBe("fail");
  });

  it("70 psi needs a regulator; so does a hose rated below the tap", () => {
    const high = tap({ pressure: 70 * PASCALS_PER_PSI });
    expect(statuses({ hookup: high })["water.pressure"]).toBe("fail");
    expect(statuses({ hookup: high, kit: ["water-regulator"] })["water.pressure"]).toBe("pass with kit");
    const weak = { ...line, rating: 45 * PASCALS_PER_PSI };
    expect(statuses({ line: weak })["water.pressure"]).toBe("fail");
    expect(statuses({ line: { ...weak, rating: 55 * PASCALS_PER_PSI } })["water.pressure"]).toBe("pass");
    expect(statuses({ hookup: tap({ pressure: 15 * PASCALS_PER_PSI }) })["water.pressure"]).toBe("tight");
  });

  it("a BSP outlet asks for a thread adapter", () => {
    expect(statuses({ hookup: tap({ thread: "BSP" }) })["water.thread"]).toBe("pass with kit");
    expect(items({ hookup: tap({ thread: "BSP" }) })).toContain("thread-adapter");
    expect(threadMating("bsp", "bspp").mating).toBe("direct");
    expect(threadMating("bayonet").mating).toBe("unknown");
  });

  it("tells the loss of the hose and the twelve hours", () => {
    const words = waterAnswer({ ...base, hours: 48 }, say).words;
    expect(words).toContain("2.5 gpm");
    expect(words).toContain("48 hours");
    expect(words).toContain("Shut the tap when away");
    expect(waterAnswer({ ...base, line: { ...line, diameter: null } }, say).words).toContain("not computed");
  });

  it("without an outlet nothing applies", () => {
    const none = waterAnswer({ ...base, hookup: null }, say);
    expect(none.words).toBeNull();
    expect(new Set(none.checks.map((one) => one.status))).toEqual(new Set(["not applicable"]));
  });
});

it("loss grows with flow and length and shrinks with diameter", () => {
  const positive = fc.double({ min: 0.01, max: 0.5, noNaN: true });
  fc.assert(
    fc.property(
      positive,
      fc.double({ min: 0.01, max: 0.03, noNaN: true }),
      fc.double({ min: 1, max: 30, noNaN: true }),
      (flow, diameter, length) => {
        const loss = hoseLoss({ flow, diameter, length }).pressure;
        expect(hoseLoss({ flow: flow * 1.5, diameter, length }).pressure).toBeGreaterThan(loss);
        expect(hoseLoss({ flow, diameter: diameter * 1.5, length }).pressure).toBeLessThan(loss);
        expect(hoseLoss({ flow, diameter, length: length * 2 }).pressure).toBeCloseTo(loss * 2, 3);
      },
    ),
  );
});
