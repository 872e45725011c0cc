/**
 * The terrain category that governs each direction: rays upwind over the patches of ground.
 *
 * EN 1991-1-4 A.2 procedure 1: the smoother category counts within 1 km, sea within 2 km, patches below a tenth are
 * ignored. Shares are added up from the smoothest on, so that smoother ground never gives a rougher category. Where
 * patches lie on each other the smoothest counts; where none is recorded, open land.
 */
import table from "../../data/terrain.json" with { type: "json" };
import type { PlanePoint } from "../geo/tangent-plane.ts";
import { radians } from "../geo/tangent-plane.ts";
import { SECTOR_COUNT, SECTOR_STEP } from "./sector.ts";
import type { GroundPatch, Surroundings } from "./surroundings.ts";
import { smoothnessRank, TERRAINS, type TerrainCategory } from "./terrain.ts";

const { fetch, ground } = table;
const OFFSETS = fetch.rayOffsets.map(radians);
const WIDEST_OFFSET = Math.max(...OFFSETS);
/** Keeps a ray at the very end of an edge's angle among those tried; the crossing test itself is exact. */
const ANGLE_SLACK = 1e-9;
const UNRECORDED_RANK = smoothnessRank(ground.unrecorded as TerrainCategory);

interface Ray {
  readonly sine: number;
  readonly cosine: number;
}

const RAYS: readonly Ray[] = Array.from({ length: SECTOR_COUNT * OFFSETS.length }, (_, index) => {
  const angle = Math.floor(index / OFFSETS.length) * SECTOR_STEP + (OFFSETS[index % OFFSETS.length] as number);
  return { sine: Math.sin(angle), cosine: Math.cos(angle) };
});

/** The ground along one ray: where patches begin and end, as sortable numbers (see `note`). */
type Events = number[];

/** One category for each of the sixteen directions, north first, clockwise. */
export function upwindCategories(surroundings: Surroundings, point: PlanePoint): readonly TerrainCategory[] {
  const events: Events[] = RAYS.map(() => []);
  const crossings: number[][] = RAYS.map(() => []);
  // Beyond the ordinary distance only sea counts, and no patch hides it.
  const near = surroundings.groundsNear(point, fetch.distance);
  const far = surroundings.seasNear(point, fetch.seaDistance);
  for (const patch of new Set([...near, ...far])) {
    const crossed = cross(patch, point, crossings);
    for (const ray of crossed) {
      note(patch.rank, crossings[ray]!, events[ray]!);
      crossings[ray]!.length = 0;
    }
  }
  return Array.from({ length: SECTOR_COUNT }, (_, sector) => {
    const rays = events.slice(sector * OFFSETS.length, (sector + 1) * OFFSETS.length);
    return category(rays.map(lengths));
  });
}

/** Collects the distance of every crossing of a patch's rings with a ray; returns the rays that are crossed. */
function cross({ shape }: GroundPatch, point: PlanePoint, crossings: readonly number[][]): readonly number[] {
  const crossed: number[] = [];
  for (const path of shape.paths) {
    let fromEast = (path[0] as number) - point.east;
    let fromNorth = (path[1] as number) - point.north;
    let fromAngle = Math.atan2(fromEast, fromNorth);
    for (let index = 2; index + 1 < path.length; index += 2) {
      const toEast = (path[index] as number) - point.east;
      const toNorth = (path[index + 1] as number) - point.north;
      const toAngle = Math.atan2(toEast, toNorth);
      let turned = toAngle - fromAngle;
      if (turned > Math.PI) turned -= 2 * Math.PI;
      if (turned < -Math.PI) turned += 2 * Math.PI;
      const least = Math.min(fromAngle, fromAngle + turned) - ANGLE_SLACK;
      const most = Math.max(fromAngle, fromAngle + turned) + ANGLE_SLACK;
      const first = Math.ceil((least - WIDEST_OFFSET) / SECTOR_STEP);
      for (let sector = first; sector * SECTOR_STEP <= most + WIDEST_OFFSET; sector += 1) {
        for (let offset = 0; offset < OFFSETS.length; offset += 1) {
          const angle = sector * SECTOR_STEP + (OFFSETS[offset] as number);
          if (angle < least || angle > most) continue;
          const ray = (((sector % SECTOR_COUNT) + SECTOR_COUNT) % SECTOR_COUNT) * OFFSETS.length + offset;
          const distance = crossingOf(RAYS[ray] as Ray, fromEast, fromNorth, toEast, toNorth);
          if (distance <= 0) continue;
          const found = crossings[ray] as number[];
          if (found.length === 0) crossed.push(ray);
          found.push(distance);
        }
      }
      fromEast = toEast;
      fromNorth = toNorth;
      fromAngle = toAngle;
    }
  }
  return crossed;
}

