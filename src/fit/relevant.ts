/**
 * Which of the things on record can matter to a rig on this pad at all. Leaving out the others changes no answer and
 * makes it fast where a campground lists dozens of neighbours, roads and trees.
 */
import { convexHull, signedArea } from "../geo/polygon.ts";
import type { CompletedRig } from "../rig/completed.ts";
import type { CompletedSite, SiteObstacle } from "../site/completed.ts";
import type { Estimate } from "../units/estimate.ts";
import { overlap } from "./clearance/polygon.ts";
import type { FitOptions } from "./options.ts";
import type { PadPoint } from "./stance/problem.ts";

/** Errors are looked at to this many standard deviations. */
const FAR_SIGMAS = 6;
/** Zones before doors and hot outlets, turned by the greatest yaw, reach this far out from the body. Metres. */
const ZONE_REACH = 1;
/** Square metres below which a hull is only a line. */
const NO_AREA = 1e-9;

function ends(estimate: Estimate): readonly [number, number] {
  const error = FAR_SIGMAS * Math.hypot(estimate.sigma, estimate.sigmaShared);
  return [estimate.low - error, estimate.high + error];
}

function rectangle(alongs: readonly [number, number], lefts: readonly [number, number]): PadPoint[] {
  return alongs.flatMap((along) => lefts.map((left) => ({ along, left })));
}

/** The pad at its largest with the permitted overhang behind it, grown by `reach` on every side. */
function padRegion(site: CompletedSite, reach: number): PadPoint[] | null {
  const { length, width, overhangRear } = site.pad;
  if (length === null || width === null) return null;
  const behind = Math.max(
    0,
    ...(overhangRear === null ? [0] : ends(overhangRear)),
    ...(site.stop?.clearBehind ? ends(site.stop.clearBehind) : [0]),
  );
  const half = ends(width)[1] / 2 + reach;
  return rectangle([-behind - reach, ends(length)[1] + reach], [-half, half]);
}

function meets(hull: readonly PadPoint[], outline: readonly PadPoint[]): boolean {
  return Math.abs(signedArea(hull)) > NO_AREA && overlap(hull, outline);
}

/**
 * Barriers that a line can meet. A shortest way among some barriers stays within the convex hull of its ends and of
 * those barriers; so, starting from the pad and the hookups, whatever meets the hull is added and the hull grown until
 * nothing more meets it. What is left out then cannot touch any shortest way.
 */
export function reachableBarriers(site: CompletedSite, all: readonly SiteObstacle[]): SiteObstacle[] {
  const pad = padRegion(site, ZONE_REACH);
  // Without a pad no stance is claimed, and what no stance reaches is found without barriers.
  if (pad === null) return [];
  const targets = site.hookups.flatMap(({ along, left }) =>
    along === null || left === null ? [] : rectangle(ends(along), ends(left)),
  );
  let hull = convexHull([...pad, ...targets]);
  let left = [...all];
  const kept: SiteObstacle[] = [];
  for (;;) {
    const met = left.filter((one) => meets(hull, one.outline));
    if (met.length === 0) return kept;
    kept.push(...met);
    left = left.filter((one) => !met.includes(one));
    hull = convexHull([...hull, ...met.flatMap((one) => one.outline)]);
  }
}

/** How far parts of the rig, its working space and its driver's scatter can reach beyond the pad's edge. */
function protrusion(rig: CompletedRig, options: FitOptions): number {
  const parts = [...rig.slideouts.map((slide) => slide.depth), ...rig.awnings.map((awning) => awning.projection)];
  const widest = Math.max(0, ...parts.map((depth) => ends(depth)[1]));
  const space = Math.max(options.workspace.pedestal, options.workspace.side);
  const scatter = options.parking.along + options.parking.across + options.clearance;
  const yaw = Math.max(options.parking.yaw, ...options.yaws.map(Math.abs));
  return widest + space + scatter + Math.sin(yaw) * ends(rig.length)[1] + ZONE_REACH;
}

/** Solids that some part of the rig can meet on this pad; all of them when the pad's size is not known. */
export function reachableSolids(
  rig: CompletedRig,
  site: CompletedSite,
  options: FitOptions,
  all: readonly SiteObstacle[],
): readonly SiteObstacle[] {
  const region = padRegion(site, protrusion(rig, options));
  if (region === null) return all;
  const hull = convexHull(region);
  return all.filter((one) => overlap(hull, one.outline));
}
