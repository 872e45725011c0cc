/**
 * Patterns: a site drawn once and copied, straight or as its mirror image, with the copy's own members laid over it.
 *
 * A mirror image swaps left and right of the pad frame: along stays, left changes sign, and with it crossfall, outlines,
 * stated sides and the names of corners in the tape list. A mistake in a pattern is one mistake for all its copies, so
 * that what is copied carries the pattern as its survey.
 */
import type { QuantityRange } from "./quantities.ts";
import type { Pattern, SiteProperties, WireHookup } from "./schema.ts";

export interface ExpandedSite {
  readonly site: SiteProperties;
  /** JSON Pointer of each hookup, in the order of `site.hookups`; relative to the feature unless it begins at the root. */
  readonly hookupPaths: readonly string[];
  /** "measured on …, copied here", when a pattern was used. */
  readonly copied: string | null;
  /** Name of a pattern that the campground does not have. */
  readonly missing: string | null;
}

type Bag = Record<string, unknown>;

/** Members of a receptacle that tell the state of one post, not of a drawing. */
const OWN_OF_A_POST: readonly string[] = ["state", "checkedAt", "forSites"];
/** Members of a pattern that describe the pattern itself. */
const OWN_OF_A_PATTERN: readonly string[] = ["id", "name", "kind", "measuredOn", "pattern", "mirror"];

/** The site with its pattern filled in. A pattern of a pattern is not followed. */
export function expandPattern(
  site: SiteProperties,
  patterns: Readonly<Record<string, Pattern>> | undefined,
  siteId: string,
): ExpandedSite {
  const ownPaths = (site.hookups ?? []).map((_, index) => `/properties/hookups/${index}`);
  if (site.pattern === undefined) return { site, hookupPaths: ownPaths, copied: null, missing: null };
  const name = site.pattern;
  const pattern = patterns !== undefined && Object.hasOwn(patterns, name) ? patterns[name] : undefined;
  if (pattern === undefined) return { site, hookupPaths: ownPaths, copied: null, missing: name };
  const drawn = site.mirror === true ? mirrored(pattern) : pattern;
  const base: Bag = Object.fromEntries(Object.entries(drawn).filter(([key]) => !OWN_OF_A_PATTERN.includes(key)));
  if (drawn.pad !== undefined) base["pad"] = { ...drawn.pad, origin: undefined };
  const copied = `measured on ${pattern.measuredOn ?? `pattern ${name}`}, copied here`;
  const copies = (drawn.hookups ?? []).map((hookup) => copiedHookup(hookup, name, siteId, copied));
  const patternPaths = copies.map((_, index) => `/campground/patterns/${escaped(name)}/hookups/${index}`);
  const merged = mergeHookups(copies, patternPaths, site.hookups ?? [], ownPaths);
  const { hookups: _, ...own } = site;
  const whole = { ...(merge(base, own) as SiteProperties), hookups: [...merged.hookups] };
  return { site: whole, hookupPaths: merged.paths, copied, missing: null };
}

function escaped(name: string): string {
  return name.replaceAll("~", "~0").replaceAll("/", "~1");
}

function copiedHookup(hookup: WireHookup, pattern: string, siteId: string, source: string): WireHookup {
  const receptacles = hookup.receptacles?.map(
    (one) => Object.fromEntries(Object.entries(one).filter(([key]) => !OWN_OF_A_POST.includes(key))) as typeof one,
  );
  return {
    ...hookup,
    survey: `pattern:${pattern}`,
    source: hookup.source ?? source,
    ...(receptacles === undefined ? {} : { receptacles }),
    // A place on the earth belongs to one site alone.
    ...(hookup.at?.position === undefined ? {} : { at: { ...hookup.at, position: undefined } }),
    // The same drawing at another site is another post.
    ...(hookup.pedestal === undefined ? {} : { pedestal: `${siteId}:${hookup.pedestal}` }),
  };
}

