import { describe, expect, it } from "vitest";
import { accessibleChecks, accessibleSlope } from "../../../src/fit/clearance/accessible.ts";
import { awningRooms, padSideOf } from "../../../src/fit/clearance/awning-room.ts";
import { cautionFacts, cautionsFor } from "../../../src/fit/clearance/cautions.ts";
import { secondVehicle, statedHeight, statedLength, statedWidth } from "../../../src/fit/clearance/limits.ts";
import { accessHeight, overhead } from "../../../src/fit/clearance/overhead.ts";
import { doorsClear, pedestalSpace, serviceSide } from "../../../src/fit/clearance/people.ts";
import { placeRig } from "../../../src/fit/clearance/placed.ts";
import { separation } from "../../../src/fit/clearance/separation.ts";
import type { Device } from "../../../src/fit/devices.ts";
import { sayer } from "../../../src/fit/say.ts";
import type { CompletedSite, SiteObstacle } from "../../../src/site/completed.ts";
import { awning, connection, hookup, known, measured, obstacle, pad, ranged, rig, site } from "./fixtures.ts";

const say = sayer("metric");
/** The rig stands from 1 m to 10 m along, 1.3 m to either side; slide on its left, awning and door on its right. */
const OUT = { facing: "out", along: 1, left: 0, yaw: 0 } as const;
const IN = { facing: "in", along: 1, left: 0, yaw: 0 } as const;
const none = { length: null, width: null, height: null, amps: null };

describe("stated limits", () => {
  it("apply only when stated", () => {
    const bare = [
      statedLength(rig(), site(), say),
      statedHeight(rig(), site(), say),
      statedWidth(placeRig(rig(), OUT), site(), false, say),
    ];
    expect(bare.map((one) => one.status)).toEqual(["not applicable", "not applicable", "not applicable"]);
  });
  it("compare exact values, ranges and errors", () => {
    const length = (limit: number, own = known(9)) =>
      statedLength(rig({ length: own }), site({ limits: { ...none, length: known(limit) } }), say).status;
    expect([
      length(9),
      length(8.9),
      length(9, ranged(8.5, 9.5)),
      length(9, measured(8.9, 0.1)),
      length(9, measured(8.8, 0.1)),
    ]).toEqual(["pass", "fail", "unknown", "tight", "pass"]);
  });
  it("a sentence rounds against us", () => {
    const made = statedHeight(rig({ height: known(3.501) }), site({ limits: { ...none, height: known(3.509) } }), say);
    expect(made.why).toBe("The rig stands 3.51 m; the site takes heights up to 3.50 m: 0.00 m to spare.");
    expect(made.status).toBe("pass");
  });
  it("width counts slides that are open and the awning when it is", () => {
    const limited = site({ limits: { ...none, width: known(5) } });
    const width = (closed: string[], open: boolean) =>
      statedWidth(placeRig(rig(), OUT, { closedSlides: closed }), limited, open, say);
    expect(width([], false).value as number).toBeCloseTo(3.3, 9);
    expect(width(["kitchen"], false).value as number).toBeCloseTo(2.6, 9);
    expect(width([], true)).toMatchObject({ status: "fail" });
    expect(width([], true).value as number).toBeCloseTo(5.7, 9);
  });
});

