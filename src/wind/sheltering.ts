/** How much one barrier shelters a place from one direction, and how far that is to be trusted. */
import table from "../../data/shelter.json" with { type: "json" };
import { type Barrier, dragOf, isTrees, porosityOf } from "./barrier.ts";
import type { LeafSeason } from "./season.ts";
import type { Sight } from "./sight.ts";
import { endlessWake, NEAR_HEIGHTS, publishedBeltShare, wakeSpread, widthShare } from "./wake.ts";

/** `low`: a guessed height, trees so near that wind passes under them, or a site among trees. */
export type Confidence = "high" | "medium" | "low";

export interface Sheltering {
  /** Share of the wind taken away, 0 to 0.8. */
  readonly share: number;
  /** Optimistic end. */
  readonly shareHigh: number;
  readonly confidence: Confidence;
  /** Metres upwind. */
  readonly distance: number;
}

const { wood } = table;

/** Shelter of a place that stands among the trees of a wood or grove, from every side. */
export const INSIDE_WOOD: Sheltering = {
  share: wood.inside,
  shareHigh: wood.inside,
  confidence: "low",
  distance: 0,
};

/**
 * Shelter from a barrier that does not hold the place.
 *
 * @param at Height of the awning, metres.
 */
export function shelteringOf(barrier: Barrier, sight: Sight, season: LeafSeason, at: number): Sheltering {
  const { cover } = sight;
  const porosity = porosityOf(barrier, season);
  const front = (cover[cover.length - 1] ?? 0) - (cover[0] ?? 0);
  const drag = dragOf(barrier, porosity, front);
  const distance = sight.ahead ?? sight.nearest;
  const trees = isTrees(barrier);
  const under = trees && distance < wood.underCrownWithin * barrier.height;
  const share = (x: number): number => {
    const far = isDeep(barrier, sight) ? x * wood.deepFactor : x;
    const wake = endlessWake({ distance: far, height: barrier.height, at, drag });
    return wake.share * coverShare(cover, far, barrier.height) * (under ? wood.underCrownFactor : 1);
  };
  // A barrier off the line has no one distance: the less favourable of two readings holds.
  const central = sight.ahead === null ? Math.min(share(sight.nearest), share(sight.leastAside)) : share(distance);
  const belt =
    trees && porosity !== null
      ? publishedBeltShare(distance / barrier.height, porosity) * coverShare(cover, distance, barrier.height)
      : 0;
  const exact = barrier.heightGiven && barrier.porosity !== null;
  const confidence = !barrier.heightGiven || under ? "low" : exact ? "high" : "medium";
  return { share: central, shareHigh: Math.max(central, belt), confidence, distance };
}

function isDeep(barrier: Barrier, sight: Sight): boolean {
  if (!barrier.stand) return false;
  const depth = sight.ahead === null ? sight.farthest - sight.nearest : sight.depth;
  return depth > wood.deepFrom * barrier.height;
}

/**
 * Share of an endless barrier's shelter that these crosswind stretches give. Nearer than the formula holds, the spread
 * at its limit counts as well and the smaller share stands: a crown beside the awning is no wall.
 */
function coverShare(cover: readonly number[], distance: number, height: number): number {
  const limit = NEAR_HEIGHTS * height;
  const near = sum(cover, wakeSpread(distance, height));
  return distance >= limit ? near : Math.min(near, sum(cover, wakeSpread(limit, height)));
}

function sum(cover: readonly number[], spread: number): number {
  let total = 0;
  for (let index = 0; index + 1 < cover.length; index += 2) {
    total += widthShare(cover[index] as number, cover[index + 1] as number, spread);
  }
  return Math.min(1, total);
}
