/**
 * Speed of exposure roses, one thread, seeded map: 2,000 features within 2 km of a campground of 500 sites.
 * Run with: npx tsx tests/bench/wind.ts
 */
import { performance } from "node:perf_hooks";
import type { CampgroundFeature } from "../../src/site/feature.ts";
import { roseAt } from "../../src/wind/rose.ts";
import { compileSurroundings } from "../../src/wind/surroundings.ts";
import { area, CENTRE, line, type Spot, spot } from "../wind/places.ts";
import { seeded } from "./random-stances.ts";

const SEED = 20261125;
const FEATURES = 2000;
const SITES = 500;
const REACH = 2000;
/** Half the side of the campground itself, metres; a third of the features stands in it. */
const GROUNDS = 400;
const ROUNDS = 5;

const random = seeded(SEED);

function between(least: number, most: number): number {
  return least + (most - least) * random();
}

/** A third of all barriers stands in the campground; ground is spread over the whole map and covers two fifths. */
function place(index: number): Spot {
  const reach = index % 3 === 0 ? GROUNDS : REACH;
  return [between(-reach, reach), between(-reach, reach)];
}

/** A wavy closed outline with many corners, as maps draw woods and lakes. */
function outline([east, north]: Spot, radius: number, corners: number): readonly Spot[] {
  return Array.from({ length: corners }, (_, index) => {
    const angle = (2 * Math.PI * index) / corners;
    const reach = radius * between(0.7, 1.3);
    return [east + reach * Math.cos(angle), north + reach * Math.sin(angle)] as const;
  });
}

function feature(index: number): CampgroundFeature {
  const id = `feature-${index}`;
  const at = place(index);
  const kind = random();
  if (kind < 0.35) {
    const properties = { kind: "shelter", what: "trees", height: between(3, 18), radius: between(1, 5) };
    return spot(id, at, properties);
  }
  if (kind < 0.6) {
    const size = between(3, 15);
    const corners = outline(at, size, 4);
    return area(id, [corners], { kind: "shelter", what: "building", height: between(3, 9) });
  }
  if (kind < 0.8) {
    const bends = Array.from({ length: 6 }, (_, bend) => [at[0] + 15 * bend, at[1] + between(-10, 10)] as const);
    return line(id, bends, { kind: "shelter", what: random() < 0.5 ? "hedge" : "trees", height: between(1, 12) });
  }
  const what = ["wood", "open", "water", "built"][index % 4];
  const anywhere: Spot = [between(-REACH, REACH), between(-REACH, REACH)];
  return area(id, [outline(anywhere, between(20, 120), 40)], { kind: "ground", what });
}

const features = Array.from({ length: FEATURES }, (_, index) => feature(index));
const sites = Array.from({ length: SITES }, () => ({
  east: between(-GROUNDS, GROUNDS),
  north: between(-GROUNDS, GROUNDS),
}));

const begun = performance.now();
const surroundings = compileSurroundings(features, CENTRE);
console.log(`compiled ${FEATURES} features in ${(performance.now() - begun).toFixed(0)} ms (first run)`);

const all: number[] = [];
let best = Number.POSITIVE_INFINITY;
let sum = 0;
for (let round = 0; round < ROUNDS; round += 1) {
  const cpu = process.cpuUsage();
  for (const site of sites) {
    const start = performance.now();
    sum += roseAt(surroundings, site, { date: "2026-07-04", hemisphere: "north" }).sectors[0]!.ratio;
    all.push(performance.now() - start);
  }
  const { user, system } = process.cpuUsage(cpu);
  best = Math.min(best, (user + system) / 1000);
}
all.sort((a, b) => a - b);
const at = (share: number): string => all[Math.floor(share * (all.length - 1))]!.toFixed(2);
console.log(
  `a rose: median ${at(0.5)} ms, 95 % ${at(0.95)} ms, slowest ${at(1)} ms (mean ratio ${(sum / all.length).toFixed(3)})`,
);
console.log(`all roses of ${SITES} sites: ${best.toFixed(0)} ms of processor time, the best of ${ROUNDS} rounds`);
