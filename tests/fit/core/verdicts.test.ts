import { describe, expect, it } from "vitest";
import { fitRig } from "../../../src/fit/fit.ts";
import { type LineFacts, lineVerdict } from "../../../src/fit/lines/verdict.ts";
import { BARE, between, measured, obstacle, options, question, receptacle, rig, site } from "./builders.ts";

const CORD = { service: "power", fromRear: 1, length: 7.62, height: 0.9 } as const;
const HOSE = { service: "water", fromRear: 2, length: 7, height: 0.7 } as const;
const DRAIN = { service: "sewer", fromRear: 3, length: 3, height: 0.5 } as const;

describe("verdict of a line", () => {
  const base: LineFacts = {
    margin: 0.3,
    marginLow: 0.3,
    marginHigh: 0.3,
    probability: null,
    leastLow: 1,
    leastHigh: 1,
    leastProbability: null,
    decidingSigma: 0,
    hasRanges: false,
  };
  it.each<[string, Partial<LineFacts>, string]>([
    ["fits as laid", {}, "reaches"],
    ["fits by nothing", { margin: 0, marginLow: 0, marginHigh: 0 }, "reaches"],
    [
      "needs more than there is when laid, less through the air",
      { margin: -0.1, marginLow: -0.1, marginHigh: -0.1 },
      "tight",
    ],
    [
      "does not fit through the air either",
      { margin: -2, marginLow: -2, marginHigh: -2, leastLow: -0.5, leastHigh: -0.5 },
      "short",
    ],
    ["fits, with a probability of 0.94 and good tape", { probability: 0.94, decidingSigma: 0.1 }, "tight"],
    ["fits, with a probability of 0.95", { probability: 0.95, decidingSigma: 0.4 }, "reaches"],
    ["fits, with a probability of 0.94 from a map", { probability: 0.94, decidingSigma: 0.4 }, "unknown"],
    ["a range that ends short of reaching", { hasRanges: true, marginLow: -0.2, marginHigh: 0.8 }, "unknown"],
    ["a range that reaches at both ends", { hasRanges: true, marginLow: 0.1, marginHigh: 0.8 }, "reaches"],
    [
      "a range short at one end only",
      { hasRanges: true, margin: -1, marginLow: -2, marginHigh: -0.5, leastLow: -1, leastHigh: 0.2 },
      "unknown",
    ],
    [
      "short with a probability of 0.06 left",
      {
        margin: -2,
        marginLow: -2,
        marginHigh: -2,
        leastLow: -1,
        leastHigh: -1,
        leastProbability: 0.06,
        decidingSigma: 1,
      },
      "unknown",
    ],
    [
      "short with a probability of 0.05 left",
      {
        margin: -2,
        marginLow: -2,
        marginHigh: -2,
        leastLow: -1,
        leastHigh: -1,
        leastProbability: 0.05,
        decidingSigma: 1,
      },
      "short",
    ],
  ])("%s", (_, facts, verdict) => {
    expect(lineVerdict({ ...base, ...facts })).toBe(verdict);
  });
});

