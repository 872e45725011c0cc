/**
 * An upper bound on what any plan can be worth. The rule "a stay has one site at most" is given a price for each stay;
 * then every site fills its nights for itself, and exactly, holes included. Whatever the prices, the sum is a valid
 * bound; good prices make it a close one. Resources that sites share have prices per night in the same way; parties
 * and the cap on moves are left out, which can only raise the bound.
 */
import type { Compiled } from "./compile.ts";

/** Taken besides for a bound stay, so that no schedule leaves it out; given back in the sum. */
const MUST = 1e7;

export interface Prices {
  /** Points that a site pays for having the stay. */
  readonly stay: Float64Array;
  /** Per contended resource and night. */
  readonly resource: Float64Array;
}

/** Options by site and arrival, and the tables of the schedule search, made once. */
export interface Pricing {
  readonly compiled: Compiled;
  /** Options of site s: `siteStart[s]` up to `siteStart[s + 1]` in `order`, by arrival. */
  readonly siteStart: Int32Array;
  readonly order: Int32Array;
  readonly stayOf: Int32Array;
  readonly from: Int32Array;
  readonly until: Int32Array;
  /** Reward and penalty saved, and MUST for a bound stay. */
  readonly worth: Float64Array;
  readonly constant: number;
  readonly best: Float64Array;
  readonly cameFrom: Int32Array;
  readonly takenBy: Int32Array;
}

export function preparePricing(compiled: Compiled): Pricing {
  const { optionSite, optionStay, optionReward, arrival, departure, penalty, fixed, sites, nights, problem } = compiled;
  const count = optionSite.length;
  const order = Int32Array.from({ length: count }, (_, option) => option).sort(
    (one, other) =>
      optionSite[one]! - optionSite[other]! || arrival[optionStay[one]!]! - arrival[optionStay[other]!]! || one - other,
  );
  const siteStart = new Int32Array(sites + 1);
  for (let option = 0; option < count; option++) siteStart[optionSite[option]! + 1]!++;
  for (let site = 0; site < sites; site++) siteStart[site + 1]! += siteStart[site]!;
  const bound = fixed.reduce((number, option) => number + (option >= 0 ? 1 : 0), 0);
  const states = Math.max(problem.weights.minimumStay, 1) + 1;
  return {
    compiled,
    siteStart,
    order,
    stayOf: order.map((option) => optionStay[option]!),
    from: order.map((option) => arrival[optionStay[option]!]!),
    until: order.map((option) => departure[optionStay[option]!]!),
    worth: Float64Array.from(order, (option) => {
      const stay = optionStay[option]!;
      return optionReward[option]! + penalty[stay]! + (fixed[stay]! >= 0 ? MUST : 0);
    }),
    constant: -penalty.reduce((sum, each) => sum + each, 0) - bound * MUST,
    best: new Float64Array((nights + 1) * states),
    cameFrom: new Int32Array((nights + 1) * states),
    takenBy: new Int32Array((nights + 1) * states),
  };
}

/** Subgradient: for each stay 1 less the sites that took it, for each resource and night 1 less its users. */
interface Slack {
  readonly stay: Float64Array;
  readonly resource: Float64Array;
}

/** The bound at these prices; fills `slack`, and calls `taken` for each option in the best schedules. */
function priceOut(pricing: Pricing, prices: Prices, slack: Slack, taken: (option: number) => void): number {
  const { compiled, constant } = pricing;
  slack.stay.fill(1);
  slack.resource.fill(1);
  let sum = constant;
  for (const price of prices.stay) sum += price;
  for (const price of prices.resource) sum += price;
  for (let site = 0; site < compiled.sites; site++) sum += bestSchedule(pricing, prices, site, slack, taken);
  return sum;
}

