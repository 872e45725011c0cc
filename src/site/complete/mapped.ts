/** What is on the map in the pad frame: shapes, spread, and what the surroundings need to know of the site. */
import { convexPieces } from "../../geo/convex-pieces.ts";
import type { PadPoint } from "../../geo/pad-frame.ts";
import type { Ring } from "../../geo/polygon.ts";
import { bufferedLine, circumscribedCircle } from "../../geo/shapes.ts";
import { lonLatOf } from "../far.ts";
import type { WireGeometry, WirePosition } from "../feature.ts";
import { ASSUMED_ACCURACY, type EstimateContext, isPointBasis, type Provenance } from "./estimates.ts";
import type { SiteFrame } from "./frame.ts";
import { type SurfaceScale, spreadAt, toPad } from "./place.ts";

/** Metres of width when the map gives none (common practice, no source). */
const ASSUMED_WIDTH: Readonly<Record<string, number>> = { road: 4, hedge: 1 };
const ASSUMED_WIDTH_OTHER = 0.3;
/** Metres of radius of a point without one: a trunk or a post (common practice, no source). */
const ASSUMED_RADIUS = 0.3;

export interface SurroundingsContext extends EstimateContext {
  readonly siteId: string;
  readonly frame: SiteFrame;
  readonly scale: SurfaceScale;
  /** Own hookups: what a barrier must not cover, and beside which a neighbour's device is the same post. */
  readonly hookups: readonly PadPoint[];
  readonly pedestals: ReadonlySet<string>;
}

/** The spread of a mapped thing relative to the pad. */
export function spreadOf(from: Provenance, point: PadPoint, { frame, siteId }: SurroundingsContext) {
  const basis = from.basis !== undefined && isPointBasis(from.basis) ? from.basis : "mapped";
  const own = {
    sigma: from.accuracy ?? ASSUMED_ACCURACY[basis],
    sigmaShared: from.accuracyShared ?? 0,
    survey: from.survey,
  };
  const { sigma, sigmaShared } = spreadAt(point, own, frame, siteId);
  return { sigma, sigmaShared };
}

/** Sizes of a mapped thing, metres. */
export interface MappedSizes {
  readonly width?: number | undefined;
  readonly radius?: number | undefined;
}

/** A geometry in convex pieces of the pad frame. */
export function shapesOf(
  geometry: WireGeometry,
  what: string,
  sizes: MappedSizes,
  { frame, scale }: Pick<SurroundingsContext, "frame" | "scale">,
): readonly Ring[] {
  const local = (position: WirePosition): PadPoint => toPad(lonLatOf(position), frame, scale) as PadPoint;
  const open = (ring: readonly WirePosition[]): Ring => ring.slice(0, -1).map(local);
  const width = sizes.width ?? ASSUMED_WIDTH[what] ?? ASSUMED_WIDTH_OTHER;
  switch (geometry.type) {
    case "Point":
      return [circumscribedCircle(local(geometry.coordinates), sizes.radius ?? ASSUMED_RADIUS)];
    case "LineString":
      return bufferedLine(geometry.coordinates.map(local), width);
    case "Polygon":
      return convexPieces(open(geometry.coordinates[0] ?? []), geometry.coordinates.slice(1).map(open));
    case "MultiPolygon":
      return geometry.coordinates.flatMap((rings) => convexPieces(open(rings[0] ?? []), rings.slice(1).map(open)));
    default:
      return [];
  }
}
