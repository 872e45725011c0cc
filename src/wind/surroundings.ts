/** A campground's own features made ready for many exposure roses: in local metres, with spatial indexes. */
import Flatbush from "flatbush";
import table from "../../data/terrain.json" with { type: "json" };
import { type LonLat, type PlanePoint, type TangentPlane, tangentPlane } from "../geo/tangent-plane.ts";
import { type CampgroundFeature, featureId } from "../site/feature.ts";
import { type Barrier, barrierOf } from "./barrier.ts";
import { contentKey } from "./content-key.ts";
import { boxOfShape, type LocalBox, type LocalShape, localShape } from "./shapes.ts";
import { smoothnessRank, type TerrainCategory } from "./terrain.ts";
import { REACH_HEIGHTS } from "./wake.ts";

/** A patch of ground of one category. */
export interface GroundPatch {
  readonly id: string;
  readonly category: TerrainCategory;
  /** Place of the category in the list, smoothest first. */
  readonly rank: number;
  readonly shape: LocalShape;
  readonly box: LocalBox;
}

export interface Surroundings {
  readonly plane: TangentPlane;
  /** The same for the same features and centre, in any order of features. */
  readonly key: string;
  readonly barriers: readonly Barrier[];
  readonly grounds: readonly GroundPatch[];
  /** Ids of features that were left out, with the reason. */
  readonly leftOut: readonly { readonly id: string; readonly reason: string }[];
  /** Barriers within whose reach the point lies. */
  barriersNear(point: PlanePoint): readonly Barrier[];
  /** Patches of ground within `reach` metres of the point, east and north each. */
  groundsNear(point: PlanePoint, reach: number): readonly GroundPatch[];
  /** The same, of the smoothest category alone. */
  seasNear(point: PlanePoint, reach: number): readonly GroundPatch[];
}

const KINDS = new Set(["shelter", "ground", "obstacle"]);

/**
 * Reads shelter, ground and obstacle features.
 *
 * @param features Kept features in their wire form; positions are longitude and latitude.
 * @param centre Where the local plane touches the earth: the middle of the campground.
 */
export function compileSurroundings(features: readonly CampgroundFeature[], centre: LonLat): Surroundings {
  const plane = tangentPlane(centre);
  const barriers: Barrier[] = [];
  const grounds: GroundPatch[] = [];
  const leftOut: { id: string; reason: string }[] = [];
  const used = features.filter(({ properties }) => KINDS.has(properties["kind"] as string));
  used.forEach((feature, index) => {
    if (feature.geometry === null) return;
    if (localShape(feature.geometry, plane, 1) === null) {
      const id = featureId(feature) ?? `feature-${index + 1}`;
      leftOut.push({ id, reason: "it has no shape near the campground" });
      return;
    }
    const barrier = barrierOf(feature, index, plane);
    if (barrier !== null) barriers.push(barrier);
    const patch = groundOf(feature, index, plane);
    if (patch !== null) grounds.push(patch);
  });
  const key = contentKey(used, centre);
  return { plane, key, barriers, grounds, leftOut, ...searches(barriers, grounds) };
}

function groundOf(feature: CampgroundFeature, index: number, plane: TangentPlane): GroundPatch | null {
  const { properties, geometry } = feature;
  if (properties["kind"] !== "ground" || geometry === null) return null;
  const shape = localShape(geometry, plane, 1);
  const category = categoryOf(properties);
  if (shape === null || !shape.area || category === null) return null;
  const id = featureId(feature) ?? `feature-${index + 1}`;
  return { id, category, rank: smoothnessRank(category), shape, box: boxOfShape(shape) };
}

function categoryOf(properties: CampgroundFeature["properties"]): TerrainCategory | null {
  const { ground } = table;
  const what = properties["what"];
  if (what === "water") return (properties["water"] === "sea" ? ground.sea : ground.water) as TerrainCategory;
  if (what !== "open" && what !== "wood" && what !== "built") return null;
  return ground[what] as TerrainCategory;
}

function searches(barriers: readonly Barrier[], grounds: readonly GroundPatch[]) {
  const barrierIndex = indexOf(barriers.map(({ box, height }) => grown(box, REACH_HEIGHTS * height)));
  const seas = grounds.filter(({ rank }) => rank === 0);
  return {
    barriersNear: ({ east, north }: PlanePoint) =>
      (barrierIndex?.search(east, north, east, north) ?? []).map((index) => barriers[index]!),
    groundsNear: near(grounds),
    seasNear: near(seas),
  };
}

function near(patches: readonly GroundPatch[]) {
  const index = indexOf(patches.map(({ box }) => box));
  return ({ east, north }: PlanePoint, reach: number): readonly GroundPatch[] =>
    (index?.search(east - reach, north - reach, east + reach, north + reach) ?? []).map((at) => patches[at]!);
}

function grown({ east, north }: LocalBox, by: number): LocalBox {
  return { east: [east[0] - by, east[1] + by], north: [north[0] - by, north[1] + by] };
}

function indexOf(boxes: readonly LocalBox[]): Flatbush | null {
  if (boxes.length === 0) return null;
  const index = new Flatbush(boxes.length);
  for (const { east, north } of boxes) index.add(east[0], north[0], east[1], north[1]);
  index.finish();
  return index;
}