describe("a fit by hand", () => {
  it("adds heights, route and allowance, and takes what an adapter adds", () => {
    // Pad as long and wide as the rig: one place only. Inlet (1, 1.2), pedestal (3, 4.2): route hypot(2, 3).
    const input = question(
      { length: 7.6, width: 2.4, connections: [CORD] },
      { length: 7.6, width: 2.4, hookups: [{ service: "power", along: 3, left: 4.2, height: 1.1 }] },
      BARE,
    );
    const fit = fitRig(input);
    const line = fit.lines.find((one) => one.service === "power")!;
    const needed = 0.9 + Math.hypot(2, 3) + 1.1 + 0.6;
    expect(line.needed).toBeCloseTo(needed, 9);
    expect(line.available).toBeCloseTo(7.62, 9);
    expect(line.margin).toBeCloseTo(7.62 - needed, 9);
    expect(line.neededLeast).toBeCloseTo(Math.hypot(2, 3, 0.2), 9);
    expect(line.verdict).toBe("reaches");
    expect(fit.bestMargin).toBeCloseTo(7.62 - needed, 9);
    expect(fit.stance).toEqual({ facing: "out", along: expect.closeTo(0, 9), left: expect.closeTo(0, 9), yaw: 0 });
    expect(fit.verdict).toBe("fits");
  });

  it("turns to the other side of the rig when it parks nose in", () => {
    const input = question(
      { length: 7.6, width: 2.4, connections: [CORD] },
      { length: 7.6, width: 2.4, hookups: [{ service: "power", along: 3, left: 4.2, height: 1.1 }] },
      { ...BARE, facings: ["in"] },
    );
    const line = fitRig(input).lines.find((one) => one.service === "power")!;
    // Nose in: the inlet lies at along 6.6 on the pad's right wall. Round the rear (along 7.6): 1 + 2.4 + hypot(4.6, 3).
    expect(line.route).toBe("around-rear");
    expect(line.needed).toBeCloseTo(0.9 + 1 + 2.4 + Math.hypot(4.6, 3) + 1.1 + 0.6, 9);
    expect(line.verdict).toBe("short");
  });

  it("judges the drain by its slope as well: fall, run and cap", () => {
    // Outlet 0.30 high, rim 0.25: 0.05 m of fall permit 2.4 m of run at 1:48. The run is hypot(2, 1.5) = 2.5.
    const drain = { service: "sewer", fromRear: 3, length: 6, height: 0.3 } as const;
    const input = question(
      { length: 7.6, width: 2.4, connections: [drain] },
      { length: 7.6, width: 2.4, hookups: [{ service: "sewer", along: 1, left: 2.7, height: 0.25 }] },
      BARE,
    );
    const fit = fitRig(input);
    const line = fit.lines.find((one) => one.service === "sewer")!;
    expect(line.margin).toBeCloseTo(0.05 * 48 - 2.5, 9);
    expect(line.needed).toBeCloseTo(Math.hypot(2.5, 0.05) + 0.3, 9);
    expect(line.verdict).toBe("tight");
    expect(fit.sewer.status).toBe("marginal");
    expect(fit.sewer.longestRun).toBeCloseTo(2.4, 6);
  });

  it("does not let a drain run uphill however long the hose is", () => {
    const input = question(
      { connections: [{ ...DRAIN, length: 9, height: 0.2 }] },
      { hookups: [{ service: "sewer", along: 1, left: 2.7, height: 0.4 }] },
      BARE,
    );
    const fit = fitRig(input);
    expect(fit.lines.find((one) => one.service === "sewer")!.verdict).toBe("short");
    expect(fit.sewer.status).toBe("uphill");
  });

  it("does not check the fall without the outlet's height, and never calls it reaching", () => {
    const input = question(
      { connections: [{ ...DRAIN, height: null }] },
      { hookups: [{ service: "sewer", along: 1, left: 2, height: 0.1 }] },
    );
    const fit = fitRig(input);
    expect(fit.sewer.status).toBe("fall not checked");
    expect(fit.lines.find((one) => one.service === "sewer")!.verdict).toBe("unknown");
    expect(fit.unknowns[0]).toMatchObject({ path: "/rig/connections/sewer/height", weight: null });
  });
});

