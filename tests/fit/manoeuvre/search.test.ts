/** The search on hand-made ground: laws, and its proof against a crude check that shares no code with it. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type PadSize, type Road, verges } from "../../../src/fit/manoeuvre/ground.ts";
import { drive, type State, trailerAxle } from "../../../src/fit/manoeuvre/motion.ts";
import { type Found, type LegTask, searchLeg } from "../../../src/fit/manoeuvre/search.ts";
import { makeArea } from "../../../src/fit/manoeuvre/separation.ts";
import type { Train, Unit } from "../../../src/fit/manoeuvre/vehicle.ts";
import { evenly } from "./numbers.ts";

const COMFORT = 0.3;
const PROOF = 0.005;

function unit(name: string, overhang: number, wheelbase: number, front: number, width: number): Unit {
  const half = width / 2;
  return {
    name,
    body: { rear: -overhang, front: wheelbase + front, half },
    wheels: { rear: 0, front: wheelbase, half },
    height: 3.2,
    underside: 0.2,
  };
}

/** The AASHTO motor home of 30 ft: wheelbase 6.1 m, overhangs 1.2 and 1.8 m, rear axle's radius 30.29 ft less half. */
const motorHome: Train = { drawing: unit("rig", 1.8, 6.1, 1.2, 2.44), drawn: null, radius: 8.12, rigIsDrawn: false };
const van: Train = { drawing: unit("rig", 1.1, 3.6, 0.9, 2.05), drawn: null, radius: 5.4, rigIsDrawn: false };
const trailer: Train = {
  drawing: unit("pickup", 1.4, 3.6, 0.95, 2),
  drawn: {
    unit: { ...unit("rig", 2.6, 0, 4, 2.4) },
    hitch: { behind: 1.6, length: 5.2 },
    limit: 1.05,
  },
  radius: 6,
  rigIsDrawn: true,
};

const pad: PadSize = { length: 15, width: 4, mouth: null };

function roadAt(degrees: number, width: number, more: Partial<Road> = {}): Road {
  const angle = (degrees * Math.PI) / 180;
  const gap = Math.abs(Math.cos(angle) / Math.sin(angle)) * (pad.width / 2);
  return { gap, angle, width, from: -60, to: 60, oneWay: null, sigma: 0, ...more };
}

function taskFor(train: Train, road: Road, more: Partial<LegTask> = {}): LegTask {
  const ahead = train.rigIsDrawn ? 6.8 : 0;
  return {
    stance: { along: -12 + ahead, left: 0, heading: 0, trailer: 0 },
    train,
    road,
    obstructions: verges(road, pad, "exit"),
    way: "in",
    gear: 1,
    beyond: 0,
    sideways: 0,
    directions: ["left", "right"],
    parkedHitch: 0.09,
    straightHitch: 0.035,
    ...more,
  };
}

const search = (task: LegTask): Found | null => searchLeg(task, COMFORT);

/** Points round a box, a hand's breadth apart. */
function rim(at: { along: number; left: number }, heading: number, box: { rear: number; front: number; half: number }) {
  const found: { along: number; left: number }[] = [];
  const count = 40;
  for (let index = 0; index <= count; index += 1) {
    const ahead = box.rear + ((box.front - box.rear) * index) / count;
    const side = -box.half + (2 * box.half * index) / count;
    for (const [u, v] of [
      [ahead, box.half],
      [ahead, -box.half],
      [box.rear, side],
      [box.front, side],
    ] as const) {
      found.push({
        along: at.along + u * Math.cos(heading) - v * Math.sin(heading),
        left: at.left + u * Math.sin(heading) + v * Math.cos(heading),
      });
    }
  }
  return found;
}

/** How far a point lies inside road or pad strip, by the definition of both; negative outside. */
function insideGround(point: { along: number; left: number }, road: Road): number {
  const across = Math.sin(road.angle) * (point.along - road.gap) - Math.cos(road.angle) * point.left;
  const onRoad = Math.min(across, road.width - across);
  const onPad = Math.min(pad.width / 2 - Math.abs(point.left), road.width - across);
  return Math.max(onRoad, onPad);
}

