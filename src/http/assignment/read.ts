/** From records and stays as they are sent or kept to the problem that the engine takes. */
import { type AskedClosure, type AskedProblem, type AskedStay, contentOfSite } from "../../assign/assemble.ts";
import { nightOfDate } from "../../assign/nights.ts";
import type { ScoringSite } from "../../assign/score.ts";
import { DEFAULT_WEIGHTS } from "../../assign/weights.ts";
import { isSite } from "../../records/store.ts";
import { completeRig } from "../../rig/complete.ts";
import type { RigProfile } from "../../rig/schema.ts";
import { type Around, completeSite } from "../../site/complete.ts";
import type { CampgroundFeature } from "../../site/feature.ts";
import type { Campground } from "../../site/schema.ts";
import { digestOf } from "../cursor.ts";
import type { AssignmentOptions, AssignmentStayWire } from "../schemas/assignment.ts";

/** A campground as far as an assignment reads it. */
export interface CampgroundParts {
  readonly campground: Campground;
  readonly features: readonly CampgroundFeature[];
  readonly around: Around;
}

/** A stay with its rig as it was read. */
export interface ReadStay {
  readonly wire: AssignmentStayWire;
  readonly rig: RigProfile;
}

export interface ReadClosure {
  readonly site?: string | undefined;
  readonly outlet?: string | undefined;
  readonly firstNight: string;
  readonly until?: string | null | undefined;
  readonly why?: string | undefined;
}

const scored = new WeakMap<object, Promise<readonly ScoringSite[]>>();

/** Every site of the record, completed; once for each version of a stored record, whose surroundings stay the same. */
function scoringSites(parts: CampgroundParts): Promise<readonly ScoringSite[]> {
  const known = scored.get(parts.around) ?? readySites(parts);
  scored.set(parts.around, known);
  return known;
}

async function readySites({ campground, features, around }: CampgroundParts): Promise<readonly ScoringSite[]> {
  const sites = features.filter(isSite).map((feature) => completeSite(feature, campground, around, { base: "/site" }));
  return Promise.all(sites.map(async (site) => ({ site, content: await digestOf(contentOfSite(site)) })));
}

/** A stay that is cancelled or over has no nights to come. */
export const isToCome = (stay: { readonly status?: string | undefined }): boolean =>
  stay.status !== "cancelled" && stay.status !== "departed";

export async function askedStay({ wire, rig }: ReadStay, campground: Campground): Promise<AskedStay> {
  const completed = completeRig(rig, {
    ...(campground.drivesOn === undefined ? {} : { drivesOn: campground.drivesOn }),
    electricalSystem: campground.electricalSystem ?? null,
    units: "metric",
    warnings: [],
  });
  const needs = Object.fromEntries(Object.entries(wire.needs ?? {}).filter(([, need]) => need !== undefined));
  return {
    id: wire.id,
    arrival: nightOfDate(wire.arrival)!,
    departure: nightOfDate(wire.departure)!,
    profile: {
      rig: completed,
      needs,
      kitPolicy: wire.kitPolicy ?? "any",
      accessible: wire.accessible ?? false,
      tight: wire.tight ?? false,
      mustHave: wire.mustHave ?? [],
      wishes: wire.wishes ?? [],
    },
    rigContent: await digestOf({ ...rig, id: null, name: null }),
    inHouse: wire.status === "in-house",
    locked: wire.locked === true ? (wire.site ?? null) : null,
    accepted: wire.site ?? null,
    group: wire.group ?? null,
    priority: wire.priority ?? 0,
  };
}

/** Nobody knows when a closure without an end is over: then it lasts. */
const NEVER = Number.MAX_SAFE_INTEGER;

export function askedClosure(closure: ReadClosure): AskedClosure {
  return {
    site: closure.site ?? null,
    outlet: closure.outlet ?? null,
    from: nightOfDate(closure.firstNight)!,
    until: closure.until ? nightOfDate(closure.until)! : NEVER,
    why: closure.why ?? null,
  };
}

/** A site that the record itself calls closed has no nights for anyone. */
function recordClosures(sites: readonly ScoringSite[]): AskedClosure[] {
  return sites.flatMap(({ site }) =>
    site.closed === null
      ? []
      : [{ site: site.id, outlet: null, from: Number.MIN_SAFE_INTEGER, until: NEVER, why: site.closed }],
  );
}

/** The whole problem. Stays that are over by the first night are left out. */
export async function askedProblem(
  parts: CampgroundParts,
  stays: readonly ReadStay[],
  closures: readonly ReadClosure[],
  options: AssignmentOptions & { readonly firstNight?: string | undefined },
): Promise<AskedProblem> {
  const sites = await scoringSites(parts);
  const coming = await Promise.all(
    stays.filter(({ wire }) => isToCome(wire)).map((stay) => askedStay(stay, parts.campground)),
  );
  const given = options.firstNight === undefined ? null : nightOfDate(options.firstNight);
  const firstNight = given ?? coming.reduce((first, { arrival }) => Math.min(first, arrival), NEVER);
  return {
    firstNight,
    sites,
    stays: coming.filter(({ departure }) => departure > firstNight),
    closures: [...recordClosures(sites), ...closures.map(askedClosure)],
    weights: { ...DEFAULT_WEIGHTS, minimumStay: options.minimumStay ?? DEFAULT_WEIGHTS.minimumStay },
    maxMoves: options.maxMoves ?? null,
    unknownAllowed: options.unknown === "allow",
  };
}
