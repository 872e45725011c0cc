/** Getting in and out as the answer says it: coupling, unknown roads, obstacles, never a flat no to a trailer. */
import { describe, expect, it } from "vitest";
import type { ManoeuvreLeg } from "../../../src/fit/manoeuvre/answer.ts";
import { manoeuvreCheck } from "../../../src/fit/manoeuvre/check.ts";
import { judgeManoeuvre, type ManoeuvreInput } from "../../../src/fit/manoeuvre/manoeuvre.ts";
import { sayer } from "../../../src/fit/say.ts";
import type { CompletedRig } from "../../../src/rig/completed.ts";
import type { CompletedSite, SiteRoad } from "../../../src/site/completed.ts";
import { exact, obstacle, rig, site } from "../core/builders.ts";

const say = sayer("metric");
const DEGREE = Math.PI / 180;

/** A short coach that is measured in everything: nothing about it is left open. */
const coach: CompletedRig = {
  ...rig({ length: 6.4, width: 2.1, connections: [] }),
  class: "class-c",
  wheelbase: exact(3.6),
  rearOverhang: exact(1.7),
  turningRadius: 6.9,
};
const caravan: CompletedRig = {
  ...rig({ length: 6.2, width: 2.2, connections: [] }),
  class: "travel-trailer",
  wheelbase: exact(4.1),
  rearOverhang: exact(2),
  towing: {
    what: "pickup",
    length: exact(5.6),
    coupling: "ball",
    wheelbase: 3.5,
    rearOverhang: 1.2,
    turningRadius: 6.4,
  },
};
const withCar: CompletedRig = {
  ...coach,
  towing: { what: "small car", length: exact(3.9), coupling: "four-wheels-down" },
};

function backIn(access: Partial<CompletedSite["access"]> = {}, more: Partial<CompletedSite> = {}): CompletedSite {
  const base = site({ length: 13, width: 4, hookups: [] });
  return { ...base, access: { ...base.access, roadWidth: 6.6, angle: 70 * DEGREE, ...access }, ...more };
}

function road(id: string, along: number, more: Partial<SiteRoad> = {}): SiteRoad {
  const line = [
    { along: along - 12, left: -60 },
    { along: along + 12, left: 60 },
  ];
  return { id, line, width: 6.2, oneWay: false, sigma: 0.02, path: `/features/${id}`, ...more };
}

/** A pad between two roads that lean the same way. */
function pullThrough(more: Partial<CompletedSite> = {}): CompletedSite {
  const base = site({ length: 17, width: 5, hookups: [] });
  const access = { ...base.access, roads: [road("north", 22), road("south", -5)] };
  return { ...base, layout: "pull-through", facings: ["out"], access, ...more };
}

function judge(one: CompletedRig, place: CompletedSite, more: Partial<ManoeuvreInput> = {}) {
  const stance = { facing: "out" as const, along: 1.4, left: 0.1, yaw: 0 };
  return judgeManoeuvre({ rig: one, site: place, stance, devices: "ignore", level: true, ...more }, say)!;
}

function gears(leg: ManoeuvreLeg): string {
  return leg.moves.map(({ gear }) => gear[0]).join("");
}

