/** Other sites: no line crosses their pads, and the rig keeps clear of their hookup devices. */
import { padFrame } from "../../geo/pad-frame.ts";
import { rectangle } from "../../geo/shapes.ts";
import type { LonLat } from "../../geo/tangent-plane.ts";
import type { SiteObstacle } from "../completed.ts";
import { lonLatOf } from "../far.ts";
import type { CampgroundFeature } from "../feature.ts";
import type { SiteProperties } from "../schema.ts";
import type { AroundFeature } from "./around.ts";
import { type SurroundingsContext, shapesOf, spreadOf } from "./mapped.ts";
import { pieces } from "./obstacles.ts";
import { toPad } from "./place.ts";

/** Metres by which a neighbour's device may lie from an own hookup and still be the same post. */
const SAME_POST = 0.5;
/** Solid bodies when the record gives none, metres (common practice, no source). */
const PEDESTAL = { width: 0.3, depth: 0.3, height: 1.2 } as const;
const RISER = { width: 0.1, depth: 0.1, height: 0.9 } as const;

export function neighbourPieces(one: AroundFeature, context: SurroundingsContext): SiteObstacle[] {
  const site = one.site();
  if (site === null) return [];
  const id = one.id ?? `feature-${one.index + 1}`;
  const path = `/features/${one.index}`;
  return [...padPieces(one.feature, site, id, path, context), ...devicePieces(one.feature, site, id, path, context)];
}

interface NeighbourFrame {
  readonly origin: LonLat;
  readonly heading: number;
}

/** The neighbour's own pad frame, as far as its record gives one without an outline. */
function frameOf(feature: CampgroundFeature, site: SiteProperties): NeighbourFrame | null {
  if (site.heading === undefined) return null;
  if (site.pad?.origin !== undefined) return { origin: lonLatOf(site.pad.origin), heading: site.heading };
  if (feature.geometry?.type !== "Point" || site.pad?.length === undefined) return null;
  const { low, high } = site.pad.length;
  const middle = (low + high) / 2;
  const centre = padFrame(lonLatOf(feature.geometry.coordinates), site.heading);
  return { origin: centre.toLonLat({ along: -middle / 2, left: 0 }), heading: site.heading };
}

function padPieces(
  feature: CampgroundFeature,
  site: SiteProperties,
  id: string,
  path: string,
  context: SurroundingsContext,
): SiteObstacle[] {
  const { geometry } = feature;
  const outlined = geometry !== null && geometry.type !== "Point";
  const outlines = outlined ? shapesOf(geometry, "site", {}, context) : drawnPad(feature, site, context);
  const corner = outlines[0]?.[0];
  if (corner === undefined) return [];
  return pieces(outlines, {
    id: `site-${id}`,
    what: "site",
    from: 0,
    to: Number.POSITIVE_INFINITY,
    heightGiven: false,
    bars: "line",
    ...spreadOf(site.pad?.place ?? {}, corner, context),
    path,
  });
}

function drawnPad(feature: CampgroundFeature, site: SiteProperties, { frame, scale }: SurroundingsContext) {
  const own = frameOf(feature, site);
  const { length, width } = site.pad ?? {};
  if (own === null || length === undefined || width === undefined) return [];
  const here = padFrame(own.origin, own.heading);
  const outline = rectangle(0, length.low, -width.low / 2, width.low / 2);
  const corners = outline.map((point) => toPad(here.toLonLat(point), frame, scale));
  return corners.every((corner) => corner !== null) ? [corners] : [];
}

function devicePieces(
  feature: CampgroundFeature,
  site: SiteProperties,
  id: string,
  path: string,
  context: SurroundingsContext,
): SiteObstacle[] {
  const own = frameOf(feature, site);
  return (site.hookups ?? []).flatMap((hookup, index) => {
    if (hookup.pedestal !== undefined && context.pedestals.has(hookup.pedestal)) return [];
    const { position, along, left } = hookup.at ?? {};
    const place: LonLat | null =
      position !== undefined
        ? lonLatOf(position)
        : own !== null &&
            along !== undefined &&
            left !== undefined &&
            along.low === along.high &&
            left.low === left.high
          ? padFrame(own.origin, own.heading).toLonLat({ along: along.low, left: left.low })
          : null;
    const point = place === null ? null : toPad(place, context.frame, context.scale);
    if (point === null) return [];
    const same = context.hookups.some((one) => Math.hypot(one.along - point.along, one.left - point.left) < SAME_POST);
    if (same) return [];
    const body = hookup.body ?? (hookup.service === "power" ? PEDESTAL : RISER);
    // The neighbour's post may be turned anyhow: its longer side counts both ways.
    const half = Math.max(body.width, body.depth) / 2;
    return pieces([rectangle(point.along - half, point.along + half, point.left - half, point.left + half)], {
      id: `${id}-${hookup.id ?? `${hookup.service}-${index + 1}`}`,
      what: hookup.service === "power" ? "pedestal" : "riser",
      from: 0,
      to: body.height,
      heightGiven: hookup.body !== undefined,
      bars: "rig",
      ...spreadOf(hookup, point, context),
      path: `${path}/properties/hookups/${index}`,
    });
  });
}
