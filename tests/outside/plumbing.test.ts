/**
 * Plumbing against published figures. Each case names its source and how it was come by: "read" is text seen at the
 * source, "derived" is arithmetic on a rule that was read, "second-hand" is a page that quotes it, "from memory" is
 * nothing more than that.
 */
import { describe, expect, it } from "vitest";
import { sayer } from "../../src/fit/say.ts";
import {
  drainAnswer,
  drainClass,
  fallNeeded,
  fallOver,
  longestDrainRun,
  MARGINAL_SLOPE,
} from "../../src/fit/sewer/drain.ts";
import { drainRuleChecks } from "../../src/fit/sewer/rules.ts";
import { hoseLoss } from "../../src/fit/water/loss.ts";
import { pressureBand } from "../../src/fit/water/pressure.ts";
import { backflowScope, fillTapCheck, waterRuleChecks } from "../../src/fit/water/rules.ts";
import { LITRES_PER_US_GALLON, PASCALS_PER_PSI } from "../../src/units/factors.ts";
import { FOOT, INCH, known } from "../fit/clearance/fixtures.ts";

const say = sayer("us");
const GPM = LITRES_PER_US_GALLON / 60;

describe("drain slope [1/4 in per ft: WAC 246-359-740(3), read; 1/8: IPC Table 704.1 as Chicago 18-29-704.1, read]", () => {
  it("P1: 12 ft of run asks for 3.0 in at 1/4 and 1.5 in at 1/8 [derived]", () => {
    expect(fallNeeded(12 * FOOT) / INCH).toBeCloseTo(3, 10);
    expect(fallNeeded(12 * FOOT, MARGINAL_SLOPE) / INCH).toBeCloseTo(1.5, 10);
  });

  it.each([
    { id: "P2", outlet: 16, rim: 4, run: 10, rise: 0, fall: 12, perFoot: 1.2, status: "drains" },
    {
      id: "P3 (rim: La. Admin. Code 51:XIV-1515(I))",
      outlet: 9,
      rim: 6,
      run: 15,
      rise: 0,
      fall: 3,
      perFoot: 0.2,
      status: "marginal",
    },
    { id: "P4a", outlet: 8, rim: 4, run: 10, rise: 0.01, fall: 2.8, perFoot: 0.28, status: "drains" },
    { id: "P4b", outlet: 8, rim: 4, run: 10, rise: 0.03, fall: 0.4, perFoot: 0.04, status: "poor" },
    { id: "P4c", outlet: 8, rim: 4, run: 10, rise: 0.04, fall: -0.8, perFoot: -0.08, status: "uphill" },
  ])(
    "$id: falls $fall in, $perFoot in per ft, $status [derived]",
    ({ outlet, rim, run, rise, fall, perFoot, status }) => {
      const found = fallOver(outlet * INCH, rim * INCH, run * FOOT, rise);
      expect(found / INCH).toBeCloseTo(fall, 9);
      expect(drainClass(found, run * FOOT)).toBe(status);
      const answer = drainAnswer(
        {
          outlet: "a",
          outletHeight: known(outlet * INCH),
          rimHeight: known(rim * INCH),
          raise: 0,
          groundKnown: true,
          fallAtStance: found,
          run: run * FOOT,
        },
        say,
      );
      expect(answer.status).toBe(status);
      expect((answer.slope as number) * 12).toBeCloseTo(perFoot, 9);
    },
  );

  it("P5: outlet 10 in permits 24 ft to a 4 in rim, 16 ft to a 6 in rim; 48 and 32 ft at 1/8 [derived]", () => {
    const runs = [4, 6].map((rim) => longestDrainRun((10 - rim) * INCH) / FOOT);
    expect(runs[0]).toBeCloseTo(24, 9);
    expect(runs[1]).toBeCloseTo(16, 9);
    const eighth = [4, 6].map((rim) => longestDrainRun((10 - rim) * INCH, 0, MARGINAL_SLOPE) / FOOT);
    expect(eighth[0]).toBeCloseTo(48, 9);
    expect(eighth[1]).toBeCloseTo(32, 9);
  });

  it("P26: from the left wall across an 8.5 ft rig to a riser 6 ft beyond: 14.5 ft, 3.625 in of fall, and it says so [derived]", () => {
    const run = (8.5 + 6) * FOOT;
    expect(fallNeeded(run) / INCH).toBeCloseTo(3.625, 9);
    const input = {
      outlet: "a",
      outletHeight: known(9 * INCH),
      rimHeight: known(4 * INCH),
      raise: 0,
      groundKnown: true,
      fallAtStance: 5 * INCH,
      run,
    };
    expect(drainAnswer({ ...input, otherSide: true }, say).why).toContain("other side of the rig");
    expect(drainAnswer(input, say).why).not.toContain("other side");
  });
});