describe("a back-in", () => {
  it("is one move where the road has room: forward past the pad, one reverse", () => {
    const answer = judge(coach, backIn());
    expect(answer.status).toBe("ok in one move");
    expect(answer.kind).toBe("back-in");
    expect(gears(answer.in)).toMatch(/^f+r+$/);
    expect(gears(answer.out)).toMatch(/^f+$/);
    expect(answer.in.margin).toBeGreaterThan(0);
    expect(answer.in.outlines.at(-1)!.outline[0]!.along).toBeCloseTo(1.4, 2);
    expect(answer.in.outlines.at(-1)!.outline[2]!.left).toBeCloseTo(0.1 + 1.05, 2);
  });

  it("needs a shunt, never a no, where the road is narrow", () => {
    const answer = judge(coach, backIn({ roadWidth: 3.2, angle: 90 * DEGREE }));
    expect(answer.status).toBe("needs a shunt");
    expect(answer.in.outlines).toEqual([]);
    expect(answer.why).toMatch(/Other moves may do/);
  });

  it("is unknown without the road's width, and says what to measure", () => {
    const answer = judge(coach, backIn({ roadWidth: null }));
    expect(answer.status).toBe("unknown");
    expect(answer.measure).toContain("/site/properties/access/roadWidth");
    expect(answer.measure).not.toContain("/site/properties/access/angle");
  });

  it("is unknown without the layout, and where the road runs along the pad", () => {
    expect(judge(coach, backIn({}, { layout: null })).measure).toEqual(["/site/properties/layout"]);
    expect(judge(coach, backIn({ angle: 5 * DEGREE })).status).toBe("unknown");
    expect(judge(coach, backIn({}, { layout: "parallel" })).status).toBe("unknown");
  });

  it("is unknown where the map and the record disagree on the angle", () => {
    const answer = judge(coach, backIn({ angle: 40 * DEGREE, roads: [road("lane", 17)] }));
    expect(answer.status).toBe("unknown");
    expect(answer.in.why).toMatch(/40 degrees, the map/);
  });

  it("is unknown where the road's place is worse known than the path is clear", () => {
    const known = judge(coach, backIn({ angle: null, roads: [road("lane", 17)] }));
    const vague = judge(coach, backIn({ angle: null, roads: [road("lane", 17, { sigma: 1 })] }));
    expect(known.status).toBe("ok in one move");
    expect(vague.status).toBe("unknown");
  });

  it("is unknown while the turning circle decides, and names it", () => {
    const { turningRadius: _, ...open } = coach;
    const place = backIn({ roadWidth: 3.8, angle: 70 * DEGREE });
    const answer = judge(open, place);
    expect(answer.status).toBe("unknown");
    expect(answer.measure).toContain("/rig/turningRadius");
    expect(judge({ ...coach, turningRadius: 5.4 }, place).status).toBe("ok in one move");
  });

  it("turns the other way round a tree that stands in the road's verge", () => {
    const clear = judge(coach, backIn({ angle: 90 * DEGREE }));
    const end = clear.in.track[0]!;
    const side = Math.sign(end.left);
    const tree = obstacle("oak", [13.4, 19.4], side > 0 ? [3.2, 3.8] : [-3.8, -3.2], { what: "tree" });
    const round = judge(coach, backIn({ angle: 90 * DEGREE }, { obstacles: [tree] }));
    expect(round.status).toBe("ok in one move");
    expect(Math.sign(round.in.track[0]!.left)).toBe(-side);
  });

  it("passes beneath a branch that is high enough and not beneath one that is low", () => {
    const branch = (from: number) =>
      obstacle("elm", [13.2, 19.6], [-9, 9], { what: "branch", from, to: 9, bars: "rig" });
    expect(judge(coach, backIn({}, { obstacles: [branch(4.4)] })).status).toBe("ok in one move");
    expect(judge(coach, backIn({}, { obstacles: [branch(2.2)] })).status).toBe("needs a shunt");
  });

  it("cannot go through a mouth narrower than the rig, which is not said of a trailer", () => {
    expect(judge(coach, backIn({ mouth: 2 })).status).toBe("cannot");
    expect(manoeuvreCheck(judge(coach, backIn({ mouth: 2 })), true).family).toBe("cannot");
    expect(judge(caravan, backIn({ mouth: 2 })).status).toBe("unknown");
  });
});

describe("a nose-in at a back-in", () => {
  it("goes in forward and comes out in reverse", () => {
    const stance = { facing: "in" as const, along: 2, left: 0, yaw: 0 };
    const answer = judge(coach, backIn({ roadWidth: 8 }), { stance });
    expect(answer.kind).toBe("nose-in");
    expect(gears(answer.in)).toMatch(/^f+r?$/);
    expect(gears(answer.out)).toMatch(/^r/);
    expect(answer.in.outlines.at(-1)!.outline[1]!.along).toBeCloseTo(2, 2);
  });
});

describe("a car on its four wheels", () => {
  it("is never reversed: it is uncoupled before the turn and needs a place", () => {
    const { coupling, ...answer } = judge(withCar, backIn());
    expect(coupling.state).toBe("uncouple before the turn");
    expect(coupling.why).toMatch(/never reversed/);
    expect(coupling.needs.join(" ")).toMatch(/uncouple the small car before the turn.*place for the small car/);
    expect(new Set(answer.in.outlines.map(({ unit }) => unit))).toEqual(new Set(["rig"]));
  });

  it("needs no place of its own where the site has one marked", () => {
    const { coupling } = judge(withCar, backIn({}, { extraVehicle: "outline" }));
    expect(coupling.needs).toHaveLength(1);
  });

  it("stays coupled through a pull-through that is long and level enough, and is not reversed there", () => {
    const stance = { facing: "out" as const, along: 9.3, left: 0.1, yaw: 0 };
    const answer = judge(withCar, pullThrough(), { stance });
    expect(answer.coupling.state).toBe("stays coupled");
    expect(answer.in.outlines.some(({ unit }) => unit === "small car")).toBe(true);
    expect([answer.in, answer.out].flatMap(({ moves }) => moves).every(({ gear }) => gear === "forward")).toBe(true);
  });

  it("is uncoupled where it has no room behind, or where blocks lift the rig", () => {
    expect(judge(withCar, pullThrough()).coupling.state).toBe("uncouple before the turn");
    const stance = { facing: "out" as const, along: 9.3, left: 0.1, yaw: 0 };
    expect(judge(withCar, pullThrough(), { stance, level: false }).coupling.state).toBe("uncouple before the turn");
    expect(judge(withCar, pullThrough(), { stance, level: null }).coupling.state).toBe("unknown");
  });
});