describe("a found path", () => {
  it.each([
    ["motor home, 60 degrees", motorHome, roadAt(60, 6.6)],
    ["van, 90 degrees", van, roadAt(90, 6.4)],
    ["trailer, 45 degrees", trailer, roadAt(45, 9)],
  ] as const)("keeps every wheel on road and pad when looked at centimetre by centimetre: %s", (_, train, road) => {
    const found = search(taskFor(train, road))!;
    expect(found).not.toBeNull();
    const hitch = train.drawn?.hitch ?? null;
    const fine = drive(found.path.states[0]!, found.path.pieces, hitch, 0.02);
    let least = Number.POSITIVE_INFINITY;
    for (const state of fine.states) {
      for (const point of rim(state, state.heading, train.drawing.wheels))
        least = Math.min(least, insideGround(point, road));
      if (hitch === null || train.drawn === null) continue;
      const axle = trailerAxle(state, hitch);
      for (const point of rim(axle, state.trailer, train.drawn.unit.wheels)) {
        least = Math.min(least, insideGround(point, road));
      }
    }
    // Being inside is measured to the nearest edge of one strip: at the corner between them it understates the room.
    expect(least).toBeGreaterThan(-1e-6);
  });

  it("ends at the stance and begins in line on the road", () => {
    const road = roadAt(45, 9);
    const task = taskFor(trailer, road);
    const { path, direction } = search(task)!;
    const [first, last] = [path.states[0]!, path.states.at(-1)!];
    expect(last.along).toBeCloseTo(task.stance.along, 9);
    expect(last.left).toBeCloseTo(task.stance.left, 9);
    expect(last.trailer).toBeCloseTo(0, 9);
    const along = direction === "left" ? road.angle : road.angle - Math.PI;
    expect(Math.sin(first.heading - along)).toBeCloseTo(0, 9);
    expect(Math.abs(first.heading - first.trailer)).toBeLessThanOrEqual(0.035 + 1e-6);
  });

  it("proves at most what the turning part was estimated at", () => {
    const found = search(taskFor(motorHome, roadAt(60, 6.6)))!;
    expect(found.proven.clearance).toBeLessThanOrEqual(found.turning + 0.02);
    expect(found.proven.clearance).toBeGreaterThan(0);
  });

  it("turns no tighter than the vehicle can", () => {
    const { path } = search(taskFor(van, roadAt(90, 6.4)))!;
    for (const { curvature } of path.pieces) expect(Math.abs(curvature)).toBeLessThanOrEqual(1 / van.radius + 1e-12);
  });

  it("goes the one way that a one-way road allows", () => {
    const both = search(taskFor(van, roadAt(70, 6.6)))!;
    expect(search(taskFor(van, roadAt(70, 6.6, { oneWay: "left" })))?.direction).toBe("left");
    const other = search(taskFor(van, roadAt(70, 6.6, { oneWay: "right" })));
    expect(other === null || other.direction === "right").toBe(true);
    expect(both.turning).toBeGreaterThanOrEqual(other?.turning ?? 0);
  });

  it("finds none where the straight road ends short of the turn", () => {
    const left = { oneWay: "left" } as const;
    expect(search(taskFor(van, roadAt(90, 6.4, left)))).not.toBeNull();
    expect(search(taskFor(van, roadAt(90, 6.4, { ...left, to: 3 })))).toBeNull();
  });
});

describe("things that stand beside the path", () => {
  it("are never touched by a body, looked at by the hand's breadth", () => {
    const post = fc.record({
      along: evenly(-8, 9),
      left: evenly(-9, 9),
      size: evenly(0.1, 1.5),
    });
    let found = 0;
    fc.assert(
      fc.property(fc.array(post, { minLength: 1, maxLength: 3 }), fc.constantFrom(van, trailer), (posts, train) => {
        const road = train === van ? roadAt(80, 6.8) : roadAt(45, 9);
        const things = posts.map(({ along, left, size }) => ({
          what: "post",
          area: makeArea([
            { along, left },
            { along: along + size, left },
            { along: along + size, left: left + size },
            { along, left: left + size },
          ]),
          against: "body" as const,
          verge: false,
          sigma: 0,
        }));
        const task = taskFor(train, road);
        const answer = search({ ...task, obstructions: [...task.obstructions, ...things] });
        if (answer === null) return;
        found += 1;
        let touched = false;
        const hitch = train.drawn?.hitch ?? null;
        for (const state of drive(answer.path.states[0]!, answer.path.pieces, hitch, 0.05).states) {
          const bodies = [{ at: state, heading: state.heading, box: train.drawing.body }];
          if (train.drawn !== null && hitch !== null) {
            bodies.push({
              at: { ...state, ...trailerAxle(state, hitch) },
              heading: state.trailer,
              box: train.drawn.unit.body,
            });
          }
          for (const { at, heading, box } of bodies) {
            touched ||= rim(at, heading, box).some((point) =>
              posts.some(
                ({ along, left, size }) =>
                  point.along > along + 1e-6 &&
                  point.along < along + size - 1e-6 &&
                  point.left > left + 1e-6 &&
                  point.left < left + size - 1e-6,
              ),
            );
          }
        }
        expect(touched).toBe(false);
      }),
      { numRuns: 25 },
    );
    expect(found).toBeGreaterThan(5);
  });
});

