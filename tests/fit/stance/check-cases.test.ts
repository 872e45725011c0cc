import { describe, expect, it } from "vitest";
import { solveStance } from "../../../src/fit/stance/index.ts";
import {
  bodyPart,
  box,
  drawnRear,
  IN,
  leftLine,
  marginOfLine,
  OUT,
  POWER,
  padLimits,
  refused,
  SEWER,
  solved,
  stanceProblem,
  toPad,
  WATER,
} from "./examples.ts";

/**
 * Thirteen check cases. "By hand" can be followed with a pencil; "derived" was found once by a search written
 * separately from this solver, to 4 decimals. Both are our own arithmetic: no published case of this problem is known.
 */
const FOUR_DECIMALS = 4;

const exactPad = stanceProblem({
  parts: [bodyPart(padLimits(0, 10, -1.25, 1.25))],
  lines: [leftLine({ ...POWER, at: [2, 4.25, 1] })],
});

describe("check cases", () => {
  it("1 (by hand): on a pad the size of the body the power line straight out needs 5.2 m and has 2.42 m to spare", () => {
    const answer = solved(solveStance(exactPad, { facings: IN }));
    expect(answer.worst).toBeCloseTo(2.42, 9);
    expect(drawnRear(answer).x).toBeCloseTo(0, 9);
    expect(answer.lines[0]?.route).toBe("direct");
    expect(answer.lines[0]?.run).toBeCloseTo(3, 9);
    expect(answer.proven).toBe(true);
  });

  it("2 (by hand): turned round, the line goes round the rear by two corners and is 7.624 m short", () => {
    const answer = solved(solveStance(exactPad, { facings: OUT }));
    expect(answer.worst).toBeCloseTo(7.62 - 0.3 - 0.9 - 1 - (2 + 2.5 + Math.sqrt(73)), 9);
    expect(answer.worst).toBeCloseTo(-7.624, 3);
    const [line] = answer.lines;
    expect(line?.route).toBe("around-rear");
    const path = [toPad(8, -1.25), toPad(10, -1.25), toPad(10, 1.25), toPad(2, 4.25)];
    path.forEach((point, index) => {
      expect(line?.path[index]?.along).toBeCloseTo(point.along, 9);
      expect(line?.path[index]?.left).toBeCloseTo(point.left, 9);
    });
  });

  it("3 (by hand): the same with a way beneath is 2.7194 m short", () => {
    const [line] = exactPad.lines;
    const beneath = { ...(line as (typeof exactPad.lines)[0]), mayRunBeneath: true };
    const answer = solved(solveStance({ ...exactPad, lines: [beneath] }, { facings: OUT }));
    expect(answer.worst).toBeCloseTo(4.42 + 1 - 1 - 0 - Math.hypot(6, 5.5) + 1, 9);
    expect(answer.worst).toBeCloseTo(-2.7194, FOUR_DECIMALS);
    expect(answer.lines[0]?.route).toBe("beneath");
  });

  it("4 (derived): three lines, power and sewer bind against the pad's edge at 1.5365 m", () => {
    const answer = solved(solveStance(stanceProblem({})));
    expect(answer.worst).toBeCloseTo(1.5365, FOUR_DECIMALS);
    expect(answer.stance.facing).toBe("in");
    const rear = drawnRear(answer);
    expect(rear.x).toBeCloseTo(2.6711, FOUR_DECIMALS);
    expect(rear.y).toBeCloseTo(0.75, 9);
    expect(answer.stance.along).toBeCloseTo(14 - 2.6711 - 10, FOUR_DECIMALS);
    expect(marginOfLine(answer, "power")).toBeCloseTo(1.5365, FOUR_DECIMALS);
    expect(marginOfLine(answer, "water")).toBeCloseTo(4.2439, FOUR_DECIMALS);
    expect(marginOfLine(answer, "sewer")).toBeCloseTo(1.5365, FOUR_DECIMALS);
  });

  it("5 (derived): nose to the exit the sewer hose round the front corner is 7.25 m short", () => {
    const answer = solved(solveStance(stanceProblem({}), { facings: OUT }));
    expect(answer.worst).toBeCloseTo(-7.25, FOUR_DECIMALS);
    const rear = drawnRear(answer);
    expect(rear.x).toBeCloseTo(14, FOUR_DECIMALS);
    expect(rear.y).toBeCloseTo(0.75, FOUR_DECIMALS);
    const need = (id: string, available: number): number => available - marginOfLine(answer, id);
    expect(need("sewer", 4.5)).toBeCloseTo(11.75, FOUR_DECIMALS);
    expect(need("power", 7.62)).toBeCloseTo(13.0246, FOUR_DECIMALS);
    expect(need("water", 7.62)).toBeCloseTo(13.6715, FOUR_DECIMALS);
    expect(answer.lines.map((line) => line.route)).toEqual(["around-rear", "around-front", "around-front"]);
  });

  it("6 (derived): two lines pull apart, 0.5556 m short", () => {
    const problem = stanceProblem({
      parts: [bodyPart(padLimits(-30, 44, -30, 2))],
      lines: [leftLine({ ...POWER, at: [12, 4, 1] }), leftLine({ ...WATER, at: [2, 4, 0.5] })],
    });
    const answer = solved(solveStance(problem, { facings: IN }));
    expect(answer.worst).toBeCloseTo(-0.5556, FOUR_DECIMALS);
    const rear = drawnRear(answer);
    expect(rear.x).toBeCloseTo(4.369, FOUR_DECIMALS);
    expect(rear.y).toBeCloseTo(0.75, FOUR_DECIMALS);
    expect(answer.worst).toBeCloseTo(5.42 - Math.hypot(5.631, 2), 3);
  });

  it("7 (derived): three lines beneath bind together, 1.0650 m short on all", () => {
    const problem = stanceProblem({
      parts: [bodyPart(padLimits(-20, 30, -20, 20))],
      lines: [
        leftLine({ ...POWER, fromRear: 1, at: [4, 9, 1], beneath: true }),
        leftLine({ ...WATER, fromRear: 8, at: [5, 9, 0.5], beneath: true }),
        leftLine({ ...SEWER, fromRear: 4, at: [4, -2, 0], beneath: true }),
      ].map((line) => ({ ...line, inlet: { fromRear: line.inlet.fromRear, left: 1.25 } })),
    });
    const answer = solved(solveStance(problem, { facings: IN }));
    expect(answer.worst).toBeCloseTo(-1.065, FOUR_DECIMALS);
    for (const line of answer.lines) expect(line.margin).toBeCloseTo(-1.065, FOUR_DECIMALS);
    const rear = drawnRear(answer);
    expect(rear.x).toBeCloseTo(0.7974, FOUR_DECIMALS);
    expect(rear.y).toBeCloseTo(1.6505, FOUR_DECIMALS);
  });

  it("8 (derived): the body's side stops at the pedestal, 1.5502 m", () => {
    const problem = stanceProblem({
      lines: [
        leftLine({ ...POWER, at: [8, 1.8, 1] }),
        leftLine({ ...WATER, at: [7.2, 3.8, 0.5] }),
        leftLine({ ...SEWER, at: [4, 3.6, 0.05] }),
      ],
      obstacles: [box("pedestal", [7.8, 8.2], [1.6, 2.0], 0, 1.2)],
    });
    const answer = solved(solveStance(problem, { facings: IN }));
    expect(answer.worst).toBeCloseTo(1.5502, FOUR_DECIMALS);
    const rear = drawnRear(answer);
    expect(rear.x).toBeCloseTo(2.1354, FOUR_DECIMALS);
    expect(rear.y).toBeCloseTo(0.35, 9);
    expect(marginOfLine(answer, "water")).toBeCloseTo(3.6759, FOUR_DECIMALS);
    expect(answer.contacts).toEqual([]);
  });

  it("9 (derived): the rig passes beside the tree, 2.2768 m short", () => {
    const problem = stanceProblem({
      lines: [
        leftLine({ ...POWER, at: [13, 4, 1] }),
        leftLine({ ...WATER, at: [13, 3.6, 0.5] }),
        leftLine({ ...SEWER, at: [12, 3, 0] }),
      ],
      obstacles: [box("tree", [11.5, 12.1], [0.8, 1.4], 0, 8)],
    });
    const answer = solved(solveStance(problem, { facings: IN }));
    expect(answer.worst).toBeCloseTo(-2.2768, FOUR_DECIMALS);
    const rear = drawnRear(answer);
    expect(rear.x).toBeCloseTo(4, FOUR_DECIMALS);
    expect(rear.y).toBeCloseTo(-0.45, FOUR_DECIMALS);
    expect(marginOfLine(answer, "water")).toBeCloseTo(0.3894, FOUR_DECIMALS);
    expect(marginOfLine(answer, "sewer")).toBeCloseTo(-1.5626, FOUR_DECIMALS);
  });

  it("10 (derived): a slide passes over the table and stops at the post, 0.9599 m", () => {
    const limits = padLimits(0, 14, -2, 2.2);
    const slide = {
      id: "slide",
      kind: "slide",
      fromRearMin: 3,
      fromRearMax: 6,
      leftMin: 1.25,
      leftMax: 2.15,
      from: 0.8,
      to: 2.6,
      limits,
    } as const;
    const problem = stanceProblem({
      parts: [bodyPart(limits), slide],
      obstacles: [box("table", [5, 7], [2.2, 3], 0, 0.75), box("post", [8.45, 8.55], [1.8, 1.9], 0, 1.1)],
    });
    const answer = solved(solveStance(problem, { facings: IN }));
    expect(answer.worst).toBeCloseTo(0.9599, FOUR_DECIMALS);
    const rear = drawnRear(answer);
    expect(rear.x).toBeCloseTo(2.45, FOUR_DECIMALS);
    expect(rear.y).toBeCloseTo(0.05, FOUR_DECIMALS);
  });

  it("11 (by hand): a pad of 9.9 m is 0.1 m too short for the rig", () => {
    const problem = stanceProblem({ parts: [bodyPart(padLimits(0, 9.9, -2, 2))] });
    const answer = refused(solveStance(problem));
    expect(answer.reason).toBe("limits");
    expect(answer.excess).toBeCloseTo(0.1, 9);
    expect([...answer.blockers].sort()).toEqual(["pad edge at the exit", "pad edge at the rear"]);
  });

  it("12 (derived): the extra on power alone is 3.5939 m; extra on water or sewer alone does not help", () => {
    const problem = stanceProblem({
      parts: [bodyPart(padLimits(0, 12, -1.5, 1.5))],
      lines: [
        leftLine({ ...POWER, at: [12.5, 4.5, 1] }),
        leftLine({ ...WATER, at: [6, 3.8, 0.5] }),
        leftLine({ ...SEWER, at: [5, 3, 0.05] }),
      ],
    });
    const answer = solved(solveStance(problem, { facings: IN }));
    expect(answer.worst).toBeCloseTo(-3.5939, FOUR_DECIMALS);
    const rear = drawnRear(answer);
    expect(rear.x).toBeCloseTo(2, FOUR_DECIMALS);
    expect(rear.y).toBeCloseTo(0.25, FOUR_DECIMALS);
    const alone = solved(solveStance(problem, { facings: IN, floors: [null, 0, 0] }));
    expect(alone.worst).toBeCloseTo(-3.5939, FOUR_DECIMALS);
    const waterAlone = refused(solveStance(problem, { facings: IN, floors: [0, null, 0] }));
    expect(waterAlone.reason).toBe("lines");
    expect(waterAlone.blockers).toEqual(["power"]);
    expect(refused(solveStance(problem, { facings: IN, floors: [0, 0, null] })).blockers).toEqual(["power"]);
  });

  it("13 (derived): three degrees of yaw cost margin, 1.2858 m against 1.5365 m", () => {
    const problem = stanceProblem({ parts: [bodyPart(padLimits(0, 13, -2, 2))] });
    const yaw = (-3 * Math.PI) / 180;
    const turned = solved(solveStance(problem, { facings: IN, yaws: [yaw] }));
    expect(turned.worst).toBeCloseTo(1.2858, FOUR_DECIMALS);
    const rear = drawnRear(turned);
    expect(rear.x).toBeCloseTo(2.7153, FOUR_DECIMALS);
    expect(rear.y).toBeCloseTo(0.2284, FOUR_DECIMALS);
    expect(solved(solveStance(problem, { facings: IN, yaws: [0, yaw] })).worst).toBeCloseTo(1.5365, FOUR_DECIMALS);
  });
});
