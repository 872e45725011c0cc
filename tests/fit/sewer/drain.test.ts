import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import data from "../../../data/drain-rules.json" with { type: "json" };
import { sayer } from "../../../src/fit/say.ts";
import {
  type DrainInput,
  drainAnswer,
  drainClass,
  fallOver,
  longestDrainRun,
  REQUIRED_SLOPE,
} from "../../../src/fit/sewer/drain.ts";
import { drainRuleChecks } from "../../../src/fit/sewer/rules.ts";
import { FOOT, INCH, known, measured, ranged } from "../clearance/fixtures.ts";

const say = sayer("us");
const base: DrainInput = {
  outlet: "main",
  outletHeight: known(0.4, "/rig/connections/2/height"),
  rimHeight: known(0.1, "/site/properties/hookups/1/height"),
  raise: 0,
  groundKnown: true,
  fallAtStance: 0.3,
  run: 4,
};

describe("what is unknown is never a drain", () => {
  it.each([
    [{ outletHeight: null }, "drain outlet"],
    [{ rimHeight: null }, "rim"],
    [{ groundKnown: false }, "slope of the ground"],
    [{ raise: null }, "slope of the ground"],
    [{ run: null }, "no permitted way"],
    [{ fallAtStance: null }, "no permitted way"],
    [{ run: Number.POSITIVE_INFINITY }, "no permitted way"],
  ] as [Partial<DrainInput>, string][])("%o", (gone, words) => {
    const answer = drainAnswer({ ...base, ...gone }, say);
    expect(answer).toMatchObject({ status: "fall not checked", fall: null, slope: null, longestRun: null });
    expect(answer.why).toContain(words);
  });

  it("no outlet is none", () => {
    expect(drainAnswer({ ...base, outlet: null }, say).status).toBe("none");
  });
});

describe("the answer", () => {
  it("names the numbers, the rule, the longest run and the sag", () => {
    const answer = drainAnswer(
      { ...base, outletHeight: known(16 * INCH), rimHeight: known(4 * INCH), fallAtStance: 12 * INCH, run: 10 * FOOT },
      say,
    );
    expect(answer.longestRun as number).toBeCloseTo(48 * FOOT, 9);
    expect(answer.why).toBe(
      "The hose falls 12 in over 10 ft, 1.2 in per ft; 0.25 in per ft (WAC 246-359-740(3)) asks for 2.5 in. " +
        "The longest run at that slope is 48 ft. Keep the hose straight and supported: a sag below the straight line " +
        "holds liquid even where both ends pass. Use it no longer than necessary.",
    );
  });

  it("reads the ground from the fall at the stance: ground that helps may set no longest run", () => {
    // 0.3 m of drop and 0.1 m of fall left over 4 m: the ground rises 5 % towards the riser.
    const rises = drainAnswer({ ...base, fallAtStance: 0.1 }, say);
    expect(rises.longestRun as number).toBeCloseTo(0.3 / (REQUIRED_SLOPE + 0.05), 9);
    const falls = drainAnswer({ ...base, fallAtStance: 0.5 }, say);
    expect(falls.longestRun).toBeNull();
    expect(falls.why).toContain("sets no longest run");
  });

  it("blocks raise the outlet", () => {
    const raised = drainAnswer({ ...base, raise: 0.2, fallAtStance: 0.5 }, say);
    expect(raised.longestRun as number).toBeCloseTo(0.5 * 48, 9);
  });

  it("a riser right under the outlet drains", () => {
    expect(drainAnswer({ ...base, run: 0 }, say)).toMatchObject({ status: "drains", slope: null });
  });
});

describe("heights known badly", () => {
  const over = (rimHeight: DrainInput["rimHeight"], fallAtStance: number) =>
    drainAnswer({ ...base, rimHeight, fallAtStance, run: 10 }, say);
  it("gives the worse end of a range, and nothing when it may also run uphill", () => {
    // 10 m ask for 0.208 m at 1/4 and 0.104 m at 1/8.
    expect(over(ranged(0.05, 0.15), 0.3).status).toBe("drains");
    expect(over(ranged(0.05, 0.15), 0.25)).toMatchObject({ status: "marginal" });
    expect(over(ranged(0.05, 0.15), 0.25).why).toContain("between marginal and drains");
    const doubtful = over(ranged(-0.1, 0.3, "/site/rim"), 0.1);
    expect(doubtful.status).toBe("fall not checked");
    expect(doubtful.why).toContain("/site/rim");
    expect(over(ranged(0.05, 0.15), -0.2).status).toBe("uphill");
  });
  it("counts a standard deviation to 0.95", () => {
    expect(over(measured(0.1, 0.01), 0.23).status).toBe("drains");
    expect(over(measured(0.1, 0.03), 0.23).status).toBe("marginal");
  });
});

describe("properties", () => {
  const height = fc.double({ min: 0, max: 1, noNaN: true });
  const run = fc.double({ min: 0.1, max: 12, noNaN: true });
  const rise = fc.double({ min: -0.06, max: 0.06, noNaN: true });
  const order = ["uphill", "poor", "marginal", "drains"];

  it("raising the riser never improves the fall", () => {
    fc.assert(
      fc.property(height, height, height, run, rise, (outlet, rim, more, over, ground) => {
        const status = (top: number) =>
          drainAnswer(
            {
              ...base,
              outletHeight: known(outlet),
              rimHeight: known(top),
              run: over,
              fallAtStance: fallOver(outlet, top, over, ground),
            },
            say,
          ).status;
        expect(order.indexOf(status(rim + more))).toBeLessThanOrEqual(order.indexOf(status(rim)));
      }),
    );
  });

  it("the longest run keeps the slope and a longer one does not", () => {
    fc.assert(
      fc.property(height, height, rise, (outlet, rim, ground) => {
        const longest = longestDrainRun(outlet - rim, ground);
        if (!Number.isFinite(longest) || longest < 0.05) return;
        expect(drainClass(fallOver(outlet, rim, longest * 0.999, ground), longest * 0.999)).toBe("drains");
        expect(drainClass(fallOver(outlet, rim, longest * 1.01, ground), longest * 1.01)).not.toBe("drains");
      }),
    );
  });
});

describe("named rules", () => {
  it("a range is judged at its nearer end", () => {
    const [rim] = drainRuleChecks(
      "la-51-xiv-1515",
      { rimHeight: 7 * INCH, diameter: null, outsideWall: null, dumpSide: null },
      say,
    );
    expect(rim).toMatchObject({ status: "fail", family: "may-not", deciding: false });
    expect((rim?.margin as number) / INCH).toBeCloseTo(-1, 9);
  });
  it("a missing measure is unknown in every rule, never a pass", () => {
    const none = { rimHeight: null, diameter: null, outsideWall: null, dumpSide: null };
    for (const { id } of data.rules) {
      const made = drainRuleChecks(id, none, say);
      expect(made.length).toBeGreaterThan(0);
      for (const one of made) expect(one.status).toBe("unknown");
    }
  });
});