describe("named rules on the drain's place", () => {
  const place = { rimHeight: null, diameter: null, outsideWall: null, dumpSide: null };
  const rim = (rule: string, inches: number) =>
    drainRuleChecks(rule, { ...place, rimHeight: inches * INCH }, say).find((one) => one.id === "drain-rule.rim")
      ?.status;
  const reach = (feet: number) =>
    drainRuleChecks("ca-25-ccr-1254", { ...place, outsideWall: feet * FOOT }, say).find(
      (one) => one.id === "drain-rule.reach",
    )?.status;

  it("P6: a 4 in rim meets Louisiana and not California 1254; 2 in the reverse [LAC 51:XIV-1515(I), 25 CCR 1254(b): read]", () => {
    expect(rim("la-51-xiv-1515", 4)).toBe("pass");
    expect(rim("ca-25-ccr-1254", 4)).toBe("fail");
    expect(rim("la-51-xiv-1515", 2)).toBe("fail");
    expect(rim("ca-25-ccr-1254", 2)).toBe("pass");
  });

  it("P6: the mobilehome rule says that it is one [25 CCR 1254: read]", () => {
    expect(drainRuleChecks("ca-25-ccr-1254", place, say)[0]?.source).toContain(
      "not written for recreational vehicle sites",
    );
  });

  it("P7: 3.5 ft out meets, 5 ft out not, 12 in under meets, 24 in under not [25 CCR 1254(e): read]", () => {
    expect([3.5, 5, -1, -2].map(reach)).toEqual(["pass", "fail", "pass", "fail"]);
  });

  it("P25: a dump inlet belongs on the left of a rig driven through [15 Miss. Code R. 18-77-3.2.9: read]", () => {
    const side = (dumpSide: "left" | "right" | null) =>
      drainRuleChecks("ms-15-18-77-3-2-9", { ...place, dumpSide }, say).find((one) => one.id === "drain-rule.side")
        ?.status;
    expect([side("left"), side("right"), side(null)]).toEqual(["pass", "fail", "unknown"]);
  });

  it("an unknown rule judges nothing", () => {
    expect(drainRuleChecks("somewhere", place, say)).toEqual([]);
  });
});

describe("named rules on the water outlet", () => {
  const outlet = { pressure: null, riserHeight: null, pipe: null, toSewer: null };
  const statuses = (rule: string, over: object) =>
    Object.fromEntries(
      waterRuleChecks(rule, { ...outlet, ...over }, say).map((one) => [one.id.replace("water-rule.", ""), one.status]),
    );

  it("P8: 8 ft from water to sewer is below Minnesota's 10 ft, grouped in Rhode Island, unjudged elsewhere [Minn. R. 4630.0600: read, text cut; R.I. 32-7-8(c)(4): read]", () => {
    expect(statuses("mn-4630-0600", { toSewer: 8 * FOOT })["to-sewer"]).toBe("fail");
    expect(statuses("mn-4630-0600", { toSewer: 10 * FOOT })["to-sewer"]).toBe("pass");
    expect(statuses("ri-32-7-8", { toSewer: 8 * FOOT })["to-sewer"]).toBe("not applicable");
    expect(waterRuleChecks("unknown-state", { ...outlet, toSewer: 8 * FOOT }, say)).toEqual([]);
  });

  it("P9: 18 psi, 3 in riser, 1/2 in pipe: three misses in Minnesota, two in Frederick CO [4630.0600; LUC 10.11(d): read]", () => {
    const facts = { pressure: 18 * PASCALS_PER_PSI, riserHeight: 3 * INCH, pipe: 0.5 * INCH, toSewer: 30 * FOOT };
    expect(statuses("mn-4630-0600", facts)).toEqual({
      pressure: "fail",
      riser: "fail",
      pipe: "fail",
      "to-sewer": "pass",
    });
    expect(statuses("frederick-co-10-11-d", facts)).toEqual({ pressure: "fail", riser: "fail", pipe: "pass" });
  });

  it("P27: a fill tap 40 ft from the dump station is below 50 ft [UPC E 506.1, R.I. 32-7-10(1)(iii): read]", () => {
    for (const rule of ["upc-e-506-1", "ri-32-7-10"]) {
      const made = fillTapCheck(rule, 40 * FOOT, say);
      expect(made?.status).toBe("fail");
      expect((made?.margin as number) / FOOT).toBeCloseTo(-10, 9);
      expect(fillTapCheck(rule, 50 * FOOT, say)?.status).toBe("pass");
      expect(fillTapCheck(rule, null, say)?.status).toBe("unknown");
    }
  });

  it("P28: two nights under pressure are outside the 12 h of ASSE 1011 and 1052 [scopes: read]", () => {
    for (const device of ["asse-1011", "asse-1052"]) {
      expect(backflowScope(device, 48)?.within).toBe(false);
      expect(backflowScope(device, 48)?.why).toContain("shut the tap when away");
      expect(backflowScope(device, 12)?.within).toBe(true);
    }
  });
});

