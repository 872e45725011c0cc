import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type LevelInput, levelRig } from "../../../src/fit/level/level.ts";
import { sayer } from "../../../src/fit/say.ts";
import { known, measured, ranged } from "../clearance/fixtures.ts";

const say = sayer("metric");
const coach: LevelInput["rig"] = {
  class: "class-a",
  width: known(2.4),
  wheelbase: known(6),
  rearOverhang: known(3),
  offLevelLimit: null,
};
const trailer: LevelInput["rig"] = { ...coach, class: "travel-trailer" };

function level(grade: number, crossfall: number, over: Partial<LevelInput> = {}) {
  return levelRig(
    { grade: known(grade), crossfall: known(crossfall), facing: "out", yaw: 0, rig: coach, ...over },
    say,
  );
}

function heights(made: ReturnType<typeof level>): Record<string, number> {
  return Object.fromEntries(made.answer.blocks.map((block) => [block.wheel, Number(block.height.toFixed(9))]));
}

describe("slopes seen from the rig", () => {
  it("nose out they are the pad's, nose in both change sign", () => {
    expect(level(0.03, 0.01).answer).toMatchObject({ alongRig: 0.03, acrossRig: 0.01 });
    const inwards = level(0.03, 0.01, { facing: "in" }).answer;
    expect(inwards.alongRig).toBeCloseTo(-0.03, 12);
    expect(inwards.acrossRig).toBeCloseTo(-0.01, 12);
  });

  it("a nose turned towards pad left meets crossfall as climb", () => {
    const made = level(0, 0.04, { yaw: Math.PI / 6 });
    expect(made.answer.alongRig).toBeCloseTo(0.02, 12);
    expect(level(0, 0.04, { yaw: Math.PI / 6, facing: "in" }).answer.alongRig).toBeCloseTo(0.02, 12);
  });

  it("a straight rig across a pad of unknown grade is still unknown, and says which slope it knows", () => {
    const made = levelRig({ grade: null, crossfall: known(0.05), facing: "out", yaw: 0, rig: coach }, say);
    expect(made.answer).toMatchObject({ status: "unknown", alongRig: null, acrossRig: 0.05, blocks: [] });
    expect(made.check.change).toContain("the slope of the pad along it");
    expect(made.raiseAt(1, 1)).toBeNull();
  });
});

describe("blocks of a motor vehicle", () => {
  it("up to 1:48 nothing is raised; above it all four wheels come to the highest", () => {
    const little = level(1 / 48, 0);
    expect(little.answer.status).toBe("pass");
    expect(little.raiseAt(2, 1)).toBe(0);
    // Nose and left high: the front left wheel stays.
    const made = level(0.02, 0.05);
    expect(made.stays).toBe("front left wheel");
    expect(heights(made)).toEqual({ "rear left wheel": 0.12, "front right wheel": 0.12, "rear right wheel": 0.24 });
    expect(made.answer.status).toBe("tight");
    expect(level(0.01, 0.03).answer.status).toBe("pass with kit");
    expect(level(0.01, 0.03).kit?.heights).toHaveLength(3);
  });

  it("the rig's own limit takes the place of 1:48", () => {
    const rig = { ...coach, offLevelLimit: 0.06 };
    expect(level(0.02, 0.05, { rig }).answer).toMatchObject({ status: "pass", blocks: [] });
    expect(level(0.02, 0.05, { rig: { ...coach, offLevelLimit: 0.05 } }).answer.blocks.length).toBe(3);
  });

  it("an overhang uphill of the wheel that stays comes nearer to its ground", () => {
    const made = level(-0.05, 0);
    expect(made.raiseAt(3, 0)).toBeCloseTo(0, 12);
    expect(made.raiseAt(0, 0)).toBeCloseTo(-0.15, 12);
    expect(made.raiseAt(9, 0)).toBeCloseTo(0.3, 12);
  });

  it("a slope known only as a range that straddles the limit is unknown; a poor survey too; a good one tight", () => {
    const grade = (estimate: LevelInput["grade"]) =>
      levelRig({ grade: estimate, crossfall: known(0), facing: "out", yaw: 0, rig: coach }, say).check.status;
    expect(grade(ranged(0.01, 0.03))).toBe("unknown");
    expect(grade(ranged(0.005, 0.015))).toBe("pass");
    expect(grade(ranged(0.022, 0.024))).toBe("pass with kit");
    expect(grade(measured(0.02, 0.004))).toBe("tight");
    expect(grade(measured(0.01, 0.002))).toBe("pass");
  });
});

