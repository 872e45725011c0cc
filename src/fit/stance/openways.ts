import type { CourseDeparture, CourseTail } from "./courses.ts";
import { type EdgeBans, edgeName, NO_BANS, type ShortestTree, wayTo } from "./graph.ts";
import type { Obstruction } from "./obstruction.ts";
import { type PadSide, padTree } from "./padside.ts";
import type { Place } from "./place.ts";
import type { RigPoint } from "./problem.ts";
import { type RigSide, rigTree } from "./rigside.ts";

/**
 * The shortest ways along the rig and among the barriers that are not blocked all over a place, which (x, y) is in.
 * The ways without that restriction are tried first; others are looked for only when one of them is blocked.
 */
export class OpenWays {
  private readonly side: RigSide;
  private readonly pad: PadSide;
  private readonly obstruction: Obstruction;
  private readonly x: number;
  private readonly y: number;
  private readonly place: Place;
  private rigRest: ShortestTree | null = null;
  private padRest: ShortestTree | null = null;

  constructor(side: RigSide, pad: PadSide, obstruction: Obstruction, x: number, y: number, place: Place) {
    this.side = side;
    this.pad = pad;
    this.obstruction = obstruction;
    this.x = x;
    this.y = y;
    this.place = place;
  }

  private rigIsOpen(a: number, b: number): boolean {
    return !this.obstruction.rigEdgeIsBlocked(a, b, this.x, this.y, this.place);
  }

  private padIsOpen(a: number, b: number): boolean {
    return !this.obstruction.padEdgeIsBlocked(a, b, this.x, this.y, this.place);
  }

  /** The way along the rig to a node; null when there is none. */
  departure(node: number): CourseDeparture | null {
    const known = departureBy(this.side, node, this.side.tree, NO_BANS);
    if (known === null || everyEdge(known.way, (a, b) => this.rigIsOpen(a, b))) return known;
    this.rigRest ??= rigTree(this.side, (a, b) => this.rigIsOpen(a, b));
    return departureBy(this.side, node, this.rigRest, NO_BANS);
  }

  /** The same without the banned edges. */
  departureWithout(node: number, bans: EdgeBans): CourseDeparture | null {
    const tree = rigTree(this.side, (a, b) => !bans.has(edgeName(a, b)) && this.rigIsOpen(a, b));
    return departureBy(this.side, node, tree, bans);
  }

  /** The way among the barriers from a corner to the target; null when there is none. */
  tail(node: number): CourseTail | null {
    const known = tailBy(node, this.pad.tree, NO_BANS);
    if (known === null || everyEdge(known.way, (a, b) => this.padIsOpen(a, b))) return known;
    this.padRest ??= padTree(this.pad, (a, b) => this.padIsOpen(a, b));
    return tailBy(node, this.padRest, NO_BANS);
  }

  /** The same without the banned edges. */
  tailWithout(node: number, bans: EdgeBans): CourseTail | null {
    const tree = padTree(this.pad, (a, b) => !bans.has(edgeName(a, b)) && this.padIsOpen(a, b));
    return tailBy(node, tree, bans);
  }
}

function everyEdge(way: readonly number[], open: (a: number, b: number) => boolean): boolean {
  return way.every((node, index) => index === 0 || open(way[index - 1] as number, node));
}

function departureBy(side: RigSide, node: number, ways: ShortestTree, bans: EdgeBans): CourseDeparture | null {
  const length = side.setback + (ways.distance[node] as number);
  if (!(length < Infinity)) return null;
  const { fromRear, left } = side.nodes[node] as RigPoint;
  return { side, node, x: fromRear, y: left, length, way: wayTo(ways, node), bans };
}

function tailBy(node: number, ways: ShortestTree, bans: EdgeBans): CourseTail | null {
  const length = ways.distance[node] as number;
  return length < Infinity ? { node, length, way: wayTo(ways, node), bans } : null;
}
