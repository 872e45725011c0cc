/** From a position on the earth to the pad frame, with the error that it brings along. */
import type { PadPoint } from "../../geo/pad-frame.ts";
import type { LonLat } from "../../geo/tangent-plane.ts";
import type { SiteFrame } from "./frame.ts";

export interface Spread {
  /** Standard deviation per axis of the thing's own error, metres. */
  readonly sigma: number;
  /** Standard deviation of what it shares with its survey and of the pad's own place, metres. */
  readonly sigmaShared: number;
  readonly survey: string;
}

/** Metres along the surface for one metre on the level. */
export interface SurfaceScale {
  readonly along: number;
  readonly left: number;
}

export function surfaceScale(grade: number, crossfall: number): SurfaceScale {
  return { along: Math.hypot(1, grade), left: Math.hypot(1, crossfall) };
}

/** The place in the pad frame, measured on the surface; null without a frame. */
export function toPad(position: LonLat, { frame }: SiteFrame, scale: SurfaceScale): PadPoint | null {
  if (frame === null) return null;
  const point = frame.toPad(position);
  return { along: point.along * scale.along, left: point.left * scale.left };
}

/**
 * The spread of a place that was brought from the earth. The pad's own error moves everything brought over alike, so it
 * is shared; what place and pad share of one survey cancels; an error of the heading grows with the distance.
 */
export function spreadAt(
  point: PadPoint,
  own: { readonly sigma: number; readonly sigmaShared: number; readonly survey: string | undefined },
  frame: SiteFrame,
  siteId: string,
): Spread {
  const turned = Math.hypot(point.along, point.left) * (frame.heading?.sigma ?? 0);
  const same = own.survey !== undefined && own.survey === frame.survey;
  const common = same ? 0 : Math.hypot(own.sigmaShared, frame.sigmaShared);
  return {
    sigma: own.sigma,
    sigmaShared: Math.hypot(common, frame.origin?.sigma ?? 0, turned),
    survey: `${same ? "" : (own.survey ?? "")}|pad:${siteId}`,
  };
}
