/** From rigs, sites and nights to a problem: scores every kind of stay at every site by the fit. */
import { tangentPlane } from "../geo/tangent-plane.ts";
import type { CompletedSite } from "../site/completed.ts";
import type { Stop } from "./exact.ts";
import { outletId } from "./outlet.ts";
import type {
  AssignmentProblem,
  AssignmentResource,
  AssignmentSite,
  AssignmentWeights,
  Closure,
  SiteOption,
} from "./problem.ts";
import { type Scoring, type ScoringSite, type StayProfile, scoreSite, siteOutlets } from "./score.ts";

export interface AskedStay {
  readonly id: string;
  /** Day numbers (nights.ts). */
  readonly arrival: number;
  readonly departure: number;
  readonly profile: StayProfile;
  /** Equal for equal rigs, and for them alone: the rig's record as text. */
  readonly rigContent: string;
  readonly inHouse: boolean;
  /** Ids of sites; null for none. A site that is not in the list counts as none. */
  readonly locked: string | null;
  readonly accepted: string | null;
  readonly group: string | null;
  readonly priority: number;
}

/** A site, or one receptacle or tap outlet, that nobody may have. */
export interface AskedClosure extends Closure {
  readonly site: string | null;
  readonly outlet: string | null;
}

export interface AskedProblem {
  readonly firstNight: number;
  readonly sites: readonly ScoringSite[];
  readonly stays: readonly AskedStay[];
  readonly closures: readonly AskedClosure[];
  readonly weights: AssignmentWeights;
  readonly maxMoves: number | null;
  readonly unknownAllowed: boolean;
}

export interface Assembling {
  readonly fit: Scoring["fit"];
  readonly memory: Scoring["memory"];
  /** Called after every row of fits, so that others get their turn. */
  readonly breathe?: () => Promise<void>;
  /** Hears the share of pairs that are scored. */
  readonly progress?: (done: number) => void;
  readonly stop?: Stop;
}

/** Receptacles and taps that more than one site may use, or that are closed for some nights. */
function contendedOutlets({ sites, closures }: AskedProblem): Set<string> {
  const usedBy = new Map<string, number>();
  for (const { site } of sites) {
    for (const id of new Set(siteOutlets(site))) usedBy.set(id, (usedBy.get(id) ?? 0) + 1);
  }
  const found = new Set([...usedBy].filter(([, count]) => count > 1).map(([id]) => id));
  for (const { outlet } of closures) if (outlet !== null && usedBy.has(outlet)) found.add(outlet);
  return found;
}

function kindOf(sites: readonly ScoringSite[], id: string): AssignmentResource["kind"] {
  const isTap = sites.some(({ site }) =>
    site.hookups.some((hookup) => hookup.service !== "power" && outletId(site.id, hookup, null) === id),
  );
  return isTap ? "tap" : "receptacle";
}

function placesOf(sites: readonly ScoringSite[]): AssignmentSite["place"][] {
  const origins = sites.map(({ site }) => site.pad.origin);
  const first = origins.find((origin) => origin !== null);
  if (first === undefined || first === null) return sites.map(() => null);
  const plane = tangentPlane(first);
  return origins.map((origin) => (origin === null ? null : plane.toPlane(origin)));
}

const closuresOf = (closures: readonly AskedClosure[], of: (closure: AskedClosure) => boolean): Closure[] =>
  closures.filter(of).map(({ from, until, why }) => ({ from, until, why }));

function sitesOf(asked: AskedProblem, index: ReadonlyMap<string, number>): AssignmentSite[] {
  const places = placesOf(asked.sites);
  return asked.sites.map(({ site }, at) => ({
    id: site.id,
    name: site.name,
    closures: closuresOf(asked.closures, (closure) => closure.site === site.id),
    resources: siteOutlets(site).flatMap((id) => index.get(id) ?? []),
    place: places[at]!,
  }));
}

/** What two stays must share to share their scores. */
const profileKey = ({ rigContent, profile }: AskedStay): string =>
  JSON.stringify([
    rigContent,
    profile.needs,
    profile.kitPolicy,
    profile.accessible,
    profile.tight,
    profile.mustHave,
    profile.wishes,
  ]);

/**
 * Makes the problem. Stays that are over by the first night must be left out before. Null when it was asked to stop.
 * Throws what the fit throws.
 */
export async function assembleProblem(asked: AskedProblem, assembling: Assembling): Promise<AssignmentProblem | null> {
  const contended = contendedOutlets(asked);
  const ids = [...contended].sort();
  const index = new Map(ids.map((id, at) => [id, at]));
  const scoring: Scoring = { ...assembling, contended, unknownAllowed: asked.unknownAllowed };
  const rows = new Map<string, number>();
  const options: SiteOption[][] = [];
  for (const [at, stay] of asked.stays.entries()) {
    const key = profileKey(stay);
    if (rows.has(key)) continue;
    if (assembling.stop?.aborted === true) return null;
    rows.set(key, options.length);
    const row: SiteOption[] = [];
    for (const site of asked.sites) {
      row.push(scoreSite(stay.profile, stay.rigContent, site, scoring, index));
    }
    options.push(row);
    assembling.progress?.((at + 1) / asked.stays.length);
    await assembling.breathe?.();
  }
  const siteIndex = new Map(asked.sites.map(({ site }, at) => [site.id, at]));
  const siteAt = (id: string | null): number | null => (id === null ? null : (siteIndex.get(id) ?? null));
  return {
    firstNight: asked.firstNight,
    sites: sitesOf(asked, index),
    resources: ids.map((id) => ({
      id,
      kind: kindOf(asked.sites, id),
      name: id,
      closures: closuresOf(asked.closures, (closure) => closure.outlet === id),
    })),
    stays: asked.stays.map((stay) => ({
      id: stay.id,
      arrival: stay.arrival,
      departure: stay.departure,
      profile: rows.get(profileKey(stay))!,
      priority: stay.priority,
      inHouse: stay.inHouse,
      locked: siteAt(stay.locked),
      accepted: siteAt(stay.accepted),
      party: stay.group,
    })),
    options,
    weights: asked.weights,
    maxMoves: asked.maxMoves,
  };
}

/** Content of a site for the memory of fits: everything that the fit reads of it, its names left out where they may be. */
export function contentOfSite(site: CompletedSite): string {
  const isAllotted = site.hookups.some(({ receptacles }) => receptacles.some(({ forSites }) => forSites !== null));
  const { id, name, campgroundId, campgroundName, assumed, warnings, sources, ...rest } = site;
  return JSON.stringify(isAllotted ? { id, ...rest } : rest, (_, value: unknown) =>
    value === Number.POSITIVE_INFINITY ? "infinite" : value,
  );
}
