/**
 * The checker: what a plan breaks, and what it is worth, worked out from the problem alone. It shares nothing with the
 * optimiser but the types, and does everything the plain way, pair by pair, so that a fault of one is not a fault of
 * both. Every plan that leaves this room has passed it; a plan that a host made by hand is judged by it as well.
 */
import type { AssignmentProblem, AssignmentStay, Closure, Placement, Plan, RuleCode } from "./problem.ts";

export type BreachCode =
  | "wrong-length"
  | "no-such-site"
  | "no-such-way"
  | "not-eligible"
  | "site-closed"
  | "resource-closed"
  | "site-held"
  | "resource-held"
  | "left-bound-site"
  | "too-many-moves";

export interface Breach {
  readonly code: BreachCode;
  readonly stay: string | null;
  readonly site: string | null;
  /** The other stay, for what two stays cannot both hold. */
  readonly other: string | null;
  /** The receptacle or tap, where one is concerned. */
  readonly resource: string | null;
  readonly rules: readonly RuleCode[];
  /** First night concerned; null when none is. */
  readonly night: number | null;
  /**
   * False for what the host has decided (a bound stay where the fit says no): it is told, but it does not spoil the
   * plan.
   */
  readonly isHard: boolean;
}

export interface Judgement {
  /** True when no hard breach is left. */
  readonly isSound: boolean;
  readonly breaches: readonly Breach[];
  /** Points of the whole plan; not a number when a placement cannot be valued. */
  readonly value: number;
  readonly parts: {
    readonly fit: number;
    readonly unplaced: number;
    readonly gaps: number;
    readonly moves: number;
    readonly apart: number;
  };
  readonly placed: number;
  readonly unplaced: number;
  readonly shortGaps: number;
  readonly moved: number;
}

type Problem = AssignmentProblem;

function breach(code: BreachCode, rest: Partial<Breach>): Breach {
  return { code, stay: null, site: null, other: null, resource: null, rules: [], night: null, isHard: true, ...rest };
}

const nightsLeft = (problem: Problem, stay: AssignmentStay): { from: number; until: number } => ({
  from: Math.max(stay.arrival, problem.firstNight),
  until: stay.departure,
});

/** First night that two spans share; null when they share none. */
function firstShared(
  one: { readonly from: number; readonly until: number },
  other: { readonly from: number; readonly until: number },
): number | null {
  const from = Math.max(one.from, other.from);
  return from < Math.min(one.until, other.until) ? from : null;
}

function firstClosed(
  closures: readonly Closure[],
  nights: { readonly from: number; readonly until: number },
): number | null {
  const met = closures.flatMap((closure) => firstShared(closure, nights) ?? []);
  return met.length === 0 ? null : Math.min(...met);
}

/** What one placement breaks on its own. */
function ofOne(problem: Problem, index: number, plan: Plan): Breach[] {
  const stay = problem.stays[index]!;
  const placement = plan[index];
  if (placement === null || placement === undefined) return [];
  const site = problem.sites[placement.site];
  if (site === undefined) return [breach("no-such-site", { stay: stay.id })];
  const base = { stay: stay.id, site: site.id };
  const nights = nightsLeft(problem, stay);
  const found: Breach[] = [];
  const shut = firstClosed(site.closures, nights);
  if (shut !== null) found.push(breach("site-closed", { ...base, night: shut }));
  const option = problem.options[stay.profile]?.[placement.site];
  const isBound =
    stay.locked === placement.site || (stay.locked === null && stay.inHouse && stay.accepted === placement.site);
  if (option === undefined || option.ways.length === 0) {
    found.push(breach("not-eligible", { ...base, rules: option?.rules ?? [], isHard: !isBound }));
    return found;
  }
  const way = option.ways[placement.way];
  if (way === undefined) return [...found, breach("no-such-way", base)];
  for (const held of way.resources) {
    const resource = problem.resources[held]!;
    const night = firstClosed(resource.closures, nights);
    if (night !== null) found.push(breach("resource-closed", { ...base, resource: resource.id, night }));
  }
  return found;
}