describe("a car that does not come round the corner with its rig", () => {
  it("is uncoupled, and the rig goes alone", () => {
    const stance = { facing: "out" as const, along: 9.3, left: 0.1, yaw: 0 };
    const longCar = { ...withCar, towing: { ...withCar.towing!, length: exact(7), width: 2.2 } };
    const base = pullThrough();
    const place = { ...base, pad: { ...base.pad, width: exact(4.2) } };
    expect(judge(coach, place, { stance }).status).toBe("ok in one move");
    const answer = judge(longCar, place, { stance });
    expect(answer.status).toBe("ok in one move");
    expect(answer.coupling.state).toBe("uncouple before the turn");
    expect(answer.coupling.why).toMatch(/No path was found/);
  });
});

describe("a pull-through", () => {
  it("is driven forward from road to road, and pulled in straight at the stance", () => {
    const stance = { facing: "out" as const, along: 5.2, left: 0.1, yaw: 0 };
    const answer = judge(caravan, pullThrough(), { stance });
    expect(answer.status).toBe("ok in one move");
    expect(gears(answer.in)).toMatch(/^f+$/);
    expect(gears(answer.out)).toMatch(/^f+$/);
    expect(answer.in.hitchAngle).toBeLessThanOrEqual(5 * DEGREE + 1e-9);
    expect(answer.in.track[0]!.along).toBeLessThan(0);
    expect(answer.out.track.at(-1)!.along).toBeGreaterThan(17);
    expect(answer.roads.map(({ end }) => end)).toEqual(["rear", "exit"]);
  });

  it("needs a shunt where the stance lies too near the entry to come into line", () => {
    const long = { ...caravan, length: exact(6.9), wheelbase: exact(4.8) };
    const at = (along: number) => ({ stance: { facing: "out" as const, along, left: 0.1, yaw: 0 } });
    expect(judge(long, pullThrough(), at(0.2)).in.status).toBe("needs a shunt");
    expect(judge(long, pullThrough(), at(5.2)).in.status).toBe("ok in one move");
  });

  it("is unknown on the way out where only the entry is on record", () => {
    const base = pullThrough();
    const answer = judge(coach, { ...base, access: { ...base.access, roads: [], roadWidth: 6, angle: 60 * DEGREE } });
    expect(answer.in.status).toBe("ok in one move");
    expect(answer.out.status).toBe("unknown");
    expect(answer.status).toBe("unknown");
  });

  it("leaves a one-way road in its own direction", () => {
    const leave = (left: boolean) => {
      const line = [-60, 60].map((one) => ({ along: 22 + one / 5, left: left ? one : -one }));
      const base = pullThrough();
      const roads = [{ ...road("north", 22), line, oneWay: true }, road("south", -5)];
      return judge(coach, { ...base, access: { ...base.access, roads } }).out.track.at(-1)!.left;
    };
    expect(leave(true)).toBeGreaterThan(2);
    expect(leave(false)).toBeLessThan(-2);
  });
});

describe("a trailer", () => {
  it("is backed in where the angle is kind, by the same path that pulls it out", () => {
    const answer = judge(caravan, backIn({ roadWidth: 9, angle: 45 * DEGREE }));
    expect(answer.status).toBe("ok in one move");
    expect(answer.coupling.state).toBe("uncouple on the pad");
    expect(gears(answer.in)).toMatch(/^r+$/);
    expect(answer.out.track).toEqual([...answer.in.track].reverse());
  });

  it.each([3, 4, 6, 9])("is never told a flat no on a road of %d m", (roadWidth) => {
    for (const degrees of [30, 60, 90, 120]) {
      const { status } = judge(caravan, backIn({ roadWidth, angle: degrees * DEGREE }));
      expect(["ok in one move", "needs a shunt", "unknown"]).toContain(status);
    }
  });
});

describe("the check", () => {
  it("never decides, and is tight rather than failed when no single move was found", () => {
    const made = manoeuvreCheck(judge(coach, backIn({ roadWidth: 3.2, angle: 90 * DEGREE })), true);
    expect(made).toMatchObject({ id: "manoeuvre", deciding: false, status: "tight", family: "risk" });
  });

  it("does not apply in a summary or without a stance", () => {
    expect(manoeuvreCheck(null, false).status).toBe("not applicable");
    expect(manoeuvreCheck(null, true).why).toMatch(/stance/);
  });
});
