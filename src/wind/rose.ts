/**
 * The exposure rose of one place: for each of sixteen directions what the ground and the barriers upwind leave of a
 * gust. It depends on the map and the season alone, so that callers may keep it under its key.
 */
import type { LonLat, PlanePoint } from "../geo/tangent-plane.ts";
import { DEFAULT_AWNING_HEIGHT } from "./awning-class.ts";
import type { Barrier, BarrierKind } from "./barrier.ts";
import { type Hemisphere, type LeafSeason, leafSeason } from "./season.ts";
import { SECTOR_COUNT, SECTOR_STEP } from "./sector.ts";
import { distanceToPaths, shapeContains } from "./shapes.ts";
import {
  type Confidence,
  INSIDE_WOOD,
  type ReadyBarrier,
  readyBarrier,
  type Sheltering,
  shelteringOf,
} from "./sheltering.ts";
import { sightOf } from "./sight.ts";
import type { Surroundings } from "./surroundings.ts";
import { gustRatio, type TerrainCategory } from "./terrain.ts";
import { upwindCategories } from "./upwind-ground.ts";
import { FAR_HEIGHTS, NEAR_HEIGHTS, SPREADS_IN_REACH, wakeSpread } from "./wake.ts";

/** The barrier that shelters most from one direction. */
export interface ShelteredBy {
  readonly id: string;
  readonly name: string | null;
  readonly kind: BarrierKind;
  /** Metres. */
  readonly height: number;
  readonly heightGiven: boolean;
  /** Metres upwind of the place; 0 when the place is among the trees. */
  readonly distance: number;
}

export interface Sector {
  /** True bearing that the wind comes from, radians. */
  readonly from: number;
  readonly category: TerrainCategory;
  /** Share of the wind taken away by the barrier that shelters most, 0 to 0.8. */
  readonly shelter: number;
  /** Optimistic end of that share. */
  readonly shelterHigh: number;
  /** Share that barriers give whose confidence is not low: what a cautious reading counts on. */
  readonly shelterSound: number;
  readonly by: ShelteredBy | null;
  readonly confidence: Confidence;
  /** Gust at the awning over the forecast gust at 10 m in open country. */
  readonly ratio: number;
  /** The same with the shelter that a cautious reading counts on, and with the optimistic one. */
  readonly ratioSound: number;
  readonly ratioLeast: number;
}

/** `among-trees`: limbs may fall. `nothing-recorded`: the record holds neither shelter nor ground in reach. */
export type RoseFlag = "among-trees" | "under-crown" | "nothing-recorded" | "leaf-season-unknown";

export interface Rose {
  /** Sixteen, north first, clockwise. */
  readonly sectors: readonly Sector[];
  /** Height of the awning above the ground, metres. */
  readonly height: number;
  readonly season: LeafSeason;
  readonly flags: readonly RoseFlag[];
  /** The same for the same surroundings, place, height and season. */
  readonly key: string;
}

export interface RoseOptions {
  /** Middle of the open awning above the ground, metres. */
  readonly height?: number;
  /** Day, YYYY-MM-DD: are the trees in leaf? */
  readonly date?: string;
  readonly hemisphere?: Hemisphere;
}

const WINDS = Array.from({ length: SECTOR_COUNT }, (_, index) => ({
  sine: Math.sin(index * SECTOR_STEP),
  cosine: Math.cos(index * SECTOR_STEP),
}));
/** A barrier that takes less than this share of the wind is not worth naming. */
const LEAST_NAMED = 0.005;
const KEY_DECIMALS = 7;
/** Metres round a place in which a recorded patch of ground says that somebody mapped the surroundings. */
const MAPPED_REACH = 1000;

/** The rose of a place given by longitude and latitude. */
export function exposureRose(surroundings: Surroundings, place: LonLat, options: RoseOptions = {}): Rose {
  return roseAt(surroundings, surroundings.plane.toPlane(place), options);
}

/** The key under which the rose of a place may be kept. */
export function roseKey(surroundings: Surroundings, point: PlanePoint, options: RoseOptions = {}): string {
  const { height = DEFAULT_AWNING_HEIGHT } = options;
  const season = leafSeason(options.date, options.hemisphere);
  const place = [point.east, point.north, height].map((value) => value.toFixed(KEY_DECIMALS));
  return [surroundings.key, ...place, season].join("/");
}