/** Stays by what they hold: their site, or one resource each. */
function holdersOf(plan: Plan, count: number, held: (stay: number) => readonly number[]): number[][] {
  const holders = Array.from({ length: count }, (): number[] => []);
  plan.forEach((placement, stay) => {
    if (placement !== null) for (const thing of held(stay)) holders[thing]?.push(stay);
  });
  return holders;
}

/** Every two holders of one thing that share a night, the later in the list first, with the first such night. */
function clashes(problem: Problem, holders: readonly number[]): { one: number; other: number; night: number }[] {
  return holders.flatMap((other, at) =>
    holders.slice(0, at).flatMap((one) => {
      const spans = [nightsLeft(problem, problem.stays[one]!), nightsLeft(problem, problem.stays[other]!)] as const;
      const night = firstShared(...spans);
      return night === null ? [] : [{ one, other, night }];
    }),
  );
}

/** What no two stays can both have. */
function heldTwice(problem: Problem, plan: Plan): Breach[] {
  const known = plan.slice(0, problem.stays.length);
  const bySite = holdersOf(known, problem.sites.length, (stay) => [known[stay]!.site]);
  const byResource = holdersOf(known, problem.resources.length, (stay) => resourcesOf(problem, stay, known[stay]!));
  const idOf = (stay: number) => problem.stays[stay]!.id;
  const sites = bySite.flatMap((holders, site) =>
    clashes(problem, holders).map(({ one, other, night }) =>
      breach("site-held", { stay: idOf(other), other: idOf(one), night, site: problem.sites[site]!.id }),
    ),
  );
  const resources = byResource.flatMap((holders, resource) =>
    clashes(problem, holders)
      .filter(({ one, other }) => known[one]!.site !== known[other]!.site)
      .map(({ one, other, night }) =>
        breach("resource-held", {
          stay: idOf(other),
          other: idOf(one),
          night,
          site: problem.sites[known[other]!.site]!.id,
          resource: problem.resources[resource]!.id,
          // Where the host has put both, nobody else is to blame.
          isHard: ![one, other].every((stay) => isAtBoundSite(problem.stays[stay]!, known[stay]!.site)),
        }),
      ),
  );
  return [...sites, ...resources];
}

const isAtBoundSite = (stay: AssignmentStay, site: number): boolean =>
  (stay.locked ?? (stay.inHouse ? stay.accepted : null)) === site;

/** Who stays by the host's word alone holds all that the site has: nobody knows what is plugged in. */
function resourcesOf(problem: Problem, index: number, placement: Placement): readonly number[] {
  const ways = problem.options[problem.stays[index]!.profile]?.[placement.site]?.ways ?? [];
  if (ways.length === 0) return problem.sites[placement.site]?.resources ?? [];
  return ways[placement.way]?.resources ?? [];
}

/** Bound stays that are elsewhere although their site could keep them. */
function leftBound(problem: Problem, plan: Plan): Breach[] {
  return problem.stays.flatMap((stay, index) => {
    const site = stay.locked ?? (stay.inHouse ? stay.accepted : null);
    if (site === null || plan[index]?.site === site) return [];
    const nights = nightsLeft(problem, stay);
    if (firstClosed(problem.sites[site]!.closures, nights) !== null) return [];
    const ways = problem.options[stay.profile]![site]!.ways;
    const isOpen = (resources: readonly number[]) =>
      resources.every((resource) => firstClosed(problem.resources[resource]!.closures, nights) === null);
    if (ways.length > 0 && !ways.some((way) => isOpen(way.resources))) return [];
    // Two stays bound to one site for one night cannot both be kept; the one that is there stands for the contradiction.
    const kept = problem.stays.some(
      (other, each) =>
        each !== index &&
        plan[each]?.site === site &&
        isAtBoundSite(other, site) &&
        firstShared(nightsLeft(problem, other), nights) !== null,
    );
    return kept ? [] : [breach("left-bound-site", { stay: stay.id, site: problem.sites[site]!.id })];
  });
}

