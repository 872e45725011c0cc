import { describe, expect, it } from "vitest";
import { evaluateStance, type LineBarrier, type StanceProblem, solveStance } from "../../../src/fit/stance/index.ts";
import { bodyPart, box, IN, leftLine, OUT, POWER, padLimits, solved, stanceProblem, toPad } from "./examples.ts";

const exactPad = stanceProblem({
  parts: [bodyPart(padLimits(0, 10, -1.25, 1.25))],
  lines: [leftLine({ ...POWER, at: [2, 4.25, 1] })],
});

function runOf(problem: StanceProblem, facings: readonly ("in" | "out")[]): number {
  const answer = solved(solveStance(problem, { facings }));
  expect(answer.worst).toBeCloseTo(answer.lines[0]?.margin as number, 7);
  return answer.lines[0]?.run as number;
}

function zone(fromRear: readonly [number, number], left: readonly [number, number]): StanceProblem["keepOuts"][number] {
  const [fromRearMin, fromRearMax] = fromRear;
  return { id: "zone", fromRearMin, fromRearMax, leftMin: left[0], leftMax: left[1] };
}

describe("zones of the rig", () => {
  it("goes round a zone before the inlet by its nearer side (by hand)", () => {
    const run = runOf({ ...exactPad, keepOuts: [zone([1.5, 3], [2, 3])] }, IN);
    expect(run).toBeCloseTo(Math.hypot(0.5, 0.75) + 1 + Math.hypot(0.5, 1.25), 7);
  });

  it("goes round a door that stands on the wall instead of slipping behind it (by hand)", () => {
    const run = runOf({ ...exactPad, keepOuts: [zone([0.5, 1], [1.25, 1.75])] }, OUT);
    const round = Math.hypot(1, 0.5) + 0.5 + Math.hypot(0.5, 0.5);
    expect(run).toBeCloseTo(round + 2.5 + Math.sqrt(73), 7);
  });

  it("goes round a tyre beneath the rig (by hand)", () => {
    const lines = exactPad.lines.map((line) => ({ ...line, mayRunBeneath: true }));
    const run = runOf({ ...exactPad, lines, keepOuts: [zone([4.6, 5.4], [-1.8, -1.3])] }, OUT);
    expect(run).toBeCloseTo(Math.hypot(3.4, 2.55) + Math.hypot(2.6, 2.95), 7);
  });

  it("closes the seam behind a zone about a corner without stopping up the other wall (by hand)", () => {
    // On the rear wall about its left corner: the line along the left wall has to go round the zone's outer corners.
    const keepOuts = [zone([-0.4, 0], [0.9, 1.65])];
    const run = runOf({ ...exactPad, keepOuts }, OUT);
    const round = Math.hypot(2, 0.4) + 0.4 + 0.75 + Math.hypot(0.4, 2.15);
    expect(run).toBeCloseTo(round + Math.sqrt(73), 6);
  });

  it("ignores a zone on the other side", () => {
    expect(runOf({ ...exactPad, keepOuts: [zone([1.5, 3], [-3, -2])] }, IN)).toBeCloseTo(3, 9);
  });
});

describe("barriers", () => {
  const hedge = (x: readonly [number, number], y: readonly [number, number]): LineBarrier => box("hedge", x, y, 0, 1);

  it("bends round a hedge (by hand)", () => {
    const problem = { ...exactPad, barriers: [hedge([1.5, 3], [2, 3])] };
    const run = runOf(problem, IN);
    expect(run).toBeCloseTo(Math.hypot(0.5, 0.75) + 1 + Math.hypot(0.5, 1.25), 7);
    const line = solved(solveStance(problem, { facings: IN })).lines[0];
    expect(line?.detours).toEqual(["hedge"]);
    expect(line?.route).toBe("direct");
    expect(line?.path).toHaveLength(4);
  });

  it("ignores a barrier round the hookup itself", () => {
    expect(runOf({ ...exactPad, barriers: [hedge([1, 3], [4, 5])] }, IN)).toBeCloseTo(3, 9);
  });

  it("goes round the near end of a wall behind the rig (by hand)", () => {
    const problem = {
      ...exactPad,
      lines: [leftLine({ ...POWER, at: [-2, -5, 1] })],
      barriers: [hedge([-1.2, -1], [-6, 0.6])],
    };
    expect(runOf(problem, IN)).toBeCloseTo(2 + Math.hypot(1.2, 0.65) + Math.hypot(0.8, 5.6), 7);
  });

  it("never cuts through the rig on the way from a barrier's corner (by hand)", () => {
    const problem = {
      ...exactPad,
      lines: [leftLine({ ...POWER, at: [2, -4.25, 1] })],
      barriers: [hedge([1.5, 3], [2, 3])],
    };
    expect(runOf(problem, IN)).toBeCloseTo(2 + 2.5 + Math.hypot(2, 3), 7);
  });

  it("parks out of the hedge's shadow when that is worth more than the detour", () => {
    const problem = stanceProblem({
      parts: [bodyPart(padLimits(0, 16, -1.25, 1.25))],
      facings: IN,
      lines: [leftLine({ ...POWER, at: [6, 4.25, 1] })],
      barriers: [hedge([4, 6.2], [3.6, 3.7])],
    });
    const answer = solved(solveStance(problem));
    expect(answer.proven).toBe(true);
    let best = -Infinity;
    for (let along = -2; along <= 4; along += 0.001) {
      const seen = evaluateStance(problem, { ...answer.stance, along, left: answer.stance.left });
      if (seen.contacts.length === 0) best = Math.max(best, seen.lines[0]?.margin as number);
    }
    expect(answer.worst).toBeGreaterThanOrEqual(best - 1e-9);
    expect(answer.worst).toBeLessThan(best + 0.001);
    const alone = solved(solveStance({ ...problem, barriers: [] }));
    expect(answer.worst).toBeLessThan(alone.worst - 0.001);
  });

  it("has no way to a hookup that is walled in on all sides of the target's yard", () => {
    const { along, left } = toPad(2, 4.25);
    const bar = (id: string, points: readonly (readonly [number, number])[]): LineBarrier => ({
      id,
      what: "wall",
      outline: points.map(([a, l]) => ({ along: along + a, left: left + l })),
    });
    const walls = [
      bar("south", [
        [-1, -1],
        [1, -1],
        [1, -0.8],
        [-1, -0.8],
      ]),
      bar("north", [
        [-1, 0.8],
        [1, 0.8],
        [1, 1],
        [-1, 1],
      ]),
      bar("west", [
        [-1, -1],
        [-0.8, -1],
        [-0.8, 1],
        [-1, 1],
      ]),
      bar("east", [
        [0.8, -1],
        [1, -1],
        [1, 1],
        [0.8, 1],
      ]),
    ];
    const problem = { ...exactPad, barriers: walls };
    const answer = solveStance(problem, { facings: IN });
    expect(answer).toMatchObject({ feasible: false, reason: "lines", blockers: ["power"] });
    const seen = evaluateStance(problem, { facing: "in", along: 4, left: 0, yaw: 0 });
    expect(seen.lines[0]?.run).toBe(Infinity);
    expect(seen.lines[0]?.margin).toBe(-Infinity);
  });
});
