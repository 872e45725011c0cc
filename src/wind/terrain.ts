/**
 * What rough ground does to a gust near the ground, by the terrain categories of EN 1991-1-4.
 *
 * With z0 the roughness length and z the height, never below the category's least height:
 * cr = kr ln(z / z0), kr = 0.19 (z0 / 0.05)^0.07, Iv = 1 / ln(z / z0), ce = (1 + 7 Iv) cr². The gust at z over the
 * gust at 10 m in open country (category II) is the square root of the quotient of their ce, for ce stands for
 * pressure.
 */
import table from "../../data/terrain.json" with { type: "json" };

export type TerrainCategory = "0" | "I" | "II" | "III" | "IV";

export interface Terrain {
  readonly id: TerrainCategory;
  /** Roughness length, metres. */
  readonly z0: number;
  /** Height below which nothing more is credited, metres. */
  readonly zmin: number;
  readonly words: string;
}

/** Smoothest first. */
export const TERRAINS = table.categories as readonly Terrain[];

const { profile, blending } = table;

/** The category of this id. */
export function terrain(id: TerrainCategory): Terrain {
  return TERRAINS.find((one) => one.id === id)!;
}

/** Place of a category in the list, smoothest first. */
export function smoothnessRank(id: TerrainCategory): number {
  return TERRAINS.findIndex((one) => one.id === id);
}

/** kr: terrain factor of a roughness length in metres. */
export function terrainFactor(z0: number): number {
  return profile.terrainFactor * (z0 / profile.referenceRoughness) ** profile.exponent;
}

/** cr: mean wind at `height` metres over the basic wind. */
export function roughnessFactor(id: TerrainCategory, height: number): number {
  const { z0, zmin } = terrain(id);
  return terrainFactor(z0) * Math.log(Math.max(height, zmin) / z0);
}

/** Iv: intensity of turbulence at `height` metres. */
export function turbulenceIntensity(id: TerrainCategory, height: number): number {
  const { z0, zmin } = terrain(id);
  return 1 / Math.log(Math.max(height, zmin) / z0);
}

/** ce: peak pressure at `height` metres over the basic pressure. */
export function exposureFactor(id: TerrainCategory, height: number): number {
  return (1 + profile.gustTerm * turbulenceIntensity(id, height)) * roughnessFactor(id, height) ** 2;
}

const REFERENCE = exposureFactor(profile.referenceCategory as TerrainCategory, profile.referenceHeight);

/** Gust at `height` metres in a category over the gust at 10 m in open country. */
export function gustRatio(id: TerrainCategory, height: number): number {
  return Math.sqrt(exposureFactor(id, height) / REFERENCE);
}

/**
 * Mean wind at `height` over roughness `z0` against the mean at 10 m over the roughness of a weather station (0.03 m),
 * by way of the height at which local ground no longer matters (60 m). For the Beaufort label only: within reach of
 * rough ground it does not hold for a gust.
 */
export function meanRatio(z0: number, height: number): number {
  const up = Math.log(blending.height / blending.roughness) / Math.log(profile.referenceHeight / blending.roughness);
  return (up * Math.log(height / z0)) / Math.log(blending.height / z0);
}
