import { describe, expect, it } from "vitest";
import {
  bestMargin,
  boxOutline,
  compileStance,
  evaluateStance,
  moveTargets,
  padToRig,
  rigToPad,
  type Stance,
  type StanceProblem,
  solveStance,
} from "../../../src/fit/stance/index.ts";
import { bodyPart, box, IN, LENGTH, leftLine, POWER, padLimits, refused, solved, stanceProblem } from "./examples.ts";

describe("frames", () => {
  const stance: Stance = { facing: "in", along: 2.5, left: -0.4, yaw: 0.1 };

  it("turns the nose towards left with positive yaw, facing in as well as out", () => {
    for (const facing of ["in", "out"] as const) {
      const at = { ...stance, facing };
      const nose = rigToPad(at, LENGTH, { fromRear: LENGTH, left: 0 });
      const rear = rigToPad(at, LENGTH, { fromRear: 0, left: 0 });
      expect(nose.left - rear.left).toBeCloseTo(LENGTH * Math.sin(0.1), 9);
      expect(Math.sign(nose.along - rear.along)).toBe(facing === "out" ? 1 : -1);
      const nearer = facing === "out" ? rear : nose;
      expect(nearer.along).toBeCloseTo(2.5, 9);
      expect(nearer.left).toBeCloseTo(-0.4, 9);
    }
  });

  it("goes there and back", () => {
    const point = { fromRear: 3.7, left: -1.1 };
    const back = padToRig(stance, LENGTH, rigToPad(stance, LENGTH, point));
    expect(back.fromRear).toBeCloseTo(point.fromRear, 12);
    expect(back.left).toBeCloseTo(point.left, 12);
  });

  it("draws a box counter-clockwise", () => {
    const outline = boxOutline(stance, LENGTH, { fromRearMin: 1, fromRearMax: 4, leftMin: 1.25, leftMax: 2 });
    let doubleArea = 0;
    outline.forEach((point, index) => {
      const next = outline[(index + 1) % outline.length] as typeof point;
      doubleArea += point.along * next.left - next.along * point.left;
    });
    expect(doubleArea / 2).toBeCloseTo(3 * 0.75, 9);
  });
});

describe("floors", () => {
  it("gives the line without a floor all that the others leave", () => {
    const answer = solved(solveStance(stanceProblem({}), { facings: IN, floors: [1, null, 1] }));
    expect(answer.worst).toBeGreaterThan(4.2439);
    expect(answer.worst).toBeCloseTo(answer.lines[1]?.margin as number, 8);
    expect(answer.lines[0]?.margin).toBeGreaterThan(1 - 1e-8);
    expect(answer.lines[2]?.margin).toBeGreaterThan(1 - 1e-8);
  });

  it("finds the same stance again when the floors are the best margin itself", () => {
    const best = solved(solveStance(stanceProblem({}), { facings: IN }));
    const floors = [best.worst, null, best.worst];
    const again = solved(solveStance(stanceProblem({}), { facings: IN, floors }));
    expect(again.stance.along).toBeCloseTo(best.stance.along, 3);
    expect(again.lines[0]?.margin).toBeGreaterThan(best.worst - 1e-8);
  });

  it("says which line cannot keep its floor", () => {
    const answer = refused(solveStance(stanceProblem({}), { facings: IN, floors: [null, 6.2, null] }));
    expect(answer.reason).toBe("lines");
    expect(answer.blockers).toEqual(["water"]);
  });
});

describe("towards a point", () => {
  const point = { along: 6, left: 0.3 };

  it("brings the centre of the body there when the floors allow it", () => {
    const answer = solved(solveStance(stanceProblem({}), { towards: point, facings: IN }));
    expect(answer.worst).toBeCloseTo(0, 9);
    expect(answer.stance).toMatchObject({ along: expect.closeTo(1, 9), left: expect.closeTo(0.3, 9) });
  });

  it("stops where a floor begins to break", () => {
    const floors = [1.2, 1.2, 1.2];
    const answer = solved(solveStance(stanceProblem({}), { towards: { along: 9, left: 0.3 }, facings: IN, floors }));
    const centre = rigToPad(answer.stance, LENGTH, { fromRear: LENGTH / 2, left: 0 });
    expect(answer.worst).toBeCloseTo(-Math.hypot(centre.along - 9, centre.left - 0.3), 8);
    expect(Math.min(...answer.lines.map((line) => line.margin))).toBeCloseTo(1.2, 7);
  });

  it("stands in the middle of the limits when nothing is asked of any line", () => {
    const answer = solved(solveStance(stanceProblem({ lines: [] }), { facings: IN }));
    expect(answer.worst).toBe(Infinity);
    expect(answer.stance).toMatchObject({ along: expect.closeTo(2, 9), left: expect.closeTo(0, 9) });
    expect(bestMargin(compileStance(stanceProblem({ lines: [] })))).toBe(Infinity);
  });
});

