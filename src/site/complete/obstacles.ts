/** What stands on the site itself: recorded in the pad frame, taped, or the outline of a second vehicle. */
import { convexPieces } from "../../geo/convex-pieces.ts";
import { circumscribedCircle } from "../../geo/shapes.ts";
import type { SiteObstacle } from "../completed.ts";
import type { SiteProperties, WireObstacle } from "../schema.ts";
import type { SurveySolution } from "../survey.ts";
import { ASSUMED_ACCURACY, accuracyOf, type EstimateContext, isPointBasis } from "./estimates.ts";
import { barsOf } from "./obstacle-words.ts";

/** Its outline in convex pieces; the pieces of one thing have its id with a number. */
export function pieces(
  outlines: readonly (readonly { readonly along: number; readonly left: number }[])[],
  common: Omit<SiteObstacle, "outline">,
): SiteObstacle[] {
  return outlines.map((outline, index) => ({
    ...common,
    id: outlines.length === 1 ? common.id : `${common.id}-${index + 1}`,
    outline: outline.map(({ along, left }) => ({ along, left })),
  }));
}

/** Heights with what is missing: from the ground, and to no known top, which counts as no end. */
export function heights(from: number | undefined, to: number | undefined) {
  return { from: from ?? 0, to: to ?? Number.POSITIVE_INFINITY, heightGiven: to !== undefined };
}

export function ownObstacles(
  site: SiteProperties,
  survey: SurveySolution | null,
  context: EstimateContext,
): SiteObstacle[] {
  return [
    ...(site.obstacles ?? []).flatMap((obstacle, index) => recorded(obstacle, index, context)),
    ...taped(site, survey, context),
    ...secondVehicle(site, context),
  ];
}

function recorded(obstacle: WireObstacle, index: number, { notes }: EstimateContext): SiteObstacle[] {
  const path = `${notes.base}/properties/obstacles/${index}`;
  const { what, outline, at, radius, from, to } = obstacle;
  const shapes =
    outline !== undefined
      ? convexPieces(outline)
      : at !== undefined && radius !== undefined
        ? [circumscribedCircle(at, radius)]
        : [];
  const basis = obstacle.basis !== undefined && isPointBasis(obstacle.basis) ? obstacle.basis : "measured";
  return pieces(shapes, {
    id: obstacle.id ?? `${what}-${index + 1}`,
    what,
    ...heights(from, to),
    bars: barsOf(what),
    sigma: accuracyOf(obstacle, basis, path, notes),
    sigmaShared: obstacle.accuracyShared ?? 0,
    path,
  });
}

function taped(site: SiteProperties, survey: SurveySolution | null, { notes }: EstimateContext): SiteObstacle[] {
  return (site.marks ?? []).flatMap(({ id, what, radius, from, to }, index) => {
    const mark = survey?.marks.find((one) => one.id === id);
    if (mark === undefined || what === undefined || radius === undefined) return [];
    return pieces([circumscribedCircle(mark, radius)], {
      id,
      what,
      ...heights(from, to),
      bars: barsOf(what),
      sigma: Math.max(mark.sigmaAlong, mark.sigmaLeft),
      sigmaShared: 0,
      path: `${notes.base}/properties/marks/${index}`,
    });
  });
}

function secondVehicle(site: SiteProperties, { notes }: EstimateContext): SiteObstacle[] {
  if (typeof site.extraVehicle !== "object") return [];
  return pieces(convexPieces(site.extraVehicle.outline), {
    id: "second-vehicle",
    what: "second-vehicle",
    ...heights(undefined, undefined),
    bars: "both",
    sigma: ASSUMED_ACCURACY.measured,
    sigmaShared: 0,
    path: `${notes.base}/properties/extraVehicle`,
  });
}