/** The best schedule of one site at these prices, exactly: nights in order, by the empty nights since the last stay. */
function bestSchedule(
  pricing: Pricing,
  prices: Prices,
  site: number,
  slack: Slack,
  taken: (option: number) => void,
): number {
  const { compiled, siteStart, order, stayOf, from, until, worth, best, cameFrom, takenBy } = pricing;
  const { nights, closed, words, problem, resources } = compiled;
  const { minimumStay, shortGap } = problem.weights;
  const last = Math.max(minimumStay, 1);
  const states = last + 1;
  best.fill(Number.NEGATIVE_INFINITY);
  best[last] = 0;
  let next = siteStart[site]!;
  const end = siteStart[site + 1]!;
  for (let night = 0; night < nights; night++) {
    const row = night * states;
    let top = best[row + last]!;
    let topState = last;
    for (let state = 0; state < last; state++) {
      const value = best[row + state]! - (state > 0 ? shortGap : 0);
      if (value > top) {
        top = value;
        topState = state;
      }
    }
    for (; next < end && from[next]! === night; next++) {
      const stay = stayOf[next]!;
      let value = top + worth[next]! - prices.stay[stay]!;
      if (resources > 0) value -= resourcePrice(compiled, prices, order[next]!);
      const at = until[next]! * states;
      if (value > best[at]!) {
        best[at] = value;
        cameFrom[at] = topState;
        takenBy[at] = next;
      }
    }
    const isShut = (closed[site * words + (night >> 5)]! & (1 << (night & 31))) !== 0;
    for (let state = 0; state < states; state++) {
      const to = row + states + (isShut ? last : Math.min(state + 1, last));
      if (best[row + state]! > best[to]!) {
        best[to] = best[row + state]!;
        cameFrom[to] = state;
      }
    }
  }
  return collect(pricing, slack, taken, states);
}

/** Walks the best schedule backwards and counts who is in it. */
function collect(pricing: Pricing, slack: Slack, taken: (option: number) => void, states: number): number {
  const { compiled, order, stayOf, from, best, cameFrom, takenBy } = pricing;
  const { nights, optionResources, arrival, departure, resources } = compiled;
  let state = 0;
  for (let other = 1; other < states; other++) {
    if (best[nights * states + other]! > best[nights * states + state]!) state = other;
  }
  const value = best[nights * states + state]!;
  let night = nights;
  while (night > 0) {
    const at = night * states + state;
    if (state > 0) {
      state = cameFrom[at]!;
      night--;
      continue;
    }
    const entry = takenBy[at]!;
    const stay = stayOf[entry]!;
    slack.stay[stay]!--;
    taken(order[entry]!);
    if (resources > 0) {
      for (const resource of optionResources[order[entry]!]!) {
        for (let each = arrival[stay]!; each < departure[stay]!; each++) slack.resource[resource * nights + each]!--;
      }
    }
    state = cameFrom[at]!;
    night = from[entry]!;
  }
  return value;
}

function resourcePrice(compiled: Compiled, prices: Prices, option: number): number {
  const { optionResources, optionStay, arrival, departure, nights } = compiled;
  const stay = optionStay[option]!;
  let sum = 0;
  for (const resource of optionResources[option]!) {
    for (let night = arrival[stay]!; night < departure[stay]!; night++)
      sum += prices.resource[resource * nights + night]!;
  }
  return sum;
}

/** Step length at the start, and its changes after evaluations that gave nothing, or something. */
const FIRST_STEP = 0.5;
const MOST_STEP = 2;
const LEAST_STEP = 1e-4;
const SHRINK = 0.66;
const GROW = 1.1;
/** Evaluations in a row without a better bound before the step shrinks. */
const PATIENCE = 12;
/** Share of the newest schedules in the average: at most, and at least as a part of that. */
const FIRST_SHARE = 0.2;
const LEAST_SHARE = 0.02;
const SHARE_FLOOR = 0.1;
/** Evaluations between two looks at the progress; less than this part of the distance halves the share. */
const LOOK = 100;
const PROGRESS = 0.02;

/**
 * Searches for good prices by the volume algorithm (F. Barahona and R. Anbil, "The volume algorithm: producing primal
 * solutions with a subgradient method", Mathematical Programming 87, 2000; from memory): steps are taken from the best
 * prices along an average of the schedules met. Every evaluation gives a valid bound.
 */
