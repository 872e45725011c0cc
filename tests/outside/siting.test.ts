/** Siting against published figures; each case names its source and how it was come by. */
import { describe, expect, it } from "vitest";
import {
  accessibleControls,
  accessibleGround,
  accessibleUnits,
  accessibleWater,
  accessibleWidth,
} from "../../src/fit/clearance/accessible.ts";
import { cautionsFor, generatorTooNear } from "../../src/fit/clearance/cautions.ts";
import { secondVehicle, statedWidth } from "../../src/fit/clearance/limits.ts";
import { overhead } from "../../src/fit/clearance/overhead.ts";
import { padLength } from "../../src/fit/clearance/pad.ts";
import { placeRig } from "../../src/fit/clearance/placed.ts";
import { type Neighbour, separation } from "../../src/fit/clearance/separation.ts";
import { levelRig } from "../../src/fit/level/level.ts";
import { sayer } from "../../src/fit/say.ts";
import { awning, FOOT, INCH, known, obstacle, pad, rig, site, slide } from "../fit/clearance/fixtures.ts";

const say = sayer("us");
const OUT = { facing: "out", along: 1, left: 0, yaw: 0 } as const;

describe("accessible sites [ABA outdoor developed areas, U.S. Access Board summaries: read]", () => {
  it("P10: spout at 36 in, control at 50 in, clear ground 30 by 48 in all miss; a sewage hatch is exempt [ABA 1011]", () => {
    expect(accessibleWater(known(36 * INCH), "/x", say).status).toBe("fail");
    expect(accessibleControls(known(50 * INCH), "/x", false, say).status).toBe("fail");
    expect(accessibleGround(48 * INCH, 30 * INCH, say).status).toBe("fail");
    expect(accessibleGround(60 * INCH, 30 * INCH, say).status).toBe("pass");
    expect(accessibleControls(known(0), "/x", true, say).status).toBe("not applicable");
    expect(accessibleWater(known(28 * INCH), "/x", say).status).toBe("pass");
    expect(accessibleWater(known(27 * INCH), "/x", say).status).toBe("fail");
  });

  it("P11: accessible units among RV units [F244.2; rounding up F104.2 from memory]", () => {
    expect([1, 15, 30, 100, 130, 200, 250, 251].map(accessibleUnits)).toEqual([1, 2, 3, 5, 7, 8, 9, 10]);
  });

  it("P11b: 18 ft alone misses, 20 beside 16 meets, 16 beside 16 misses [ABA 1012.2]", () => {
    expect(accessibleWidth(known(18 * FOOT), null, say).status).toBe("fail");
    expect(accessibleWidth(known(16 * FOOT), 20 * FOOT, say).status).toBe("pass");
    expect(accessibleWidth(known(16 * FOOT), 16 * FOOT, say).status).toBe("fail");
    expect(accessibleWidth(known(20 * FOOT), null, say).status).toBe("pass");
  });
});

describe("separation", () => {
  const wide = known(8.5 * FOOT);
  const long = known(30 * FOOT);
  const mine = rig({
    width: wide,
    length: long,
    slideouts: [],
    awnings: [awning({ projection: known(10 * FOOT), fromRear: known(2) })],
  });
  const placed = placeRig(mine, OUT);
  /** The neighbour to the right, nose out too, with a 3 ft slide on its left; centres so many feet apart. */
  const neighbour = (centres: number): Neighbour => {
    const left = -centres * FOOT + (8.5 / 2 + 3) * FOOT;
    return {
      id: "next door",
      kind: "rig",
      outline: [
        { along: 0, left: -60 * FOOT },
        { along: 12, left: -60 * FOOT },
        { along: 12, left },
        { along: 0, left },
      ],
    };
  };

  it.each(["ri-32-7-8", "oar-333-031-0062", "lindon-ut-17-78-040"])(
    "P19: 40 ft between centres leaves 18.5 ft, 30 ft leaves 8.5 ft, below 10 [%s: read; distances derived]",
    (rule) => {
      const far = separation(placed, rule, [neighbour(40)], true, say);
      const near = separation(placed, rule, [neighbour(30)], true, say);
      expect((far.value as number) / FOOT).toBeCloseTo(18.5, 9);
      expect(far.status).toBe("pass");
      expect((near.value as number) / FOOT).toBeCloseTo(8.5, 9);
      expect(near.status).toBe("fail");
      expect(separation(placed, rule, [neighbour(30)], false, say).status).toBe("pass");
    },
  );

  it("P30: 4 ft end to end meets Clay County MN (3), misses Pasco WA (12) and Auburn WA (10) [codes: read]", () => {
    const behind: Neighbour = {
      id: "behind",
      kind: "rig",
      outline: [
        { along: -9, left: -1 },
        { along: 1 - 4 * FOOT, left: -1 },
        { along: 1 - 4 * FOOT, left: 1.2 },
        { along: -9, left: 1.2 },
      ],
    };
    const status = (rule: string) => separation(placed, rule, [behind], true, say).status;
    expect(["clay-county-mn-2-3-5", "pasco-wa-25-160-070", "auburn-wa-18-31-060"].map(status)).toEqual([
      "pass",
      "fail",
      "fail",
    ]);
    expect(separation(placed, null, [behind], true, say).status).toBe("not applicable");
  });
});

