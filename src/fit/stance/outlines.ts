import {
  boxRound,
  type ConvexPolygon,
  convexPolygon,
  type FlatBox,
  segmentCrosses,
  segmentMissesBox,
  turnedPolygon,
} from "./convex.ts";
import type { PadPoint } from "./problem.ts";

/** Directions of the nose for which the turned form of one outline is kept. */
const MOST_TURNS = 12;

/** A box by its middle and its half-lengths, metres. */
interface Extent {
  readonly x: number;
  readonly y: number;
  readonly halfX: number;
  readonly halfY: number;
}

/** A polygon with the box round it. */
export interface BoxedPolygon {
  readonly polygon: ConvexPolygon;
  readonly box: FlatBox;
}

/** True when the segment enters the polygon deeper than a graze. */
export function boxedCrosses({ box, polygon }: BoxedPolygon, x1: number, y1: number, x2: number, y2: number): boolean {
  return !segmentMissesBox(box, x1, y1, x2, y2) && segmentCrosses(polygon, x1, y1, x2, y2);
}

interface Turned extends BoxedPolygon {
  readonly cos: number;
  readonly sin: number;
}

/**
 * An outline of the pad made ready. A fit asks about the same recorded outlines hundreds of times; what is worked out
 * once is kept as long as the outline itself, which nobody changes. No answer depends on what is kept.
 */
export class Outline {
  readonly extent: Extent;
  /** The box round it, pad frame. */
  readonly box: FlatBox;
  private readonly points: readonly PadPoint[];
  private padForm: ConvexPolygon | null = null;
  private readonly turns: Turned[] = [];
  private oldest = 0;

  constructor(points: readonly PadPoint[]) {
    this.points = points;
    let xMin = Infinity;
    let xMax = -Infinity;
    let yMin = Infinity;
    let yMax = -Infinity;
    for (const { along, left } of points) {
      if (along < xMin) xMin = along;
      if (along > xMax) xMax = along;
      if (left < yMin) yMin = left;
      if (left > yMax) yMax = left;
    }
    this.box = { xMin, xMax, yMin, yMax };
    this.extent = {
      x: (xMin + xMax) / 2,
      y: (yMin + yMax) / 2,
      halfX: (xMax - xMin) / 2,
      halfY: (yMax - yMin) / 2,
    };
  }

  /** The polygon in the pad frame. */
  get polygon(): ConvexPolygon {
    this.padForm ??= convexPolygon(this.points.map(({ along, left }) => ({ x: along, y: left })));
    return this.padForm;
  }

  /** The polygon in the rig-aligned coordinates of a nose direction. */
  turned(cos: number, sin: number): BoxedPolygon {
    const { turns } = this;
    for (const known of turns) if (known.cos === cos && known.sin === sin) return known;
    const polygon = turnedPolygon(this.polygon, cos, sin);
    const made = { cos, sin, polygon, box: boxRound(polygon) };
    if (turns.length < MOST_TURNS) turns.push(made);
    else {
      turns[this.oldest] = made;
      this.oldest = (this.oldest + 1) % MOST_TURNS;
    }
    return made;
  }
}

const kept = new WeakMap<readonly PadPoint[], Outline>();

export function outlineOf(points: readonly PadPoint[]): Outline {
  let outline = kept.get(points);
  if (outline === undefined) {
    outline = new Outline(points);
    kept.set(points, outline);
  }
  return outline;
}