function countShortGaps(problem: Problem, plan: Plan): number {
  const { minimumStay } = problem.weights;
  let gaps = 0;
  const bySite = holdersOf(plan.slice(0, problem.stays.length), problem.sites.length, (stay) => [plan[stay]!.site]);
  problem.sites.forEach((site, at) => {
    const spans = bySite[at]!.map((stay) => nightsLeft(problem, problem.stays[stay]!)).sort(
      (one, other) => one.from - other.from,
    );
    for (let next = 1; next < spans.length; next++) {
      const hole = { from: spans[next - 1]!.until, until: spans[next]!.from };
      const length = hole.until - hole.from;
      if (length > 0 && length < minimumStay && firstClosed(site.closures, hole) === null) gaps++;
    }
  });
  return gaps;
}

const placeOf = (problem: Problem, placement: Placement | null | undefined) =>
  placement ? (problem.sites[placement.site]?.place ?? null) : null;

function apartPoints(problem: Problem, plan: Plan): number {
  const { apart, nearDistance } = problem.weights;
  let points = 0;
  problem.stays.forEach((stay, one) => {
    if (stay.party === null) return;
    for (let other = 0; other < one; other++) {
      const mate = problem.stays[other]!;
      if (mate.party !== stay.party) continue;
      if (firstShared(nightsLeft(problem, stay), nightsLeft(problem, mate)) === null) continue;
      const here = placeOf(problem, plan[one]);
      const there = placeOf(problem, plan[other]);
      if (!here || !there) continue;
      points += apart * Math.min(1, Math.hypot(here.east - there.east, here.north - there.north) / nearDistance);
    }
  });
  return points;
}

/** Judges a plan: every breach, and the value of the whole, from the problem alone. */
export function judgePlan(problem: Problem, plan: Plan): Judgement {
  const breaches: Breach[] = [];
  if (plan.length !== problem.stays.length) breaches.push(breach("wrong-length", {}));
  const { weights } = problem;
  let fit = 0;
  let unplacedPoints = 0;
  let unplaced = 0;
  let moved = 0;
  problem.stays.forEach((stay, index) => {
    breaches.push(...ofOne(problem, index, plan));
    const placement = plan[index] ?? null;
    if (stay.accepted !== null && placement?.site !== stay.accepted) moved++;
    if (placement === null) {
      const { from, until } = nightsLeft(problem, stay);
      unplaced++;
      unplacedPoints += weights.unplaced * (1 + stay.priority) + weights.unplacedNight * (until - from);
      return;
    }
    const ways = problem.options[stay.profile]?.[placement.site]?.ways ?? [];
    fit += ways.length === 0 ? 0 : (ways[placement.way]?.score ?? Number.NaN);
  });
  breaches.push(...heldTwice(problem, plan), ...leftBound(problem, plan));
  if (problem.maxMoves !== null && moved > problem.maxMoves) breaches.push(breach("too-many-moves", {}));
  const movedPlaced = problem.stays.filter(
    (stay, index) => stay.accepted !== null && (plan[index] ?? null) !== null && plan[index]?.site !== stay.accepted,
  ).length;
  const shortGaps = countShortGaps(problem, plan);
  const parts = {
    fit,
    unplaced: unplacedPoints,
    gaps: shortGaps * weights.shortGap,
    moves: movedPlaced * weights.move,
    apart: apartPoints(problem, plan),
  };
  return {
    isSound: !breaches.some(({ isHard }) => isHard),
    breaches,
    value: parts.fit - parts.unplaced - parts.gaps - parts.moves - parts.apart,
    parts,
    placed: problem.stays.length - unplaced,
    unplaced,
    shortGaps,
    moved,
  };
}
