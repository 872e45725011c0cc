/**
 * Laws that the modelled gust must keep whatever the map (derived from the formulas of wind.test.ts): it does not know
 * north, a barrier that is no part of the place's near surroundings never raises it, smoother ground never lowers it.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { CampgroundFeature } from "../../src/site/feature.ts";
import { gustAtAwning, type Wind } from "../../src/wind/awning.ts";
import { type Rose, roseAt } from "../../src/wind/rose.ts";
import { SECTOR_COUNT, SECTOR_STEP } from "../../src/wind/sector.ts";
import { area, areas, compiled, HERE, line, type Properties, type Spot, spot, turned } from "../wind/places.ts";

const RUNS = 2000;
const ROUNDING = 1e-6;

/** A thing on the map before it is turned: its shape in metres and what it is. */
interface Thing {
  readonly form: "line" | "area" | "ring" | "two" | "spot";
  readonly at: Spot;
  readonly half: Spot;
  readonly lean: number;
  readonly properties: Properties;
}

/** Corners of a leaning rectangle. */
function corners({ at, half, lean }: Thing, size = 1, shift = 0): readonly Spot[] {
  const [along, across] = half;
  const local: readonly Spot[] = [
    [-along * size + shift, -across * size],
    [along * size + shift, -across * size * 0.8],
    [along * size * 0.9 + shift, across * size],
    [-along * size + shift, across * size],
  ];
  return local.map((one) => {
    const [east, north] = turned(one, lean);
    return [at[0] + east, at[1] + north];
  });
}

function featureOf(thing: Thing, index: number, angle: number): CampgroundFeature {
  const id = `thing-${index}`;
  const turn = (spots: readonly Spot[]): readonly Spot[] => spots.map((one) => turned(one, angle));
  const whole = corners(thing);
  const { properties } = thing;
  if (thing.form === "spot") return spot(id, turned(thing.at, angle), properties);
  if (thing.form === "line") return line(id, turn(whole.slice(0, 3)), properties);
  if (thing.form === "ring") return area(id, [turn(whole), turn(corners(thing, 0.5))], properties);
  if (thing.form === "two") {
    return areas(id, [[turn(whole)], [turn(corners(thing, 1, 3 * thing.half[0]))]], properties);
  }
  return area(id, [turn(whole)], properties);
}

function roseOf(things: readonly Thing[], angle = 0, height = 2.5): Rose {
  return roseAt(compiled(...things.map((thing, index) => featureOf(thing, index, angle))), HERE, { height });
}

/** Off every round number, so that no edge lies along a ray. */
function metres(least: number, most: number): fc.Arbitrary<number> {
  return fc.integer({ min: least * 10, max: Math.round(most * 10) }).map((tenths) => tenths / 10 + 0.0137);
}

function thing(
  properties: fc.Arbitrary<Properties>,
  reach: number,
  forms: readonly Thing["form"][],
): fc.Arbitrary<Thing> {
  return fc.record({
    form: fc.constantFrom(...forms),
    at: fc.tuple(metres(-reach, reach), metres(-reach, reach)),
    half: fc.tuple(metres(1, reach / 2), metres(1, reach / 3)),
    lean: fc.integer({ min: 0, max: 628 }).map((hundredths) => hundredths / 100 + 0.00173),
    properties,
  });
}

const shelter = fc.oneof(
  fc.record({
    kind: fc.constant("shelter"),
    what: fc.constantFrom("trees", "hedge", "wall", "building"),
    height: metres(1, 20),
    porosity: fc.constantFrom(0, 0.3, 0.6),
  }),
  fc.record({
    kind: fc.constant("shelter"),
    what: fc.constantFrom("trees", "hedge", "building"),
    leaf: fc.constantFrom("evergreen", "deciduous"),
  }),
);
const barrierThing = thing(shelter, 250, ["line", "area", "ring", "two", "spot"]);
const GROUNDS = ["sea", "water", "open", "built", "wood"] as const;
type Ground = (typeof GROUNDS)[number];

function groundProperties(what: Ground): Properties {
  return what === "sea" ? { kind: "ground", what: "water", water: "sea" } : { kind: "ground", what };
}

