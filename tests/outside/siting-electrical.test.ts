/** Where pedestals stand and what cord reaches them, against published figures; each names how it was come by. */
import { describe, expect, it } from "vitest";
import { fitRig } from "../../src/fit/fit.ts";
import type { RigWall } from "../../src/rig/completed.ts";
import { completeSite } from "../../src/site/complete.ts";
import type { CompletedHookup } from "../../src/site/completed.ts";
import { campground } from "../../src/site/schema.ts";
import { options, rig } from "../fit/core/builders.ts";
import { FOOT, fitOf, leastCord, powerLine } from "./code-rigs.ts";

describe("least cords", () => {
  it("E12: a 40 ft coach with its entrance 37 ft from the rear needs 47 ft [NEC 551.46(E) exception: read second-hand, busconversions.com bbs topic 8139.30]", () => {
    const entrance = { wall: "side" as const, fromRear: 37, height: 3 };
    expect(leastCord("551.46", entrance)).toBe(47);
    // With it the product reaches a pedestal at the far corner of the band; with a foot-for-foot shorter one it does not.
    const pedestal = { x: -7, y: 0, height: 3 };
    const inlet = { wall: "left", at: 37, height: 3 } as const;
    expect(powerLine(fitOf({ ...inlet, cord: 47 }, pedestal)).verdict).toBe("reaches");
    expect(powerLine(fitOf({ ...inlet, cord: 25 }, pedestal)).verdict).toBe("short");
  });

  it("E13: a park trailer: 24.5 ft at the side 4.5 ft up, 28 ft at the rear [NEC 2008 552.44(B): rule read, number derived]", () => {
    expect(leastCord("552.44", { wall: "side" as const, fromRear: 8, height: 4.5 })).toBe(24.5);
    expect(leastCord("552.44", { wall: "rear", fromRear: 0, height: 3 })).toBe(28);
    // Two feet less than a recreational vehicle's: of the ordinary height it still meets the far corner by 0.447 ft.
    const cord = leastCord("552.44", { wall: "side" as const, fromRear: 15, height: 4.5 });
    const line = powerLine(fitOf({ wall: "left", at: 15, height: 4.5, cord }, { x: -7, y: 0, height: 3 }));
    expect(line.margin).toBeCloseTo(0.447, 3);
  });
});

/** The zone that the product takes from the code, in the stand frame of the code's text, feet. */
function zone(layout: "back-in" | "pull-through", length: number, width: number, noseIn = false): CompletedHookup {
  const park = campground.parse({
    id: "invented",
    drivesOn: "right",
    sitingCode: "NEC-551.77",
    electricalSystem: "120/240",
  });
  const pad = { length: `${length} ft`, width: `${width} ft`, accuracy: 0.01 };
  const properties = {
    kind: "site",
    layout,
    heading: 30,
    pad,
    services: { power: "yes" },
    ...(noseIn ? { facings: ["in"] } : {}),
  };
  const completed = completeSite({ type: "Feature", id: "1", geometry: null, properties }, park);
  return completed.hookups.find(({ service }) => service === "power")!;
}

/** Why a place of the stand frame (feet) is outside the zone; null when it is inside. */
function outside(at: CompletedHookup, width: number, x: number, y: number): string | null {
  const [left, along] = [(width / 2 - x) * FOOT, y * FOOT];
  const edge = 1e-6;
  if (left < 0) return "wrong side";
  if (left < at.left!.low - edge) return "too near";
  if (left > at.left!.high + edge) return "too far";
  return along < at.along!.low - edge || along > at.along!.high + edge ? "not along the stand" : null;
}

describe("where the code puts a pedestal that nobody measured", () => {
  const backIn = zone("back-in", 45, 11);

  it.each([
    [-6, 10, null],
    [-4, 10, "too near"],
    [-6, 16, "not along the stand"],
    [6, 10, "wrong side"],
    [-5, 0, null],
    [-7, 15, null],
    [-7.01, 5, "too far"],
  ])("E30: back-in, (%d, %d) ft: %s [NEC 551.77(A): read second-hand]", (x, y, why) => {
    expect(outside(backIn, 11, x, y)).toBe(why);
  });

  it.each([
    [10, "not along the stand"],
    [20, null],
    [30, null],
    [31, "not along the stand"],
  ])(
    "E31: pull-through with its centre at 30 ft, (-6, %d): %s [NEC 551.77(A): from memory; needs a reader of the code]",
    (y, why) => {
      expect(outside(zone("pull-through", 60, 11), 11, -6, y)).toBe(why);
    },
  );

  it("is a zone and never a point, and its heights run from 2 ft to 6 ft 6 in [551.77(D): from memory]", () => {
    expect(backIn.left!.high - backIn.left!.low).toBeCloseTo(2 * FOOT, 9);
    expect(backIn.along!.basis).toBe("code");
    expect([backIn.height!.low, backIn.height!.high]).toEqual([2 * FOOT, 6.5 * FOOT]);
  });

  it("turns with a rig that stands nose in: its left is the pad's right, its rear at the exit [derived]", () => {
    const nosedIn = zone("back-in", 45, 11, true);
    expect(nosedIn.left!.high).toBeLessThan(0);
    expect(nosedIn.along!.high).toBeCloseTo(45 * FOOT, 1);
    expect(nosedIn.along!.low).toBeCloseTo(30 * FOOT, 1);
  });
});