describe("verdict of the site", () => {
  const near = [{ service: "power", along: 1.5, left: 3.4, height: 1 }] as const;
  const verdictOf = (...args: Parameters<typeof question>) => fitRig(question(...args)).verdict;

  it("fits when the cord reaches with room to be off", () => {
    expect(verdictOf({ connections: [CORD] }, { hookups: near })).toBe("fits");
  });
  it("does not fit when the required cord is short", () => {
    expect(verdictOf({ connections: [CORD] }, { hookups: [{ service: "power", along: 1.5, left: 16 }] })).toBe(
      "does not fit",
    );
  });
  it("names a wanted drain that fails without failing the site", () => {
    const fit = fitRig(
      question({ connections: [CORD, DRAIN] }, { hookups: [...near, { service: "sewer", along: 10, left: -9 }] }),
    );
    expect(fit.verdict).toBe("fits");
    expect(fit.headline).toContain("sewer short");
  });
  it("does not fit without the drain when the drain is required", () => {
    expect(verdictOf({ connections: [CORD, DRAIN] }, { hookups: near }, { needs: { sewer: "required" } })).toBe(
      "does not fit",
    );
  });
  it("is unknown when a required service is not on record", () => {
    const input = question({ connections: [CORD, HOSE] }, { hookups: near }, { needs: { water: "required" } });
    const unrecorded = { ...input.site, services: { ...input.site.services, water: "unknown" as const } };
    expect(fitRig({ ...input, site: unrecorded }).verdict).toBe("unknown");
  });
  it("fits with kit by an adapter to bring, and not when only kit aboard counts", () => {
    const input = question(
      { connections: [CORD] },
      { hookups: [{ ...near[0], receptacles: [receptacle("r", "nema-14-50", 50)] }] },
    );
    const fit = fitRig(input);
    expect(fit.verdict).toBe("fits with kit");
    expect(fit.kit).toMatchObject([{ item: "adapter", where: "to bring" }]);
    expect(fitRig({ ...input, options: options({ kitPolicy: "aboard" }) }).verdict).toBe("does not fit");
  });
  it("does not fit a 230 V pedestal whatever reaches", () => {
    expect(
      verdictOf(
        { connections: [CORD] },
        { hookups: [{ ...near[0], receptacles: [receptacle("r", "iec-60309-2p-e-16", 16, { volts: 230 })] }] },
      ),
    ).toBe("does not fit");
  });
  it("is tight at a shared receptacle that nobody allotted", () => {
    expect(verdictOf({ connections: [CORD] }, { hookups: [{ ...near[0], shared: true }] })).toBe("tight");
  });
  it("is tight when the pad leaves less than a driver's scatter", () => {
    expect(verdictOf({ length: 7.6, connections: [CORD] }, { length: 7.8, hookups: near })).toBe("tight");
  });
  it("does not fit when the rig is longer than the pad, and says by how much", () => {
    const fit = fitRig(question({ length: 7.6, connections: [CORD] }, { length: 7.5, hookups: near }));
    expect(fit.verdict).toBe("does not fit");
    expect(fit.checks.find((check) => check.id === "fit.stand")).toMatchObject({
      status: "fail",
      value: expect.closeTo(0.1, 6),
    });
    expect(fit.stance).toBeNull();
  });
  it("is unknown when only words say where the pedestal stands", () => {
    const hookups = [{ service: "power", along: between(0, 6), left: between(2, 9), height: 1 }] as const;
    const fit = fitRig(question({ connections: [CORD] }, { hookups }));
    expect(fit.verdict).toBe("unknown");
    expect(fit.unknowns.map((one) => one.path)).toContain("/site/properties/hookups/power/at/left");
    expect(fit.probability).toBeUndefined();
  });
  it("is unknown at 40 m of accuracy, never a yes", () => {
    const hookups = [{ service: "power", along: measured(2, 40), left: measured(3, 40), height: 1 }] as const;
    const fit = fitRig(question({ connections: [CORD] }, { hookups }));
    expect(fit.verdict).toBe("unknown");
    expect(fit.probability).toBeLessThan(0.2);
  });
  it("claims no stance without the pad's width, but still knows what no stance can reach", () => {
    const input = question({ connections: [CORD] }, { hookups: near });
    const site = { ...input.site, pad: { ...input.site.pad, width: null } };
    const fit = fitRig({ ...input, site });
    expect(fit).toMatchObject({ verdict: "unknown", stance: null });
    expect(fit.lines[0]!.verdict).toBe("unknown");
  });
  it("lets a slide hang over the pad's edge only as tight", () => {
    const slide = { id: "slide", wall: "left", required: true, path: "/slideouts/0" } as const;
    const sizes = {
      fromRear: measured(4, 0),
      length: measured(2.5, 0),
      depth: measured(0.9, 0),
      bottom: measured(0.8, 0),
      top: measured(2.8, 0),
    };
    const input = question({ width: 2.4, connections: [CORD] }, { width: 3, hookups: near });
    const withSlide = {
      ...input,
      rig: rig({ width: 2.4, connections: [CORD] }, { slideouts: [{ ...slide, ...sizes }] }),
    };
    const fit = fitRig(withSlide);
    expect(fit.verdict).toBe("tight");
    expect(fit.checks.find((check) => check.id === "fit.slides")).toMatchObject({ status: "tight" });
    const wide = { ...withSlide, site: site({ width: 5, hookups: near }) };
    expect(fitRig(wide).checks.find((check) => check.id === "fit.slides")).toMatchObject({ status: "pass" });
  });
  it("keeps the order and the number of checks when an early one fails", () => {
    const good = fitRig(question({ connections: [CORD] }, { hookups: near })).checks.map((check) => check.id);
    const bad = fitRig(question({ connections: [CORD] }, { length: 3, hookups: near })).checks.map((check) => check.id);
    expect(bad).toEqual(good);
  });
  it("stands clear of a post that leaves one gap", () => {
    const input = question({ connections: [CORD] }, { length: 16, hookups: near }, BARE);
    const site = { ...input.site, obstacles: [obstacle("post", [6, 6.2], [-0.5, -0.3])] };
    const fit = fitRig({ ...input, site });
    expect(fit.stance!.along).toBeGreaterThanOrEqual(6.2 - 1e-6);
  });
});