function mergeHookups(
  copies: readonly WireHookup[],
  copyPaths: readonly string[],
  own: readonly WireHookup[],
  ownPaths: readonly string[],
): { hookups: readonly WireHookup[]; paths: readonly string[] } {
  const hookups = [...copies];
  const paths = [...copyPaths];
  own.forEach((hookup, index) => {
    const at = hookup.id === undefined ? -1 : copies.findIndex(({ id }) => id === hookup.id);
    const path = ownPaths[index] as string;
    if (at < 0) {
      hookups.push(hookup);
      paths.push(path);
      return;
    }
    const base = copies[at] as WireHookup;
    const moved = hookup.at !== undefined || hookup.place !== undefined;
    // A place of its own is no copy: it has its own accuracy, or none.
    const {
      survey: _s,
      source: _o,
      accuracy: _a,
      accuracyShared: _h,
      basis: _b,
      at: _p,
      place: _l,
      ...placeless
    } = base;
    hookups[at] = merge(moved ? { ...placeless, at: heightOnly(base) } : base, hookup) as WireHookup;
    paths[at] = path;
  });
  return { hookups, paths };
}

function heightOnly(hookup: WireHookup): WireHookup["at"] {
  return hookup.at?.height === undefined ? undefined : { height: hookup.at.height };
}

/** Objects member by member, everything else replaced; a range is a value. */
function merge(base: Bag, over: Bag): Bag {
  const result: Bag = { ...base };
  for (const [key, value] of Object.entries(over)) {
    if (value === undefined) continue;
    const below = result[key];
    result[key] = isBag(below) && isBag(value) && !isRange(value) ? merge(below, value) : value;
  }
  return result;
}

function isBag(value: unknown): value is Bag {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function isRange(value: Bag): boolean {
  return typeof value["low"] === "number" && typeof value["high"] === "number";
}

const OTHER_NAME: Readonly<Record<string, string>> = {
  left: "right",
  right: "left",
  driver: "passenger",
  passenger: "driver",
  "rear-left": "rear-right",
  "rear-right": "rear-left",
  "exit-left": "exit-right",
  "exit-right": "exit-left",
};

/** The other name of a side or corner; every other word stays. */
function otherName<T extends string>(word: T): T {
  return (OTHER_NAME[word] ?? word) as T;
}

function negated({ low, high }: QuantityRange): QuantityRange {
  return { low: 0 - high, high: 0 - low };
}

function mirroredPoint<T extends { left: number }>(point: T): T {
  return { ...point, left: 0 - point.left };
}

function mirroredPlace<T extends { side?: "left" | "right" | "driver" | "passenger" | undefined }>(place: T): T {
  return place.side === undefined ? place : { ...place, side: otherName(place.side) };
}

/** The mirror image of a site in its pad frame. Positions on the earth are not touched: they have no mirror image. */
export function mirrored<T extends SiteProperties>(site: T): T {
  const { pad, hookups, obstacles, patio, extraVehicle, measurements, marks } = site;
  const outline = (corners: readonly { along: number; left: number }[]) => corners.map(mirroredPoint).reverse();
  return {
    ...site,
    ...(pad?.crossfall === undefined ? {} : { pad: { ...pad, crossfall: 0 - pad.crossfall } }),
    ...(hookups === undefined ? {} : { hookups: hookups.map(mirroredHookup) }),
    ...(obstacles === undefined
      ? {}
      : {
          obstacles: obstacles.map((obstacle) => ({
            ...obstacle,
            ...(obstacle.outline === undefined ? {} : { outline: outline(obstacle.outline) }),
            ...(obstacle.at === undefined ? {} : { at: mirroredPoint(obstacle.at) }),
          })),
        }),
    ...(patio === undefined ? {} : { patio: otherName(patio) }),
    ...(typeof extraVehicle === "object"
      ? { extraVehicle: { ...extraVehicle, outline: outline(extraVehicle.outline) } }
      : {}),
    ...(measurements === undefined
      ? {}
      : { measurements: measurements.map((one) => ({ ...one, from: otherName(one.from), to: otherName(one.to) })) }),
    ...(marks === undefined ? {} : { marks: marks.map(mirroredPlace) }),
  };
}

function mirroredHookup(hookup: WireHookup): WireHookup {
  const left = hookup.at?.left;
  return {
    ...hookup,
    ...(left === undefined ? {} : { at: { ...hookup.at, left: negated(left) } }),
    ...(hookup.place === undefined ? {} : { place: mirroredPlace(hookup.place) }),
  };
}
