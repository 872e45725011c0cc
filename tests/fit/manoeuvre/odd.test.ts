/** Odd rigs on odd sites: every answer is whole, and says no more than it may. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { ManoeuvreLeg } from "../../../src/fit/manoeuvre/answer.ts";
import { manoeuvreCheck } from "../../../src/fit/manoeuvre/check.ts";
import { judgeManoeuvre } from "../../../src/fit/manoeuvre/manoeuvre.ts";
import { sayer } from "../../../src/fit/say.ts";
import { completeRig } from "../../../src/rig/complete.ts";
import { parseRig } from "../../../src/rig/parse.ts";
import { obstacle, site } from "../core/builders.ts";
import { evenly } from "./numbers.ts";

const DEGREE = Math.PI / 180;
const TRAILERS = ["travel-trailer", "fifth-wheel", "folding-trailer"];

const towing = fc.option(
  fc.record(
    {
      what: fc.constantFrom("small car", "boat"),
      coupling: fc.constantFrom("four-wheels-down", "dolly", "trailer", "ball", "fifth-wheel"),
      length: evenly(2, 9),
    },
    { requiredKeys: ["what", "coupling"] },
  ),
  { nil: undefined },
);
const record = fc.record({
  class: fc.constantFrom("van", "class-a", "class-b", "class-c", "truck-camper", ...TRAILERS),
  length: evenly(3.5, 14),
  towing,
  turningRadius: fc.option(evenly(4, 15), { nil: undefined }),
});
const road = fc.record({
  out: evenly(1, 9),
  lean: evenly(-80, 80),
  width: fc.option(evenly(2.5, 9), { nil: null }),
  oneWay: fc.boolean(),
  sigma: fc.constantFrom(0, 0.05, 1),
});
const place = fc.record({
  layout: fc.constantFrom("back-in" as const, "pull-through" as const, "parallel" as const, null),
  length: evenly(6, 24),
  width: evenly(2.6, 7),
  roadWidth: fc.option(evenly(2.5, 11), { nil: null }),
  degrees: fc.option(fc.integer({ min: 0, max: 180 }), { nil: null }),
  mouth: fc.option(evenly(1.5, 12), { nil: null }),
  near: fc.option(road, { nil: null }),
  far: fc.option(road, { nil: null }),
  tree: fc.option(fc.tuple(evenly(-8, 30), evenly(-9, 9)), {
    nil: null,
  }),
  facing: fc.constantFrom("out" as const, "in" as const),
  share: evenly(0, 1),
});

function isWhole(leg: ManoeuvreLeg): void {
  const numbers = JSON.stringify(leg, (_, value: unknown) =>
    typeof value === "number" && !Number.isFinite(value) ? "no number" : value,
  );
  expect(numbers).not.toContain("no number");
  expect(leg.why.length).toBeGreaterThan(10);
  if (leg.outlines.length === 0) {
    expect([leg.margin, leg.moves.length, leg.track.length]).toEqual([null, 0, 0]);
    expect(leg.status).not.toBe("ok in one move");
    return;
  }
  expect(leg.margin).toBeGreaterThanOrEqual(0);
  expect(["ok in one move", "unknown"]).toContain(leg.status);
  const driven = leg.moves.reduce((sum, { distance }) => sum + distance, 0);
  const tracked = leg.track.slice(1).reduce((sum, point, index) => {
    const before = leg.track[index]!;
    return sum + Math.hypot(point.along - before.along, point.left - before.left);
  }, 0);
  // The track's chords are a little shorter than the arcs.
  expect(tracked).toBeLessThanOrEqual(driven + 0.1);
  expect(tracked).toBeGreaterThan(driven * 0.98 - 0.1);
}

describe("odd rigs on odd sites", () => {
  it("get a whole answer that says no more than it may", () => {
    fc.assert(
      fc.property(record, place, fc.constantFrom(true, false, null), (wire, one, level) => {
        const parsed = parseRig(JSON.parse(JSON.stringify(wire)));
        if (!parsed.ok) return;
        const rig = completeRig(parsed.rig);
        const base = site({ length: one.length, width: one.width, hookups: [] });
        const roads = [one.near, one.far].flatMap((each, index) => {
          if (each === null) return [];
          const along = index === 0 ? one.length + each.out : -each.out;
          const line = [-50, 50].map((left) => ({ along: along + (left * each.lean) / 50, left }));
          return [{ ...each, id: `road-${index}`, line, path: `/features/${index}` }];
        });
        const answer = judgeManoeuvre(
          {
            rig,
            site: {
              ...base,
              layout: one.layout,
              access: {
                ...base.access,
                roadWidth: one.roadWidth,
                angle: one.degrees === null ? null : one.degrees * DEGREE,
                mouth: one.mouth,
                roads,
              },
              obstacles:
                one.tree === null
                  ? []
                  : [obstacle("tree", [one.tree[0], one.tree[0] + 0.6], [one.tree[1], one.tree[1] + 0.5])],
            },
            stance: {
              facing: one.facing,
              along: one.share * Math.max(0, one.length - rig.length.value),
              left: 0,
              yaw: 0,
            },
            devices: "assumed",
            level,
          },
          sayer("us"),
        )!;
        isWhole(answer.in);
        isWhole(answer.out);
        if (TRAILERS.includes(rig.class)) expect(answer.status).not.toBe("cannot");
        const reversed = [...answer.in.moves, ...answer.out.moves].some(({ gear }) => gear === "reverse");
        const names = new Set(answer.in.outlines.map(({ unit }) => unit));
        const neverBack = wire.towing?.coupling === "four-wheels-down" || wire.towing?.coupling === "dolly";
        if (neverBack && !TRAILERS.includes(rig.class) && names.size > 1) expect(reversed).toBe(false);
        if (one.layout === null || one.layout === "parallel") expect(answer.status).toBe("unknown");
        expect(manoeuvreCheck(answer, true).deciding).toBe(false);
      }),
      { numRuns: 250 },
    );
  });
});