describe("height", () => {
  it("on the way in: unknown informs, a stated one decides with a margin", () => {
    const access = (clearHeight: number | null) =>
      accessHeight(rig(), site({ access: { ...site().access, clearHeight } }), say);
    expect(access(null)).toMatchObject({ status: "unknown", deciding: false });
    expect(access(3.4)).toMatchObject({ status: "fail", deciding: true });
    expect(access(3.6).status).toBe("tight");
    expect(access(3.7).status).toBe("pass");
  });
  it("overhead: only what begins above the ground and lies over the rig at this stance", () => {
    const over = (box: [number, number, number, number], more: Partial<SiteObstacle> = {}, raised = 0) =>
      overhead(
        placeRig(rig(), OUT, { raised }),
        site({ obstacles: [obstacle("oak", "branch", box, { from: 3.7, to: 7, ...more })] }),
        say,
      ).status;
    expect(over([4, 6, 1, 5])).toBe("pass");
    expect(over([4, 6, 1, 5], { from: 3.6 })).toBe("tight");
    expect(over([4, 6, 1, 5], { from: 3.3 })).toBe("fail");
    expect(over([4, 6, 1, 5], {}, 0.25)).toBe("fail");
    expect(over([11, 13, -5, 5], { from: 3.3 })).toBe("not applicable");
    expect(over([10.1, 13, -1, 1], { from: 3.3, sigma: 0.3 })).toBe("unknown");
    expect(over([4, 6, 1, 5], { from: 3.3, bars: "line" })).toBe("not applicable");
    // Beside the body but over the open slide, whose top is 2.7 m.
    expect(over([4.5, 5, 1.5, 2.5], { from: 2.75 })).toBe("tight");
    expect(over([4.5, 5, -2.5, -1.5], { from: 2.75 })).toBe("not applicable");
  });
});

describe("awning.room", () => {
  const rooms = (stance: typeof OUT | typeof IN, obstacles: SiteObstacle[], required = false, rules = site().rules) =>
    awningRooms(placeRig(rig(), stance), site({ obstacles, rules }), required, say);
  // Awning of 2.4 m on the rig's right, from 2.5 m to 6.5 m of the rear; rail at 2.9 m.
  const right = obstacle("oak", "tree", [5, 5.4, -3.5, -3.1]);
  it("measures outward from the awning's wall, on the side that the facing gives it", () => {
    const made = rooms(OUT, [right]);
    expect(made.answers[0]).toMatchObject({ side: "right", padSide: "right", room: "fail", needed: 2.4 });
    expect(made.answers[0]?.clear as number).toBeCloseTo(1.8, 9);
    expect(rooms(IN, [right]).answers[0]).toMatchObject({ padSide: "left", room: "pass", clear: null });
  });
  it("passes what stands beyond, beside, or below it", () => {
    expect(rooms(OUT, [obstacle("a", "tree", [5, 5.4, -4.5, -3.8])]).answers[0]).toMatchObject({ room: "pass" });
    expect(rooms(OUT, [obstacle("b", "tree", [1.2, 1.8, -3.5, -3.1])]).answers[0]?.clear).toBeNull();
    expect(rooms(OUT, [obstacle("c", "table", [5, 5.4, -3.5, -3.1], { to: 0.8 })]).answers[0]?.clear).toBeNull();
    expect(rooms(OUT, [obstacle("d", "tree", [5, 5.4, -3.8, -3.5], { sigma: 0.1 })]).answers[0]?.room).toBe("fail");
    expect(rooms(OUT, [obstacle("e", "tree", [5, 5.4, -4, -3.75], { sigma: 0.1 })]).answers[0]?.room).toBe("tight");
  });
  it("decides only when it is required, and a rule against awnings is a no", () => {
    expect(rooms(OUT, [right]).checks[0]?.deciding).toBe(false);
    expect(rooms(OUT, [right], true).checks[0]?.deciding).toBe(true);
    expect(rooms(OUT, [], false, { ...site().rules, awning: false }).checks[0]).toMatchObject({
      status: "fail",
      family: "may-not",
    });
    const bare = awningRooms(placeRig(rig({ awnings: [] }), OUT), site(), true, say);
    expect(bare.checks[0]?.status).toBe("unknown");
  });
  it("a mirrored rig on a mirrored pad has the same room", () => {
    const mirrored = { ...right, outline: right.outline.map((p) => ({ along: p.along, left: -p.left })).reverse() };
    const made = awningRooms(
      placeRig(rig({ awnings: [awning({ wall: "left" })] }), OUT),
      site({ obstacles: [mirrored] }),
      false,
      say,
    );
    expect(made.answers[0]).toMatchObject({ padSide: "left", room: "fail" });
    expect(made.answers[0]?.clear as number).toBeCloseTo(1.8, 9);
  });
  it("names the pad side of every wall", () => {
    expect((["left", "right", "rear", "front"] as const).map((wall) => padSideOf(wall, OUT))).toEqual([
      "left",
      "right",
      "rear",
      "exit",
    ]);
    expect((["left", "right", "rear", "front"] as const).map((wall) => padSideOf(wall, IN))).toEqual([
      "right",
      "left",
      "exit",
      "rear",
    ]);
  });
});