describe("a trailer", () => {
  it("comes level across on blocks and along by its jack, up or down", () => {
    const low = level(-0.03, 0.02, { rig: trailer });
    expect(heights(low)).toEqual({ "right wheels": 0.048 });
    expect(low.stays).toBe("left wheels");
    // Jack 6 m before the axle: 0.18 m of ground below it and half a track of crossfall.
    expect(low.jack).toBeCloseTo(0.18 + 0.024, 12);
    const high = level(0.03, 0.02, { rig: trailer });
    expect(high.jack).toBeCloseTo(-0.18 + 0.024, 12);
    expect(high.answer.why).toContain("down by");
  });

  it("on grade alone needs its jack and no blocks", () => {
    const made = level(0.04, 0, { rig: trailer });
    expect(made.answer).toMatchObject({ status: "pass", blocks: [] });
    expect(made.kit).toBeNull();
    expect(made.jack).toBeCloseTo(-0.24, 12);
  });
});

describe("properties", () => {
  const slope = fc.double({ min: -0.08, max: 0.08, noNaN: true });
  const yaw = fc.double({ min: -0.3, max: 0.3, noNaN: true });
  const facing = fc.constantFrom("out" as const, "in" as const);

  it("mirroring pad and yaw mirrors the blocks", () => {
    const swap = (name: string) => name.replace(/left|right/, (side) => (side === "left" ? "right" : "left"));
    fc.assert(
      fc.property(slope, slope, yaw, facing, fc.constantFrom(coach, trailer), (grade, crossfall, turn, face, rig) => {
        const one = level(grade, crossfall, { yaw: turn, facing: face, rig });
        const other = level(grade, -crossfall, { yaw: -turn, facing: face, rig });
        const mirrored = other.answer.blocks.map((block) => [swap(block.wheel), block.height] as const);
        const found = new Map(one.answer.blocks.map((block) => [block.wheel, block.height]));
        expect(mirrored.length).toBe(found.size);
        for (const [wheel, height] of mirrored) expect(found.get(wheel)).toBeCloseTo(height, 9);
        expect(one.raiseAt(1.7, 0.9) as number).toBeCloseTo(other.raiseAt(1.7, -0.9) as number, 9);
      }),
    );
  });

  it("levelled, every point of the rig is at its height above one horizontal plane, and no wheel is below the ground", () => {
    fc.assert(
      fc.property(slope, slope, yaw, facing, (grade, crossfall, turn, face) => {
        const made = level(grade, crossfall, { yaw: turn, facing: face });
        const { alongRig, acrossRig } = made.answer as { alongRig: number; acrossRig: number };
        if (made.stays === null) return;
        const plane = (x: number, y: number) => alongRig * x + acrossRig * y + (made.raiseAt(x, y) as number);
        expect(plane(0, 0)).toBeCloseTo(plane(8, 1.2), 9);
        expect(plane(2, -1.2)).toBeCloseTo(plane(8, 1.2), 9);
        for (const [x, y] of [
          [3, 1.2],
          [3, -1.2],
          [9, 1.2],
          [9, -1.2],
        ] as const) {
          expect(made.raiseAt(x, y) as number).toBeGreaterThanOrEqual(-1e-9);
        }
        expect(Math.hypot(alongRig, acrossRig)).toBeCloseTo(Math.hypot(grade, crossfall), 12);
      }),
    );
  });
});
