/** Probabilities that can be told by hand: P(normal error within an interval), from the error function. */
import { describe, expect, it } from "vitest";
import type { FitInput } from "../../../src/fit/fit.ts";
import { fitRig } from "../../../src/fit/fit.ts";
import { BARE, exact, measured, obstacle, options, question } from "./builders.ts";

/** Error of a share of 256 lattice draws. */
const LATTICE = 0.03;

/** Normal distribution, by Simpson's rule. */
function phi(z: number): number {
  const steps = 2000;
  const width = z / steps;
  let sum = 0;
  for (let step = 0; step <= steps; step++) {
    const weight = step === 0 || step === steps ? 1 : step % 2 === 1 ? 4 : 2;
    sum += weight * Math.exp(-((step * width) ** 2) / 2);
  }
  return 0.5 + (sum * width) / 3 / Math.sqrt(2 * Math.PI);
}

const cord = (length: number, fromRear = 3.8) => ({ service: "power", fromRear, length, height: 0.9 }) as const;

function withPad(input: FitInput, more: Partial<FitInput["site"]["pad"]>): FitInput {
  return { ...input, site: { ...input.site, pad: { ...input.site.pad, ...more } } };
}

describe("probability by hand", () => {
  it("counts that a pedestal may stand beneath the body, however long the cord is", () => {
    const site = {
      length: 7.6,
      width: 2.4,
      hookups: [{ service: "power", along: 3.8, left: measured(2.2, 1), height: 1 }],
    } as const;
    const fit = fitRig(question({ length: 7.6, width: 2.4, connections: [cord(40)] }, site, BARE));
    expect(Math.abs(fit.probability! - (phi(1) + phi(-3.4)))).toBeLessThan(LATTICE);
    expect(fit.verdict).not.toBe("fits");
  });

  it("draws the error of the ground's slope under a drain", () => {
    const drain = { service: "sewer", fromRear: 3, length: 6, height: 0.3 } as const;
    const site = {
      length: 7.6,
      width: 2.4,
      hookups: [{ service: "sewer", along: 1, left: 2.7, height: 0.24 }],
    } as const;
    const level = question({ length: 7.6, width: 2.4, connections: [drain] }, site, {
      ...BARE,
      needs: { sewer: "required" },
    });
    const fit = fitRig(withPad(level, { grade: measured(0, 0.02, "/site/properties/pad/grade") }));
    // Fall 0.06 with an error of 0.02 over 2 m; 2.5 m of run ask for 0.052.
    expect(Math.abs(fit.probability! - phi((0.06 - 2.5 / 48) / 0.04))).toBeLessThan(LATTICE);
  });

  it("draws the place of an obstacle that only a map knows", () => {
    const hookups = [{ service: "power", along: measured(1, 0.05), left: 2.5, height: 1 }] as const;
    const input = question(
      { length: 7.6, width: 2.4, connections: [cord(9, 1)] },
      { length: 12, width: 2.6, hookups },
      BARE,
    );
    const post = obstacle("post", [8, 8.3], [-0.2, 0.1], { sigma: 0.5 });
    const fit = fitRig({ ...input, site: { ...input.site, obstacles: [post] } });
    expect(fit.probability).toBeGreaterThan(phi(0.8) - 2 * LATTICE);
    expect(fit.probability).toBeLessThan(phi(0.8) + 3 * LATTICE);
  });

  it("parks whichever way round serves when both are allowed", () => {
    const hookups = [{ service: "power", along: 3.8, left: measured(2.5, 4), height: 1 }] as const;
    const both = question(
      { length: 7.6, width: 2.4, connections: [cord(6.5)] },
      { length: 7.6, width: 2.4, hookups },
      BARE,
    );
    const stated = { ...both, site: { ...both.site, facingsStated: true } };
    const out = fitRig({ ...stated, options: options({ ...BARE, facings: ["out"] }) }).probability!;
    const inward = fitRig({ ...stated, options: options({ ...BARE, facings: ["in"] }) }).probability!;
    // The pedestal stands on one side or on the other, so the two exclude each other.
    expect(Math.abs(fitRig(stated).probability! - (out + inward))).toBeLessThan(LATTICE);
  });

  it("says unknown, not no, to a pad that is too short by less than its error", () => {
    const hookups = [{ service: "power", along: 2, left: 3, height: 1 }] as const;
    const input = question({ length: 7.6, width: 2.4, connections: [cord(9, 1)] }, { hookups }, BARE);
    expect(fitRig(withPad(input, { length: measured(7.55, 0.5, "/site/properties/pad/length") })).verdict).toBe(
      "unknown",
    );
    expect(fitRig(withPad(input, { length: measured(7.55, 0.001, "/site/properties/pad/length") })).verdict).toBe(
      "does not fit",
    );
  });
});

