/** Which end of a pad is its exit, when the record gives no heading: by the entry, or by the nearest road. */
import { padToPlane, planeToPad } from "../../geo/pad-frame.ts";
import { distanceToSegment } from "../../geo/polygon.ts";
import { type LonLat, tangentPlane, turnBetween } from "../../geo/tangent-plane.ts";
import type { Layout } from "../completed.ts";
import { lonLatOf } from "../far.ts";
import type { SiteProperties } from "../schema.ts";
import type { AroundFeature } from "./around.ts";
import type { OutlineAxis } from "./outline.ts";

/** Metres by which one end must be nearer to the road than the other to be the exit. */
const CLEARLY_NEARER = 1;

export interface EntryFinding {
  readonly axis: OutlineAxis;
  readonly by: "entry" | "road";
}

/**
 * The direction whose exit fits. Rigs enter a back-in pad by its exit and a pull-through or parallel pad by its rear
 * edge. Null when nothing tells the ends apart.
 */
export function chooseAxis(
  axes: readonly [OutlineAxis, OutlineAxis],
  centre: LonLat,
  site: SiteProperties,
  roads: readonly AroundFeature[],
): EntryFinding | null {
  const layout: Layout | null = site.layout ?? null;
  if (layout === null) return null;
  const bearing = entryBearing(site, centre);
  if (bearing !== null) {
    const towards = layout === "back-in" ? bearing : bearing + Math.PI;
    const [first, second] = axes.map((axis) => Math.abs(turnBetween(axis.heading, towards))) as [number, number];
    if (Math.abs(first - second) < 2 * Number.EPSILON) return null;
    return { axis: first < second ? axes[0] : axes[1], by: "entry" };
  }
  // Both ends of a pull-through touch a road, and a parallel pad lies along one: a road tells nothing there.
  if (layout !== "back-in") return null;
  const [first, second] = axes.map((axis) => roadDistance(axis, centre, roads)) as [number, number];
  if (!(Math.abs(first - second) >= CLEARLY_NEARER)) return null;
  return { axis: first < second ? axes[0] : axes[1], by: "road" };
}

function entryBearing(site: SiteProperties, centre: LonLat): number | null {
  const entry = site.entry;
  if (entry === undefined) return null;
  const { bearing, position } = entry as { bearing?: number; position?: readonly number[] };
  if (bearing !== undefined) return bearing;
  if (position === undefined) return null;
  const { east, north } = tangentPlane(centre).toPlane(lonLatOf(position));
  return Math.atan2(east, north);
}

/** Metres from the middle of the exit of this direction to the nearest road; Infinity without roads. */
function roadDistance(axis: OutlineAxis, centre: LonLat, roads: readonly AroundFeature[]): number {
  const plane = tangentPlane(centre);
  const exit = planeToPad(padToPlane({ along: axis.length / 2, left: 0 }, axis.heading), 0);
  let least = Number.POSITIVE_INFINITY;
  for (const { feature } of roads) {
    const { geometry } = feature;
    if (geometry?.type !== "LineString") continue;
    const line = geometry.coordinates.map((position) => planeToPad(plane.toPlane(lonLatOf(position)), 0));
    line.forEach((point, index) => {
      const before = line[index - 1];
      if (before !== undefined) least = Math.min(least, distanceToSegment(exit, before, point));
    });
  }
  return least;
}
