/**
 * Where labels go. Each label has anchors (spots that it speaks of) and is tried all round each of them, near first;
 * a place that touches another label, a mark or the edge of the field is refused, and among the rest the cheapest
 * wins: near, off the lines, its leader crossing nothing. What finds no place is handed back, never drawn over.
 */
import { cutSegment, edgesOf, type Segment } from "./polygon.ts";
import type { Box } from "./projection.ts";
import type { Spot } from "./svg.ts";
import { rowsHeight, textWidth } from "./text.ts";

export interface LabelRow {
  readonly text: string;
  readonly bold?: boolean;
}

export interface LabelRequest {
  readonly key: string;
  readonly rows: readonly LabelRow[];
  /** Page spots that the label may point at, best first. */
  readonly anchors: readonly Spot[];
  /** Larger is placed earlier. */
  readonly priority: number;
  readonly fontSize: number;
  readonly colour: string;
  /** A frame round the label. */
  readonly framed?: boolean;
  /** The label may stand on the anchor itself (the middle of an area). */
  readonly mayCover?: boolean;
  /** The label speaks of something outside the rig and should not stand on its body. */
  readonly offBody?: boolean;
  /** Up to this distance no leader is drawn, pixels. */
  readonly quietDistance?: number;
  /** The label is dropped when its best place would give up more than this. */
  readonly maxCost?: number;
  /** The label is dropped when it would be further than this from its anchor, pixels. */
  readonly maxDistance?: number;
  /** What is said beneath the plan when there is no room; undefined: the label is left out. */
  readonly otherwise?: string;
}

/** A segment that a label should not lie on, with the cost of doing so. */
export interface Wire extends Segment {
  readonly cost: number;
}

export interface PlacedLabel {
  readonly request: LabelRequest;
  readonly box: Box;
  readonly anchor: Spot;
  /** From the box to the anchor; null when the label is close enough. */
  readonly leader: Segment | null;
}

export interface LabelField {
  readonly frame: Box;
  readonly solids: readonly Box[];
  readonly wires: readonly Wire[];
  /** Outline of the rig's body; empty without a rig. */
  readonly body: readonly Spot[];
}

export interface Placement {
  /** How much was given up, to compare one placement with another. */
  readonly cost: number;
  readonly placed: readonly PlacedLabel[];
  readonly unplaced: readonly LabelRequest[];
}

export const LABEL_PADDING = 4;
/** Least distance between a label and anything that it must not touch, pixels. */
const CLEARANCE = 2;
const DISTANCES = [5, 12, 22, 36, 54, 76, 104, 140, 185, 240, 310];
const DIRECTIONS = 16;
const DEFAULT_MAX_DISTANCE = Math.max(...DISTANCES);
/** Below this distance a label needs no leader, pixels. */
const NO_LEADER = 14;
const COST_ON_BODY = 160;
const COST_PER_PIXEL = 0.3;
const COST_OF_LATER_ANCHOR = 6;
const COST_LEADER_OVER_LABEL = 400;
const COST_LEADER_OVER_WIRE_SHARE = 0.4;
const COST_LEADER_OVER_SOLID = 60;
const COST_LABEL_OVER_LEADER = 220;
const COST_UNPLACED = 600;
const COST_UNPLACED_LITTLE = 40;
/** Beside is read sooner than above or below, and those sooner than aslant. */
const COST_ASLANT = 3;

export function overlaps(a: Box, b: Box, clearance = 0): boolean {
  return (
    a.x < b.x + b.width + clearance &&
    b.x < a.x + a.width + clearance &&
    a.y < b.y + b.height + clearance &&
    b.y < a.y + a.height + clearance
  );
}

export function boxRound(centre: Spot, radius: number): Box {
  return { x: centre.x - radius, y: centre.y - radius, width: 2 * radius, height: 2 * radius };
}

function within(inner: Box, outer: Box): boolean {
  return (
    inner.x >= outer.x + CLEARANCE &&
    inner.y >= outer.y + CLEARANCE &&
    inner.x + inner.width <= outer.x + outer.width - CLEARANCE &&
    inner.y + inner.height <= outer.y + outer.height - CLEARANCE
  );
}

export function labelSize(request: LabelRequest): { width: number; height: number } {
  const widths = request.rows.map((row) => textWidth(row.text, request.fontSize, row.bold));
  return {
    width: Math.max(...widths) + 2 * LABEL_PADDING,
    height: rowsHeight(request.rows.length, request.fontSize) + 2 * LABEL_PADDING,
  };
}

function nearestInBox(box: Box, spot: Spot): Spot {
  return {
    x: Math.min(Math.max(spot.x, box.x), box.x + box.width),
    y: Math.min(Math.max(spot.y, box.y), box.y + box.height),
  };
}

function segmentsCross(a: Segment, b: Segment): boolean {
  const side = (s: Segment, p: Spot): number =>
    (s.to.x - s.from.x) * (p.y - s.from.y) - (s.to.y - s.from.y) * (p.x - s.from.x);
  return side(a, b.from) * side(a, b.to) < 0 && side(b, a.from) * side(b, a.to) < 0;
}

