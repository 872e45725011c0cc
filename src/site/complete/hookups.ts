/** Hookups in the pad frame: where each stands, how well that is known, and what it gives. */
import table from "../../../data/receptacles.json" with { type: "json" };
import type { Estimate } from "../../units/estimate.ts";
import type { CompletedHookup, CompletedReceptacle, Known, Layout, Service } from "../completed.ts";
import { FARTHEST_HOOKUP, hookupDistance, lonLatOf } from "../far.ts";
import type { WireGeometry } from "../feature.ts";
import type { QuantityRange } from "../quantities.ts";
import type { SiteProperties, WireHookup } from "../schema.ts";
import type { SolvedMark, SurveySolution } from "../survey.ts";
import { accuracyOf, ageSigma, type EstimateContext, estimate, isPointBasis, range } from "./estimates.ts";
import type { SiteFrame } from "./frame.ts";
import { metres } from "./notes.ts";
import { type SurfaceScale, spreadAt, toPad } from "./place.ts";
import { codeHeight, codeRegion, describedRegion, type PadSize, sitingCode } from "./regions.ts";
import type { Parking } from "./sides.ts";

export interface HookupContext extends EstimateContext {
  readonly siteId: string;
  readonly layout: Layout | null;
  readonly frame: SiteFrame;
  readonly scale: SurfaceScale;
  readonly parking: Parking;
  readonly survey: SurveySolution | null;
  readonly code: string | null;
  /** Pedestal ids that other sites use too. */
  readonly sharedPedestals: ReadonlySet<string>;
}

interface Place {
  readonly along: Estimate | null;
  readonly left: Estimate | null;
}

const NOWHERE: Place = { along: null, left: null };
const SIGMAS = 3;

/** Names by which the tape list and the picture call the hookups: their ids, or the service, numbered when repeated. */
export function hookupIds(hookups: readonly WireHookup[]): string[] {
  const seen = new Map<string, number>();
  return hookups.map(({ id, service }) => {
    if (id !== undefined) return id;
    const count = (seen.get(service) ?? 0) + 1;
    seen.set(service, count);
    return count === 1 ? service : `${service}-${count}`;
  });
}

export function completeHookups(
  site: SiteProperties,
  paths: readonly string[],
  geometry: WireGeometry | null,
  context: HookupContext,
): CompletedHookup[] {
  const hookups = site.hookups ?? [];
  const ids = hookupIds(hookups);
  return hookups.flatMap((hookup, index) => {
    const path = pathOf(paths[index] as string, context);
    const distance = hookupDistance(hookup, site, geometry);
    if (distance !== null && distance > FARTHEST_HOOKUP) {
      const text = `The hookup lies ${metres(distance)} from its pad and was left out. Is its place right?`;
      context.notes.warn("implausible", path, text);
      return [];
    }
    return [completeHookup(hookup, ids[index] as string, path, context)];
  });
}

/** A hookup known only because the record says that the service is there, placed by the siting code; null without. */
export function hookupOfCode(service: Service, context: HookupContext): CompletedHookup | null {
  const path = `${context.notes.base}/properties/services/${service}`;
  const bare = { service } as WireHookup;
  const place = placeByCode(bare, path, context);
  return place === null ? null : completeHookup(bare, service, path, context);
}

function pathOf(path: string, { notes }: EstimateContext): string {
  return path.startsWith("/campground") ? path : notes.base + path;
}

function completeHookup(hookup: WireHookup, id: string, path: string, context: HookupContext): CompletedHookup {
  const { along, left } = placeOf(hookup, id, path, context);
  const { body, service } = hookup;
  return {
    id,
    service,
    along,
    left,
    height: heightOf(hookup, path, context),
    body: body === undefined ? null : { width: body.width, depth: body.depth, height: body.height },
    pedestal: hookup.pedestal ?? null,
    shared: isShared(hookup, context),
    receptacles: (hookup.receptacles ?? []).map((one, index) =>
      completeReceptacle(one, `${id}-${index + 1}`, `${path}/receptacles/${index}`),
    ),
    sewer: service === "sewer" ? { diameter: hookup.diameter ?? null, threaded: known(hookup.threaded) } : null,
    water:
      service === "water" || service === "fill"
        ? {
            thread: hookup.thread ?? null,
            pressure: hookup.pressure ?? null,
            drinkable: known(hookup.drinkable),
            seasonal: hookup.seasonal ?? null,
          }
        : null,
    path,
  };
}

export function known(word: "yes" | "no" | undefined): Known {
  return word ?? "unknown";
}

function isShared(hookup: WireHookup, { sharedPedestals }: HookupContext): boolean {
  if (hookup.shared !== undefined) return hookup.shared;
  if (hookup.pedestal !== undefined && sharedPedestals.has(hookup.pedestal)) return true;
  return (hookup.receptacles ?? []).some(({ forSites }) => new Set(forSites).size > 1);
}

function completeReceptacle(
  given: NonNullable<WireHookup["receptacles"]>[number],
  id: string,
  path: string,
): CompletedReceptacle {
  const rating = table.devices.find((device) => device.id === given.type)?.amps;
  return {
    id: given.id ?? id,
    type: given.type,
    amps: given.amps ?? rating ?? null,
    ampsGiven: given.amps !== undefined,
    volts: given.volts ?? null,
    state: given.state ?? "unknown",
    checkedAt: given.checkedAt ?? null,
    forSites: given.forSites ?? null,
    path,
  };
}

