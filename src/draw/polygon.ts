/** Polygons on the page: cutting to the drawn field and hatching, so that no pattern or clip needs an id. */
import type { Box } from "./projection.ts";
import type { Spot } from "./svg.ts";

export interface Segment {
  readonly from: Spot;
  readonly to: Spot;
}

/** A tenth of a pixel is enough for a hatch. */
const HATCH_DECIMALS = 1;

type Inside = (point: Spot) => number;

function cutBySide(points: readonly Spot[], inside: Inside): Spot[] {
  const kept: Spot[] = [];
  points.forEach((point, index) => {
    const next = points[(index + 1) % points.length] ?? point;
    const here = inside(point);
    const there = inside(next);
    if (here >= 0) {
      kept.push(point);
    }
    if (here >= 0 !== there >= 0) {
      const share = here / (here - there);
      kept.push({ x: point.x + share * (next.x - point.x), y: point.y + share * (next.y - point.y) });
    }
  });
  return kept;
}

/** The part of a polygon within the box (Sutherland and Hodgman's rule, from memory); empty when outside. */
export function cutToBox(points: readonly Spot[], box: Box): Spot[] {
  const sides: Inside[] = [
    (point) => point.x - box.x,
    (point) => box.x + box.width - point.x,
    (point) => point.y - box.y,
    (point) => box.y + box.height - point.y,
  ];
  return sides.reduce<Spot[]>((left, side) => cutBySide(left, side), [...points]);
}

/** The part of a segment within the box, or null (Liang and Barsky's rule, from memory). */
export function cutSegment(segment: Segment, box: Box): Segment | null {
  const { from, to } = segment;
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  let start = 0;
  let end = 1;
  for (const [step, room] of [
    [-dx, from.x - box.x],
    [dx, box.x + box.width - from.x],
    [-dy, from.y - box.y],
    [dy, box.y + box.height - from.y],
  ] as const) {
    if (step === 0) {
      if (room < 0) {
        return null;
      }
    } else if (step < 0) {
      start = Math.max(start, room / step);
    } else {
      end = Math.min(end, room / step);
    }
  }
  if (start > end) {
    return null;
  }
  const at = (share: number): Spot => ({ x: from.x + share * dx, y: from.y + share * dy });
  return { from: at(start), to: at(end) };
}

/** Parallel lines across a polygon. `angle` in radians from the page's x axis; even-odd rule, any shape. */
export function hatch(points: readonly Spot[], spacing: number, angle: number): Segment[] {
  const along = { x: Math.cos(angle), y: Math.sin(angle) };
  const across = { x: -along.y, y: along.x };
  const turned = points.map((point) => ({
    u: point.x * along.x + point.y * along.y,
    v: point.x * across.x + point.y * across.y,
  }));
  const levels = turned.map((point) => point.v);
  const segments: Segment[] = [];
  for (let row = Math.ceil(Math.min(...levels) / spacing); row * spacing <= Math.max(...levels); row += 1) {
    const level = row * spacing;
    const crossings: number[] = [];
    turned.forEach((point, index) => {
      const next = turned[(index + 1) % turned.length] ?? point;
      if (point.v <= level !== next.v <= level) {
        crossings.push(point.u + ((level - point.v) / (next.v - point.v)) * (next.u - point.u));
      }
    });
    crossings.sort((a, b) => a - b);
    for (let index = 0; index + 1 < crossings.length; index += 2) {
      const at = (u: number): Spot => ({
        x: u * along.x + level * across.x,
        y: u * along.y + level * across.y,
      });
      segments.push({ from: at(crossings[index] ?? 0), to: at(crossings[index + 1] ?? 0) });
    }
  }
  return segments;
}

/** The `d` attribute of many segments in one path: a hatch is one element. */
export function segmentsPath(segments: readonly Segment[]): string {
  const short = (value: number): string => String(Number(value.toFixed(HATCH_DECIMALS)));
  return segments.map(({ from, to }) => `M${short(from.x)} ${short(from.y)}L${short(to.x)} ${short(to.y)}`).join("");
}

export function edgesOf(points: readonly Spot[]): Segment[] {
  return points.map((point, index) => ({ from: point, to: points[(index + 1) % points.length] ?? point }));
}

export function middleOf(points: readonly Spot[]): Spot {
  const xs = points.map((point) => point.x);
  const ys = points.map((point) => point.y);
  return { x: (Math.min(...xs) + Math.max(...xs)) / 2, y: (Math.min(...ys) + Math.max(...ys)) / 2 };
}

export function boundsOf(points: readonly Spot[]): Box {
  const xs = points.map((point) => point.x);
  const ys = points.map((point) => point.y);
  const x = Math.min(...xs);
  const y = Math.min(...ys);
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
}
