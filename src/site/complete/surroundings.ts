/**
 * What stands round the site on the map, brought into the pad frame: obstacles, walls, hedges and buildings, roads, the
 * pads of other sites and their hookup devices. Roads and other pads bar lines only: a rig comes by the road.
 */
import { contains, distanceToRing, type Ring } from "../../geo/polygon.ts";
import { rectangle } from "../../geo/shapes.ts";
import type { SiteObstacle } from "../completed.ts";
import type { Around, AroundFeature } from "./around.ts";
import { ASSUMED_ACCURACY } from "./estimates.ts";
import { type SurroundingsContext, shapesOf, spreadOf } from "./mapped.ts";
import { nearBox } from "./near.ts";
import { neighbourPieces } from "./neighbours.ts";
import { barsOf } from "./obstacle-words.ts";
import { heights, pieces } from "./obstacles.ts";

/** Metres from the pad within which surroundings are taken: no line and no awning reaches further. */
export const SURROUNDINGS_REACH = 40;
/**
 * Everything in reach, in convex pieces. Empty without a pad frame on the earth.
 *
 * @param around The campground's features; a path names the place in their list.
 * @param skip True for the site itself.
 */
export function surroundings(
  around: Around,
  skip: (feature: AroundFeature) => boolean,
  context: SurroundingsContext,
): SiteObstacle[] {
  const { frame, notes } = context;
  if (frame.frame === null) return [];
  const near = nearBox(frame.frame.origin, (frame.length?.high ?? 0) + SURROUNDINGS_REACH);
  const found = around.features.flatMap((one) => {
    if (one.box === null || !near(one.box) || skip(one)) return [];
    const shapes = one.feature.properties["kind"] === "site" ? neighbourPieces(one, context) : mapped(one, context);
    return shapes.filter(({ outline }) => reaches(outline, context));
  });
  if (found.length > 0) {
    const text = `accuracy ${ASSUMED_ACCURACY.mapped} m where the map states none (standard deviation per axis)`;
    notes.assume("/features", text);
  }
  return found.filter((one) => !coversHookup(one, context));
}

function reaches(outline: Ring, { frame }: SurroundingsContext): boolean {
  const half = (frame.width?.high ?? 0) / 2;
  const pad = rectangle(0, frame.length?.high ?? 0, -half, half);
  return (
    outline.some((point) => distanceToRing(point, pad) <= SURROUNDINGS_REACH) ||
    pad.some((point) => distanceToRing(point, outline) <= SURROUNDINGS_REACH)
  );
}

/** A mapped place that no line may cross cannot hold the site's own hookup: the map is that much off. */
function coversHookup(obstacle: SiteObstacle, { hookups, notes }: SurroundingsContext): boolean {
  if (obstacle.bars !== "line" || !hookups.some((hookup) => contains(obstacle.outline, hookup))) return false;
  const text = `On the map "${obstacle.id}" (${obstacle.what}) covers a hookup of this site; it was left out as a barrier.`;
  notes.warn("contradiction", obstacle.path, text);
  return true;
}

function mapped({ feature, index, id, solid }: AroundFeature, context: SurroundingsContext): SiteObstacle[] {
  const read = solid();
  if (read === null || feature.geometry === null) return [];
  const outlines = shapesOf(feature.geometry, read.what, read, context);
  const corner = outlines[0]?.[0];
  if (corner === undefined) return [];
  return pieces(outlines, {
    id: id ?? `feature-${index + 1}`,
    what: read.what,
    ...heights(read.from, read.to),
    bars: barsOf(read.what),
    ...spreadOf(read, corner, context),
    path: `/features/${index}`,
  });
}
