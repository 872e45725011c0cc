/**
 * Invented campgrounds and stays of a wished size, from a seed. The sites differ in length, amperes, layout and sewer;
 * the stays in rig, nights and wishes; arrivals crowd towards weekends. Demand is not planted: nobody knows whether all
 * can be placed.
 */
import type { AssignmentProblem, RuleCode, ScoreTerm, SiteOption } from "../../src/assign/problem.ts";
import { type Random, seededRandom } from "../../src/assign/random.ts";
import { DEFAULT_WEIGHTS } from "../../src/assign/weights.ts";

export interface InstanceSpec {
  readonly sites: number;
  readonly nights: number;
  /** Nights asked for, as a share of all nights of all sites. */
  readonly demand: number;
  readonly mix: "long" | "short" | "season";
  readonly seed: number;
  /** True when guests ask for nights on which the campground is full already: some have to be refused. */
  readonly crowded?: boolean;
}

interface Site {
  readonly feet: number;
  readonly amps: number;
  readonly pullThrough: boolean;
  readonly sewer: boolean;
  readonly accessible: boolean;
}

interface Rig {
  readonly feet: number;
  readonly amps: number;
  readonly needsPullThrough: boolean;
  readonly needsSewer: boolean;
  readonly needsAccessible: boolean;
  readonly taste: number;
}

function pick<T>(random: Random, shares: readonly (readonly [T, number])[]): T {
  let left = random.next() * shares.reduce((sum, [, share]) => sum + share, 0);
  for (const [value, share] of shares) {
    left -= share;
    if (left < 0) return value;
  }
  return shares.at(-1)![0];
}

function inventSite(random: Random): Site {
  const feet = pick(random, [
    [28, 1],
    [35, 3],
    [40, 3],
    [45, 2],
    [60, 2],
    [70, 1],
  ] as const);
  return {
    feet,
    amps: pick(random, [
      [50, feet >= 40 ? 4 : 1],
      [30, 3],
    ] as const),
    pullThrough: feet >= 60 ? random.next() < 0.7 : random.next() < 0.1,
    sewer: random.next() < 0.6,
    accessible: random.next() < 0.05,
  };
}

function inventRig(random: Random): Rig {
  const feet = 18 + Math.floor(26 * random.next() ** 1.3);
  return {
    feet,
    amps:
      feet > 33
        ? pick(random, [
            [50, 3],
            [30, 2],
          ] as const)
        : pick(random, [
            [50, 1],
            [30, 9],
          ] as const),
    needsPullThrough: feet > 30 && random.next() < 0.2,
    needsSewer: random.next() < 0.4,
    needsAccessible: random.next() < 0.01,
    taste: random.next(),
  };
}

function fitOf(rig: Rig, site: Site, index: number): SiteOption {
  const rules: RuleCode[] = [];
  if (rig.feet > site.feet) rules.push("fit:length");
  if (rig.amps > site.amps) rules.push("fit:power");
  if (rig.needsPullThrough && !site.pullThrough) rules.push("must-have");
  if (rig.needsSewer && !site.sewer) rules.push("fit:sewer");
  if (rig.needsAccessible && !site.accessible) rules.push("needs-accessible");
  if (rules.length > 0) return { ways: [], rules };
  // A rig that likes a part of the campground; asymmetric, so that no two rigs of one size have the same list.
  const liking = 1 - Math.abs(((index * 0.618034 + rig.taste) % 1) - 0.5) * 2;
  const terms: ScoreTerm[] = [
    { term: "verdict", points: 40, value: "fits" },
    { term: "margin", points: Math.round(30 * Math.min(1, (site.feet - rig.feet) / 12)), value: null },
    { term: "wish", points: Math.round(30 * liking), value: null },
  ];
  if (site.amps === 50 && rig.amps <= 30) terms.push({ term: "scarce-power", points: -8, value: rig.amps });
  if (site.pullThrough && !rig.needsPullThrough) terms.push({ term: "scarce-pull-through", points: -5, value: null });
  if (site.feet >= 60 && rig.feet <= 40) terms.push({ term: "scarce-length", points: -6, value: rig.feet });
  if (site.accessible && !rig.needsAccessible) terms.push({ term: "scarce-accessible", points: -15, value: null });
  return { ways: [{ resources: [], score: terms.reduce((sum, { points }) => sum + points, 0), terms }], rules: [] };
}

const LENGTHS: Readonly<Record<InstanceSpec["mix"], readonly (readonly [number, number])[]>> = {
  short: [
    [1, 2],
    [2, 5],
    [3, 3],
    [4, 2],
    [7, 1],
  ],
  long: [
    [2, 4],
    [3, 4],
    [5, 2],
    [7, 5],
    [14, 5],
    [28, 5],
    [60, 2],
    [90, 4],
  ],
  season: [
    [2, 2],
    [3, 2],
    [7, 3],
    [14, 3],
    [28, 5],
    [60, 3],
    [90, 5],
  ],
};

export function inventInstance(spec: InstanceSpec): AssignmentProblem {
  const random = seededRandom(spec.seed);
  const sites = Array.from({ length: spec.sites }, () => inventSite(random));
  const rigs: Rig[] = [];
  const stays: AssignmentProblem["stays"][number][] = [];
  const wanted = spec.demand * spec.sites * spec.nights;
  const load = new Array<number>(spec.nights).fill(0);
  let asked = 0;
  while (asked < wanted) {
    const length = pick(random, LENGTHS[spec.mix]);
    // Guests who arrived before the first night are part of the demand, cut at both ends of the horizon.
    const start = random.whole(spec.nights + length - 1) - length + 1;
    const arrival = Math.max(0, start);
    const departure = Math.min(spec.nights, start + length);
    // Nobody asks for a night on which the campground says that it is full.
    if (spec.crowded !== true && load.slice(arrival, departure).some((each) => each >= spec.sites)) continue;
    for (let night = arrival; night < departure; night++) load[night] = load[night]! + 1;
    rigs.push(inventRig(random));
    asked += departure - arrival;
    const id = `s${stays.length + 1}`;
    stays.push({
      id,
      arrival,
      departure,
      profile: stays.length,
      priority: 0,
      inHouse: false,
      locked: null,
      accepted: null,
      party: null,
    });
  }
  return {
    firstNight: 0,
    sites: sites.map((_, index) => ({
      id: `p${index + 1}`,
      name: `${index + 1}`,
      closures: [],
      resources: [],
      place: { east: (index % 20) * 12, north: Math.floor(index / 20) * 35 },
    })),
    resources: [],
    stays,
    options: rigs.map((rig) => sites.map((site, index) => fitOf(rig, site, index))),
    weights: DEFAULT_WEIGHTS,
    maxMoves: null,
  };
}
