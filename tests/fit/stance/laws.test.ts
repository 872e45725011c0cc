import { describe, expect, it } from "vitest";
import { evaluateStance, type ReachLaw, type StanceProblem, solveStance } from "../../../src/fit/stance/index.ts";
import { bodyPart, IN, leftLine, padLimits, SEWER, solved, stanceProblem } from "./examples.ts";

/** A pad the size of the body, the hookup 3 m straight out from the inlet: the run is 3 m whatever the solver does. */
function fixed(law: ReachLaw): StanceProblem {
  const line = { ...leftLine({ ...SEWER, fromRear: 2, at: [2, 4.25, 0] }), law };
  return stanceProblem({ parts: [bodyPart(padLimits(0, 10, -1.25, 1.25))], facings: IN, lines: [line] });
}

/** The rig may shift along the pad but not sideways: the run is hypot(3, shift). */
function sliding(law: ReachLaw): StanceProblem {
  const line = { ...leftLine({ ...SEWER, fromRear: 2, at: [7, 4.25, 0] }), law };
  return stanceProblem({ parts: [bodyPart(padLimits(-20, 40, -1.25, 1.25))], facings: IN, lines: [line] });
}

const LEVEL = { slopeAlong: 0, slopeLeft: 0 };

describe("reach laws", () => {
  it("takes the fall out of a supported hose: 4 m less the diagonal of 3 m and 0.4 m (by hand)", () => {
    const answer = solved(solveStance(fixed({ budget: 4, fallAtLevel: 0.4, ...LEVEL })));
    expect(answer.worst).toBeCloseTo(4 - Math.sqrt(9.16), 9);
    expect(answer.lines[0]?.fall).toBe(0.4);
  });

  it("caps the run by the required slope: 0.4 m of fall at one in eight reaches 3.2 m (by hand)", () => {
    const answer = solved(solveStance(fixed({ budget: 4, fallAtLevel: 0.4, requiredSlope: 0.125, ...LEVEL })));
    expect(answer.worst).toBeCloseTo(0.2, 9);
  });

  it("counts a fall the wrong way against the required slope, never as fine (by hand)", () => {
    const answer = solved(solveStance(fixed({ budget: 9, fallAtLevel: -0.1, requiredSlope: 0.02, ...LEVEL })));
    expect(answer.worst).toBeCloseTo(-5 - 3, 9);
  });

  it("adds the rise of the ground between hookup and outlet to the fall (by hand)", () => {
    // The outlet stands 3 m further left than the hookup: 0.05 per metre is 0.15 m.
    const answer = solved(solveStance(fixed({ budget: 9, fallAtLevel: 0.3, slopeAlong: 0.7, slopeLeft: 0.05 })));
    expect(answer.lines[0]?.fall).toBeCloseTo(0.45, 9);
    expect(answer.worst).toBeCloseTo(9 - Math.hypot(3, 0.45), 9);
  });

  it("parks up the slope to gain fall: u* = 3 k / sqrt(1 - k^2) with k the ratio of both slopes (by hand)", () => {
    const law = { budget: 20, fallAtLevel: 0.3, requiredSlope: 0.05, slopeAlong: 0.02, slopeLeft: 0 };
    const answer = solved(solveStance(sliding(law)));
    expect(answer.worst).toBeCloseTo(0.3 / 0.05 - 3 * Math.sqrt(1 - 0.16), 9);
    // The outlet is at the nose plus 8 m; the hookup is at along 7.
    expect(answer.stance.along + 8 - 7).toBeCloseTo((3 * 0.4) / Math.sqrt(1 - 0.16), 5);
    const down = solved(solveStance(sliding({ ...law, slopeAlong: -0.02 })));
    expect(down.stance.along + 8 - 7).toBeCloseTo((-3 * 0.4) / Math.sqrt(1 - 0.16), 5);
  });

  it("agrees with itself when a slope is made so small that the level path must give the same", () => {
    const law = { budget: 5, fallAtLevel: 0.4, requiredSlope: 0.05, ...LEVEL };
    const level = stanceProblem({});
    const sewer = (slopeAlong: number): StanceProblem => ({
      ...level,
      lines: level.lines.map((line) => (line.id === "sewer" ? { ...line, law: { ...law, slopeAlong } } : line)),
    });
    const flat = solved(solveStance(sewer(0)));
    const tilted = solved(solveStance(sewer(1e-12)));
    expect(tilted.worst).toBeCloseTo(flat.worst, 8);
    expect(tilted.stance.along).toBeCloseTo(flat.stance.along, 4);
  });

  it("takes floors and slopes together: the sewer keeps its floor and the others get the rest", () => {
    const level = stanceProblem({});
    const law = { budget: 5, fallAtLevel: 0.4, requiredSlope: 0.05, slopeAlong: 0.012, slopeLeft: -0.02 };
    const problem = {
      ...level,
      lines: level.lines.map((line) => (line.id === "sewer" ? { ...line, law } : line)),
    };
    const even = solved(solveStance(problem, { facings: IN }));
    const floor = even.worst - 0.75;
    const answer = solved(solveStance(problem, { facings: IN, floors: [null, null, floor] }));
    expect(answer.worst).toBeGreaterThan(even.worst);
    expect(answer.lines[2]?.margin).toBeGreaterThan(floor - 1e-8);
    // Any other stance on a fine grid round the answer either breaks the floor or does no better.
    for (let step = 0; step < 64; step++) {
      const angle = (step * Math.PI) / 32;
      const along = answer.stance.along + 0.01 * Math.cos(angle);
      const left = Math.min(0.75, Math.max(-0.75, answer.stance.left + 0.01 * Math.sin(angle)));
      const other = evaluateStance(problem, { ...answer.stance, along, left });
      const [power, water, sewer] = other.lines.map((line) => line.margin) as [number, number, number];
      if (sewer >= floor && other.contacts.length === 0) {
        expect(Math.min(power, water)).toBeLessThanOrEqual(answer.worst + 1e-9);
      }
    }
  });
});
