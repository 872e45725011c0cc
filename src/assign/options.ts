/**
 * The options of stays as flat arrays: every site and way that a stay may have, best reward first. The order of a row
 * of the problem is worked out once and serves every problem that has the same row, so that a changed plan compiles
 * quickly.
 */
import type { AssignmentProblem, SiteOption } from "./problem.ts";

/** What an option of a bound stay is. */
export interface BoundOption {
  readonly site: number;
  readonly way: number;
  readonly reward: number;
}

export interface OptionArrays {
  /** Options of stay i: `optionStart[i]` up to `optionStart[i + 1]`, best reward first. */
  readonly optionStart: Int32Array;
  readonly optionStay: Int32Array;
  readonly optionSite: Int32Array;
  readonly optionWay: Int32Array;
  /** Score, less the points for a move. */
  readonly optionReward: Float64Array;
  /** Contended resources that an option holds; the same array for the same set. */
  readonly optionResources: readonly (readonly number[])[];
  /** Contended resources. */
  readonly resources: number;
}

/** Whether a stay may have a site, or a resource, on all its nights. */
export interface Openness {
  readonly site: (stay: number, site: number) => boolean;
  readonly resource: (stay: number, resource: number) => boolean;
}

const NO_RESOURCES: readonly number[] = [];

/** A row of the problem by score. */
interface Ranked {
  readonly site: Int32Array;
  readonly way: Int32Array;
  readonly score: Float64Array;
  readonly resources: readonly (readonly number[])[];
}

const RANKED = new WeakMap<readonly SiteOption[], Ranked>();

function rankedOf(row: readonly SiteOption[]): Ranked {
  const known = RANKED.get(row);
  if (known !== undefined) return known;
  const site: number[] = [];
  const way: number[] = [];
  const score: number[] = [];
  for (let at = 0; at < row.length; at++) {
    const { ways } = row[at]!;
    for (let each = 0; each < ways.length; each++) {
      site.push(at);
      way.push(each);
      if (!Number.isFinite(ways[each]!.score)) throw new RangeError(`Site ${at} has a score that is no number.`);
      score.push(ways[each]!.score);
    }
  }
  // Ties by site and way, in whose order they stand, so that one problem always compiles to one order.
  const order = Int32Array.from(site, (_, index) => index).sort(
    (one, other) => score[other]! - score[one]! || one - other,
  );
  const ranked: Ranked = {
    site: order.map((index) => site[index]!),
    way: order.map((index) => way[index]!),
    score: Float64Array.from(order, (index) => score[index]!),
    resources: Array.from(order, (index) => {
      const { resources } = row[site[index]!]!.ways[way[index]!]!;
      return resources.length === 0 ? NO_RESOURCES : resources;
    }),
  };
  RANKED.set(row, ranked);
  return ranked;
}

/** The arrays while they are being filled. */
class Filling {
  readonly start: Int32Array;
  readonly stay: Int32Array;
  readonly site: Int32Array;
  readonly way: Int32Array;
  readonly reward: Float64Array;
  readonly resources: (readonly number[])[];
  count = 0;

  constructor(stays: number, most: number) {
    this.start = new Int32Array(stays + 1);
    this.stay = new Int32Array(most);
    this.site = new Int32Array(most);
    this.way = new Int32Array(most);
    this.reward = new Float64Array(most);
    this.resources = new Array<readonly number[]>(most).fill(NO_RESOURCES);
  }

  add(stay: number, { site, way, reward }: BoundOption, resources: readonly number[]): void {
    const at = this.count++;
    this.stay[at] = stay;
    this.site[at] = site;
    this.way[at] = way;
    this.reward[at] = reward;
    this.resources[at] = resources;
  }

  /** Moves the entry to the front of those that are worth less, back to `first` at most. */
  raise(entry: number, first: number): void {
    const { site, way, reward, resources } = this;
    const own = { site: site[entry]!, way: way[entry]!, reward: reward[entry]!, resources: resources[entry]! };
    let at = entry;
    while (
      at > first &&
      (reward[at - 1]! < own.reward || (reward[at - 1] === own.reward && site[at - 1]! > own.site))
    ) {
      site[at] = site[at - 1]!;
      way[at] = way[at - 1]!;
      reward[at] = reward[at - 1]!;
      resources[at] = resources[at - 1]!;
      at--;
    }
    site[at] = own.site;
    way[at] = own.way;
    reward[at] = own.reward;
    resources[at] = own.resources;
  }
}