describe("least road width for the motor home, its body kept on road and pad", () => {
  // Derived: an independent one-arc screen over a grid of one metre, read off linearly, mouth 4 m.
  it.each([
    [90, 9.4],
    [60, 6.3],
    [45, 5.2],
    [30, 4.2],
  ])("at %d degrees is that of an independent screen: %d m within its grid", (degrees, least) => {
    const at = (width: number): Found | null => {
      const road = roadAt(degrees, width);
      const obstructions = verges(road, pad, "exit").map((one) => ({ ...one, against: "body" as const }));
      return search(taskFor(motorHome, road, { obstructions }));
    };
    expect(at(least + 0.5)).not.toBeNull();
    expect(at(least - 1)).toBeNull();
  });
});

describe("laws of the search", () => {
  const degrees = fc.integer({ min: 40, max: 140 });
  const width = evenly(4, 10);
  const train = fc.constantFrom(van, motorHome);
  const way = fc.constantFrom("in" as const, "out" as const);

  it("a wider road is never worse", () => {
    fc.assert(
      fc.property(train, degrees, width, evenly(0.05, 3), way, (one, angle, wide, more, to) => {
        const first = search(taskFor(one, roadAt(angle, wide), { way: to }));
        if (first === null) return;
        const second = search(taskFor(one, roadAt(angle, wide + more), { way: to }));
        expect(second).not.toBeNull();
        expect(second!.turning).toBeGreaterThanOrEqual(first.turning - 1e-9);
      }),
      { numRuns: 40 },
    );
  });

  it("a wider road is never worse for a trailer that is pulled in or backed in", () => {
    const pulled = { stance: { along: -11, left: -0.1, heading: Math.PI, trailer: Math.PI }, gear: -1 } as const;
    fc.assert(
      fc.property(fc.boolean(), degrees, width, evenly(0.05, 3), (pull, angle, wide, more) => {
        const first = search(taskFor(trailer, roadAt(angle, wide), pull ? pulled : {}));
        if (first === null) return;
        const second = search(taskFor(trailer, roadAt(angle, wide + more), pull ? pulled : {}));
        expect(second?.turning ?? -1).toBeGreaterThanOrEqual(first.turning - 1e-9);
      }),
      { numRuns: 15 },
    );
  });

  it("a wider mouth is never worse", () => {
    fc.assert(
      fc.property(train, degrees, width, evenly(0.1, 4), (one, angle, wide, more) => {
        const road = roadAt(angle, wide);
        const first = search(taskFor(one, road));
        if (first === null) return;
        const obstructions = verges(road, { ...pad, mouth: pad.width + more }, "exit");
        const second = search(taskFor(one, road, { obstructions }));
        expect(second?.turning ?? -1).toBeGreaterThanOrEqual(first.turning - 1e-9);
      }),
      { numRuns: 30 },
    );
  });

  it("mirrored ground gives the mirrored answer", () => {
    fc.assert(
      fc.property(fc.constantFrom(van, motorHome, trailer), degrees, width, (one, angle, wide) => {
        const first = search(taskFor(one, roadAt(angle, wide), { directions: ["left", "right"] }));
        const second = search(taskFor(one, roadAt(180 - angle, wide), { directions: ["right", "left"] }));
        expect(second === null).toBe(first === null);
        if (first === null || second === null) return;
        expect(second.turning).toBeCloseTo(first.turning, 9);
        expect(second.direction).not.toBe(first.direction);
        expect(second.proven.clearance).toBeCloseTo(first.proven.clearance, 2);
      }),
      { numRuns: 25 },
    );
  });

  it("a tighter turning circle is never worse", () => {
    // The radii that are tried scale with the vehicle's own, so the tighter one is asked with both sets in its reach.
    const road = roadAt(75, 6.2);
    const wide = search(taskFor({ ...van, radius: 7.2 }, road));
    const tight = search(taskFor({ ...van, radius: 4.8 }, road));
    expect(tight?.turning ?? -1).toBeGreaterThanOrEqual(wide?.turning ?? -1);
  });

  it("the way out of a back-in pad without a swing is a way in, backwards", () => {
    const road = roadAt(50, 6);
    const out = search(taskFor(motorHome, road, { way: "out" }))!;
    const back: State = out.path.states.at(-1)!;
    const again = drive(
      back,
      [...out.path.pieces].reverse().map((one) => ({ ...one, distance: -one.distance })),
      null,
      1,
    );
    expect(again.states.at(-1)!.along).toBeCloseTo(-12, 9);
    const inwards = search(taskFor(motorHome, road, { way: "in" }))!;
    expect(inwards.turning).toBeGreaterThanOrEqual(out.turning - 2 * PROOF);
  });
});
