/**
 * What an option costs at given prices: the points by which the best schedule of its site falls when the option is
 * forced into it, the price of its stay paid. An option whose loss is larger than the distance from the best plan to
 * the bound is in no better plan. The losses lead the search to what the whole campground can spare.
 */
import type { Prices, Pricing } from "./bound.ts";

/** Loss of each option, points, not negative. */
export function optionLosses(pricing: Pricing, prices: Prices): Float64Array {
  const { compiled } = pricing;
  const losses = new Float64Array(compiled.optionSite.length);
  const { nights, problem } = compiled;
  const states = Math.max(problem.weights.minimumStay, 1) + 1;
  const before = new Float64Array((nights + 1) * states);
  const after = new Float64Array((nights + 1) * states);
  for (let site = 0; site < compiled.sites; site++) {
    const worth = worths(pricing, prices, site);
    forwards(pricing, site, worth, before, states);
    backwards(pricing, site, worth, after, states);
    const whole = after[states - 1]!;
    const first = pricing.siteStart[site]!;
    for (let entry = first; entry < pricing.siteStart[site + 1]!; entry++) {
      const forced =
        topOf(pricing, before, pricing.from[entry]! * states, states) +
        worth[entry - first]! +
        after[pricing.until[entry]! * states]!;
      losses[pricing.order[entry]!] = Math.max(0, whole - forced);
    }
  }
  return losses;
}

function worths(pricing: Pricing, prices: Prices, site: number): Float64Array {
  const { compiled, siteStart, order, stayOf, worth } = pricing;
  const { resources, optionResources, arrival, departure, nights } = compiled;
  const first = siteStart[site]!;
  return Float64Array.from({ length: siteStart[site + 1]! - first }, (_, index) => {
    const entry = first + index;
    const stay = stayOf[entry]!;
    let value = worth[entry]! - prices.stay[stay]!;
    if (resources === 0) return value;
    for (const resource of optionResources[order[entry]!]!) {
      for (let night = arrival[stay]!; night < departure[stay]!; night++)
        value -= prices.resource[resource * nights + night]!;
    }
    return value;
  });
}

/** Best value before a night when a stay begins there: over the empty nights before it, a short hole paid. */
function topOf({ compiled }: Pricing, table: Float64Array, row: number, states: number): number {
  const { shortGap } = compiled.problem.weights;
  let top = Math.max(table[row]!, table[row + states - 1]!);
  for (let state = 1; state < states - 1; state++) top = Math.max(top, table[row + state]! - shortGap);
  return top;
}

function isShut({ compiled: { closed, words } }: Pricing, site: number, night: number): boolean {
  return (closed[site * words + (night >> 5)]! & (1 << (night & 31))) !== 0;
}

function forwards(pricing: Pricing, site: number, worth: Float64Array, table: Float64Array, states: number): void {
  const { compiled, siteStart, from, until } = pricing;
  const last = states - 1;
  table.fill(Number.NEGATIVE_INFINITY);
  table[last] = 0;
  const first = siteStart[site]!;
  let next = first;
  for (let night = 0; night < compiled.nights; night++) {
    const row = night * states;
    const top = topOf(pricing, table, row, states);
    for (; next < siteStart[site + 1]! && from[next]! === night; next++) {
      const at = until[next]! * states;
      table[at] = Math.max(table[at]!, top + worth[next - first]!);
    }
    const shut = isShut(pricing, site, night);
    for (let state = 0; state < states; state++) {
      const to = row + states + (shut ? last : Math.min(state + 1, last));
      table[to] = Math.max(table[to]!, table[row + state]!);
    }
  }
}

/** Best value from a night on, by the empty nights before it. */
function backwards(pricing: Pricing, site: number, worth: Float64Array, table: Float64Array, states: number): void {
  const { compiled, siteStart, from, until } = pricing;
  const { nights, problem } = compiled;
  const last = states - 1;
  table.fill(0, nights * states);
  const first = siteStart[site]!;
  let next = siteStart[site + 1]! - 1;
  for (let night = nights - 1; night >= 0; night--) {
    const row = night * states;
    let starting = Number.NEGATIVE_INFINITY;
    for (; next >= first && from[next]! === night; next--) {
      starting = Math.max(starting, worth[next - first]! + table[until[next]! * states]!);
    }
    const shut = isShut(pricing, site, night);
    for (let state = 0; state < states; state++) {
      const empty = table[row + states + (shut ? last : Math.min(state + 1, last))]!;
      const hole = state > 0 && state < last ? problem.weights.shortGap : 0;
      table[row + state] = Math.max(empty, starting - hole);
    }
  }
}
