/** What is being drawn: layers of ink, what labels must keep off, the labels asked for, and what the legend owes. */
import { boxRound, type LabelRequest, overlaps, type Wire } from "./labels.ts";
import type { UnitSystem } from "./lengths.ts";
import { cutSegment, edgesOf, type Segment } from "./polygon.ts";
import type { Box, Projection } from "./projection.ts";
import type { LegendKey } from "./samples.ts";
import type { Spot } from "./svg.ts";

/** Drawn from the first to the last. */
export const LAYERS = ["ground", "obstacles", "rig", "measures", "lines", "marks"] as const;
export type Layer = (typeof LAYERS)[number];

export interface Sheet {
  readonly projection: Projection;
  readonly units: UnitSystem;
  readonly fontSize: number;
  /** Little room: labels say it shortly. */
  readonly compact: boolean;
  readonly layers: Readonly<Record<Layer, string[]>>;
  /** Outline of the rig on the page, once it is drawn. */
  readonly body: Spot[];
  readonly solids: Box[];
  readonly wires: Wire[];
  readonly labels: LabelRequest[];
  readonly legend: Set<LegendKey>;
  /** Sentences for beneath the plan: what could not be drawn. */
  readonly notes: string[];
  /** What the rig's front is called. */
  readonly noseWord: string;
}

export function newSheet(
  projection: Projection,
  units: UnitSystem,
  fontSize: number,
  compact: boolean,
  noseWord = "nose",
): Sheet {
  return {
    noseWord,
    projection,
    units,
    fontSize,
    compact,
    layers: { ground: [], obstacles: [], rig: [], measures: [], lines: [], marks: [] },
    body: [],
    solids: [],
    wires: [],
    labels: [],
    legend: new Set(),
    notes: [],
  };
}

/** Which labels are placed first. */
export const PRIORITY = {
  short: 120,
  line: 110,
  rigName: 95,
  window: 90,
  stance: 85,
  edge: 80,
  hot: 70,
  hookup: 60,
  area: 50,
  door: 45,
  obstacle: 40,
  slide: 20,
} as const;

/** How unwelcome a label is on the edge of an area, on what one measures from, and on a line that matters. */
export const COST_EDGE = 22;
export const COST_MEASURE = 90;
export const COST_LINE = 120;

export function addWires(sheet: Sheet, segments: readonly Segment[], cost: number): void {
  sheet.wires.push(...segments.map((segment) => ({ ...segment, cost })));
}

export function addOutline(sheet: Sheet, points: readonly Spot[], cost = COST_EDGE): void {
  addWires(sheet, edgesOf(points), cost);
}

const RINGS = [1, 1.5, 2.1, 2.8, 3.6, 4.5];
const RING_STEPS = 12;
/** A mark goes this much further rather than hide a line, pixels. */
const COST_MARK_ON_LINE = 30;

/** Spots round `at`, near ones first and on each ring those towards `way` first. */
function* spotsRound(at: Spot, radius: number, way: Spot): Generator<Spot> {
  const first = Math.atan2(way.y, way.x);
  for (const ring of RINGS) {
    for (let step = 0; step < RING_STEPS; step += 1) {
      const turn = Math.ceil(step / 2) * (step % 2 === 0 ? 1 : -1);
      const angle = first + (2 * Math.PI * turn) / RING_STEPS;
      yield { x: at.x + ring * radius * Math.cos(angle), y: at.y + ring * radius * Math.sin(angle) };
    }
  }
}

/**
 * A spot for a mark of this radius at or near `at` that touches no other mark; `at` itself when the neighbourhood is
 * full. With `aside` the mark leaves its place open, off the lines and towards that direction. Reserves the spot.
 */
export function reserveMark(sheet: Sheet, at: Spot, radius: number, aside?: Spot): Spot {
  let chosen = at;
  if (aside || !isFree(sheet, at, radius)) {
    let least = Number.POSITIVE_INFINITY;
    for (const spot of spotsRound(at, radius, aside ?? { x: 1, y: 0 })) {
      const open = !aside || Math.max(Math.abs(spot.x - at.x), Math.abs(spot.y - at.y)) > radius;
      const box = boxRound(spot, radius);
      const covered = sheet.wires.filter((wire) => wire.cost === COST_LINE && cutSegment(wire, box)).length;
      const cost = Math.hypot(spot.x - at.x, spot.y - at.y) + covered * COST_MARK_ON_LINE;
      if (open && cost < least && isFree(sheet, spot, radius)) {
        least = cost;
        chosen = spot;
      }
    }
  }
  sheet.solids.push(boxRound(chosen, radius));
  return chosen;
}

/** True when a mark of this radius at `at` touches no other mark. */
export function isFree(sheet: Sheet, at: Spot, radius: number): boolean {
  return sheet.solids.every((solid) => !overlaps(boxRound(at, radius), solid));
}