export class BoundSearch {
  readonly #pricing: Pricing;
  readonly #slack: Slack;
  readonly #average: Slack;
  readonly #now: Prices;
  readonly best: Prices;
  bound = Number.POSITIVE_INFINITY;
  evaluations = 0;
  #step = FIRST_STEP;
  #share = FIRST_SHARE;
  #since = 0;
  #lookedAt = Number.POSITIVE_INFINITY;

  constructor(pricing: Pricing, start: Prices) {
    this.#pricing = pricing;
    const copy = (prices: Prices | Slack) => ({ stay: prices.stay.slice(), resource: prices.resource.slice() });
    this.#now = copy(start);
    this.best = copy(start);
    this.#slack = { stay: new Float64Array(start.stay.length), resource: new Float64Array(start.resource.length) };
    this.bound = priceOut(pricing, this.#now, this.#slack, ignore);
    this.#average = copy(this.#slack);
  }

  /** One evaluation and one step. `target` is the value of the best plan known. */
  advance(target: number): void {
    this.#stepFromBest(target);
    const value = priceOut(this.#pricing, this.#now, this.#slack, ignore);
    this.evaluations++;
    if (value < this.bound) {
      const isGood = dot(this.#slack.stay, this.#average.stay) + dot(this.#slack.resource, this.#average.resource) > 0;
      if (isGood) this.#step = Math.min(this.#step * GROW, MOST_STEP);
      this.bound = value;
      this.best.stay.set(this.#now.stay);
      this.best.resource.set(this.#now.resource);
      this.#since = 0;
    } else if (++this.#since >= PATIENCE) {
      this.#since = 0;
      this.#step = Math.max(this.#step * SHRINK, LEAST_STEP);
    }
    this.#blend();
    if (this.evaluations % LOOK === 0) this.#look(target);
  }

  #stepFromBest(target: number): void {
    const { stay, resource } = this.best;
    const norm = squares(this.#average.stay, stay) + squares(this.#average.resource, resource);
    if (norm === 0) return;
    const length = (this.#step * Math.max(this.bound - target, 1)) / norm;
    shift(this.#now.stay, stay, this.#average.stay, length);
    shift(this.#now.resource, resource, this.#average.resource, length);
  }

  /** Blends the newest schedules into the average, in the proportion that makes the average shortest. */
  #blend(): void {
    const fresh = [this.#slack.stay, this.#slack.resource] as const;
    const old = [this.#average.stay, this.#average.resource] as const;
    let across = 0;
    let length = 0;
    for (const part of [0, 1] as const) {
      for (let index = 0; index < old[part].length; index++) {
        const difference = fresh[part][index]! - old[part][index]!;
        across -= difference * old[part][index]!;
        length += difference * difference;
      }
    }
    const wished = length === 0 ? this.#share : across / length;
    const share = Math.min(Math.max(wished, this.#share * SHARE_FLOOR), this.#share);
    for (const part of [0, 1] as const) {
      for (let index = 0; index < old[part].length; index++) {
        old[part][index] = share * fresh[part][index]! + (1 - share) * old[part][index]!;
      }
    }
  }

  #look(target: number): void {
    if (this.#lookedAt - this.bound < PROGRESS * (this.#lookedAt - target))
      this.#share = Math.max(this.#share / 2, LEAST_SHARE);
    this.#lookedAt = this.bound;
  }
}

const ignore = (): void => undefined;

function dot(one: Float64Array, other: Float64Array): number {
  let sum = 0;
  for (let index = 0; index < one.length; index++) sum += one[index]! * other[index]!;
  return sum;
}

/** Squared length of the part of a direction that may move: a price at zero that wants to fall does not. */
function squares(direction: Float64Array, prices: Float64Array): number {
  let sum = 0;
  for (let index = 0; index < direction.length; index++) {
    if (direction[index]! < 0 || prices[index]! > 0) sum += direction[index]! ** 2;
  }
  return sum;
}

function shift(target: Float64Array, from: Float64Array, direction: Float64Array, length: number): void {
  for (let index = 0; index < target.length; index++) {
    target[index] = Math.max(0, from[index]! - length * direction[index]!);
  }
}
