/**
 * The pad frame on the earth: `along` runs on the true bearing `heading` from the middle of the pad's rear edge,
 * `left` is to the left of someone looking along it. Lengths are metres.
 */
import { type LonLat, type PlanePoint, type TangentPlane, tangentPlane } from "./tangent-plane.ts";

/** A point of the pad frame, metres. */
export interface PadPoint {
  readonly along: number;
  readonly left: number;
}

export interface PadFrame {
  /** The middle of the pad's rear edge. */
  readonly origin: LonLat;
  /** True bearing of `along`, radians clockwise from north. */
  readonly heading: number;
  toPad(position: LonLat): PadPoint;
  toLonLat(point: PadPoint): LonLat;
}

/** Turns metres east and north of the origin into the pad frame. */
export function planeToPad(point: PlanePoint, heading: number): PadPoint {
  const sine = Math.sin(heading);
  const cosine = Math.cos(heading);
  return {
    along: point.east * sine + point.north * cosine,
    left: -point.east * cosine + point.north * sine,
  };
}

/** Turns a point of the pad frame into metres east and north of the pad's origin. */
export function padToPlane(point: PadPoint, heading: number): PlanePoint {
  const sine = Math.sin(heading);
  const cosine = Math.cos(heading);
  return {
    east: point.along * sine - point.left * cosine,
    north: point.along * cosine + point.left * sine,
  };
}

/** The pad frame with its origin at `origin` and `along` on the true bearing `heading` (radians). */
export function padFrame(origin: LonLat, heading: number): PadFrame {
  const plane: TangentPlane = tangentPlane(origin);
  return {
    origin,
    heading,
    toPad: (position) => planeToPad(plane.toPlane(position), heading),
    toLonLat: (point) => plane.toLonLat(padToPlane(point, heading)),
  };
}