describe("a rig on its pad", () => {
  it("says so when a line has to leave before the door", () => {
    const right = { service: "power", wall: "right", fromRear: 4.7, length: 9, height: 0.9 } as const;
    const fit = fitRig(
      question({ connections: [right] }, { hookups: [{ service: "power", along: 4, left: -4, height: 1 }] }),
    );
    expect(fit.lines.find((line) => line.service === "power")!.why).toContain("before door");
  });

  it("stands with its tyres at the wheel stop, and is not off beyond it", () => {
    const hookups = [{ service: "power", along: 1.5, left: 3.4, height: 1 }] as const;
    const input = question({ connections: [{ ...cord(9, 1) }] }, { length: 11, hookups });
    const along = exact(1.2, "/site/properties/stop/along");
    const stop = { kind: "wheelStop", along, height: exact(0.1), clearBehind: exact(3) } as const;
    const fit = fitRig({ ...input, site: { ...input.site, stop, pad: { ...input.site.pad, overhangRear: exact(2) } } });
    // Rear overhang 2.3, tyre 0.4: the bumper hangs 1.9 behind the tyres.
    expect(fit.stance!.along).toBeCloseTo(1.2 - 1.9, 6);
    expect(fit.checks.find((check) => check.id === "fit.stop")!.status).toBe("pass");
    expect(fit.checks.find((check) => check.id === "fit.parking")!.status).toBe("pass");
    expect(fit.verdict).toBe("fits");
  });

  it("tells no margin where the rig may not be able to stand", () => {
    const hookups = [{ service: "power", along: 1.5, left: 3.4, height: 1 }] as const;
    const input = question({ connections: [cord(9, 1)] }, { length: 7.6, hookups }, BARE);
    const length = { ...exact(7.55, "/length"), low: 7.3, high: 7.8, basis: "assumed" } as const;
    const line = fitRig({ ...input, rig: { ...input.rig, length } }).lines[0]!;
    expect(line.verdict).toBe("unknown");
    expect(line.marginLow).toBeUndefined();
    expect(line.marginHigh).toBeGreaterThan(0);
    expect(line.why).toContain("cannot stand here at all");
  });

  it("counts an extension aboard once", () => {
    const input = question(
      { connections: [cord(7.62, 1)] },
      { hookups: [{ service: "power", along: 1.5, left: 7.4, height: 1 }] },
    );
    const extension = {
      item: "extension",
      plug: "nema-tt-30",
      receptacle: "nema-tt-30",
      rating: 30,
      length: 7.62,
      addsLength: 7.62,
      gauge: { awg: 10 },
      where: "aboard",
      path: "/kit/0",
    } as const;
    const without = fitRig(input).lines[0]!;
    const fit = fitRig({ ...input, rig: { ...input.rig, kit: [extension] } });
    expect(without.margin).toBeLessThan(0);
    expect(fit.lines[0]!.margin! - without.margin!).toBeLessThan(7.62 + 1);
    expect(fit.verdict).toBe("fits with kit");
    expect(fit.lines[0]!.why).toContain("counting 7.62 m");
  });
});
