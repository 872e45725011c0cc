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

interface Crossing {
  readonly distance: number;
  readonly patch: number;
}

/** One category for each of the sixteen directions, north first, clockwise. */
export function upwindCategories(surroundings: Surroundings, point: PlanePoint): readonly TerrainCategory[] {
  const patches = surroundings.groundsNear(point, fetch.seaDistance);
  const crossings: Crossing[][] = RAYS.map(() => []);
  patches.forEach((patch, index) => {
    collect(patch, index, point, crossings);
  });
  return Array.from({ length: SECTOR_COUNT }, (_, sector) => {
    const rays = crossings.slice(sector * OFFSETS.length, (sector + 1) * OFFSETS.length);
    return category(rays.map((ray) => lengths(ray, patches)));
  });
}

/** Every crossing of a patch's rings with every ray from the point. */
function collect({ shape }: GroundPatch, patch: number, point: PlanePoint, crossings: Crossing[][]): void {
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
      const least = Math.min(fromAngle, fromAngle + turned) - WIDEST_OFFSET - ANGLE_SLACK;
      const most = Math.max(fromAngle, fromAngle + turned) + WIDEST_OFFSET + ANGLE_SLACK;
      for (let sector = Math.ceil(least / SECTOR_STEP); sector * SECTOR_STEP <= most; sector += 1) {
        const first = (((sector % SECTOR_COUNT) + SECTOR_COUNT) % SECTOR_COUNT) * OFFSETS.length;
        for (let ray = first; ray < first + OFFSETS.length; ray += 1) {
          const { sine, cosine } = RAYS[ray] as Ray;
          const fromSide = fromEast * cosine - fromNorth * sine;
          const toSide = toEast * cosine - toNorth * sine;
          if (fromSide > 0 === toSide > 0) continue;
          const part = fromSide / (fromSide - toSide);
          const east = fromEast + part * (toEast - fromEast);
          const north = fromNorth + part * (toNorth - fromNorth);
          const distance = east * sine + north * cosine;
          if (distance > 0) crossings[ray]!.push({ distance, patch });
        }
      }
      fromEast = toEast;
      fromNorth = toNorth;
      fromAngle = toAngle;
    }
  }
}

interface Lengths {
  /** Metres of each category within the ordinary distance, smoothest first. */
  readonly near: readonly number[];
  /** Metres of sea within its longer distance. */
  readonly sea: number;
}

/** Walks one ray from the point outward. A patch crossed an odd number of times is one the point stands in. */
function lengths(ray: Crossing[], patches: readonly GroundPatch[]): Lengths {
  const near = TERRAINS.map(() => 0);
  let sea = 0;
  const inside = new Set<number>();
  for (const { patch } of ray) toggle(inside, patch);
  ray.sort((a, b) => a.distance - b.distance);
  let at = 0;
  for (const crossing of [...ray, { distance: fetch.seaDistance, patch: -1 }]) {
    const to = Math.min(crossing.distance, fetch.seaDistance);
    if (to > at) {
      const rank = smoothestOf(inside, patches);
      near[rank]! += Math.max(0, Math.min(to, fetch.distance) - Math.min(at, fetch.distance));
      if (rank === 0) sea += to - at;
      at = to;
    }
    toggle(inside, crossing.patch);
  }
  return { near, sea };
}

function toggle(inside: Set<number>, patch: number): void {
  if (!inside.delete(patch)) inside.add(patch);
}

function smoothestOf(inside: ReadonlySet<number>, patches: readonly GroundPatch[]): number {
  let rank = Number.POSITIVE_INFINITY;
  for (const patch of inside) rank = Math.min(rank, patches[patch]?.rank ?? Number.POSITIVE_INFINITY);
  return Number.isFinite(rank) ? rank : UNRECORDED_RANK;
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
