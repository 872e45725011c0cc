/**
 * Share of the wind that a barrier takes away behind it: Taylor and Salmon (1993), which is Perera (1981) with a
 * finite width.
 *
 * x distance downwind, h height of the barrier, z height of interest, z0 roughness of the ground, n = 1/7, K = 0.4,
 * C the drag coefficient of the barrier:
 *
 *     ca  = (ln((h + z0) / z0) / (2 K²))^(1 / (n + 2))
 *     eta = (z / h) (x / h)^(-1 / (n + 2))
 *     G   = ca eta exp(-0.67 (ca eta)^1.5)
 *     R   = 12.1875 C (h / x) G ln((h + z0) / z0) / ln((z + z0) / z0)
 *     E   = Phi(ymax / sigma) - Phi(ymin / sigma), sigma = sqrt(h x) / 2
 *     S   = min(0.8, R) E
 *
 * Holds from five heights on: nearer, the value at five heights stands. A barrier below 1 m gives nothing. One
 * roughness everywhere, because with the roughness of the ground smoother ground could lower the modelled gust.
 * Source: data/shelter.json.
 */
import table from "../../data/shelter.json" with { type: "json" };

const { wake, optimistic } = table;

export const LEAST_BARRIER_HEIGHT = wake.leastHeight;
/** Heights within which the published formula does not hold, and beyond which no shelter is credited. */
export const NEAR_HEIGHTS = wake.nearLimit;
export const FAR_HEIGHTS = wake.farLimit;
export const WAKE_ROUGHNESS = wake.roughness;

/** Drag coefficient of a fence, hedge or belt of trees from the open share of its face. */
export function dragOfPorosity(porosity: number): number {
  return wake.dragOfSolid * (1 - porosity);
}

/** A barrier of any width as the formula sees it. */
export interface WakeCase {
  /** Metres downwind of the barrier. */
  readonly distance: number;
  /** Height of the barrier, metres. */
  readonly height: number;
  /** Height at which the wind is asked for, metres. */
  readonly at: number;
  /** Drag coefficient. */
  readonly drag: number;
  /** Roughness length of the ground, metres; production uses one for all ground. */
  readonly roughness?: number;
}

export interface Wake {
  readonly ca: number;
  readonly eta: number;
  readonly g: number;
  /** Share of the wind lost behind an endless barrier, before the cap. */
  readonly raw: number;
  /** The same with the cap. */
  readonly share: number;
}

/** What of the formula depends neither on the distance nor on the barrier's drag. */
export interface WakeProfile {
  readonly height: number;
  readonly ca: number;
  /** ca times the height of interest over that of the barrier. */
  readonly scale: number;
  /** Constant of the formula times the quotient of the logarithms. */
  readonly factor: number;
}

/** The profile of barriers of one height, for the wind at `at` metres. */
export function wakeProfile(height: number, at: number, roughness: number = WAKE_ROUGHNESS): WakeProfile {
  const top = Math.log((height + roughness) / roughness);
  const ca = (top / (2 * wake.vonKarman ** 2)) ** POWER;
  const factor = (wake.constant * top) / Math.log((at + roughness) / roughness);
  return { height, ca, scale: (ca * at) / height, factor };
}

const POWER = 1 / (wake.exponent + 2);

/** The wake of an endless barrier. */
export function endlessWake(input: WakeCase): Wake {
  const { height, at, drag, roughness = WAKE_ROUGHNESS } = input;
  const profile = wakeProfile(height, at, roughness);
  const eta = (at / height) * Math.max(input.distance / height, NEAR_HEIGHTS) ** -POWER;
  const g = deficit(profile.ca * eta);
  const raw = rawShare(profile, input.distance, drag);
  return { ca: profile.ca, eta, g, raw, share: cappedShare(profile, input.distance, drag) };
}

function deficit(scaled: number): number {
  return scaled * Math.exp(-wake.decay * scaled ** wake.decayPower);
}

function rawShare(profile: WakeProfile, distance: number, drag: number): number {
  const heights = Math.max(distance / profile.height, NEAR_HEIGHTS);
  return (profile.factor * drag * deficit(profile.scale * heights ** -POWER)) / heights;
}

/** Share of the wind lost behind an endless barrier, with the cap. */
export function cappedShare(profile: WakeProfile, distance: number, drag: number): number {
  return profile.height < LEAST_BARRIER_HEIGHT ? 0 : Math.min(wake.mostShelter, rawShare(profile, distance, drag));
}

/** Lateral spread of a wake, metres. */
export function wakeSpread(distance: number, height: number): number {
  return wake.lateralSpread * Math.sqrt(height * distance);
}

/** Spreads of a wake beyond whose edge it gives less than a millionth of its shelter. */
export const SPREADS_IN_REACH = 5;
/** Heights round a barrier, any way, within which it can matter to a place. */
export const REACH_HEIGHTS = Math.hypot(FAR_HEIGHTS, SPREADS_IN_REACH * wakeSpread(FAR_HEIGHTS, 1));

/**
 * Share of an endless barrier's shelter that one of finite width gives.
 *
 * @param from Crosswind start of the barrier in metres, the place of interest at 0.
 * @param to Its crosswind end.
 * @param spread Lateral spread, metres; 0 counts only what is straight upwind.
 */
export function widthShare(from: number, to: number, spread: number): number {
  if (spread <= 0) return from <= 0 && to >= 0 && to > from ? 1 : 0;
  return Math.max(0, normalShare(to / spread) - normalShare(from / spread));
}

/** Cumulative normal distribution. */
function normalShare(value: number): number {
  return errorComplement(-value / Math.SQRT2) / 2;
}

/**
 * Coefficients of the rational Chebyshev fit to the complementary error function, error below 1.2e-7 (Press and
 * others, Numerical Recipes, section 6.2; from memory, checked by the tests against tabulated values).
 */
const ERROR_FIT = [
  -1.26551223, 1.00002368, 0.37409196, 0.09678418, -0.18628806, 0.27886807, -1.13520398, 1.48851587, -0.82215223,
  0.17087277,
] as const;

function errorComplement(value: number): number {
  const size = Math.abs(value);
  const t = 1 / (1 + size / 2);
  let sum = 0;
  for (let index = ERROR_FIT.length - 1; index >= 0; index -= 1) sum = sum * t + (ERROR_FIT[index] as number);
  const tail = t * Math.exp(-size * size + sum);
  return value >= 0 ? tail : 2 - tail;
}

/**
 * Share lost behind an endless, moderately dense belt by a published table of windbreaks, straight between its points:
 * the optimistic end of a band. Zero for a belt that is more open than the table's.
 */
export function publishedBeltShare(heights: number, porosity: number): number {
  if (porosity > optimistic.porosityUpTo || heights > FAR_HEIGHTS) return 0;
  const rows = optimistic.reductions;
  let before = rows[0]!;
  if (heights <= before.heights) return before.share;
  for (const row of rows) {
    if (heights <= row.heights) {
      const part = (heights - before.heights) / (row.heights - before.heights);
      return before.share + part * (row.share - before.share);
    }
    before = row;
  }
  return before.share;
}
