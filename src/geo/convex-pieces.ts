/** Cuts polygons, also with holes, into convex pieces: ear clipping, then pieces joined while they stay convex. */
import earcut from "earcut";
import type { PadPoint } from "./pad-frame.ts";
import { convexHull, counterClockwise, isConvex, type Ring, signedArea } from "./polygon.ts";

/** Square metres below which a sliver left by the cutting is dropped: no rig or line is that thin. */
const SLIVER_AREA = 1e-9;
const CORNERS_OF_A_TRIANGLE = 3;

/**
 * Convex counter-clockwise pieces whose union is the polygon.
 *
 * @param outer Outer ring, metres, either direction, without the closing repeat.
 * @param holes Rings cut out of it.
 * @returns Pieces; a degenerate ring (no area) gives its hull when that has an area, else none.
 */
export function convexPieces(outer: Ring, holes: readonly Ring[] = []): readonly Ring[] {
  const ring = counterClockwise(outer);
  if (holes.length === 0 && isConvex(ring)) return [withoutStraightCorners(ring)];
  const points = [...ring, ...holes.flat()];
  const starts: number[] = [];
  let start = ring.length;
  for (const hole of holes) {
    starts.push(start);
    start += hole.length;
  }
  const coordinates = points.flatMap((point) => [point.along, point.left]);
  const triangles = earcut(coordinates, starts, 2);
  const pieces: number[][] = [];
  for (let index = 0; index < triangles.length; index += CORNERS_OF_A_TRIANGLE) {
    const corners = triangles.slice(index, index + CORNERS_OF_A_TRIANGLE);
    if (signedArea(toRing(corners, points)) < 0) corners.reverse();
    pieces.push(corners);
  }
  return joined(pieces, points)
    .map((piece) => withoutStraightCorners(toRing(piece, points)))
    .filter((piece) => piece.length >= CORNERS_OF_A_TRIANGLE && signedArea(piece) > SLIVER_AREA);
}

function toRing(corners: readonly number[], points: readonly PadPoint[]): Ring {
  return corners.map((corner) => points[corner] as PadPoint);
}

/** The hull of a convex ring is the ring without its straight corners. */
function withoutStraightCorners(ring: Ring): Ring {
  return convexHull(ring);
}

/** Joins two pieces over a common side as long as the result is convex (Hertel and Mehlhorn's rule). */
function joined(pieces: number[][], points: readonly PadPoint[]): number[][] {
  const rest = [...pieces];
  for (let first = 0; first < rest.length; first += 1) {
    let grew = true;
    while (grew) {
      grew = false;
      for (let second = first + 1; second < rest.length; second += 1) {
        const union = joinOverSide(rest[first] as number[], rest[second] as number[]);
        if (union === null || !isConvex(toRing(union, points))) continue;
        rest[first] = union;
        rest.splice(second, 1);
        grew = true;
        break;
      }
    }
  }
  return rest;
}

function joinOverSide(first: readonly number[], second: readonly number[]): number[] | null {
  for (let index = 0; index < first.length; index += 1) {
    const from = first[index] as number;
    const to = first[(index + 1) % first.length] as number;
    const meeting = second.indexOf(to);
    if (meeting < 0 || second[(meeting + 1) % second.length] !== from) continue;
    const ahead = [...first.slice(index + 1), ...first.slice(0, index + 1)];
    const other = [...second.slice(meeting + 1), ...second.slice(0, meeting + 1)];
    return [...ahead, ...other.slice(1, -1)];
  }
  return null;
}
