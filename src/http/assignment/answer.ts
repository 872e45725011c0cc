/** An assignment on the wire: places with their reasons, who has none and why, what a given plan breaks, feeders. */
import { type Breach, type Judgement, judgePlan } from "../../assign/check.ts";
import type { Move } from "../../assign/edit.ts";
import { type Change, explainPlaced, explainUnplaced, readyToExplain } from "../../assign/explain.ts";
import { dateOfNight } from "../../assign/nights.ts";
import { type AssignmentProblem, boundSite, type Placement, type Plan } from "../../assign/problem.ts";
import type { Solution } from "../../assign/solve.ts";

/** Unplaced stays that are explained in full; beyond them the rules alone are told. */
const MOST_EXPLAINED = 40;

const siteId = (problem: AssignmentProblem, site: number | null): string | null =>
  site === null ? null : problem.sites[site]!.id;
const stayId = (problem: AssignmentProblem, stay: number): string => problem.stays[stay]!.id;

/** Ids of the receptacles and taps that a placement holds, of those that others may want or that are closed at times. */
export function outletsHeld(problem: AssignmentProblem, stay: number, placement: Placement): string[] {
  const way = problem.options[problem.stays[stay]!.profile]![placement.site]!.ways[placement.way];
  return (way?.resources ?? []).map((resource) => problem.resources[resource]!.id);
}

export const movesToWire = (problem: AssignmentProblem, moves: readonly Move[]) =>
  moves.map(({ stay, from, to }) => ({
    stay: stayId(problem, stay),
    from: siteId(problem, from),
    to: siteId(problem, to),
  }));

export function breachToWire({ night, rules, ...rest }: Breach) {
  return { ...rest, rules: [...rules], night: night === null ? null : dateOfNight(night) };
}

function changeToWire(problem: AssignmentProblem, change: Change) {
  switch (change.kind) {
    case "place":
    case "move-others":
      return {
        kind: change.kind,
        moves: movesToWire(problem, change.option.moves),
        moved: change.option.moved,
        gain: change.option.gain,
      };
    case "other-nights":
      return {
        kind: change.kind,
        arrival: dateOfNight(change.arrival),
        departure: dateOfNight(change.departure),
        site: siteId(problem, change.site),
      };
    case "waive-rule":
      return { kind: change.kind, rule: change.rule, site: siteId(problem, change.site) };
    case "none":
      return { kind: change.kind };
  }
}

/** What one stay is told: where and why, or why not and what would help. Null when there is no such stay. */
export function explainStay(problem: AssignmentProblem, plan: Plan, id: string) {
  const stay = problem.stays.findIndex((each) => each.id === id);
  if (stay < 0) return null;
  const ready = readyToExplain(problem, plan);
  return plan[stay] ? placedToWire(ready, stay) : unplacedToWire(ready, stay);
}

function placedToWire(ready: ReturnType<typeof readyToExplain>, stay: number) {
  const { problem, plan } = ready;
  const placement = plan[stay]!;
  const why = explainPlaced(ready, stay)!;
  const asked = problem.stays[stay]!;
  return {
    stay: asked.id,
    site: siteId(problem, placement.site),
    outlets: outletsHeld(problem, stay, placement),
    bound: boundSite(asked) === placement.site,
    moved: asked.accepted !== null && asked.accepted !== placement.site,
    points: why.terms.reduce((sum, { points }) => sum + points, 0),
    terms: why.terms.map((term) => ({ ...term })),
    possible: why.possible,
    alternatives: why.alternatives.map(({ site, cost, moves }) => ({
      site: siteId(problem, site),
      cost,
      moves: movesToWire(problem, moves),
    })),
  };
}

function unplacedToWire(ready: ReturnType<typeof readyToExplain>, stay: number) {
  const { problem } = ready;
  const why = explainUnplaced(ready, stay);
  return {
    stay: stayId(problem, stay),
    site: null,
    eligible: why.eligible,
    blocking: why.blocking.map((one) => ({ ...one })),
    change: changeToWire(problem, why.change),
  };
}

