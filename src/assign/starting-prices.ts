/**
 * Prices to start the bound from. As if all sites were alike, every night gets a price at which no more stays want it
 * than there are sites; a stay is then worth what is left of its points when its nights are paid. Full nights, whose
 * prices are as high as the loss of a whole stay, would otherwise take most of the search for prices to find.
 */
import type { Prices } from "./bound.ts";
import type { Compiled } from "./compile.ts";

const EVALUATIONS = 600;
const FIRST_STEP = 1;
const SHRINK = 0.7;
const PATIENCE = 8;

/** `value` is the worth of a plan that is known. */
export function startingPrices(compiled: Compiled, value: number): Prices {
  const { stays, optionStart, optionReward, penalty, fixed, resources, nights } = compiled;
  const worth = new Float64Array(stays);
  for (let stay = 0; stay < stays; stay++) {
    if (optionStart[stay + 1]! > optionStart[stay]!) {
      worth[stay] = Math.max(0, penalty[stay]! + optionReward[optionStart[stay]!]!);
    }
  }
  const nightPrices = priceNights(compiled, worth, value);
  const paid = runningSum(nightPrices);
  const stay = worth.map((points, index) =>
    fixed[index]! >= 0 ? 0 : Math.max(0, points - costOf(compiled, paid, index)),
  );
  return { stay, resource: new Float64Array(resources * nights) };
}

function runningSum(prices: Float64Array): Float64Array {
  const sums = new Float64Array(prices.length + 1);
  for (let night = 0; night < prices.length; night++) sums[night + 1] = sums[night]! + prices[night]!;
  return sums;
}

const costOf = ({ arrival, departure }: Compiled, paid: Float64Array, stay: number): number =>
  paid[departure[stay]!]! - paid[arrival[stay]!]!;

function openSites({ sites, nights, closed, words }: Compiled): Float64Array {
  const open = new Float64Array(nights).fill(sites);
  for (let site = 0; site < sites; site++) {
    for (let night = 0; night < nights; night++) {
      if ((closed[site * words + (night >> 5)]! & (1 << (night & 31))) !== 0) open[night]!--;
    }
  }
  return open;
}

/** Subgradient steps on the prices of nights; the best prices met. */
function priceNights(compiled: Compiled, worth: Float64Array, value: number): Float64Array {
  const { nights, penalty, arrival, departure } = compiled;
  const capacity = openSites(compiled);
  const lost = penalty.reduce((sum, each) => sum + each, 0);
  const prices = new Float64Array(nights);
  const best = prices.slice();
  const change = new Float64Array(nights + 1);
  let bestBound = Number.POSITIVE_INFINITY;
  let step = FIRST_STEP;
  let since = 0;
  for (let each = 0; each < EVALUATIONS; each++) {
    const paid = runningSum(prices);
    change.fill(0);
    let bound = -lost;
    for (let stay = 0; stay < worth.length; stay++) {
      const left = worth[stay]! - costOf(compiled, paid, stay);
      if (left <= 0) continue;
      bound += left;
      change[arrival[stay]!]!++;
      change[departure[stay]!]!--;
    }
    let there = 0;
    let norm = 0;
    for (let night = 0; night < nights; night++) {
      bound += capacity[night]! * prices[night]!;
      there += change[night]!;
      // From here on the number of stays above the sites that there are.
      change[night] = there - capacity[night]!;
      there = change[night]! + capacity[night]!;
      if (change[night]! > 0 || prices[night]! > 0) norm += change[night]! ** 2;
    }
    if (bound < bestBound) {
      bestBound = bound;
      best.set(prices);
      since = 0;
    } else if (++since > PATIENCE) {
      since = 0;
      step *= SHRINK;
      prices.set(best);
    }
    if (norm === 0) break;
    const length = (step * Math.max(bound - value, 1)) / norm;
    for (let night = 0; night < nights; night++) {
      prices[night] = Math.max(0, prices[night]! + length * change[night]!);
    }
  }
  return best;
}