/** The place by the best that the record has: pad frame, position, tapes, words, siting code. */
function placeOf(hookup: WireHookup, id: string, path: string, context: HookupContext): Place {
  const stated = placeByNumbers(hookup, path, context) ?? placeByPosition(hookup, path, context);
  const mark = context.survey?.marks.find((one) => one.id === id);
  if (stated !== null) {
    if (mark !== undefined) warnOfMark(stated, mark, path, context);
    return stated;
  }
  if (mark !== undefined) return placeByTapes(mark, hookup, path, context);
  return placeByWords(hookup, path, context) ?? placeByCode(hookup, path, context) ?? NOWHERE;
}

function placeByNumbers(hookup: WireHookup, path: string, context: HookupContext): Place | null {
  const { along, left } = hookup.at ?? {};
  if (along === undefined && left === undefined) return null;
  const read = (given: QuantityRange | undefined, axis: string) =>
    given === undefined ? null : estimate(given, hookup, "measured", `${path}/at/${axis}`, context, true);
  return { along: read(along, "along"), left: read(left, "left") };
}

function placeByPosition(hookup: WireHookup, path: string, context: HookupContext): Place | null {
  const position = hookup.at?.position;
  if (position === undefined) return null;
  const { notes, asOf, frame, siteId, scale } = context;
  const here = `${path}/at/position`;
  const point = toPad(lonLatOf(position), frame, scale);
  if (point === null) {
    notes.warn(
      "ignored",
      here,
      "The position cannot be brought to the pad: heading, length or the pad's place is unknown.",
    );
    return null;
  }
  const basis = hookup.basis !== undefined && isPointBasis(hookup.basis) ? hookup.basis : "mapped";
  const stated = accuracyOf({ ...hookup, basis: hookup.basis }, basis, here, notes);
  const sigma = Math.hypot(stated, ageSigma(hookup.observedAt, asOf, here, notes));
  const own = { sigma, sigmaShared: hookup.accuracyShared ?? 0, survey: hookup.survey };
  const spread = spreadAt(point, own, frame, siteId);
  const axis = (value: number): Estimate => ({ value, low: value, high: value, ...spread, basis, path: here });
  return { along: axis(point.along), left: axis(point.left) };
}

function placeByTapes(
  mark: SolvedMark,
  hookup: WireHookup,
  path: string,
  { notes, asOf, siteId }: HookupContext,
): Place {
  const aged = ageSigma(hookup.observedAt, asOf, path, notes);
  const axis = (value: number, sigma: number): Estimate => ({
    value,
    low: value,
    high: value,
    sigma: Math.hypot(sigma, aged),
    sigmaShared: 0,
    survey: hookup.survey ?? `tape:${siteId}`,
    basis: "measured",
    path: `${notes.base}/properties/measurements`,
  });
  return { along: axis(mark.along, mark.sigmaAlong), left: axis(mark.left, mark.sigmaLeft) };
}

function warnOfMark({ along, left }: Place, mark: SolvedMark, path: string, { notes }: HookupContext): void {
  const off = (stated: Estimate | null, value: number, sigma: number): boolean =>
    stated !== null &&
    Math.max(stated.low - value, value - stated.high, 0) > SIGMAS * Math.hypot(stated.sigma, stated.sigmaShared, sigma);
  if (!off(along, mark.along, mark.sigmaAlong) && !off(left, mark.left, mark.sigmaLeft)) return;
  const taped = `${metres(mark.along)} along and ${metres(mark.left)} left`;
  notes.warn(
    "contradiction",
    `${path}/at`,
    `The tapes put "${mark.id}" at ${taped}, the record does not. Which is right?`,
  );
}

function padSize({ length, width }: SiteFrame): PadSize | null {
  return length === null || width === null ? null : { length, width };
}

function placeByWords(hookup: WireHookup, path: string, context: HookupContext): Place | null {
  const words = hookup.place;
  if (words === undefined || (words.side === undefined && words.third === undefined)) return null;
  const here = `${path}/place`;
  const size = padSize(context.frame);
  if (size === null) {
    context.notes.warn("ignored", here, "Words place nothing on a pad whose length or width is unknown.");
    return null;
  }
  const region = describedRegion(words, size, context.parking, here);
  noteRegion(region, here, region.along.source ?? "words", context);
  return region;
}

function placeByCode(hookup: WireHookup, path: string, context: HookupContext): Place | null {
  const size = padSize(context.frame);
  const code = context.code === null ? null : sitingCode(context.code);
  if (size === null || code === null) return null;
  const region = codeRegion(code, hookup.service, context.layout, size, context.parking, path);
  if (region !== null) noteRegion(region, path, region.source, context);
  return region;
}

function noteRegion(
  { along, left }: { along: Estimate; left: Estimate },
  path: string,
  source: string,
  { notes }: HookupContext,
): void {
  const span = ({ low, high }: Estimate) => `${metres(low)} to ${metres(high)}`;
  notes.assume(path, `along ${span(along)}, left ${span(left)}`, source);
}

function heightOf(hookup: WireHookup, path: string, context: HookupContext): Estimate | null {
  const inside = hookup.at?.height !== undefined;
  const given = hookup.at?.height ?? hookup.height;
  if (given !== undefined) {
    const here = inside ? `${path}/at/height` : `${path}/height`;
    // The accuracy of a map or of a phone is that of the place; a height was read off a tape all the same.
    const taped = hookup.basis === undefined || hookup.basis === "measured";
    const from = taped ? hookup : { source: hookup.source };
    if (given.low !== given.high) return range(given.low, given.high, "described", here, hookup.source);
    return estimate(given, from, "measured", here, context);
  }
  const code = context.code === null ? null : sitingCode(context.code);
  const height = code === null ? null : codeHeight(code, hookup.service, path);
  if (height !== null) {
    const span = `height ${metres(height.low)} to ${metres(height.high)}`;
    context.notes.assume(path, span, height.source ?? "");
  }
  return height;
}