describe("room for people", () => {
  const placed = placeRig(rig(), OUT);
  const pedestal = (left: number): Device => ({
    id: "p1",
    service: "power",
    centre: { along: 5, left },
    depth: 0.3,
    height: 1.2,
    given: false,
    outline: obstacle("p1", "pedestal", [4.85, 5.15, left - 0.15, left + 0.15]).outline,
  });
  it("door.clear: 0.6 m before a door whose place is given", () => {
    // Door on the right from 6.7 m to 7.4 m of the rear: 7.7 m to 8.4 m along.
    const door = (box: [number, number, number, number], over: Partial<SiteObstacle> = {}) =>
      doorsClear(placed, site({ obstacles: [obstacle("hedge", "hedge", box, over)] }), [], say)[0];
    expect(door([8, 9, -3, -1.8])).toMatchObject({ status: "tight" });
    expect(door([8, 9, -3, -1.8])?.value as number).toBeCloseTo(0.5, 9);
    expect(door([8, 9, -3, -1.9])?.status).toBe("pass");
    expect(door([8.5, 9, -3, -1.8])?.status).toBe("pass");
    expect(door([8, 9, -3, -1.8], { from: 2.1 })?.status).toBe("pass");
    const assumed = placeRig(
      rig({ doors: [{ ...(rig().doors[0] as (typeof placed.rig.doors)[number]), given: false }] }),
      OUT,
    );
    expect(doorsClear(assumed, site(), [], say)[0]?.status).toBe("unknown");
    expect(doorsClear(placeRig(rig({ doors: [] }), OUT), site(), [], say)[0]?.status).toBe("unknown");
  });
  it("workspace.pedestal: 0.75 m between pedestal and the rig with its slides out", () => {
    // Slide out to 2.0 m between 4.0 m and 6.2 m along.
    expect(pedestalSpace(placed, [pedestal(2.9)], say)).toMatchObject({ status: "pass", limit: 0.75 });
    const near = pedestalSpace(placed, [pedestal(2.85)], say);
    expect(near).toMatchObject({ status: "tight", family: "risk", deciding: false });
    expect(near.margin as number).toBeCloseTo(-0.05, 9);
    expect(pedestalSpace(placeRig(rig(), OUT, { closedSlides: ["kitchen"] }), [pedestal(2.2)], say).status).toBe(
      "pass",
    );
    expect(pedestalSpace(placed, [], say).status).toBe("not applicable");
    expect(
      pedestalSpace(placed, [pedestal(2.85)], say, { doorClear: 0.6, pedestalClear: 0.5, serviceSideClear: 0.6 })
        .status,
    ).toBe("pass");
  });
  it("workspace.side: 0.6 m along the wall with the connections, slides out", () => {
    const side = (box: [number, number, number, number], over = rig()) =>
      serviceSide(placeRig(over, OUT), site({ obstacles: [obstacle("wall", "wall", box)] }), say);
    expect(side([1, 3, 1.95, 2.2]).status).toBe("pass");
    expect(side([1, 3, 1.85, 2.2]).status).toBe("tight");
    expect(side([4, 5, 2.5, 3]).value as number).toBeCloseTo(0.5, 9);
    expect(side([1, 3, -2.2, -1.85]).status).toBe("pass");
    expect(side([1, 3, -2.2, -1.85], rig({ connections: [connection({ wall: "right" })] })).status).toBe("tight");
    expect(serviceSide(placeRig(rig({ connections: [] }), OUT), site(), say).status).toBe("not applicable");
  });
});

