/** The features round the sites of one campground, read once and used for many sites. */
import { type CampgroundFeature, featureId } from "../feature.ts";
import { expandPattern } from "../patterns.ts";
import { type Campground, KINDS, type SiteProperties, siteProperties } from "../schema.ts";
import { type Box, boxOf } from "./near.ts";

type Patterns = Campground["patterns"];

/** A mapped thing that bars something, sizes in SI. */
export interface SolidThing {
  readonly what: string;
  readonly width?: number | undefined;
  readonly radius?: number | undefined;
  readonly from?: number | undefined;
  readonly to?: number | undefined;
  /** Of a road: least clear height over it, metres. */
  readonly clearHeight?: number | undefined;
  /** Of a road: true when it is driven in the direction of its line alone. */
  readonly oneWay?: boolean | undefined;
  readonly basis?: "measured" | "mapped" | "gps" | "described" | "code" | "assumed" | undefined;
  readonly accuracy?: number | undefined;
  readonly accuracyShared?: number | undefined;
  readonly survey?: string | undefined;
}

export interface AroundFeature {
  readonly feature: CampgroundFeature;
  /** Place in the list of features. */
  readonly index: number;
  readonly id: string | null;
  readonly box: Box | null;
  /** Its members in SI when it is a site; null when it is none or cannot be read. */
  readonly site: () => SiteProperties | null;
  /** What counts of it when it is an obstacle, a solid shelter or a road; null otherwise. */
  readonly solid: () => SolidThing | null;
}

/** Features made ready by `compileAround`. */
export interface Around {
  readonly features: readonly AroundFeature[];
  readonly roads: readonly AroundFeature[];
  /** Ids of the sites that name each pedestal. */
  readonly pedestals: ReadonlyMap<string, ReadonlySet<string | null>>;
}

/** Kinds of shelter that are solid; trees of a shelter are canopy and wind, not a body. */
const SOLID_SHELTER: ReadonlySet<string> = new Set(["wall", "hedge", "building", "fence"]);

/**
 * Makes features ready to be looked at from many sites: each is read at most once. `patterns` are the campground's
 * drawings: a neighbour that follows one has its pad and posts from it.
 */
export function compileAround(features: readonly CampgroundFeature[], patterns?: Patterns): Around {
  const all: AroundFeature[] = features.map((feature, index) => ({
    feature,
    index,
    id: featureId(feature),
    box: boxOf(feature.geometry),
    site: once(() => readSite(feature, patterns)),
    solid: once(() => readSolid(feature)),
  }));
  const roads = all.filter(({ feature }) => feature.properties["kind"] === "road");
  return { features: all, roads, pedestals: pedestalsOf(all) };
}

function pedestalsOf(all: readonly AroundFeature[]): Map<string, Set<string | null>> {
  const found = new Map<string, Set<string | null>>();
  for (const { feature, id } of all) {
    const hookups: unknown = feature.properties["kind"] === "site" ? feature.properties["hookups"] : undefined;
    for (const hookup of Array.isArray(hookups) ? hookups : []) {
      const pedestal: unknown = (hookup as { pedestal?: unknown } | null)?.pedestal;
      if (typeof pedestal !== "string" && typeof pedestal !== "number") continue;
      found.set(String(pedestal), (found.get(String(pedestal)) ?? new Set()).add(id));
    }
  }
  return found;
}

function once<T>(read: () => T): () => T {
  let kept: { readonly value: T } | null = null;
  return () => {
    kept ??= { value: read() };
    return kept.value;
  };
}

function readSite(feature: CampgroundFeature, patterns: Patterns): SiteProperties | null {
  const { properties } = feature;
  if (properties["kind"] !== "site") return null;
  const read = siteProperties.safeParse(properties);
  return read.success ? expandPattern(read.data, patterns, featureId(feature) ?? "unnamed").site : null;
}

function readSolid({ properties }: CampgroundFeature): SolidThing | null {
  switch (properties["kind"]) {
    case "obstacle": {
      const read = KINDS.obstacle.properties.safeParse(properties);
      return read.success ? read.data : null;
    }
    case "shelter": {
      const read = KINDS.shelter.properties.safeParse(properties);
      const what = read.data?.what;
      if (!read.success || what === undefined || !SOLID_SHELTER.has(what)) return null;
      return { ...read.data, what, to: read.data.height };
    }
    case "road": {
      const read = KINDS.road.properties.safeParse(properties);
      return read.success ? { ...read.data, what: "road" } : null;
    }
    default:
      return null;
  }
}
