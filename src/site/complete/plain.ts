/** The plainer parts of a site: facings, surface, stop, limits, access and rules. */
import { planeToPad } from "../../geo/pad-frame.ts";
import { distanceToSegment } from "../../geo/polygon.ts";
import { tangentPlane } from "../../geo/tangent-plane.ts";
import type { Estimate } from "../../units/estimate.ts";
import type { CompletedSite } from "../completed.ts";
import { lonLatOf } from "../far.ts";
import type { SiteProperties } from "../schema.ts";
import type { SurveySolution } from "../survey.ts";
import type { AroundFeature } from "./around.ts";
import { type EstimateContext, estimate, exact, range } from "./estimates.ts";
import type { SiteFrame } from "./frame.ts";
import { metres, NO_SOURCE } from "./notes.ts";
import { SURROUNDINGS_REACH } from "./surroundings.ts";

/** Standard deviation of a slope without a stated one: a builder's level (common practice, no source). */
const SLOPE_ACCURACY = 0.005;
/** Heights of what stops a wheel when the record gives none, metres (common practice, no source). */
const STOP_HEIGHTS = { wheelStop: [0.1, 0.16], kerb: [0.1, 0.2] } as const;
/** Pad sizes outside which the record is asked about, metres. */
const USUAL = { length: [4, 40], width: [2, 15] } as const;

export function facingsOf(site: SiteProperties): Pick<CompletedSite, "facings" | "facingsStated"> {
  if (site.facings !== undefined) return { facings: [...new Set(site.facings)], facingsStated: true };
  if (site.layout === "pull-through" || site.layout === "parallel") return { facings: ["out"], facingsStated: true };
  if (site.rules?.noseIn === "no") return { facings: ["out"], facingsStated: true };
  return { facings: ["out", "in"], facingsStated: site.rules?.noseIn === "yes" };
}

export function padSurface(site: SiteProperties, context: EstimateContext) {
  const pad = site.pad ?? {};
  const base = `${context.notes.base}/properties/pad`;
  const slope = (name: "grade" | "crossfall"): Estimate | null => {
    const value = pad[name];
    if (value === undefined) return null;
    const path = `${base}/${name}`;
    context.notes.assume(path, `accuracy ${SLOPE_ACCURACY} (standard deviation of the ratio)`);
    return { value, low: value, high: value, sigma: SLOPE_ACCURACY, sigmaShared: 0, basis: "measured", path };
  };
  const hang = pad.overhangRear;
  return {
    surface: pad.surface ?? null,
    grade: slope("grade"),
    crossfall: slope("crossfall"),
    overhangRear: hang === undefined ? null : exact(hang, `${base}/overhangRear`),
  };
}

export function stopOf(
  site: SiteProperties,
  survey: SurveySolution | null,
  context: EstimateContext,
): CompletedSite["stop"] {
  const taped = survey?.marks.find(({ id }) => id === "wheel-stop");
  if (site.stop === undefined && taped === undefined) return null;
  const { notes } = context;
  const base = `${notes.base}/properties/stop`;
  const { kind = "wheelStop", along, height, clearBehind } = site.stop ?? {};
  const read = (value: number, name: string) =>
    estimate({ low: value, high: value }, site.pad ?? {}, "measured", `${base}/${name}`, context);
  const from = along === undefined ? null : read(along, "along");
  const place =
    from ??
    (taped === undefined
      ? null
      : { ...exact(taped.along, `${notes.base}/properties/measurements`), sigma: taped.sigmaAlong });
  if (place === null) {
    notes.warn("ignored", base, "A stop without its distance from the rear edge has no effect. How far is it?");
    return null;
  }
  const [low, high] = STOP_HEIGHTS[kind];
  if (height === undefined) notes.assume(`${base}/height`, `${metres(low)} to ${metres(high)}`, NO_SOURCE);
  return {
    kind,
    along: place,
    height: height === undefined ? range(low, high, "assumed", `${base}/height`, NO_SOURCE) : read(height, "height"),
    clearBehind: clearBehind === undefined ? null : read(clearBehind, "clearBehind"),
  };
}

/** Limits are rules: the number that the host states is the number. */
export function limitsOf(site: SiteProperties, base: string): CompletedSite["limits"] {
  const { length, width, height, amps } = site.limits ?? {};
  const rule = (value: number | undefined, name: string) =>
    value === undefined ? null : exact(value, `${base}/limits/${name}`);
  return {
    length: rule(length, "length"),
    width: rule(width, "width"),
    height: rule(height, "height"),
    amps: amps ?? null,
  };
}

export function rulesOf(site: SiteProperties): CompletedSite["rules"] {
  const { noseIn, awning, generatorHours, maxVehicles, largerBreaker } = site.rules ?? {};
  const word = (value: "yes" | "no" | undefined) => (value === undefined ? null : value === "yes");
  return {
    noseIn: word(noseIn),
    awning: word(awning),
    generatorHours: generatorHours ?? null,
    maxVehicles: maxVehicles ?? null,
    largerBreaker: word(largerBreaker),
  };
}

/** Access as recorded; the clear height also by the nearest road on the map, when that is lower. */
export function accessOf(
  site: SiteProperties,
  roads: readonly AroundFeature[],
  frame: SiteFrame,
): CompletedSite["access"] {
  const { roadWidth, angle, mouth, exit, clearHeight } = site.access ?? {};
  const onRoad = roadClearHeight(roads, frame);
  const heights = [clearHeight, onRoad].filter((height) => height !== undefined && height !== null);
  return {
    roadWidth: roadWidth ?? null,
    angle: angle ?? null,
    mouth: mouth ?? null,
    exit: exit ?? null,
    clearHeight: heights.length === 0 ? null : Math.min(...heights),
  };
}

function roadClearHeight(roads: readonly AroundFeature[], { origin }: SiteFrame): number | null {
  if (origin === null) return null;
  const plane = tangentPlane(origin);
  let nearest = SURROUNDINGS_REACH;
  let height: number | null = null;
  for (const { feature, solid } of roads) {
    const { geometry } = feature;
    if (geometry?.type !== "LineString") continue;
    const line = geometry.coordinates.map((position) => planeToPad(plane.toPlane(lonLatOf(position)), 0));
    const distance = line.reduce((least, point, index) => {
      const before = line[index - 1];
      return before === undefined ? least : Math.min(least, distanceToSegment({ along: 0, left: 0 }, before, point));
    }, Number.POSITIVE_INFINITY);
    if (distance >= nearest) continue;
    nearest = distance;
    height = solid()?.clearHeight ?? null;
  }
  return height;
}

export function warnOfSizes({ length, width }: SiteFrame, { notes }: EstimateContext): void {
  for (const [name, size] of [
    ["length", length],
    ["width", width],
  ] as const) {
    const [least, most] = USUAL[name];
    if (size === null || (size.value >= least && size.value <= most)) continue;
    const text = `A pad ${name} of ${metres(size.value)} is unusual. Is the unit right?`;
    notes.warn("implausible", size.path, text);
  }
}