const groundThing = thing(fc.constantFrom(...GROUNDS).map(groundProperties), 2400, ["area", "ring", "two"]);
const things = fc.tuple(fc.array(barrierThing, { maxLength: 4 }), fc.array(groundThing, { maxLength: 4 }));

const WINDS: readonly Wind[] = [
  { gust: 14, mean: 9, directions: [0.1] },
  { mean: 9, directions: [2.3] },
  { gust: 11, directions: [4.4, 5.1] },
  { mean: 7 },
];
const AWNING = { azimuth: 0.7, windClass: 2 };

function speed(rose: Rose, wind: Wind): number {
  return gustAtAwning(rose, wind, AWNING).speed!;
}

describe("laws of the modelled gust", () => {
  it("turning place, map, wind and awning together changes nothing", () => {
    fc.assert(
      fc.property(things, fc.integer({ min: 1, max: 15 }), metres(0, 6), ([barriers, grounds], steps, from) => {
        const angle = steps * SECTOR_STEP;
        const still = roseOf([...barriers, ...grounds]);
        const turnedRose = roseOf([...barriers, ...grounds], angle);
        for (let index = 0; index < SECTOR_COUNT; index += 1) {
          const here = still.sectors[index]!;
          const there = turnedRose.sectors[(index + steps) % SECTOR_COUNT]!;
          expect(there.category).toBe(here.category);
          expect(Math.abs(there.ratio - here.ratio)).toBeLessThan(ROUNDING);
          expect(Math.abs(there.ratioLeast - here.ratioLeast)).toBeLessThan(ROUNDING);
          expect(there.by?.id).toBe(here.by?.id);
        }
        const a = gustAtAwning(still, { gust: 14, directions: [from] }, AWNING);
        const b = gustAtAwning(
          turnedRose,
          { gust: 14, directions: [from + angle] },
          { azimuth: 0.7 + angle, windClass: 2 },
        );
        expect(Math.abs(a.pressure! - b.pressure!)).toBeLessThan(1e-4 * a.pressure!);
        expect(b.level).toBe(a.level);
      }),
      { numRuns: RUNS },
    );
  });

  it("a barrier that neither holds the place nor stands within twice its height never raises the gust", () => {
    fc.assert(
      fc.property(things, barrierThing, ([barriers, grounds], added) => {
        const before = [...barriers, ...grounds];
        const height = (added.properties["height"] as number | undefined) ?? 8;
        fc.pre(Math.hypot(...added.at) - Math.hypot(4 * added.half[0], added.half[1]) > 2 * height);
        const without = roseOf(before);
        const withIt = roseOf([...before, added]);
        for (let index = 0; index < SECTOR_COUNT; index += 1) {
          const [there, here] = [withIt.sectors[index]!, without.sectors[index]!];
          expect(there.ratio).toBeLessThanOrEqual(here.ratio + 1e-12);
          expect(there.ratioSound).toBeLessThanOrEqual(here.ratioSound + 1e-12);
        }
        for (const wind of WINDS) expect(speed(withIt, wind)).toBeLessThanOrEqual(speed(without, wind) + 1e-12);
      }),
      { numRuns: RUNS },
    );
  });

  it("smoother ground never lowers the gust, given or estimated", () => {
    const change = fc
      .tuple(fc.nat(4), fc.nat(4))
      .filter(([from, to]) => from > to)
      .map(([from, to]) => [GROUNDS[from]!, GROUNDS[to]!] as const);
    const patch = thing(fc.constant({}), 1500, ["area", "ring", "two"]);
    fc.assert(
      fc.property(things, patch, change, ([barriers, grounds], place, [rough, smooth]) => {
        const others = [...barriers, ...grounds];
        const before = roseOf([...others, { ...place, properties: groundProperties(rough) }]);
        const after = roseOf([...others, { ...place, properties: groundProperties(smooth) }]);
        for (let index = 0; index < SECTOR_COUNT; index += 1) {
          expect(after.sectors[index]!.ratio).toBeGreaterThanOrEqual(before.sectors[index]!.ratio - 1e-12);
        }
        for (const wind of WINDS) expect(speed(after, wind)).toBeGreaterThanOrEqual(speed(before, wind) - 1e-12);
      }),
      { numRuns: RUNS },
    );
  });
});