/** Metres along the ray at which it crosses an edge; 0 when it does not. An end on the ray counts for one edge only. */
function crossingOf(
  { sine, cosine }: Ray,
  fromEast: number,
  fromNorth: number,
  toEast: number,
  toNorth: number,
): number {
  const fromSide = fromEast * cosine - fromNorth * sine;
  const toSide = toEast * cosine - toNorth * sine;
  if (fromSide > 0 === toSide > 0) return 0;
  const part = fromSide / (fromSide - toSide);
  const east = fromEast + part * (toEast - fromEast);
  const north = fromNorth + part * (toNorth - fromNorth);
  return east * sine + north * cosine;
}

/** An event is a whole number: micrometres from the place, then the rank, then 1 where the patch begins. */
const MICROMETRES = 1_000_000;
const SLOTS = 2 * TERRAINS.length;

/** Notes the stretches of one patch on one ray. An odd number of crossings means that the place stands in it. */
function note(rank: number, crossings: number[], events: Events): void {
  crossings.sort((a, b) => a - b);
  const stands = crossings.length % 2 === 1;
  if (stands) events.push(2 * rank + 1);
  crossings.forEach((distance, index) => {
    const begins = index % 2 === 0 ? !stands : stands;
    events.push(Math.round(distance * MICROMETRES) * SLOTS + 2 * rank + (begins ? 1 : 0));
  });
}

interface Lengths {
  /** Metres of each category within the ordinary distance, smoothest first. */
  readonly near: readonly number[];
  /** Metres of sea within its longer distance. */
  readonly sea: number;
}

/** Walks one ray from the place outward. */
function lengths(events: Events): Lengths {
  const near = TERRAINS.map(() => 0);
  const open = TERRAINS.map(() => 0);
  let sea = 0;
  let at = 0;
  let rank = UNRECORDED_RANK;
  const walkTo = (distance: number): void => {
    const to = Math.min(distance, fetch.seaDistance);
    near[rank]! += Math.max(0, Math.min(to, fetch.distance) - Math.min(at, fetch.distance));
    if (rank === 0) sea += to - at;
    at = to;
  };
  for (const event of Float64Array.from(events).sort()) {
    walkTo(Math.floor(event / SLOTS) / MICROMETRES);
    const slot = event % SLOTS;
    open[slot >> 1]! += slot % 2 === 1 ? 1 : -1;
    const smoothest = open.findIndex((count) => count > 0);
    rank = smoothest < 0 ? UNRECORDED_RANK : smoothest;
  }
  walkTo(fetch.seaDistance);
  return { near, sea };
}

function category(rays: readonly Lengths[]): TerrainCategory {
  const total = (pick: (one: Lengths) => number): number => rays.reduce((sum, one) => sum + pick(one), 0);
  if (total((one) => one.sea) >= fetch.ignoredShare * fetch.seaDistance * rays.length) return TERRAINS[0]!.id;
  const wanted = fetch.ignoredShare * fetch.distance * rays.length;
  let sum = 0;
  for (const [rank, { id }] of TERRAINS.entries()) {
    sum += total((one) => one.near[rank] as number);
    if (sum >= wanted) return id;
  }
  return ground.unrecorded as TerrainCategory;
}
