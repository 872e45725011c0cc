/** How much one barrier shelters a place from one direction, and how far that is to be trusted. */
import table from "../../data/shelter.json" with { type: "json" };
import { type Barrier, dragOf, isTrees, porosityOf } from "./barrier.ts";
import type { LeafSeason } from "./season.ts";
import type { Sight } from "./sight.ts";
import {
  cappedShare,
  NEAR_HEIGHTS,
  publishedBeltShare,
  type WakeProfile,
  wakeProfile,
  wakeSpread,
  widthShare,
} from "./wake.ts";

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

/** A barrier with what one season and one height of interest settle about it. */
export interface ReadyBarrier {
  readonly barrier: Barrier;
  readonly porosity: number | null;
  readonly trees: boolean;
  readonly profile: WakeProfile;
}

/** @param at Height of the awning, metres. */
export function readyBarrier(barrier: Barrier, season: LeafSeason, at: number): ReadyBarrier {
  const trees = isTrees(barrier);
  return { barrier, porosity: porosityOf(barrier, season), trees, profile: wakeProfile(barrier.height, at) };
}

/** Shelter from a barrier that does not hold the place. */
export function shelteringOf(ready: ReadyBarrier, sight: Sight): Sheltering {
  const { barrier, porosity, trees, profile } = ready;
  const { cover } = sight;
  const { height } = barrier;
  const drag = dragOf(barrier, porosity, (cover[cover.length - 1] ?? 0) - (cover[0] ?? 0));
  const distance = sight.ahead ?? sight.nearest;
  const under = trees && distance < wood.underCrownWithin * height;
  const stretch = isDeep(barrier, sight) ? wood.deepFactor : 1;
  let share = finiteShare(profile, cover, distance * stretch, drag);
  // A barrier off the line has no one distance: the less favourable of two readings holds.
  if (sight.ahead === null && sight.leastAside > sight.nearest) {
    share = Math.min(share, finiteShare(profile, cover, sight.leastAside * stretch, drag));
  }
  if (under) share *= wood.underCrownFactor;
  const belt = trees && porosity !== null ? publishedBeltShare(distance / height, porosity) : 0;
  const shareHigh = belt > 0 ? Math.max(share, belt * coverShare(cover, distance, height)) : share;
  const exact = barrier.heightGiven && barrier.porosity !== null;
  const confidence = !barrier.heightGiven || under ? "low" : exact ? "high" : "medium";
  return { share, shareHigh, confidence, distance };
}

function finiteShare(profile: WakeProfile, cover: readonly number[], distance: number, drag: number): number {
  return cappedShare(profile, distance, drag) * coverShare(cover, distance, profile.height);
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