const partsToWire = (judgement: Judgement) => ({
  value: judgement.value,
  points: { ...judgement.parts },
  counts: {
    stays: judgement.placed + judgement.unplaced,
    placed: judgement.placed,
    unplaced: judgement.unplaced,
    shortGaps: judgement.shortGaps,
    moved: judgement.moved,
  },
});

/** A plan of the caller's own, by ids. A way is chosen by the outlets named, or else is the best of the site. */
export function planFromWire(
  problem: AssignmentProblem,
  entries: readonly {
    readonly stay: string;
    readonly site: string | null;
    readonly outlets?: readonly string[] | undefined;
  }[],
): { readonly plan: Plan; readonly strangers: readonly { readonly index: number; readonly what: "stay" | "site" }[] } {
  const stays = new Map(problem.stays.map(({ id }, index) => [id, index]));
  const sites = new Map(problem.sites.map(({ id }, index) => [id, index]));
  const plan: (Placement | null)[] = problem.stays.map(() => null);
  const strangers: { index: number; what: "stay" | "site" }[] = [];
  entries.forEach((entry, index) => {
    const stay = stays.get(entry.stay);
    const site = entry.site === null ? null : sites.get(entry.site);
    if (stay === undefined) strangers.push({ index, what: "stay" });
    else if (site === undefined) strangers.push({ index, what: "site" });
    else if (site !== null) plan[stay] = { site, way: wayOf(problem, stay, site, entry.outlets) };
  });
  return { plan, strangers };
}

function wayOf(problem: AssignmentProblem, stay: number, site: number, outlets: readonly string[] | undefined): number {
  const { ways } = problem.options[problem.stays[stay]!.profile]![site]!;
  if (outlets === undefined) return 0;
  const held = (resources: readonly number[]) => resources.map((resource) => problem.resources[resource]!.id);
  const found = ways.findIndex(({ resources }) => {
    const ids = held(resources);
    return ids.length === outlets.length && ids.every((id) => outlets.includes(id));
  });
  return Math.max(found, 0);
}

/** The judgement of a plan of the caller's own, against the bound of the same problem. */
export function givenToWire(problem: AssignmentProblem, plan: Plan, bound: number | null) {
  const judgement = judgePlan(problem, plan);
  return {
    sound: judgement.isSound,
    ...partsToWire(judgement),
    gap: bound === null || !judgement.isSound ? null : Math.max(0, bound - judgement.value),
    breaches: judgement.breaches.map(breachToWire),
  };
}

/** The whole answer to a proposal. */
export function solutionToWire(problem: AssignmentProblem, solution: Solution, exactSolver: string | null) {
  const { plan, judgement } = solution;
  const ready = readyToExplain(problem, plan);
  const all = plan.map((placement, stay) => ({ placement, stay }));
  const without = all.filter(({ placement }) => placement === null).map(({ stay }) => stay);
  return {
    status: solution.status,
    bound: solution.bound,
    gap: solution.gap,
    gapShare: solution.gapShare,
    ...partsToWire(judgement),
    places: all.filter(({ placement }) => placement !== null).map(({ stay }) => placedToWire(ready, stay)),
    unplaced: without.slice(0, MOST_EXPLAINED).map((stay) => unplacedToWire(ready, stay)),
    unexplained: without.slice(MOST_EXPLAINED).map((stay) => stayId(problem, stay)),
    released: solution.released.map(({ stay, site, why, by }) => ({
      stay: stayId(problem, stay),
      site: siteId(problem, site),
      why,
      by: by === null ? null : stayId(problem, by),
    })),
    breaches: judgement.breaches.map(breachToWire),
    work: {
      seed: solution.seed,
      rounds: solution.rounds,
      evaluations: solution.evaluations,
      repairs: solution.repairs,
      cutShort: solution.cutShort,
      exactSolver,
    },
  };
}
