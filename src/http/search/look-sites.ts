/**
 * The order of a search over more sites than can all be fitted: quick looks by nominal values for every site, and the
 * whole fit for those of the page on show.
 */

import type { FitOptions } from "../../fit/options.ts";
import { type NominalLook, nominalLooks, type PreparedSites, prepareSites } from "../../fit/screen/nominal.ts";
import { aroundOf, isSite, type StoredCampground } from "../../records/store.ts";
import { completeRig } from "../../rig/complete.ts";
import { completeSite } from "../../site/complete.ts";
import { type CampgroundFeature, featureId } from "../../site/feature.ts";
import type { ReadRig } from "../rig-input.ts";
import type { SearchRequest } from "../schemas/search.ts";
import type { Candidate } from "./candidates.ts";

export interface Looked {
  readonly candidate: Candidate;
  readonly look: NominalLook;
}

interface Prepared {
  readonly sites: PreparedSites;
  readonly places: ReadonlyMap<CampgroundFeature, number>;
}

/** A weak store: it saves time only, no answer depends on it. */
const prepared = new WeakMap<StoredCampground, Prepared>();

function preparedOf(stored: StoredCampground): Prepared {
  const known = prepared.get(stored);
  if (known !== undefined) return known;
  const around = aroundOf(stored);
  const features = stored.features.filter(isSite);
  const sites = features.map((feature) => completeSite(feature, stored.campground, around, { base: "/site" }));
  const made = {
    sites: prepareSites(sites),
    places: new Map(features.map((feature, place) => [feature, place] as const)),
  };
  prepared.set(stored, made);
  return made;
}

export interface LookResult {
  readonly looked: readonly Looked[];
  /** Sites for which the time did not last. */
  readonly late: readonly Candidate[];
}

export interface LookTime {
  readonly clock: () => number;
  readonly end: number;
  /** Lets other requests have their turn. */
  readonly pause: () => Promise<void>;
}

/** Looks at every candidate, campground after campground. */
export async function lookAtAll(
  rig: ReadRig,
  options: FitOptions,
  candidates: readonly Candidate[],
  time: LookTime,
): Promise<LookResult> {
  const groups = new Map<StoredCampground, Candidate[]>();
  for (const candidate of candidates) {
    const group = groups.get(candidate.stored) ?? [];
    group.push(candidate);
    groups.set(candidate.stored, group);
  }
  const looked: Looked[] = [];
  const late: Candidate[] = [];
  for (const [stored, group] of groups) {
    if (time.clock() > time.end) {
      late.push(...group);
      continue;
    }
    await time.pause();
    const { sites, places } = preparedOf(stored);
    const { drivesOn, electricalSystem } = stored.campground;
    const completed = completeRig(rig.profile, {
      ...(drivesOn === undefined ? {} : { drivesOn }),
      electricalSystem: electricalSystem ?? null,
      units: options.units,
      warnings: rig.warnings,
    });
    const looks = nominalLooks(completed, sites, options);
    for (const candidate of group) {
      const look = looks[places.get(candidate.feature) ?? -1];
      if (look !== undefined) looked.push({ candidate, look });
    }
  }
  return { looked, late };
}

/** Short of the nominal length by less than the allowance, a line may still hang: such a site comes before unknown ones. */
function stateRank({ state, margin }: NominalLook, allowance: number): number {
  switch (state) {
    case "reaches":
      return 3;
    case "unknown":
      return 1;
    case "short":
      return (margin ?? Number.NEGATIVE_INFINITY) >= -allowance ? 2 : 0;
    case "cannot":
      return -1;
  }
}

/** True when the look rules out every verdict that is asked for. */
export function isRuledOut({ look }: Looked, filters: SearchRequest["filters"]): boolean {
  if (look.state === "cannot" && filters?.verdicts !== undefined) return !filters.verdicts.includes("does not fit");
  if (filters?.minMargin === undefined) return false;
  if (look.margin === null) return look.state !== "reaches";
  return look.bound !== "at least" && look.margin < filters.minMargin;
}

/** Every order ends in campground and site ids, so that pages never overlap. */
export function lookOrder(
  sort: Exclude<NonNullable<SearchRequest["sort"]>, "exposure">,
  options: FitOptions,
): (a: Looked, b: Looked) => number {
  const byName = (a: string, b: string) => a.localeCompare(b, "en", { numeric: true });
  const nameOf = ({ candidate }: Looked) =>
    String(candidate.feature.properties["name"] ?? featureId(candidate.feature));
  const tie = ({ candidate }: Looked) => `${candidate.stored.summary.id} ${featureId(candidate.feature)}`;
  // What is beyond comfort is alike, because of many sites no more is known.
  const marginOf = ({ look }: Looked) =>
    Math.min(options.comfort, look.margin ?? (look.state === "reaches" ? options.comfort : Number.NEGATIVE_INFINITY));
  const byMargin = (a: Looked, b: Looked) => (marginOf(a) === marginOf(b) ? 0 : marginOf(b) - marginOf(a));
  const rank = (one: Looked) => stateRank(one.look, options.allowance.power);
  const rules: Readonly<Record<typeof sort, (a: Looked, b: Looked) => number>> = {
    rank: () => 0,
    margin: byMargin,
    distance: (a, b) => (a.candidate.distance ?? 0) - (b.candidate.distance ?? 0),
    name: (a, b) => byName(nameOf(a), nameOf(b)),
  };
  return (a, b) => rules[sort](a, b) || rank(b) - rank(a) || byMargin(a, b) || byName(tie(a), tie(b));
}