interface Candidate {
  readonly box: Box;
  readonly anchor: Spot;
  readonly leader: Segment | null;
  readonly baseCost: number;
}

function* candidatesOf(request: LabelRequest, body: readonly Spot[]): Generator<Candidate> {
  const { width, height } = labelSize(request);
  const bodyCost = (box: Box): number => (request.offBody && standsOn(box, body) ? COST_ON_BODY : 0);
  const limit = request.maxDistance ?? DEFAULT_MAX_DISTANCE;
  for (const [order, anchor] of request.anchors.entries()) {
    const anchorCost = order * COST_OF_LATER_ANCHOR;
    if (request.mayCover) {
      const box = { x: anchor.x - width / 2, y: anchor.y - height / 2, width, height };
      yield { box, anchor, leader: null, baseCost: anchorCost + bodyCost(box) };
    }
    for (const distance of DISTANCES.filter((each) => each <= limit)) {
      for (let step = 0; step < DIRECTIONS; step += 1) {
        const angle = (2 * Math.PI * step) / DIRECTIONS;
        const cosine = Math.cos(angle);
        const sine = Math.sin(angle);
        const x = anchor.x + cosine * (distance + width / 2) - width / 2;
        const y = anchor.y + sine * (distance + height / 2) - height / 2;
        const box = { x, y, width, height };
        const near = nearestInBox(box, anchor);
        const gap = Math.hypot(near.x - anchor.x, near.y - anchor.y);
        const leader = gap > (request.quietDistance ?? NO_LEADER) ? { from: near, to: anchor } : null;
        const aslant = Math.min(Math.abs(cosine), Math.abs(sine)) * COST_ASLANT;
        yield { box, anchor, leader, baseCost: anchorCost + gap * COST_PER_PIXEL + aslant + bodyCost(box) };
      }
    }
  }
}

/** True when the middle of the box lies in the outline (even-odd rule). */
function standsOn(box: Box, outline: readonly Spot[]): boolean {
  const x = box.x + box.width / 2;
  const y = box.y + box.height / 2;
  return edgesOf(outline).reduce((inside, { from, to }) => {
    const crosses = from.y > y !== to.y > y && x < from.x + ((y - from.y) / (to.y - from.y)) * (to.x - from.x);
    return crosses ? !inside : inside;
  }, false);
}

function costOf(candidate: Candidate, field: LabelField, placed: readonly PlacedLabel[], best: number): number {
  const { box, leader } = candidate;
  let cost = candidate.baseCost;
  if (cost >= best || !within(box, field.frame)) {
    return Number.POSITIVE_INFINITY;
  }
  for (const other of placed) {
    if (overlaps(box, other.box, CLEARANCE)) {
      return Number.POSITIVE_INFINITY;
    }
    if (other.leader && cutSegment(other.leader, box)) {
      cost += COST_LABEL_OVER_LEADER;
    }
    if (leader && (cutSegment(leader, other.box) || (other.leader && segmentsCross(leader, other.leader)))) {
      cost += COST_LEADER_OVER_LABEL;
    }
  }
  for (const solid of field.solids) {
    if (overlaps(box, solid, CLEARANCE)) {
      return Number.POSITIVE_INFINITY;
    }
    if (leader && cutSegment(leader, solid) && !cutSegment({ from: candidate.anchor, to: candidate.anchor }, solid)) {
      cost += COST_LEADER_OVER_SOLID;
    }
  }
  for (const wire of field.wires) {
    if (cost >= best) {
      return Number.POSITIVE_INFINITY;
    }
    if (cutSegment(wire, box)) {
      cost += wire.cost;
    } else if (leader && segmentsCross(leader, wire)) {
      cost += wire.cost * COST_LEADER_OVER_WIRE_SHARE;
    }
  }
  return cost;
}

/** Places the labels, the larger priority first; equal ones in the order given. Deterministic. */
export function placeLabels(requests: readonly LabelRequest[], field: LabelField): Placement {
  const placed: PlacedLabel[] = [];
  const unplaced: LabelRequest[] = [];
  let total = 0;
  const ordered = requests.map((request, index) => ({ request, index }));
  ordered.sort((a, b) => b.request.priority - a.request.priority || a.index - b.index);
  for (const { request } of ordered) {
    let best = request.maxCost ?? Number.POSITIVE_INFINITY;
    let chosen: Candidate | null = null;
    // Cheapest first: the search ends as soon as no later candidate can win.
    const candidates = [...candidatesOf(request, field.body)].sort((a, b) => a.baseCost - b.baseCost);
    for (const candidate of candidates) {
      if (candidate.baseCost >= best) {
        break;
      }
      const cost = costOf(candidate, field, placed, best);
      if (cost < best) {
        best = cost;
        chosen = candidate;
      }
    }
    if (chosen) {
      total += best;
      placed.push({ request, box: chosen.box, anchor: chosen.anchor, leader: chosen.leader });
    } else {
      unplaced.push(request);
      total += request.otherwise === undefined ? COST_UNPLACED_LITTLE : COST_UNPLACED;
    }
  }
  return { placed, unplaced, cost: total };
}