/** Adds the options of a free stay; of a site's ways only those before one that needs nothing. */
function fillFree(
  filling: Filling,
  problem: AssignmentProblem,
  index: number,
  open: Openness,
  plain: Int32Array,
): void {
  const { profile, accepted } = problem.stays[index]!;
  const ranked = rankedOf(problem.options[profile]!);
  const first = filling.count;
  const { move } = problem.weights;
  for (let rank = 0; rank < ranked.site.length; rank++) {
    const site = ranked.site[rank]!;
    if (plain[site] === index || !open.site(index, site)) continue;
    const resources = ranked.resources[rank]!;
    if (resources.length === 0) plain[site] = index;
    else if (!resources.every((resource) => open.resource(index, resource))) continue;
    const cost = accepted !== null && accepted !== site ? move : 0;
    filling.add(index, { site, way: ranked.way[rank]!, reward: ranked.score[rank]! - cost }, resources);
    if (site === accepted) filling.raise(filling.count - 1, first);
  }
}

/** Resources that options of different sites want: only these can be fought for once the sites are told apart. */
function contendedNumbers(
  filling: Filling,
  resources: number,
): { readonly number: Int32Array; readonly count: number } {
  const wantedBy = new Int32Array(resources).fill(-1);
  const number = new Int32Array(resources).fill(-1);
  let count = 0;
  for (let option = 0; option < filling.count; option++) {
    for (const resource of filling.resources[option]!) {
      const site = filling.site[option]!;
      if (wantedBy[resource] === -1) wantedBy[resource] = site;
      else if (wantedBy[resource] !== site && number[resource] === -1) number[resource] = count++;
    }
  }
  return { number, count };
}

/** Keeps only contended resources, and of the ways of one site only those that no better one with fewer outdoes. */
function keepContended(filling: Filling, number: Int32Array): void {
  const sets = new Map<string, readonly number[]>();
  let kept = 0;
  for (let stay = 0; stay + 1 < filling.start.length; stay++) {
    const [from, until] = [filling.start[stay]!, filling.start[stay + 1]!];
    const bySite = new Map<number, (readonly number[])[]>();
    filling.start[stay] = kept;
    for (let option = from; option < until; option++) {
      const resources = shareSet(filling.resources[option]!, number, sets);
      const site = filling.site[option]!;
      const earlier = bySite.get(site) ?? [];
      if (earlier.some((one) => one.every((resource) => resources.includes(resource)))) continue;
      bySite.set(site, [...earlier, resources]);
      filling.stay[kept] = stay;
      filling.site[kept] = site;
      filling.way[kept] = filling.way[option]!;
      filling.reward[kept] = filling.reward[option]!;
      filling.resources[kept] = resources;
      kept++;
    }
  }
  filling.start[filling.start.length - 1] = kept;
  filling.count = kept;
  filling.resources.length = kept;
}

function shareSet(
  resources: readonly number[],
  number: Int32Array,
  sets: Map<string, readonly number[]>,
): readonly number[] {
  const left = resources.map((resource) => number[resource]!).filter((resource) => resource >= 0);
  if (left.length === 0) return NO_RESOURCES;
  const key = left.join(" ");
  const known = sets.get(key);
  if (known !== undefined) return known;
  sets.set(key, left);
  return left;
}

/** All options. A bound stay has the one given: its resources are held already, nobody free can want them. */
export function optionArrays(
  problem: AssignmentProblem,
  bound: ReadonlyMap<number, BoundOption>,
  open: Openness,
): OptionArrays {
  const most = problem.stays.reduce(
    (sum, { profile }, index) => sum + (bound.has(index) ? 1 : rankedOf(problem.options[profile]!).site.length),
    0,
  );
  const filling = new Filling(problem.stays.length, most);
  const plain = new Int32Array(problem.sites.length).fill(-1);
  problem.stays.forEach((_, index) => {
    filling.start[index] = filling.count;
    const place = bound.get(index);
    if (place === undefined) fillFree(filling, problem, index, open, plain);
    else filling.add(index, place, NO_RESOURCES);
  });
  filling.start[problem.stays.length] = filling.count;
  filling.resources.length = filling.count;
  const { number, count } = contendedNumbers(filling, problem.resources.length);
  if (problem.resources.length > 0) keepContended(filling, number);
  return {
    optionStart: filling.start,
    optionStay: filling.stay.subarray(0, filling.count),
    optionSite: filling.site.subarray(0, filling.count),
    optionWay: filling.way.subarray(0, filling.count),
    optionReward: filling.reward.subarray(0, filling.count),
    optionResources: filling.resources,
    resources: count,
  };
}
