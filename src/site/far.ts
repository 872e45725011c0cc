/** How far a hookup lies from its pad: one that is further than any line is a slip of the pen or of the map. */
import { type PadPoint, planeToPad } from "../geo/pad-frame.ts";
import { distanceToRing, type Ring } from "../geo/polygon.ts";
import { rectangle } from "../geo/shapes.ts";
import { type LonLat, tangentPlane } from "../geo/tangent-plane.ts";
import type { WireGeometry, WirePosition } from "./feature.ts";
import type { SiteProperties, WireHookup } from "./schema.ts";

/** Metres from the pad beyond which a hookup is left out (our judgement: twice the longest cord that is sold). */
export const FARTHEST_HOOKUP = 60;

/** Metres from a hookup's nearest stated place to the pad; null when record or geometry do not say. */
export function hookupDistance(hookup: WireHookup, site: SiteProperties, geometry: WireGeometry | null): number | null {
  const at = hookup.at;
  if (at?.position !== undefined) return distanceOnEarth(at.position, site, geometry);
  if (at?.along === undefined && at?.left === undefined) return null;
  const length = site.pad?.length?.high ?? 0;
  const half = (site.pad?.width?.high ?? 0) / 2;
  const nearest: PadPoint = {
    along: Math.min(Math.max(0, at.along?.low ?? 0), at.along?.high ?? 0),
    left: Math.min(Math.max(0, at.left?.low ?? 0), at.left?.high ?? 0),
  };
  return distanceToRing(nearest, rectangle(0, length, -half, half));
}

function distanceOnEarth(position: WirePosition, site: SiteProperties, geometry: WireGeometry | null): number | null {
  const outline = padOutline(geometry);
  const base = outline[0] ?? (site.pad?.origin === undefined ? null : lonLatOf(site.pad.origin));
  if (base === null) return null;
  const plane = tangentPlane(lonLatOf(position));
  const local = (place: LonLat): PadPoint => planeToPad(plane.toPlane(place), 0);
  const ring: Ring = outline.length > 0 ? outline.map(local) : [local(base)];
  const gap = distanceToRing({ along: 0, left: 0 }, ring);
  // A centre or an origin stands for a pad that reaches out from it in a direction that may be unknown.
  const reach = ring.length > 1 ? 0 : (site.pad?.length?.high ?? 0);
  return Math.max(0, gap - reach);
}

/** Corners of the pad's outline or its centre; empty without geometry. */
export function padOutline(geometry: WireGeometry | null): readonly LonLat[] {
  if (geometry === null) return [];
  if (geometry.type === "Point") return [lonLatOf(geometry.coordinates)];
  if (geometry.type === "Polygon") return (geometry.coordinates[0] ?? []).slice(1).map(lonLatOf);
  if (geometry.type === "MultiPolygon") {
    return geometry.coordinates.flatMap((polygon) => (polygon[0] ?? []).slice(1).map(lonLatOf));
  }
  return [];
}

export function lonLatOf(position: WirePosition): LonLat {
  return { longitude: position[0] as number, latitude: position[1] as number };
}