describe("no stance", () => {
  it("names the obstacle that fills the pad", () => {
    const answer = refused(solveStance(stanceProblem({ obstacles: [box("boulder", [3, 11], [-0.8, 0.9], 0, 1)] })));
    expect(answer).toMatchObject({ reason: "obstacles", blockers: ["boulder"], proven: true });
  });

  it("names the line whose hookup lies under the rig wherever it stands", () => {
    const under = leftLine({ ...POWER, at: [7, 0.1, 0] });
    const answer = refused(solveStance(stanceProblem({ lines: [under] })));
    expect(answer).toMatchObject({ reason: "lines", blockers: ["power"] });
  });

  it("grows every part by the scatter of parking", () => {
    const problem = stanceProblem({ parts: [bodyPart(padLimits(0, 10.1, -2, 2))] });
    expect(solved(solveStance(problem)).contacts).toEqual([]);
    const answer = refused(solveStance(problem, { grow: { lengthwise: 0.15, sidewise: 0.05 } }));
    expect(answer.excess).toBeCloseTo(0.2, 9);
  });
});

describe("the compiled path", () => {
  const problem = stanceProblem({ obstacles: [box("post", [8.45, 8.55], [1.3, 1.9], 0, 1.1)] });

  it("gives the margin that the whole solve gives", () => {
    const compiled = compileStance(problem);
    const whole = solved(solveStance(problem));
    expect(bestMargin(compiled)).toBe(whole.worst);
    expect(bestMargin(compiled)).toBe(whole.worst);
  });

  it("moves targets and budgets without compiling again", () => {
    const compiled = compileStance(problem);
    const before = bestMargin(compiled);
    const lines = problem.lines.map((line, index) => ({
      ...line,
      target: { along: line.target.along + 0.7 * index - 1, left: line.target.left - 0.2 },
      law: { ...line.law, budget: line.law.budget + 0.1 + index },
    }));
    const targets = Float64Array.from(lines.flatMap((line) => [line.target.along, line.target.left]));
    moveTargets(
      compiled,
      targets,
      Float64Array.from(lines, (line) => line.law.budget),
    );
    const moved = bestMargin(compiled);
    expect(moved).toBeCloseTo(solved(solveStance({ ...problem, lines })).worst, 12);
    expect(Math.abs(moved - before)).toBeGreaterThan(0.01);
    const back = Float64Array.from(problem.lines.flatMap((line) => [line.target.along, line.target.left]));
    moveTargets(
      compiled,
      back,
      Float64Array.from(problem.lines, (line) => line.law.budget),
    );
    expect(bestMargin(compiled)).toBeCloseTo(before, 12);
  });

  it("moves targets among barriers too", () => {
    const hedge = box("hedge", [3, 6], [2.5, 2.7], 0, 1);
    const walled: StanceProblem = { ...problem, barriers: [hedge] };
    const compiled = compileStance(walled);
    bestMargin(compiled);
    const lines = problem.lines.map((line) => ({
      ...line,
      target: { along: line.target.along, left: line.target.left - 0.3 },
    }));
    moveTargets(compiled, Float64Array.from(lines.flatMap((line) => [line.target.along, line.target.left])));
    expect(bestMargin(compiled)).toBeCloseTo(solved(solveStance({ ...walled, lines })).worst, 12);
  });

  it("answers unproven with a bracket when the nodes run out", () => {
    const crowd = stanceProblem({
      obstacles: [0, 1, 2, 3, 4, 5].map((n) =>
        box(`post ${n}`, [1.3 + 2.1 * n, 1.5 + 2.1 * n], [0.9 - 0.07 * n, 2.2], 0, 2),
      ),
    });
    const exact = solved(solveStance(crowd));
    expect(exact.proven).toBe(true);
    const hasty = solved(solveStance(crowd, { nodeLimit: 1 }));
    expect(hasty.proven).toBe(false);
    expect(hasty.worst).toBeLessThanOrEqual(exact.worst);
    expect(hasty.bound).toBeGreaterThanOrEqual(exact.worst);
    expect(hasty.contacts).toEqual([]);
  });
});

describe("a stance as it is", () => {
  it("says how far a part stands over the edge and in an obstacle", () => {
    const problem = stanceProblem({ obstacles: [box("post", [5, 5.2], [1.15, 1.6], 0, 1)] });
    const seen = evaluateStance(problem, { facing: "in", along: -0.25, left: 0, yaw: 0 });
    expect(seen.contacts).toEqual([
      { part: "body", against: "pad edge at the rear", depth: expect.closeTo(0.25, 9) },
      { part: "body", against: "post", depth: expect.closeTo(0.1, 9) },
    ]);
  });

  it("does not change when the whole site is mirrored with the rig", () => {
    const problem = stanceProblem({ obstacles: [box("post", [8.45, 8.55], [1.3, 1.9], 0, 1.1)] });
    const flip = <T extends { readonly left: number }>(point: T): T => ({ ...point, left: -point.left });
    const mirrored: StanceProblem = {
      ...problem,
      parts: problem.parts.map((part) => ({
        ...part,
        leftMin: -part.leftMax,
        leftMax: -part.leftMin,
        limits: part.limits.map(flip),
      })),
      obstacles: problem.obstacles.map((obstacle) => ({
        ...obstacle,
        outline: [...obstacle.outline].reverse().map(flip),
      })),
      lines: problem.lines.map((line) => ({
        ...line,
        inlet: flip(line.inlet),
        wall: "right",
        target: flip(line.target),
      })),
    };
    const one = solved(solveStance(problem));
    const other = solved(solveStance(mirrored));
    expect(other.worst).toBeCloseTo(one.worst, 12);
    expect(other.stance.left).toBeCloseTo(-one.stance.left, 9);
  });
});