describe("hose loss [Hazen-Williams, Engineering Toolbox d_797: read]", () => {
  it("P12: 200 gpm in 3.048 in at C 140: the page prints 9 ft per 100 ft and 2.7 ft in 30 ft", () => {
    const loss = hoseLoss({ flow: 200 * GPM, diameter: 3.048 * INCH, length: 30 * FOOT, roughness: 140 });
    expect(loss.perMetre * 100).toBeCloseTo(9.007, 3);
    expect(loss.head / FOOT).toBeCloseTo(2.702, 3);
  });

  it.each([
    { inches: 0.5, psi: 5.399 },
    { inches: 0.625, psi: 1.823 },
    { inches: 0.75, psi: 0.751 },
  ])("P13: 3 gpm over 50 ft of $inches in takes $psi psi [derived]", ({ inches, psi }) => {
    const loss = hoseLoss({ flow: 3 * GPM, diameter: inches * INCH, length: 50 * FOOT });
    expect(loss.pressure / PASCALS_PER_PSI).toBeCloseTo(psi, 3);
  });

  it("P14: 5 gpm over 50 ft of 1/2 in takes 13.91 psi and leaves 26.09 of 40 [derived]", () => {
    const loss = hoseLoss({ flow: 5 * GPM, diameter: 0.5 * INCH, length: 50 * FOOT }).pressure / PASCALS_PER_PSI;
    expect(loss).toBeCloseTo(13.91, 2);
    expect(40 - loss).toBeCloseTo(26.09, 2);
  });
});

describe("pressure bands [project choice from Minn. R. 4630.0600 (read), engineerfix.com (second-hand), IPC 604.8 (from memory)]", () => {
  const band = (psi: number) => pressureBand(psi * PASCALS_PER_PSI);
  it("P31: 20 to 40 psi advises a regulator, 70 needs one, 110 makes it mandatory, unknown advises one", () => {
    expect([20, 30, 39.9, 55, 70, 110].map((psi) => band(psi).regulator)).toEqual([
      "advised",
      "advised",
      "advised",
      "advised",
      "needed",
      "mandatory",
    ]);
    expect(pressureBand(null)).toMatchObject({ band: null, regulator: "advised" });
  });
  it("each band ends where the next begins", () => {
    expect([19.9, 20, 40, 60, 80].map((psi) => band(psi).band)).toEqual(["low", "weak", "good", "high", "too high"]);
  });
});

describe("tank arithmetic", () => {
  it("P15: litres per vehicle-day as gallons [Metcalf & Eddy 2003 by way of Davis Table 2-4: litres read, gallons derived]", () => {
    const gallons = [280, 380, 570, 150, 170, 190].map((litres) => litres / LITRES_PER_US_GALLON);
    [74, 100.4, 150.6, 39.6, 44.9, 50.2].forEach((expected, index) => {
      expect(gallons[index]).toBeCloseTo(expected, 1);
    });
  });
});
