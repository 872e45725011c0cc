/** What stands round the sites and breaks the wind: read from the record, in local metres. */
import table from "../../data/shelter.json" with { type: "json" };
import type { TangentPlane } from "../geo/tangent-plane.ts";
import { type CampgroundFeature, featureId } from "../site/feature.ts";
import { length } from "../site/quantities.ts";
import { ground, obstacle, shelter } from "../site/schema/surroundings.ts";
import type { LeafSeason } from "./season.ts";
import { boxOfShape, type LocalBox, type LocalShape, localShape } from "./shapes.ts";
import { dragOfPorosity, LEAST_BARRIER_HEIGHT } from "./wake.ts";

export type BarrierKind = "trees" | "wood" | "hedge" | "wall" | "fence" | "building";

export interface Barrier {
  readonly id: string;
  readonly name: string | null;
  readonly kind: BarrierKind;
  /** Metres. */
  readonly height: number;
  readonly heightGiven: boolean;
  /** Open share of its face as recorded; null when the record has none. */
  readonly porosity: number | null;
  readonly leaf: "evergreen" | "deciduous" | null;
  /** Half the width of a barrier drawn as a line, metres; 0 for an area. */
  readonly halfWidth: number;
  /** True for trees drawn as an area: only such a one can hold a whole site. */
  readonly stand: boolean;
  readonly shape: LocalShape;
  readonly box: LocalBox;
}

const { porosity: usualPorosity, height: usualHeight, treeWidth } = table;
const TALLEST_WOOD = 130;
const woodHeight = length({ min: 0, max: TALLEST_WOOD });

/** Words of records for each kind of barrier; another word gives no shelter. */
const KIND_OF_WORD: Readonly<Record<string, BarrierKind>> = {
  trees: "trees",
  tree: "trees",
  hedge: "hedge",
  wall: "wall",
  fence: "fence",
  building: "building",
};

/** Metres; null where a barrier without a recorded height gives no shelter. */
const ASSUMED_HEIGHT: Readonly<Record<BarrierKind, number | null>> = {
  trees: usualHeight.trees,
  wood: usualHeight.trees,
  hedge: usualHeight.hedge,
  building: usualHeight.building,
  wall: usualHeight.wall,
  fence: usualHeight.wall,
};

interface Read {
  readonly kind: BarrierKind;
  readonly height: number | undefined;
  readonly porosity: number | undefined;
  readonly leaf: "evergreen" | "deciduous" | undefined;
  readonly width: number | undefined;
  readonly radius: number | undefined;
}

const NOTHING = { porosity: undefined, leaf: undefined, width: undefined, radius: undefined };

/**
 * The barrier that a feature is; null when it is none, or is too low to count, or has no height and none is assumed for
 * its kind. A tree as an obstacle is only its trunk; its crown comes as a feature of its own.
 */
export function barrierOf(feature: CampgroundFeature, index: number, plane: TangentPlane): Barrier | null {
  const read = readBarrier(feature);
  if (read === null || feature.geometry === null) return null;
  const height = read.height ?? ASSUMED_HEIGHT[read.kind] ?? 0;
  if (height < LEAST_BARRIER_HEIGHT) return null;
  const shape = localShape(feature.geometry, plane, read.radius ?? treeWidth.radius);
  if (shape === null) return null;
  const name = feature.properties["name"];
  return {
    id: featureId(feature) ?? `feature-${index + 1}`,
    name: typeof name === "string" ? name : null,
    kind: read.kind,
    height,
    heightGiven: read.height !== undefined,
    porosity: read.porosity ?? null,
    leaf: read.leaf ?? null,
    halfWidth: shape.area ? 0 : (read.width ?? 0) / 2,
    stand: feature.geometry.type !== "Point" && shape.area && (read.kind === "trees" || read.kind === "wood"),
    shape,
    box: boxOfShape(shape),
  };
}

function readBarrier({ properties }: CampgroundFeature): Read | null {
  if (properties["kind"] === "shelter") return readShelter(properties);
  if (properties["kind"] === "obstacle") return readObstacle(properties);
  if (properties["kind"] !== "ground") return null;
  const read = ground.safeParse(properties);
  if (!read.success || read.data.what !== "wood") return null;
  const height = woodHeight.safeParse(properties["height"]);
  const leaf = properties["leaf"];
  const known = leaf === "evergreen" || leaf === "deciduous" ? leaf : undefined;
  return { ...NOTHING, kind: "wood", height: height.success ? height.data : undefined, leaf: known };
}

function readShelter(properties: CampgroundFeature["properties"]): Read | null {
  const read = shelter.safeParse(properties);
  const kind = read.success ? KIND_OF_WORD[read.data.what ?? ""] : undefined;
  if (!read.success || kind === undefined) return null;
  const { height, porosity, leaf, width, radius } = read.data;
  return { kind, height, porosity, leaf, width, radius };
}

/** A solid obstacle breaks the wind when it stands on the ground and somebody knows its height. */
function readObstacle(properties: CampgroundFeature["properties"]): Read | null {
  const read = obstacle.safeParse(properties);
  const kind = read.success ? KIND_OF_WORD[read.data.what] : undefined;
  if (!read.success || kind === undefined || kind === "trees") return null;
  const { from = 0, to, width, radius } = read.data;
  return to === undefined || from > 0 ? null : { ...NOTHING, kind, height: to, width, radius };
}

/** True for what lets wind pass under its crowns. */
export function isTrees({ kind }: Barrier): boolean {
  return kind === "trees" || kind === "wood";
}

/** Open share of the barrier's face in this season; null for a building, and for a fence nobody described. */
export function porosityOf(barrier: Barrier, season: LeafSeason): number | null {
  if (barrier.porosity !== null) return barrier.porosity;
  if (barrier.kind === "hedge") return usualPorosity.hedge;
  if (barrier.kind === "wall") return usualPorosity.wall;
  if (!isTrees(barrier)) return null;
  if (barrier.leaf === "evergreen") return usualPorosity.evergreen;
  if (season !== "on") return usualPorosity.leafOff;
  // Nobody said which trees these are: in leaf the more open of the two kinds.
  return barrier.leaf === "deciduous" ? usualPorosity.leafOn : usualPorosity.evergreen;
}

/** Drag coefficient; `front` is the width that the wind meets, metres. 0 for a fence of unknown openness. */
export function dragOf(barrier: Barrier, porosity: number | null, front: number): number {
  if (porosity !== null) return dragOfPorosity(porosity);
  if (barrier.kind !== "building") return 0;
  const { wideDrag, narrowDrag, wideFrom } = table.building;
  return front >= wideFrom * barrier.height ? wideDrag : narrowDrag;
}
