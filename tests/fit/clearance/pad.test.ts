import { describe, expect, it } from "vitest";
import { overhang, padLength, padWidth, wheelStop } from "../../../src/fit/clearance/pad.ts";
import { placeRig } from "../../../src/fit/clearance/placed.ts";
import { sayer } from "../../../src/fit/say.ts";
import type { CompletedSite } from "../../../src/site/completed.ts";
import { known, obstacle, pad, ranged, rig, site, slide } from "./fixtures.ts";

const say = sayer("metric");
const out = (along: number, left = 0) => ({ facing: "out", along, left, yaw: 0 }) as const;
const inwards = (along: number) => ({ facing: "in", along, left: 0, yaw: 0 }) as const;

describe("fit.length", () => {
  const length = (rigLength: number, over: Partial<CompletedSite["pad"]>) =>
    padLength(rig({ length: known(rigLength) }), site({ pad: pad(over) }), say);
  it("counts the permitted overhang", () => {
    expect(length(9, {}).margin).toBeCloseTo(3, 9);
    expect(length(13, { overhangRear: known(1.2) })).toMatchObject({ status: "pass", limit: 13.2 });
    expect(length(13.5, { overhangRear: known(1.2) }).status).toBe("fail");
  });
  it("asks for the overhang where it would decide", () => {
    const made = length(13, {});
    expect(made.status).toBe("unknown");
    expect(made.change).toContain("/site/properties/pad/overhangRear");
    expect(length(15.5, {}).status).toBe("fail");
    expect(length(13, { overhangRear: known(0) }).status).toBe("fail");
  });
  it("a pad without a length is unknown, a range is judged by its ends", () => {
    expect(length(9, { length: null }).status).toBe("unknown");
    expect(length(9, { length: ranged(8, 10), overhangRear: known(0) }).status).toBe("unknown");
    expect(length(9, { length: ranged(9, 10) }).status).toBe("pass");
  });
});

describe("fit.overhang", () => {
  const over = (along: number, permitted: number | null) =>
    overhang(
      placeRig(rig(), out(along)),
      site({ pad: pad({ overhangRear: permitted === null ? null : known(permitted) }) }),
      say,
    );
  it("is told only when something hangs", () => {
    expect(over(0.2, null).status).toBe("not applicable");
    expect(over(-0.8, 1)).toMatchObject({ status: "pass", value: 0.8, limit: 1 });
    expect(over(-1.1, 1).status).toBe("fail");
    expect(over(-0.8, null).status).toBe("unknown");
  });
});

describe("fit.stop", () => {
  const stop = (height: number, clearBehind: number | null) => ({
    kind: "wheelStop" as const,
    along: known(1),
    height: known(height),
    clearBehind: clearBehind === null ? null : known(clearBehind),
  });
  const made = (
    stance: ReturnType<typeof out> | ReturnType<typeof inwards>,
    height = 0.15,
    clear: number | null = 2,
    over = rig(),
  ) => wheelStop(placeRig(over, stance), site({ stop: stop(height, clear) }), say);

  it("needs the wheels before it: rear overhang 3 m, a tyre of 0.4 m radius", () => {
    // Rear axle at along + 3, its tyre reaches back to along + 2.6; the stop is at 1.
    expect(made(out(-1.6)).status).toBe("fail");
    expect(made(out(-1.7)).why).toContain("past the stop");
    expect(made(out(-0.9))).toMatchObject({ status: "pass", value: 1.9, limit: 2 });
  });
  it("nose in it is the front axle that comes first", () => {
    // Front overhang 9 - 3 - 5 = 1 m: the tyre begins 0.6 m behind the nose.
    expect(made(inwards(0.5)).status).toBe("pass");
    expect(made(inwards(0.3)).status).toBe("fail");
  });
  it("the body must clear its height and what lies behind it", () => {
    expect(made(out(-0.9), 0.35).status).toBe("fail");
    expect(made(out(-0.9), 0.27).status).toBe("tight");
    expect(made(out(-0.9), 0.15, 1.5).status).toBe("fail");
    expect(made(out(-0.9), 0.15, null).status).toBe("unknown");
    expect(made(out(1.5), 0.35, null).status).toBe("pass");
  });
  it("without a stop does not apply", () => {
    expect(wheelStop(placeRig(rig(), out(0)), site(), say).status).toBe("not applicable");
  });
});

describe("fit.width", () => {
  const width = (left: number, slides = rig().slideouts, obstacles = site().obstacles) =>
    padWidth(placeRig(rig({ slideouts: slides }), out(1, left)), site({ obstacles }), say);
  it("tells which edge a slide passes, at the stance", () => {
    // Pad 4 m: body 2.6 leaves 0.7 m a side; the slide on the left takes 0.7.
    expect(width(0)).toMatchObject({ status: "pass" });
    const shifted = width(0.2);
    expect(shifted.status).toBe("tight");
    expect(shifted.why).toContain("over the left edge");
    expect(shifted.value as number).toBeCloseTo(3.3, 9);
    expect(width(-0.2).status).toBe("pass");
    expect(width(0.2, [slide({ wall: "right" })]).status).toBe("pass");
    expect(width(0.9, []).status).toBe("fail");
  });
  it("names the nearest thing that stands at its height", () => {
    const tree = obstacle("oak", "tree", [3.5, 4, 2.5, 3]);
    expect(width(0, undefined, [tree]).why).toContain("tree oak, 0.50 m from the kitchen");
    expect(width(0, undefined, [{ ...tree, to: 0.5 }]).why).toContain("1.20 m from the body");
  });
  it("a pad without a width is unknown", () => {
    expect(padWidth(placeRig(rig(), out(1)), site({ pad: pad({ width: null }) }), say).status).toBe("unknown");
  });
});