describe("E32: hookups at the right rear as seen from the entrance road [Dillon SC 5-5-34(G): read; corners derived]", () => {
  // Seen from the road one looks against `along`: right is the pad's left, and the rear is the deep end.
  const pedestal = { x: -2, y: 1, height: 3 };
  const corners: readonly (readonly [string, RigWall, number])[] = [
    ["left rear", "left", 2],
    ["right rear", "right", 2],
    ["left front", "left", 38],
    ["right front", "right", 38],
  ];
  const nearest = (facing: "out" | "in") => {
    const ways = corners.map(([corner, wall, at]) => {
      const { needed, route } = powerLine(fitOf({ wall, at, height: 3, cord: 100 }, pedestal, undefined, 0, facing));
      return { corner, needed, route };
    });
    return ways.reduce((best, next) => (next.needed < best.needed ? next : best));
  };

  it("lie at the left rear of a rig that is backed in", () => {
    expect(nearest("out")).toMatchObject({ corner: "left rear", route: "direct" });
  });

  it("lie at the right front of a rig that is nosed in", () => {
    expect(nearest("in")).toMatchObject({ corner: "right front", route: "direct" });
  });
});

describe("the worst corner of band and entrance [derived from NEC 551.46 and 551.77]", () => {
  const corner = (height: number) =>
    powerLine(fitOf({ wall: "left", at: 15, height: 3, cord: 25 }, { x: -7, y: 0, height }));

  it("E33: heights of 3 ft: 22.553 ft needed, 2.447 ft to spare", () => {
    expect(corner(3)).toMatchObject({
      needed: expect.closeTo(22.553, 3),
      margin: expect.closeTo(2.447, 3),
      verdict: "reaches",
    });
  });

  it("E34: receptacle at 6.5 ft: 26.053 ft needed, short by 1.053 ft", () => {
    expect(corner(6.5)).toMatchObject({ needed: expect.closeTo(26.053, 3), margin: expect.closeTo(-1.053, 3) });
  });

  it("E34b: stretched through the air 16.919 ft would do, so it is tight and not short", () => {
    expect(corner(6.5)).toMatchObject({ neededLeast: expect.closeTo(16.919, 3), verdict: "tight" });
  });
});

describe("E36: what open map data says and does not say of power [OpenStreetMap wiki, Key:power_supply: read]", () => {
  const answer = (services: Record<string, string> | undefined) => {
    const pad = { length: "45 ft", width: "11 ft" };
    const properties = { kind: "site", layout: "back-in", heading: 30, pad, ...(services ? { services } : {}) };
    const completed = completeSite(
      { type: "Feature", id: "1", geometry: null, properties },
      campground.parse({ id: "invented" }),
    );
    const coach = rig({ connections: [{ service: "power", fromRear: 1, length: 7.62 }] });
    const fit = fitRig({
      rig: coach,
      site: completed,
      options: options({ needs: { power: "required" }, detail: "summary" }),
    });
    return { said: completed.services.power, line: fit.lines[0]!.verdict, verdict: fit.verdict };
  };

  it("E36b: power_supply=yes is power of an unknown kind at an unknown place: unknown, never a yes", () => {
    expect(answer({ power: "yes" })).toEqual({ said: "yes", line: "unknown", verdict: "unknown" });
  });

  it("E36c: no tag is unknown, never a no", () => {
    expect(answer(undefined)).toEqual({ said: "unknown", line: "unknown", verdict: "unknown" });
  });

  it("power_supply=no is a no", () => {
    expect(answer({ power: "no" })).toEqual({ said: "no", line: "absent", verdict: "does not fit" });
  });
});
