/** Days on the tanks at one site, for the party that was asked about. */
import { describe, expect, it } from "vitest";
import { fitRig } from "../../../src/fit/fit.ts";
import type { FitOptionsInput } from "../../../src/fit/options.ts";
import { type HookupSpec, options, rig, site } from "./builders.ts";

const GALLON = 3.785411784;
/** 50, 40 and 30 gallons. */
const coach = rig(
  {
    connections: [
      { service: "water", fromRear: 2.4, length: 7.6 },
      { service: "sewer", fromRear: 2.1, length: 4.6, height: 0.5 },
    ],
  },
  { tanks: { fresh: 50 * GALLON, grey: 40 * GALLON, black: 30 * GALLON, propane: null } },
);
const TAP: HookupSpec = { service: "water", along: 4.3, left: 2.3, height: 0.6 };
const RISER: HookupSpec = { service: "sewer", along: 3.4, left: 2.4, height: 0.08 };

function stay(hookups: readonly HookupSpec[], party: FitOptionsInput["party"], who = coach) {
  const asked = options({ detail: "summary", awning: "in", ...(party === undefined ? {} : { party }) });
  return fitRig({ rig: who, site: site({ hookups }), options: asked });
}

describe("the stay", () => {
  it("is not reckoned for nobody", () => {
    expect(stay([TAP], undefined).stay).toMatchObject({ tanks: null, why: null });
  });

  it("tells days for the party: two people at 15 gal, 2.5 of them for the toilet", () => {
    const { stay: found, assumed } = stay([], { people: 2, nights: 3, water: "moderate" });
    const [fresh, grey, black] = found.tanks!;
    expect(fresh).toMatchObject({ store: "fresh", served: "no", status: "known" });
    expect(fresh!.days.expected).toBeCloseTo(50 / 30, 9);
    expect(grey!.days.expected).toBeCloseTo(40 / 25, 9);
    expect(black!.days.expected).toBeCloseTo(6, 9);
    expect(found.why).toContain("Within 3 nights that may come for the fresh tank and the grey tank");
    expect(assumed.map((one) => one.path)).toContain("/options/party");
  });

  it("gives a band over the published uses, the fewest days first", () => {
    const [fresh] = stay([], { people: 2 }).stay.tanks!;
    expect(fresh!.days.low).toBeCloseTo(50 / 30, 9);
    expect(fresh!.days.expected).toBeCloseTo(50 / 20, 9);
    expect(fresh!.days.high).toBeCloseTo(5, 9);
  });

  it("does not let the tanks end a stay that the site serves", () => {
    const [fresh, grey, black] = stay([TAP, RISER], { people: 2, nights: 9 }).stay.tanks!;
    expect(fresh).toMatchObject({ served: "yes" });
    expect(fresh!.why).toContain("not drawn");
    expect(grey).toMatchObject({ served: "yes" });
    expect(black!.why).toContain("stays shut");
    const { why } = stay([TAP], { people: 2, nights: 9 }).stay;
    expect(why).toContain("for the grey tank and the black tank");
  });

  it("leaves a tank of unknown size unknown, and an unused one endless", () => {
    const who = { ...coach, tanks: { ...coach.tanks, grey: null } };
    const [, grey] = stay([], { people: 2 }, who).stay.tanks!;
    expect(grey).toMatchObject({ status: "unknown", days: { low: null, expected: null, high: null } });
    expect(grey!.why).toContain("not on record");
    expect(stay([], { people: 0 }).stay.tanks!.map((tank) => tank.status)).toEqual(["endless", "endless", "endless"]);
  });

  it("counts the hours under pressure", () => {
    expect(stay([TAP], { people: 2, nights: 2 }).stay.water).toContain("48 hours");
    expect(stay([TAP], { people: 2 }).stay.water).not.toContain("This hookup is to last");
  });
});
