/**
 * The pad frame of a site: what the record states comes first, its outline supplies what is missing, and a disagreement
 * beyond three standard deviations is a warning.
 */
import { type PadFrame, padFrame } from "../../geo/pad-frame.ts";
import { degrees, type LonLat, tangentPlane, turnBetween } from "../../geo/tangent-plane.ts";
import type { Estimate } from "../../units/estimate.ts";
import { lonLatOf, padOutline } from "../far.ts";
import type { WireGeometry } from "../feature.ts";
import type { SiteProperties } from "../schema.ts";
import type { SurveySolution } from "../survey.ts";
import type { AroundFeature } from "./around.ts";
import { chooseAxis } from "./entry.ts";
import {
  accuracyOf,
  type EstimateContext,
  estimate,
  isPointBasis,
  type PointBasis,
  type Provenance,
} from "./estimates.ts";
import { metres, NO_SOURCE } from "./notes.ts";
import { axisNear, longAxes, type OutlineAxis, type OutlineFacts, outlineFacts } from "./outline.ts";

export interface SiteFrame {
  readonly length: Estimate | null;
  readonly width: Estimate | null;
  readonly heading: Estimate | null;
  readonly origin: { readonly longitude: number; readonly latitude: number; readonly sigma: number } | null;
  /** Null when origin or heading is unknown: then nothing on the earth can be brought to the pad. */
  readonly frame: PadFrame | null;
  /** Error of the pad's place that it shares with its survey, metres, and that survey. */
  readonly sigmaShared: number;
  readonly survey: string | null;
}

/** Degrees of standard deviation of a heading without a stated one: a hand compass (common practice, no source). */
const HEADING_ACCURACY_DEGREES = 2;
const SIGMAS = 3;

type Place = Provenance & { readonly basis: PointBasis };

export function siteFrame(
  site: SiteProperties,
  geometry: WireGeometry | null,
  roads: readonly AroundFeature[],
  survey: SurveySolution | null,
  context: EstimateContext,
): SiteFrame {
  const { notes } = context;
  const corners = padOutline(geometry);
  const facts = geometry?.type === "Point" ? null : outlineFacts(corners);
  const place = placeProvenance(site, geometry);
  const placeSigma =
    corners.length === 0 && site.pad?.origin === undefined
      ? 0
      : accuracyOf(place, place.basis, `${notes.base}/geometry`, notes);
  const stated = statedHeading(site, context);
  const axis = facts === null ? null : outlineAxis(facts, site, stated, roads, placeSigma, context);
  const heading = stated ?? (axis === null ? null : headingOf(axis, placeSigma, place.basis, context));
  const length = size("length", site, survey, axis, placeSigma, place.basis, context);
  const width = size("width", site, survey, axis, placeSigma, place.basis, context);
  const origin = padOrigin(site, geometry, facts, heading, length, placeSigma, context);
  return {
    length,
    width,
    heading,
    origin: origin === null ? null : { ...origin, sigma: placeSigma },
    frame: origin === null || heading === null ? null : padFrame(origin, heading.value),
    sigmaShared: place.accuracyShared ?? 0,
    survey: place.survey ?? null,
  };
}

/** How the pad's place was come by: its own statement, or that of the pad when it can hold for a place on the earth. */
function placeProvenance(site: SiteProperties, geometry: WireGeometry | null): Place {
  const pad = site.pad ?? {};
  const own: Provenance | undefined = pad.place;
  const fallback: PointBasis = pad.origin !== undefined ? "measured" : geometry?.type === "Point" ? "gps" : "mapped";
  if (own !== undefined)
    return { ...own, basis: own.basis !== undefined && isPointBasis(own.basis) ? own.basis : fallback };
  const sized = pad.length !== undefined || pad.width !== undefined;
  const mappedPad = pad.basis !== undefined ? pad.basis === "mapped" || pad.basis === "gps" : !sized;
  // Sizes taken by tape are that good; the outline on the map is not, unless the record says so under `place`.
  if (!mappedPad && pad.origin === undefined) return { basis: fallback };
  const { accuracy, accuracyShared, survey, observedAt } = pad;
  const basis = pad.basis !== undefined && isPointBasis(pad.basis) ? pad.basis : fallback;
  return { basis, accuracy, accuracyShared, survey, observedAt };
}

function statedHeading(site: SiteProperties, { notes }: EstimateContext): Estimate | null {
  if (site.heading === undefined) return null;
  const path = `${notes.base}/properties/heading`;
  let sigma = site.headingAccuracy;
  if (sigma === undefined) {
    sigma = (HEADING_ACCURACY_DEGREES * Math.PI) / HALF_TURN;
    notes.assume(path, `accuracy ${HEADING_ACCURACY_DEGREES} degrees (standard deviation)`);
  }
  const value = site.heading;
  return { value, low: value, high: value, sigma, sigmaShared: 0, basis: "measured", path };
}

