/** Roads on the map near a pad, in its frame, for who drives in and out. */
import type { PadPoint } from "../../geo/pad-frame.ts";
import { distanceToSegment } from "../../geo/polygon.ts";
import type { SiteRoad } from "../completed.ts";
import { lonLatOf } from "../far.ts";
import type { AroundFeature } from "./around.ts";
import { type SurroundingsContext, spreadOf } from "./mapped.ts";
import { nearBox } from "./near.ts";
import { toPad } from "./place.ts";
import { SURROUNDINGS_REACH } from "./surroundings.ts";

/** Roads with a line within reach of the pad's middle; a road drawn as an area has no middle to drive along. */
export function nearRoads(roads: readonly AroundFeature[], context: SurroundingsContext): SiteRoad[] {
  const { frame, scale } = context;
  if (frame.frame === null || frame.length === null) return [];
  const middle = { along: frame.length.value / 2, left: 0 };
  const reach = frame.length.high / 2 + SURROUNDINGS_REACH;
  const near = nearBox(frame.frame.origin, frame.length.high + SURROUNDINGS_REACH);
  return roads.flatMap(({ feature, index, id, box, solid }): SiteRoad[] => {
    const { geometry } = feature;
    if (box === null || !near(box) || geometry?.type !== "LineString") return [];
    const read = solid();
    const line = geometry.coordinates.map((position) => toPad(lonLatOf(position), frame, scale) as PadPoint);
    const within = line.some(
      (point, at) => at > 0 && distanceToSegment(middle, line[at - 1] as PadPoint, point) < reach,
    );
    if (read === null || !within) return [];
    const { sigma, sigmaShared } = spreadOf(read, middle, context);
    return [
      {
        id: id ?? `feature-${index + 1}`,
        line,
        width: read.width ?? null,
        oneWay: read.oneWay === true,
        sigma: Math.hypot(sigma, sigmaShared),
        path: `/features/${index}`,
      },
    ];
  });
}