describe("width and length", () => {
  it("P20: rig 8.5, left slide 3, awning 8 take 19.5 of 25 ft and leave 5.5 [12VAC5-450-70(C): read; derived]", () => {
    const mine = rig({
      width: known(8.5 * FOOT),
      slideouts: [slide({ depth: known(3 * FOOT) })],
      awnings: [awning({ projection: known(8 * FOOT) })],
    });
    const made = statedWidth(
      placeRig(mine, OUT),
      site({ limits: { length: null, width: known(25 * FOOT), height: null, amps: null } }),
      true,
      say,
    );
    expect((made.value as number) / FOOT).toBeCloseTo(19.5, 9);
    expect((made.margin as number) / FOOT).toBeCloseTo(5.5, 9);
    expect(made.status).toBe("pass");
  });

  it("P29: 45 ft on a 50 ft spur leaves 5 ft; 60 ft of rig and car on 55 ft is 5 ft over unless the car stands elsewhere [figures: USFS guidebook, read]", () => {
    const spur = padLength(rig({ length: known(45 * FOOT) }), site({ pad: pad({ length: known(50 * FOOT) }) }), say);
    expect(spur.status).toBe("pass");
    expect((spur.margin as number) / FOOT).toBeCloseTo(5, 9);
    const towing = rig({
      length: known(40 * FOOT),
      towing: { what: "car", length: known(20 * FOOT), coupling: "tow bar" },
    });
    const on = (extraVehicle: "none" | "outline") =>
      secondVehicle(towing, site({ extraVehicle, pad: pad({ length: known(55 * FOOT) }) }), say);
    expect(on("none").status).toBe("fail");
    expect((on("none").margin as number) / FOOT).toBeCloseTo(-5, 9);
    expect(on("none").why).toContain("unless unhitched");
    expect(on("outline").status).toBe("pass");
  });
});

describe("height", () => {
  it("P21: 13 ft 6 in under a branch at 13 ft 9 in leaves 3 in and is tight [derived; no federal height limit: FHWA, read]", () => {
    const tall = placeRig(rig({ height: known((13 + 6 / 12) * FOOT) }), OUT);
    const branch = obstacle("oak", "branch", [3, 4, -0.5, 5], { from: 13.75 * FOOT, to: 9 });
    const made = overhead(tall, site({ obstacles: [branch] }), say);
    expect(made.status).toBe("tight");
    expect((made.margin as number) / INCH).toBeCloseTo(3, 9);
  });
});

describe("blocks [rise = slope times base: derived; 3 degrees for a refrigerator: second-hand, low confidence]", () => {
  it.each([
    { id: "3 % over 96 in", slope: 0.03, inches: 96, rise: 2.88, degrees: 1.718, over: false, across: true },
    { id: "6 % over 96 in", slope: 0.06, inches: 96, rise: 5.76, degrees: 3.434, over: true, across: true },
    { id: "4 % over 240 in", slope: 0.04, inches: 240, rise: 9.6, degrees: 2.291, over: false, across: false },
  ])("P23: $id rises $rise in, $degrees degrees", ({ slope, inches, rise, degrees, over, across }) => {
    const base = known(inches * INCH);
    const made = levelRig(
      {
        grade: known(across ? 0 : slope),
        crossfall: known(across ? slope : 0),
        facing: "out",
        yaw: 0,
        rig: {
          class: "class-a",
          width: across ? base : known(2.5),
          wheelbase: across ? known(6) : base,
          rearOverhang: known(3),
          offLevelLimit: null,
        },
      },
      say,
    );
    const heights = made.answer.blocks.map((block) => block.height / INCH);
    expect(heights).toHaveLength(2);
    for (const height of heights) expect(height).toBeCloseTo(rise, 9);
    expect((Math.atan(made.check.value as number) * 180) / Math.PI).toBeCloseTo(degrees, 3);
    expect(made.refrigerator).toBe(over);
  });
});

describe("cautions", () => {
  it("P18: a sewer hookup brings the word to keep the black valve shut until two thirds [recvehicle.com: second-hand]", () => {
    const text = cautionsFor(new Set(["sewer"])).find((one) => one.id === "sewer-black-shut")?.text;
    expect(text).toContain("black valve shut");
    expect(text).toContain("two thirds");
  });

  it("P24: a generator 15 ft from a neighbour's window is too near, 20 ft is advised [Florida Department of Health: read]", () => {
    expect(generatorTooNear(15 * FOOT)).toBe(true);
    expect(generatorTooNear(20 * FOOT)).toBe(false);
    expect(
      cautionsFor(new Set(["portable-generator"]))
        .map((one) => one.text)
        .join(" "),
    ).toContain("20 ft");
  });
});