describe("second vehicle", () => {
  const towing = { what: "car", length: known(2.5), coupling: "tow bar" };
  const made = (over: Partial<CompletedSite>, what = rig({ towing })) => secondVehicle(what, site(over), say).status;
  it("has a place, or fits behind, or does not, or nobody knows", () => {
    expect(secondVehicle(rig(), site(), say).status).toBe("not applicable");
    expect(made({ extraVehicle: "none" })).toBe("pass");
    const long = rig({ towing: { ...towing, length: known(4.5) } });
    expect(made({ extraVehicle: "none" }, long)).toBe("fail");
    expect(made({ extraVehicle: "elsewhere" }, long)).toBe("tight");
    expect(made({ extraVehicle: "outline" }, long)).toBe("pass");
    expect(made({}, long)).toBe("unknown");
    expect(made({ extraVehicle: "none" }, rig({ towing: { ...towing, length: null } }))).toBe("unknown");
    expect(made({ extraVehicle: "outline", rules: { ...site().rules, maxVehicles: 1 } })).toBe("fail");
  });
});

describe("separation", () => {
  it("a named rule without a neighbour on record is unknown; an unknown rule judges nothing", () => {
    const placed = placeRig(rig(), OUT);
    expect(separation(placed, "ri-32-7-8", [], true, say).status).toBe("unknown");
    expect(
      separation(
        placed,
        "nowhere",
        [{ id: "x", kind: "rig", outline: obstacle("x", "", [0, 9, 2, 3]).outline }],
        true,
        say,
      ).status,
    ).toBe("not applicable");
  });
  it("judges a building only where the rule speaks of buildings", () => {
    const placed = placeRig(rig(), OUT);
    const house = { id: "bath house", kind: "building" as const, outline: obstacle("x", "", [0, 9, 4, 8]).outline };
    expect(separation(placed, "ri-32-7-8", [house], true, say)).toMatchObject({ status: "fail", value: 2 });
    expect(separation(placed, "pasco-wa-25-160-070", [house], true, say).status).toBe("unknown");
  });
});

describe("accessible figures", () => {
  const slope = (grade: number, crossfall: number, surface: string | null) =>
    accessibleSlope(pad({ grade: known(grade), crossfall: known(crossfall), surface }), say).status;
  it("1:48 paved, 1:33 unpaved, between them unknown when the surface is", () => {
    expect([
      slope(0.02, 0, "asphalt"),
      slope(0.025, 0, "asphalt"),
      slope(0.025, 0, "gravel"),
      slope(0.035, 0, "gravel"),
    ]).toEqual(["pass", "fail", "pass", "fail"]);
    expect([
      slope(0.02, 0, null),
      slope(0.025, 0, null),
      slope(0.035, 0, null),
      slope(0.018, 0.018, "asphalt"),
    ]).toEqual(["pass", "unknown", "fail", "fail"]);
    expect(accessibleSlope(pad({ grade: known(0.01) }), say).status).toBe("unknown");
  });
  it("apply where the site claims it or somebody asks", () => {
    expect(new Set(accessibleChecks(site(), false, say).map((one) => one.status))).toEqual(new Set(["not applicable"]));
    const made = accessibleChecks(site({ accessible: "yes", hookups: [hookup()] }), false, say);
    expect(Object.fromEntries(made.map((one) => [one.id, one.status]))).toEqual({
      "accessible.width": "fail",
      "accessible.slope": "unknown",
      "accessible.water": "pass",
      "accessible.controls": "not applicable",
    });
  });
});

describe("cautions", () => {
  it("come only when their fact holds, each once", () => {
    expect(cautionsFor(new Set())).toEqual([]);
    const sewer = cautionsFor(new Set(["sewer"])).map((one) => one.id);
    expect(sewer).toContain("sewer-gloves");
    expect(sewer).not.toContain("water-tap-off");
    const many = cautionsFor(new Set(["sewer", "dump", "grey-tank"])).map((one) => one.id);
    expect(new Set(many).size).toBe(many.length);
  });
  it("every fact of the table brings something, and every caution has a source", () => {
    for (const fact of cautionFacts()) {
      const found = cautionsFor(new Set([fact as "sewer"]));
      expect(found.length).toBeGreaterThan(0);
      for (const one of found) expect(one.source.length).toBeGreaterThan(0);
    }
  });
});
