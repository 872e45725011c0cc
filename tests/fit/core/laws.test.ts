import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { applyFix, type FitInput, fitRig } from "../../../src/fit/fit.ts";
import { rankSites } from "../../../src/fit/search.ts";
import { verdictRank } from "../../../src/fit/verdict.ts";
import type { CompletedRig, RigWall } from "../../../src/rig/completed.ts";
import type { CompletedSite } from "../../../src/site/completed.ts";
import type { Estimate } from "../../../src/units/estimate.ts";
import { exact, obstacle, options, receptacle, rig, site } from "./builders.ts";

const RUNS = 120;
/** Fixed, so that a failure can be run again. */
const SEED = 20_261_125;
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
const wall = fc.constantFrom<RigWall>("left", "right", "rear");

const lines = fc.record({
  power: fc.record({ wall, fromRear: number(0.3, 6), height: number(0.4, 1.2), length: number(5, 11) }),
  water: fc.record({ wall, fromRear: number(0.3, 6), height: number(0.4, 1), length: number(4, 10) }),
  sewer: fc.record({ wall, fromRear: number(0.3, 6), height: number(0.25, 0.6), length: number(2.5, 6) }),
});

const place = fc.record({ along: number(-1, 9), left: number(-7, 7), height: number(0.05, 1.2) });

const posts = fc.array(
  fc.record({ along: number(-1, 13), left: number(-3, 3), size: number(0.1, 0.8), height: number(0.2, 4) }),
  {
    maxLength: 4,
  },
);

const receptacles = fc.constantFrom(
  [receptacle("a", "nema-tt-30", 30)],
  [receptacle("b", "nema-14-50", 50)],
  [receptacle("c", "nema-5-20", 20)],
  [receptacle("d", "nema-tt-30", 30, { state: "failed" }), receptacle("e", "nema-5-20", 20)],
  [receptacle("f", "iec-60309-2p-e-16", 16, { volts: 230 })],
);

const slides = fc.option(fc.record({ left: fc.boolean(), fromRear: number(0.5, 4), depth: number(0.3, 1) }), {
  nil: null,
});

const questions: fc.Arbitrary<FitInput> = fc
  .record({
    lines,
    power: place,
    water: place,
    sewer: place,
    posts,
    receptacles,
    slides,
    padLength: number(7, 15),
    padWidth: number(2.5, 6),
    grade: number(-0.03, 0.03),
    crossfall: number(-0.03, 0.03),
  })
  .map((spec): FitInput => {
    const coach = rig({
      connections: [
        { service: "power", ...spec.lines.power },
        { service: "water", ...spec.lines.water },
        { service: "sewer", ...spec.lines.sewer },
      ],
    });
    const slide = spec.slides && {
      id: "slide",
      wall: spec.slides.left ? ("left" as const) : ("right" as const),
      fromRear: exact(spec.slides.fromRear),
      length: exact(2),
      depth: exact(spec.slides.depth),
      bottom: exact(0.8),
      top: exact(2.6),
      required: false,
      path: "/slideouts/0",
    };
    const pitch = site(
      {
        length: spec.padLength,
        width: spec.padWidth,
        hookups: [
          { service: "power", ...spec.power, receptacles: spec.receptacles },
          { service: "water", ...spec.water },
          { service: "sewer", along: spec.sewer.along, left: spec.sewer.left, height: 0.1 },
        ],
      },
      {
        obstacles: spec.posts.map((post, index) =>
          obstacle(`post ${index}`, [post.along, post.along + post.size], [post.left, post.left + post.size], {
            to: post.height,
          }),
        ),
      },
    );
    const pad = {
      ...pitch.pad,
      grade: exact(spec.grade, "/properties/pad/grade"),
      crossfall: exact(spec.crossfall, "/properties/pad/crossfall"),
    };
    return {
      rig: slide ? { ...coach, slideouts: [slide] } : coach,
      site: { ...pitch, pad },
      options: options({ needs: { water: "required" } }),
    };
  });

const otherSide = { left: "right", right: "left", rear: "rear", front: "front" } as const;
const negated = (one: Estimate): Estimate => ({ ...one, value: -one.value, low: -one.high, high: -one.low });

function mirroredRig(one: CompletedRig): CompletedRig {
  return {
    ...one,
    connections: one.connections.map((entry) => ({ ...entry, wall: otherSide[entry.wall], left: negated(entry.left) })),
    slideouts: one.slideouts.map((entry) => ({ ...entry, wall: otherSide[entry.wall] as "left" })),
    doors: one.doors.map((entry) => ({ ...entry, wall: otherSide[entry.wall] })),
    awnings: one.awnings.map((entry) => ({ ...entry, wall: otherSide[entry.wall] as "left" })),
  };
}

function mirroredSite(one: CompletedSite): CompletedSite {
  return {
    ...one,
    pad: { ...one.pad, crossfall: one.pad.crossfall === null ? null : negated(one.pad.crossfall) },
    hookups: one.hookups.map((entry) => ({ ...entry, left: entry.left === null ? null : negated(entry.left) })),
    obstacles: one.obstacles.map((entry) => ({
      ...entry,
      outline: entry.outline.map((corner) => ({ along: corner.along, left: -corner.left })).reverse(),
    })),
    patio: one.patio === null ? null : otherSide[one.patio],
    drivesOn: one.drivesOn === null ? null : otherSide[one.drivesOn],
  };
}