/** The rose of a place in the plane of the surroundings. */
export function roseAt(surroundings: Surroundings, point: PlanePoint, options: RoseOptions = {}): Rose {
  const height = options.height ?? DEFAULT_AWNING_HEIGHT;
  const season = leafSeason(options.date, options.hemisphere);
  const near = surroundings.barriersNear(point);
  const placed = near.map((barrier) => place(readyBarrier(barrier, season, height), point));
  const categories = upwindCategories(surroundings, point);
  const sectors = WINDS.map((_, index) => sector(index, categories[index]!, placed, point, height));
  const flags: RoseFlag[] = [];
  if (placed.some(({ holds, ready }) => holds && ready.barrier.stand)) flags.push("among-trees");
  if (placed.some(({ holds, ready }) => holds && ready.trees && !ready.barrier.stand)) {
    flags.push("under-crown");
  }
  if (near.length === 0 && surroundings.groundsNear(point, MAPPED_REACH).length === 0) flags.push("nothing-recorded");
  if (season === "unknown" && near.some(dependsOnSeason)) flags.push("leaf-season-unknown");
  return { sectors, height, season, flags, key: roseKey(surroundings, point, options) };
}

function dependsOnSeason({ kind, leaf, porosity }: Barrier): boolean {
  return (kind === "trees" || kind === "wood") && porosity === null && leaf !== "evergreen";
}

interface Placed {
  readonly ready: ReadyBarrier;
  /** True when the place is inside it. */
  readonly holds: boolean;
  /** Bearing of the middle of its box and distance to it, metres; the radius of the circle round that box. */
  readonly bearing: number;
  readonly distance: number;
  readonly radius: number;
}

function place(ready: ReadyBarrier, point: PlanePoint): Placed {
  const { shape, halfWidth, box } = ready.barrier;
  const holds = shape.area ? shapeContains(shape, point) : halfWidth > 0 && distanceToPaths(shape, point) <= halfWidth;
  const east = (box.east[0] + box.east[1]) / 2 - point.east;
  const north = (box.north[0] + box.north[1]) / 2 - point.north;
  const radius = Math.hypot(box.east[1] - box.east[0], box.north[1] - box.north[0]) / 2;
  return { ready, holds, bearing: Math.atan2(east, north), distance: Math.hypot(east, north), radius };
}

/** False when no part of the barrier can lie upwind, near enough to the line to matter. */
function inReach({ ready: { barrier }, bearing, distance, radius }: Placed, from: number): boolean {
  const reach = FAR_HEIGHTS * barrier.height;
  const angle = bearing - from;
  const along = distance * Math.cos(angle);
  const aside = Math.abs(distance * Math.sin(angle));
  if (along + radius <= 0 || along - radius >= reach) return false;
  // A deep wood is reckoned with as if farther off, at most at its reach.
  const farthest = barrier.stand ? reach : Math.min(reach, Math.max(along + radius, NEAR_HEIGHTS * barrier.height));
  return aside - radius <= SPREADS_IN_REACH * wakeSpread(farthest, barrier.height);
}

function sector(
  index: number,
  category: TerrainCategory,
  placed: readonly Placed[],
  point: PlanePoint,
  height: number,
): Sector {
  const from = index * SECTOR_STEP;
  let best: { readonly of: Barrier; readonly sheltering: Sheltering } | null = null;
  let shelterHigh = 0;
  let shelterSound = 0;
  for (const one of placed) {
    const sheltering = shelteringFrom(one, index, point);
    if (sheltering === null || sheltering.share <= 0) continue;
    shelterHigh = Math.max(shelterHigh, sheltering.shareHigh);
    if (sheltering.confidence !== "low") shelterSound = Math.max(shelterSound, sheltering.share);
    if (best === null || sheltering.share > best.sheltering.share) best = { of: one.ready.barrier, sheltering };
  }
  const shelter = best?.sheltering.share ?? 0;
  const open = gustRatio(category, height);
  const named = best !== null && shelter >= LEAST_NAMED ? best : null;
  return {
    from,
    category,
    shelter,
    shelterHigh,
    shelterSound,
    by: named === null ? null : shelteredBy(named.of, named.sheltering.distance),
    confidence: named?.sheltering.confidence ?? "medium",
    ratio: open * (1 - shelter),
    ratioSound: open * (1 - shelterSound),
    ratioLeast: open * (1 - shelterHigh),
  };
}

/** No credit for a building, a hedge or a single crown that holds the place: the map is off, or wind passes under. */
function shelteringFrom(one: Placed, index: number, point: PlanePoint): Sheltering | null {
  const { barrier } = one.ready;
  if (one.holds) return barrier.stand ? INSIDE_WOOD : null;
  if (!inReach(one, index * SECTOR_STEP)) return null;
  const sight = sightOf(barrier.shape, point, WINDS[index]!, FAR_HEIGHTS * barrier.height);
  return sight === null ? null : shelteringOf(one.ready, sight);
}

function shelteredBy({ id, name, kind, height, heightGiven }: Barrier, distance: number): ShelteredBy {
  return { id, name, kind, height, heightGiven, distance };
}