const HALF_TURN = 180;

/** Standard deviation of the direction of a side whose ends are known to `sigma` each. */
function directionSigma(sigma: number, length: number): number {
  return Math.atan2(Math.SQRT2 * sigma, length);
}

function outlineAxis(
  facts: OutlineFacts,
  site: SiteProperties,
  stated: Estimate | null,
  roads: readonly AroundFeature[],
  placeSigma: number,
  { notes }: EstimateContext,
): OutlineAxis | null {
  if (stated !== null) {
    const near = axisNear(facts, stated.value);
    const off = Math.abs(turnBetween(near.heading, stated.value));
    if (off > SIGMAS * Math.hypot(stated.sigma, directionSigma(placeSigma, near.length))) {
      const text = `The heading differs from the outline by ${Math.round(degrees(off))} degrees. Which is right?`;
      notes.warn("contradiction", stated.path, text);
    }
    return near;
  }
  const axes = longAxes(facts);
  const chosen = axes === null ? null : chooseAxis(axes, facts.centre, site, roads);
  const path = `${notes.base}/properties/heading`;
  if (chosen === null) {
    notes.warn("ignored", path, "Which end of the outline is the exit cannot be told. What is the heading of the pad?");
    return null;
  }
  if (chosen.by === "road") notes.assume(path, "the exit is the end that is nearer to a road", NO_SOURCE);
  return chosen.axis;
}

function headingOf(axis: OutlineAxis, placeSigma: number, basis: PointBasis, { notes }: EstimateContext): Estimate {
  const { heading: value, length } = axis;
  const sigma = directionSigma(placeSigma, length);
  return { value, low: value, high: value, sigma, sigmaShared: 0, basis, path: `${notes.base}/geometry` };
}

function size(
  name: "length" | "width",
  site: SiteProperties,
  survey: SurveySolution | null,
  axis: OutlineAxis | null,
  placeSigma: number,
  basis: PointBasis,
  context: EstimateContext,
): Estimate | null {
  const { notes } = context;
  const path = `${notes.base}/properties/pad/${name}`;
  const given = site.pad?.[name];
  const stated = given === undefined ? null : estimate(given, site.pad ?? {}, "measured", path, context);
  const drawn = axis === null ? null : point(axis[name], Math.SQRT2 * placeSigma, basis, `${notes.base}/geometry`);
  if (stated !== null) {
    if (drawn !== null) warnOfSize(name, stated, drawn, context);
    return stated;
  }
  const taped = survey?.[name] ?? null;
  // Tapes that cannot close give no size at all, or one with an error larger than itself: that is not known.
  if (taped !== null && taped.value > taped.sigma)
    return point(taped.value, taped.sigma, "measured", `${notes.base}/properties/measurements`);
  return drawn;
}

function point(value: number, sigma: number, basis: PointBasis, path: string): Estimate {
  return { value, low: value, high: value, sigma, sigmaShared: 0, basis, path };
}

function warnOfSize(name: string, stated: Estimate, drawn: Estimate, { notes }: EstimateContext): void {
  const off = Math.max(stated.low - drawn.value, drawn.value - stated.high, 0);
  if (off <= SIGMAS * Math.hypot(stated.sigma, drawn.sigma)) return;
  const text = `The stated ${name} is ${metres(stated.value)}, the outline has ${metres(drawn.value)}. Which is right?`;
  notes.warn("contradiction", stated.path, text);
}

/** The middle of the rear edge; null without a direction or a length to go back from the centre. */
function padOrigin(
  site: SiteProperties,
  geometry: WireGeometry | null,
  facts: OutlineFacts | null,
  heading: Estimate | null,
  length: Estimate | null,
  placeSigma: number,
  { notes }: EstimateContext,
): LonLat | null {
  const stated = site.pad?.origin === undefined ? null : lonLatOf(site.pad.origin);
  const centre = facts?.centre ?? (geometry?.type === "Point" ? lonLatOf(geometry.coordinates) : null);
  const back =
    centre === null || heading === null || length === null
      ? null
      : padFrame(centre, heading.value).toLonLat({ along: -length.value / 2, left: 0 });
  if (stated === null) return back;
  if (back !== null) {
    const { east, north } = tangentPlane(stated).toPlane(back);
    const off = Math.hypot(east, north);
    const sigma = Math.hypot(placeSigma, placeSigma, (length?.sigma ?? 0) / 2);
    if (off > SIGMAS * sigma) {
      const text = `The origin lies ${metres(off)} from the rear edge of the outline. Which is right?`;
      notes.warn("contradiction", `${notes.base}/properties/pad/origin`, text);
    }
  }
  return stated;
}