const summary = (input: FitInput): FitInput => ({ ...input, options: { ...input.options, detail: "summary" } });
const worstOf = (input: FitInput) => fitRig(summary(input)).bestMargin ?? Number.NEGATIVE_INFINITY;

/** True when both answers judge slides by the same rule: within the pad, or over its edge because nothing else serves. */
function sameSlideRule(one: FitInput, other: FitInput): boolean {
  const ruleOf = (input: FitInput) => fitRig(summary(input)).checks.find((check) => check.id === "fit.slides")!.status;
  return ruleOf(one) === ruleOf(other);
}

function longer(one: CompletedRig, by: number): CompletedRig {
  const connections = one.connections.map((entry) => {
    if (entry.line === null || entry.service === "sewer") return entry;
    const length = exact(entry.line.length.value + by, entry.line.length.path);
    return { ...entry, line: { ...entry.line, length, workingLength: length } };
  });
  return { ...one, connections };
}

describe("laws of a fit", () => {
  it("does not change when rig, site and side of the road are mirrored", () => {
    fc.assert(
      fc.property(questions, (input) => {
        const here = fitRig(summary(input));
        const there = fitRig(summary({ ...input, rig: mirroredRig(input.rig), site: mirroredSite(input.site) }));
        expect(there.verdict).toBe(here.verdict);
        expect(there.lines.map((line) => line.verdict)).toEqual(here.lines.map((line) => line.verdict));
        expect(there.bestMargin ?? -99).toBeCloseTo(here.bestMargin ?? -99, 6);
        expect(there.power.mating).toBe(here.power.mating);
      }),
      { numRuns: RUNS, seed: SEED },
    );
  });

  // The margin is that of one slide rule; where a change moves an answer to the other rule, the verdict still obeys.
  it("never loses by a longer cord and hose", () => {
    let compared = 0;
    fc.assert(
      fc.property(questions, number(0, 4), (input, by) => {
        const better = { ...input, rig: longer(input.rig, by) };
        const [before, after] = [fitRig(summary(input)), fitRig(summary(better))];
        if (after.power.mating === before.power.mating) {
          expect(verdictRank(after.verdict)).toBeGreaterThanOrEqual(verdictRank(before.verdict));
        }
        if (!sameSlideRule(input, better)) return;
        compared++;
        expect(worstOf(better)).toBeGreaterThanOrEqual(worstOf(input) - 1e-6);
      }),
      { numRuns: RUNS, seed: SEED },
    );
    expect(compared).toBeGreaterThan(RUNS / 2);
  });

  it("never gains by one more obstacle", () => {
    let compared = 0;
    fc.assert(
      fc.property(questions, number(-1, 12), number(-3, 3), number(0.2, 1.5), (input, along, left, size) => {
        const more = obstacle("one more", [along, along + size], [left, left + size]);
        const worse = { ...input, site: { ...input.site, obstacles: [...input.site.obstacles, more] } };
        if (!sameSlideRule(input, worse)) return;
        compared++;
        expect(worstOf(worse)).toBeLessThanOrEqual(worstOf(input) + 1e-6);
      }),
      { numRuns: RUNS, seed: SEED },
    );
    expect(compared).toBeGreaterThan(RUNS / 2);
  });

  it("gives each site the same answer in whatever order they come", () => {
    fc.assert(
      fc.property(fc.array(questions, { minLength: 2, maxLength: 4 }), (inputs) => {
        const coach = inputs[0]!.rig;
        const sites = inputs.map((input, index) => ({ ...input.site, id: `s${index}`, name: `S${index}` }));
        const ranked = (list: CompletedSite[]) =>
          rankSites(coach, list, inputs[0]!.options).map(({ fit }) => [fit.site.id, fit.verdict, fit.bestMargin]);
        expect(ranked([...sites].reverse())).toEqual(ranked(sites));
      }),
      { numRuns: RUNS / 4, seed: SEED },
    );
  });

  it("keeps margin = available - needed on every line and check", () => {
    fc.assert(
      fc.property(questions, (input) => {
        for (const line of fitRig(summary(input)).lines) {
          if (line.margin === null) continue;
          expect(line.margin).toBeCloseTo(line.available! - line.needed!, 9);
        }
      }),
      { numRuns: RUNS, seed: SEED },
    );
  });

  it("offers only fixes that do what they say, and none that makes anything unsafe", () => {
    let offered = 0;
    fc.assert(
      fc.property(questions, (input) => {
        const before = fitRig(input);
        for (const fix of before.fixes) {
          offered++;
          const after = fitRig(applyFix(input, fix.change));
          expect(after.verdict).toBe(fix.verdictAfter);
          expect(verdictRank(after.verdict)).toBeGreaterThanOrEqual(verdictRank(before.verdict));
          const unsafe = (fit: typeof before) =>
            fit.checks
              .filter((check) => check.family === "must-not" && check.status === "fail")
              .map((check) => check.id);
          expect(unsafe(before)).toEqual(expect.arrayContaining(unsafe(after)));
          // What is carried never turns a refused receptacle into an offered one.
          if (before.power.mating === "refused") expect(after.power.mating).toBe("refused");
          for (const link of after.power.chain)
            if (link.amps !== null) expect(link.amps).toBeGreaterThanOrEqual(after.power.amps!);
        }
      }),
      { numRuns: RUNS, seed: SEED },
    );
    expect(offered).toBeGreaterThan(10);
  });
});
